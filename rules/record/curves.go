package record

import (
	"math"

	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/rules/finding"
)

// drawings fills what the drawings show. What can't be worked out is left out
// here: its finding says what is missing.
func drawings(w *well.Well, fs []finding.Finding) finding.Drawings {
	return finding.Drawings{Path: path(w), Schematic: schematic(w), Window: window(w), Loads: loads(w, fs), Placement: placements(w, fs)}
}

// depth is a place along the hole, with its TVD where the well knows it.
func depth(w *well.Well, md units.MD) finding.Depth {
	d := finding.Depth{MD: finding.Number(md)}
	if z, err := w.TVD(md); err == nil {
		v := finding.Number(z)
		d.TVD = &v
	}
	return d
}

// deepest is the bottom of the well: the deepest shoe or hole.
func deepest(w *well.Well) units.MD {
	var end units.MD
	for _, h := range w.Holes() {
		end = max(end, h.To)
	}
	for _, i := range w.InOrder() {
		if c, err := w.Casing(i); err == nil {
			end = max(end, c.Shoe)
		}
	}
	return end
}

// The path is sampled in pathSteps equal steps and thinned: a depth is kept
// where a straight line would miss it by more than pathSlack.
const (
	pathSteps = 500
	pathSlack = 0.02 // m
)

func path(w *well.Well) []finding.Depth {
	end := deepest(w)
	var all []finding.Depth
	for i := 0; i <= pathSteps; i++ {
		d := depth(w, end*units.MD(i)/pathSteps)
		if d.TVD != nil {
			all = append(all, d)
		}
	}
	if len(all) < 2 || end <= 0 {
		return nil
	}
	out := all[:1:1]
	for first := 0; first < len(all)-1; {
		last := first + 1
		for last+1 < len(all) && straight(all[first:last+2]) {
			last++
		}
		out, first = append(out, all[last]), last
	}
	return out
}

// straight reports whether the ends joined linearly meet what lies between.
func straight(list []finding.Depth) bool {
	a, b := list[0], list[len(list)-1]
	slope := (*b.TVD - *a.TVD) / (b.MD - a.MD)
	for _, d := range list[1 : len(list)-1] {
		if math.Abs(float64(*a.TVD+slope*(d.MD-a.MD)-*d.TVD)) > pathSlack {
			return false
		}
	}
	return true
}

// schematic is nil where no string and no hole has its depths.
func schematic(w *well.Well) *finding.Schematic {
	s := &finding.Schematic{}
	for _, i := range w.InOrder() {
		if d, ok := drawnString(w, i); ok {
			s.Strings = append(s.Strings, d)
		}
	}
	for _, h := range w.Holes() {
		if bore, _, err := h.Bore(); err == nil && h.To > h.From {
			s.Holes = append(s.Holes, finding.DrawnHole{Name: h.Plan.Name.V, From: depth(w, h.From), To: depth(w, h.To), Diameter: finding.Number(bore)})
		}
	}
	if len(s.Strings)+len(s.Holes) == 0 {
		return nil
	}
	s.Formations, s.Marks = formations(w), marks(w)
	return s
}

func drawnString(w *well.Well, i int) (finding.DrawnString, bool) {
	p := &w.Plan.Strings[i]
	c, err := w.Casing(i)
	if err != nil {
		return finding.DrawnString{}, false
	}
	d := finding.DrawnString{Name: p.Name.V, Liner: well.IsLiner(p), Top: depth(w, c.Top), Shoe: depth(w, c.Shoe)}
	for k := range c.Pipes {
		q := &c.Pipes[k]
		id, err := q.ID()
		if err != nil || q.SizeErr != nil {
			continue
		}
		d.Pipes = append(d.Pipes, finding.DrawnPipe{From: finding.Number(q.From), To: finding.Number(q.To),
			OD: finding.Number(q.Size.OD), ID: finding.Number(id), Label: q.Plan.Label()})
	}
	for _, a := range p.Accessories {
		if at, ok := a.Depth.Get(); ok {
			d.Marks = append(d.Marks, finding.Mark{Kind: a.Kind.V, Name: a.Name.V, At: depth(w, at)})
		}
	}
	if well.Cemented(p) {
		d.Cement, d.Lacks = outside(w, i)
	}
	return d, len(d.Pipes) > 0
}

// outside is the cement outside a string, cut where its annulus changes.
func outside(w *well.Well, i int) (out []finding.Band, lacks string) {
	sheaths, err := w.Sheaths(i)
	if err != nil {
		return nil, reason(err)
	}
	gaps, err := w.Annulus(i)
	if err != nil {
		return nil, reason(err)
	}
	for _, s := range sheaths {
		for _, g := range gaps {
			from, to := max(s.Top, g.From), min(s.Bottom, g.To)
			if to > from && g.Outer > g.Inner {
				out = append(out, finding.Band{From: finding.Number(from), To: finding.Number(to), Outer: finding.Number(g.Outer), Inner: finding.Number(g.Inner)})
			}
		}
	}
	return out, ""
}

// formations lists what has a top within the well; a base below the bottom is
// cut there.
func formations(w *well.Well) []finding.DrawnFormation {
	end := deepest(w)
	var out []finding.DrawnFormation
	for i := range w.Plan.Formations {
		f := &w.Plan.Formations[i]
		top, _, _, err := w.FormationTop(i)
		if err != nil || top >= end {
			continue
		}
		base, _, _, err := w.FormationBase(i)
		if err != nil || base > end {
			base = end
		}
		if base > top {
			out = append(out, finding.DrawnFormation{Name: f.Name.V, Contents: f.Contents.V, Top: depth(w, top), Base: depth(w, base)})
		}
	}
	return out
}

// marks are the protected water and the packer of the completion.
func marks(w *well.Well) []finding.Mark {
	var out []finding.Mark
	if z, name, err := w.ProtectedWater(); err == nil {
		if md, err := w.MD(z.V); err == nil {
			out = append(out, finding.Mark{Kind: "base_of_protected_water", Name: name, At: depth(w, md)})
		}
	}
	if at, ok := w.Plan.Completion.Packer.Get(); ok {
		out = append(out, finding.Mark{Kind: "completion_packer", Name: "packer", At: depth(w, at)})
	}
	return out
}
