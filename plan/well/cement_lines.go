package well

import "spudgate/plan/units"

// CementLine is one row of a cement volume table: an interval of annulus that a
// stage fills, or its shoe track.
type CementLine struct {
	String, Stage   int
	Track           bool // inside the shoe track, not the annulus
	From, To        units.MD
	Outer, Inner    units.Meters // Outer as Excess counts on
	GaugeOuter      units.Meters // bit, or casing bore
	Excess          units.Fraction
	PerLength       float64 // m3/m, gauge
	Gauge, Enlarged units.CubicMeters
	// Of the stage, the same on each of its lines.
	Slurry, TrackVolume units.CubicMeters
	Top, GaugeTop       units.MD
	Full                bool // the slurry reaches the top of the string
	Returned            units.CubicMeters
}

// CementLines lists the volumes of every stage that has a top from volumes, by
// string and stage, each from the shoe up to the top with enlargement.
func (w *Well) CementLines() []CementLine {
	var out []CementLine
	for i := range w.Plan.Strings {
		for j := range w.Plan.Strings[i].Stages {
			if c, err := w.CementStage(i, j); err == nil {
				out = append(out, w.stageLines(c)...)
			}
		}
	}
	return out
}

func (w *Well) stageLines(c *CementStage) []CementLine {
	line := CementLine{String: c.String, Stage: c.Stage, Slurry: c.Slurry, TrackVolume: c.Track,
		Top: c.Top.MD, GaugeTop: c.GaugeTop.MD, Full: c.Top.Full, Returned: c.Top.Returned}
	var out []CementLine
	if c.Landing < c.From {
		t := line
		t.Track, t.From, t.To, t.Gauge, t.Enlarged = true, c.Landing, c.From, c.Track, c.Track
		t.PerLength = float64(c.Track) / float64(c.From-c.Landing)
		out = append(out, t)
	}
	large, gauge := c.Annulus.Intervals(), c.Gauge.Intervals()
	for i := len(large) - 1; i >= 0; i-- {
		v := large[i]
		from, to := max(v.From, c.Top.MD), min(v.To, c.From)
		if to <= from {
			continue
		}
		l := line
		l.From, l.To, l.Outer, l.Inner, l.Excess = from, to, v.Outer, v.Inner, v.Excess
		l.Enlarged, _ = c.Annulus.Volume(from, to)
		l.Gauge, _ = c.Gauge.Volume(from, to)
		l.PerLength = float64(l.Gauge) / float64(to-from)
		l.GaugeOuter = gauge[i].Outer
		out = append(out, l)
	}
	return out
}
