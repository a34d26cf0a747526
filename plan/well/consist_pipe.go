package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/pipe"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// SegmentsMeet searches the pipe of a string for gaps and overlaps: each
// segment begins where the last ends, the first at the string's top, the last
// ends at its shoe. An end the plan leaves out is where the next begins.
func (w *Well) SegmentsMeet(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	var found search
	end, what := s.Top, "the top of the string"
	for i := range s.Segments {
		g := &s.Segments[i]
		w.joins(&found, g.Label(), end, what, g.From)
		if g.From.Known() && g.To.Known() {
			found.holds(g.From.V < g.To.V, places(g.To.Ref, g.From.Ref), "%s runs from %s to %s, upside down", g.Label(), w.showMD(g.From.V), w.showMD(g.To.V))
		}
		end, what = g.To, "the end of "+g.Label()
	}
	if end.Known() && s.Shoe.Known() && len(s.Segments) > 0 {
		found.holds(w.meets(end.V, s.Shoe.V), places(end.Ref, s.Shoe.Ref), "the pipe ends at %s, the shoe is at %s", w.showMD(end.V), w.showMD(s.Shoe.V))
	}
	return found.result("the ends of the pipe are given once")
}

func (w *Well) joins(found *search, label string, end plan.Val[units.MD], what string, from plan.Val[units.MD]) {
	if !end.Known() || !from.Known() {
		return
	}
	word := "a gap"
	if from.V < end.V {
		word = "an overlap"
	}
	found.holds(w.meets(from.V, end.V), places(from.Ref, end.Ref), "%s: %s is at %s, %s begins at %s", word, what, w.showMD(end.V), label, w.showMD(from.V))
}

// Span searches a string for a top at or below its shoe.
func (w *Well) Span(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	if !s.Top.Known() || !s.Shoe.Known() {
		return nil, Absent("the top or the shoe isn't stated")
	}
	var found search
	found.holds(s.Top.V < s.Shoe.V, places(s.Top.Ref, s.Shoe.Ref), "top at %s, shoe at %s", w.showMD(s.Top.V), w.showMD(s.Shoe.V))
	return found.result("")
}

// PipeKnown searches a segment for a size, grade or connection that is neither
// in the catalogue nor given by what the plan states beside it. What isn't
// stated at all is for the checks that need it to ask for. A conductor's line
// pipe grade and welds are no casing's and are left alone.
func (w *Well) PipeKnown(str, seg int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	g := &s.Segments[seg]
	var found search
	if g.OD.Known() && g.Weight.Known() && !g.Wall.Known() {
		_, err := pipe.Lookup(g.OD.V, g.Weight.V)
		found.holds(err == nil, places(g.Weight.Ref, g.OD.Ref), "%v, and no wall is stated", err)
	}
	conductor := s.Role.V == "conductor" || s.Role.V == "drive"
	if g.Grade.Known() && !conductor {
		_, err := pipe.ParseGrade(g.Grade.V)
		body := g.YieldStrength.Known() || (g.RatingCollapse.Known() && g.RatingInternalYield.Known() && g.RatingBody.Known())
		found.holds(err == nil || body, places(g.Grade.Ref), "%v, and neither its yield strength nor ratings are stated", err)
	}
	if g.Connection.Known() && !conductor {
		_, err := pipe.ParseConnection(g.Connection.V)
		found.holds(err == nil || g.RatingJoint.Known(), places(g.Connection.Ref), "%v, and no joint strength is stated", err)
	}
	return found.result("the plan states no size, grade or connection")
}

