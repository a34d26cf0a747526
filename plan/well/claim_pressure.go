package well

import (
	"errors"
	"math"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// claimedPressure reads a pressure at a string, with each conversion planners
// use.
func claimedPressure(read func(*Well, int) ([]Reading, place.Ref, error)) func(*Well, int, string) (Claimed, error) {
	return func(w *Well, str int, _ string) (Claimed, error) {
		list, ref, err := read(w, str)
		return Claimed{Dim: units.Pressure, Readings: withConstants(list, 1), Refs: []place.Ref{ref}}, err
	}
}

func (w *Well) groundAtShoe(str int, q Quantity) ([]Reading, place.Ref, error) {
	z, _, err := w.ShoeTVD(str)
	if err != nil {
		return nil, 0, err
	}
	var out []Reading
	var ref place.Ref
	for _, e := range []struct {
		of Estimate
		by string
	}{{Base, "base estimate"}, {Low, "low estimate"}, {High, "high estimate"}} {
		p, r, err := w.worst(q, z, e.of)
		if err != nil {
			return nil, 0, err
		}
		out, ref = append(out, Reading{Value: float64(p), By: e.by}), r
	}
	return out, ref, nil
}

func (w *Well) porePressure(str int) ([]Reading, place.Ref, error) {
	return w.groundAtShoe(str, PorePressure)
}

func (w *Well) fracturePressure(str int) ([]Reading, place.Ref, error) {
	return w.groundAtShoe(str, FracturePressure)
}

func (w *Well) mudPressure(str int) ([]Reading, place.Ref, error) {
	z, _, err := w.ShoeTVD(str)
	if err != nil {
		return nil, 0, err
	}
	mud, ref, err := w.RunIn(str)
	return []Reading{{Value: float64(units.Hydrostatic(mud, z)), By: "the mud it is run in"}}, ref, err
}

// surfacePressureBelow reads the anticipated surface pressure that the string
// must hold: while the next holes are drilled, and in production where it is
// exposed.
func (w *Well) surfacePressureBelow(str int) ([]Reading, place.Ref, error) {
	var out []Reading
	var ref place.Ref
	p, _, err := w.AnticipatedBelow(str)
	if err == nil {
		out = append(out, Reading{Value: float64(p.P), By: "drilling below"}, Reading{Value: float64(p.FromPore), By: "drilling below, formation pressure less gas"})
		if p.HasShoe {
			out = append(out, Reading{Value: float64(p.FromShoe), By: "drilling below, the shoe breaks down"})
		}
		if len(p.Refs) > 0 {
			ref = p.Refs[0]
		}
	}
	if made, e := w.ProductionSurfacePressure(); e == nil {
		out = append(out, Reading{Value: float64(made.P), By: "production"})
	}
	if len(out) > 0 {
		return out, ref, nil
	}
	return nil, 0, err
}

// claimedKick reads the kick tolerance of the hole drilled below a string.
func (w *Well) claimedKick(str int, _ string) (Claimed, error) {
	h, err := w.DrilledOut(str)
	if err != nil {
		return Claimed{}, err
	}
	t, err := w.KickTolerance(h)
	if err != nil {
		return Claimed{}, err
	}
	list := []Reading{{Value: float64(t.Volume), By: "the lesser of shut in and circulated"}, {Value: float64(t.Shrunk), By: "circulated to the shoe"}, {Value: float64(t.Shut), By: "shut in"}}
	return Claimed{Dim: units.Volume, Readings: list, Refs: []place.Ref{h.Plan.Ref}}, nil
}

// claimedJoints counts the joints of a string: as its segments list them, and
// by the length of each range, rounded up.
func (w *Well) claimedJoints(str int, _ string) (Claimed, error) {
	c, err := w.Casing(str)
	if err != nil {
		return Claimed{}, err
	}
	out := Claimed{Refs: []place.Ref{c.Plan.Ref}}
	listed, all := 0, true
	for i := range c.Pipes {
		all = all && c.Pipes[i].Plan.Joints.Known()
		listed += int(c.Pipes[i].Plan.Joints.V)
	}
	if all {
		out.Readings = append(out.Readings, Reading{Value: float64(listed), By: "as the segments list them", Whole: true})
	}
	for _, l := range []units.MD{40 * units.Foot, 12, 38 * units.Foot, 42 * units.Foot, 30 * units.Foot} {
		n := math.Ceil(float64((c.Shoe-c.Top)/l) - 1e-9)
		out.Readings = append(out.Readings, Reading{Value: n, By: "joints of " + units.Show(float64(l), units.Length, w.Plan.System, false), Whole: true})
	}
	return out, nil
}

func (w *Well) claimedCentralizers(str int, _ string) (Claimed, error) {
	n, err := w.CentralizersListed(str)
	out := Claimed{Refs: []place.Ref{w.Plan.Strings[str].Ref}, Readings: []Reading{{Value: float64(n), By: "as the intervals come to", Whole: true}}}
	var m Missing
	if errors.As(err, &m) {
		return Claimed{}, m
	}
	return out, err
}
