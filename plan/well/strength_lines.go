package well

import (
	"strings"

	"spudgate/plan/place"
	"spudgate/plan/units"
)

// StrengthLines lists every case of every string: for each segment its
// governing place, or one line that says why there is none. Compression at the
// wellhead isn't among them; see Compression.
func (w *Well) StrengthLines() []StrengthLine {
	var out []StrengthLine
	for i := range w.Plan.Strings {
		for _, c := range loadCases() {
			r, err := w.Strength(i, c.name)
			if err != nil {
				out = append(out, StrengthLine{String: i, Case: c.name, Kind: c.kind, Segment: -1, Err: err})
				continue
			}
			out = append(out, w.governing(r)...)
			if len(r.Gaps) > 0 {
				out = append(out, StrengthLine{String: i, Case: c.name, Kind: c.kind, Segment: -1, Err: r.Gaps})
			}
		}
	}
	return out
}

// governing is the worst line of each segment: the least factor, else the
// first without a load.
func (w *Well) governing(r *StrengthResult) []StrengthLine {
	var out []StrengthLine
	for i := range r.Lines {
		l := &r.Lines[i]
		j := 0
		for j < len(out) && out[j].Segment != l.Segment {
			j++
		}
		if j == len(out) {
			out = append(out, *l)
			continue
		}
		if l.Factor > 0 && (out[j].Factor == 0 || l.Factor < out[j].Factor) {
			out[j] = *l
		}
	}
	for j := range out {
		out[j].Note = joined(out[j].of.note, out[j].Note)
	}
	return out
}

// ProfilePoint is one place of a case along a string.
type ProfilePoint struct {
	MD      units.MD
	TVD     units.TVD
	Inside  units.Pascals
	Outside units.Pascals
	Axial   units.Newtons
	Load    float64
	Rating  float64
	Factor  float64 // zero where no load acts
	Dim     units.Dim
}

// Profile is a case along a string, from the top down, in the moment that
// governs.
func (w *Well) Profile(str int, name string) ([]ProfilePoint, error) {
	r, err := w.Strength(str, name)
	if err != nil {
		return nil, err
	}
	var of *scenario
	if r.Least != nil {
		of = r.Least.of
	} else if len(r.Lines) > 0 {
		of = r.Lines[0].of
	}
	var out []ProfilePoint
	for i := range r.Lines {
		if l := &r.Lines[i]; l.of == of {
			out = append(out, ProfilePoint{l.spot.MD, l.spot.TVD, l.Inside, l.Outside, l.Axial, l.Load, l.Rating, l.Factor, l.Dim})
		}
	}
	return out, nil
}

// StrengthCases are the names of the cases, in the order they are reported.
func StrengthCases() []string {
	var out []string
	for _, c := range loadCases() {
		out = append(out, c.name)
	}
	return out
}

// Refs are where the inputs of the moment of a line stand.
func (l *StrengthLine) Refs() []place.Ref { return l.of.refs }

// CaseWords is the name of a case in words: "burst, gas to surface".
func CaseWords(name string) string {
	return strings.NewReplacer(".", ", ", "_", " ").Replace(name)
}