// WeightAndWall searches a segment for a weight and a wall that aren't of one
// pipe. In the catalogue the wall must be the listed one within 1 %; outside
// it the plain-end weight of the wall, with threads and couplings up to a
// tenth more, must give the weight.
func (w *Well) WeightAndWall(str, seg int) (Conflicts, error) {
	g := &w.Plan.Strings[str].Segments[seg]
	if !g.OD.Known() || !g.Weight.Known() || !g.Wall.Known() {
		return nil, Absent("weight and wall aren't both stated")
	}
	var found search
	refs := places(g.Wall.Ref, g.Weight.Ref, g.OD.Ref)
	weight := w.show(float64(g.Weight.V), units.LinearMass)
	if s, err := pipe.Lookup(g.OD.V, g.Weight.V); err == nil {
		found.holds(agree(float64(s.Wall), float64(g.Wall.V), 0.01), refs, "a wall of %s at %s; the listed wall is %s",
			w.showSmall(g.Wall.V), weight, w.showSmall(s.Wall))
		return found.result("")
	}
	plain := pipe.Size{OD: g.OD.V, Wall: g.Wall.V}.PlainEnd()
	ok := g.Weight.V >= 0.99*plain && g.Weight.V <= 1.10*plain
	found.holds(ok, refs, "a wall of %s makes a plain-end weight of %s, the plan states %s", w.showSmall(g.Wall.V), w.show(float64(plain), units.LinearMass), weight)
	return found.result("")
}

func (w *Well) showSmall(d units.Meters) string {
	return units.Show(float64(d), units.Length, w.Plan.System, true)
}

// Columns searches a segment for a number that stands in the wrong column: a
// weight no pipe of its OD has (a wall under a two-hundredth of the OD or more
// than seven tenths of a solid bar), or an OD no casing has. The heaviest
// casing made, 5-1/2 in 43.1 lb/ft, is a little over half a bar.
func (w *Well) Columns(str, seg int) (Conflicts, error) {
	g := &w.Plan.Strings[str].Segments[seg]
	if !g.OD.Known() {
		return nil, Absent("the OD isn't stated")
	}
	var found search
	const least, most = 2.0 * units.Inch, 60 * units.Inch
	od := float64(g.OD.V)
	found.holds(od >= least && od <= most, places(g.OD.Ref), "%s is the OD of no casing", showSize(g.OD.V))
	if g.Weight.Known() {
		const steel = 7850 // kg/m3
		bar := steel * math.Pi / 4 * od * od
		share := float64(g.Weight.V) / bar
		thin := 1 - math.Pow(1-2.0/200, 2)
		found.holds(share >= thin && share <= 0.7, places(g.Weight.Ref, g.OD.Ref), "%s is the weight of no %s casing; is it a depth, or in another unit?",
			w.show(float64(g.Weight.V), units.LinearMass), showSize(g.OD.V))
	}
	return found.result("")
}

// InsideString searches a string for collars, accessories, centralizers and
// stage collars that stand above its top or below its shoe.
func (w *Well) InsideString(str int) (Conflicts, error) {
	s := &w.Plan.Strings[str]
	shoe, shoeErr := w.shoeOf(s)
	top, topErr := w.topOf(s)
	if shoeErr != nil || topErr != nil {
		return nil, Absent("the top or the shoe isn't known")
	}
	var found search
	inside := func(what string, md plan.Val[units.MD]) {
		if md.Known() {
			ok := !w.past(top, md.V) && !w.past(md.V, shoe)
			found.holds(ok, places(md.Ref, w.shoeRef(s)), "%s at %s; %s runs from %s to %s", what, w.showMD(md.V), s.Name.V, w.showMD(top), w.showMD(shoe))
		}
	}
	inside("float collar", s.FloatCollar)
	for i := range s.Accessories {
		a := &s.Accessories[i]
		if a.Kind.V != "wear_bushing" && a.Kind.V != "hanger" { // they stand in the wellhead
			inside(a.Name.Or(words(a.Kind.V)), a.Depth)
		}
	}
	for i := range s.Centralizers {
		inside("centralizers", s.Centralizers[i].From)
		inside("centralizers", s.Centralizers[i].To)
	}
	for i := range s.Stages {
		inside("stage collar", s.Stages[i].Collar)
	}
	return found.result("nothing is placed along the string")
}

// shoeRef is where the shoe of a string is stated.
func (w *Well) shoeRef(s *plan.String) place.Ref {
	if s.Shoe.Known() {
		return s.Shoe.Ref
	}
	if n := len(s.Segments); n > 0 && s.Segments[n-1].To.Known() {
		return s.Segments[n-1].To.Ref
	}
	return s.Ref
}
