package well

import (
	"errors"
	"math"
	"strings"

	"spudgate/plan/fluid"
	"spudgate/plan/pipe"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// claimedFactor reads the least factor of the load cases of a kind: the case
// the claim names where its words do, else each of them; by our rating in that
// state, by the other edition of the collapse rating, and by the rating as the
// tables print it, each with the conversions planners use.
func claimedFactor(prefix string) func(*Well, int, string) (Claimed, error) {
	return func(w *Well, str int, said string) (Claimed, error) {
		var out Claimed
		var lack Missing
		for _, name := range casesLike(prefix, said) {
			list, refs, err := w.readFactor(str, name)
			var m Missing
			switch {
			case err == nil:
				out.Readings = append(out.Readings, list...)
				out.Refs = append(out.Refs, refs...)
			case errors.As(err, &m):
				lack.add(m)
			}
		}
		switch {
		case len(out.Readings) > 0:
			return out, nil
		case len(lack) > 0:
			return out, lack
		}
		return out, Absent("no load case of the kind acts on " + w.Plan.Strings[str].Name.V)
	}
}

// casesLike are the load cases of a kind whose name shares a word with what the
// plan calls the case; all of them where none does.
func casesLike(prefix, said string) []string {
	var all, like []string
	for _, name := range StrengthCases() {
		rest, ok := strings.CutPrefix(name, prefix)
		if !ok {
			continue
		}
		all = append(all, name)
		for _, word := range strings.Split(rest, "_") {
			if len(word) > 2 && strings.Contains(" "+claimWords(said)+" ", " "+word+" ") {
				like = append(like, name)
				break
			}
		}
	}
	if len(like) > 0 {
		return like
	}
	return all
}

func (w *Well) readFactor(str int, name string) ([]Reading, []place.Ref, error) {
	r, err := w.Strength(str, name)
	if err != nil {
		return nil, nil, err
	}
	if r.Least == nil {
		return nil, nil, Absent("no load acts")
	}
	label := strings.NewReplacer(".", ", ", "_", " ").Replace(name)
	list := []Reading{{Value: r.Least.Factor, By: label}}
	if table, ok := w.tableFactor(str, name, r); ok {
		list = append(list, Reading{Value: table, By: label + "; rating as the tables print it"})
	}
	if strings.HasPrefix(name, "collapse.") {
		if other, err := w.otherEdition().Strength(str, name); err == nil && other.Least != nil {
			list = append(list, Reading{Value: other.Least.Factor, By: label + "; the other edition of the collapse rating"})
		}
	}
	return withConstants(list, -1), r.Refs, nil
}

// tableFactor is the least factor with every rating as the tables print it: new,
// cold and unloaded.
func (w *Well) tableFactor(str int, name string, r *StrengthResult) (float64, bool) {
	least := 0.0
	for i := range r.Lines {
		l := &r.Lines[i]
		p, err := w.Rated(str, l.Segment)
		if err != nil || l.Load <= 0 {
			continue
		}
		rating, err := float64(p.Internal.Value), p.Internal.Err
		switch l.Kind {
		case Burst:
		case Collapse:
			rating, err = float64(p.Collapse.Value), p.Collapse.Err
		default:
			return 0, false
		}
		if err != nil {
			return 0, false
		}
		if f := rating / l.Load; least == 0 || f < least {
			least = f
		}
	}
	return least, least > 0
}

type editionKey struct{}

// otherEdition is the same plan judged by the other edition of the collapse
// rating under load.
func (w *Well) otherEdition() *Well {
	o, _ := once(w, editionKey{}, func() (*Well, error) {
		a := w.Assume
		a.CollapseEdition = map[bool]string{true: "2015", false: "historical"}[a.CollapseEdition == "historical"]
		return New(w.Plan, a), nil
	})
	return o
}

// rated is one rating of a segment, whatever its dimension.
type rated struct {
	published, exact float64
	dim              units.Dim
	err              error
}

func of[Q ~float64](s Strength[Q], d units.Dim) rated {
	return rated{float64(s.Value), float64(s.Exact), d, s.Err}
}

// claimedRating reads a rating of the string's pipe: any of its segments, as
// published and at full precision, and of the pipe body alone where a coupling
// or thread governs.
func claimedRating(which func(*Rated) rated) func(*Well, int, string) (Claimed, error) {
	return func(w *Well, str int, _ string) (Claimed, error) {
		c, err := w.Casing(str)
		if err != nil {
			return Claimed{}, err
		}
		var out Claimed
		for seg := range c.Pipes {
			p, err := w.Rated(str, seg)
			if err != nil {
				return Claimed{}, err
			}
			r := which(p)
			if r.err != nil {
				return Claimed{}, r.err
			}
			label := p.Plan.Label()
			out.Dim = r.dim
			out.Readings = append(out.Readings, Reading{Value: r.published, By: label + ", as the tables print it"}, Reading{Value: r.exact, By: label + ", at full precision"})
			out.Refs = append(out.Refs, p.Plan.Ref)
			if body, err := p.Body.RateInternalYield(pipe.WallKept); err == nil && r.dim == units.Pressure && r.published == float64(p.Internal.Value) {
				out.Readings = append(out.Readings, Reading{Value: float64(body.Published), By: label + ", pipe body only"})
			}
		}
		return out, nil
	}
}

// hangs is one segment as a hand calculation weighs it: lengths along the hole.
type hangs struct {
	rated           *Rated
	nominal, plain  float64 // weight of the segment in air, N
	vertical, along float64 // m
}

func (w *Well) hand(str int) ([]hangs, []place.Ref, error) {
	c, err := w.Casing(str)
	if err != nil {
		return nil, nil, err
	}
	var out []hangs
	var refs []place.Ref
	for seg := range c.Pipes {
		p, err := w.Rated(str, seg)
		if err != nil {
			return nil, nil, err
		}
		mass := p.Size.Weight
		if p.Plan.Weight.Known() {
			mass = p.Plan.Weight.V
		}
		if mass <= 0 {
			return nil, nil, Lack(p.Plan.Ref, "the weight of %s", p.Plan.Label())
		}
		from, err := w.TVD(p.From)
		if err != nil {
			return nil, nil, err
		}
		to, err := w.TVD(p.To)
		if err != nil {
			return nil, nil, err
		}
		id := p.Size.ID()
		area := math.Pi / 4 * float64(p.Size.OD*p.Size.OD-id*id)
		h := hangs{rated: p, vertical: float64(to - from), along: float64(p.To - p.From)}
		h.nominal, h.plain = float64(mass)*units.G*h.along, area*float64(fluid.Steel)*units.G*h.along
		out, refs = append(out, h), append(refs, p.Plan.Ref)
	}
	return out, refs, nil
}

// weighing is one way planners weigh a string.
type weighing struct {
	by       string
	plain    bool
	vertical bool
}

func weighings() []weighing {
	var out []weighing
	for _, plain := range []bool{false, true} {
		for _, vertical := range []bool{false, true} {
			by := map[bool]string{false: "nominal weight", true: "plain-end weight"}[plain] + map[bool]string{false: ", measured length", true: ", vertical length"}[vertical]
			out = append(out, weighing{by, plain, vertical})
		}
	}
	return out
}

// of is the weight in air of a segment, N.
func (g weighing) of(h *hangs) float64 {
	x := h.nominal
	if g.plain {
		x = h.plain
	}
	if g.vertical && h.along > 0 {
		x *= h.vertical / h.along
	}
	return x
}

// buoyancies are the buoyancy factors of the mud a string is run in, by the
// densities of steel the trade uses.
func (w *Well) buoyancies(str int) ([]Reading, place.Ref, error) {
	mud, ref, err := w.RunIn(str)
	if err != nil {
		return nil, 0, err
	}
	return []Reading{
		{Value: 1 - float64(mud/fluid.Steel), By: "buoyancy on steel of 7,850 kg/m3"},
		{Value: 1 - float64(mud)/(65.5*units.PPG), By: "buoyancy on steel of 65.5 ppg"},
		{Value: 1 - float64(mud)/(65.4*units.PPG), By: "buoyancy on steel of 65.4 ppg"},
		{Value: 1 - float64(mud)/(65.44*units.PPG), By: "buoyancy on steel of 65.44 ppg"},
	}, ref, nil
}

func (w *Well) claimedAir(str int, _ string) (Claimed, error) {
	list, refs, err := w.hand(str)
	out := Claimed{Dim: units.Force, Refs: refs}
	for _, g := range weighings() {
		sum := 0.0
		for i := range list {
			sum += g.of(&list[i])
		}
		out.Readings = append(out.Readings, Reading{Value: sum, By: g.by})
	}
	return out, err
}

func (w *Well) claimedBuoyed(str int, said string) (Claimed, error) {
	out, err := w.claimedAir(str, said)
	if err != nil {
		return out, err
	}
	buoyed, ref, err := w.buoyancies(str)
	if err != nil {
		return out, err
	}
	air := out.Readings
	out.Readings, out.Refs = nil, append(out.Refs, ref)
	if h, err := w.Hanging(str); err == nil {
		out.Readings = []Reading{{Value: float64(h.String), By: "pressures on the pipe's ends"}}
	}
	for _, a := range air {
		for _, b := range buoyed {
			out.Readings = append(out.Readings, Reading{Value: a.Value * b.Value, By: a.By + "; " + b.By})
		}
	}
	return out, nil
}

func (w *Well) claimedBuoyancy(str int, _ string) (Claimed, error) {
	list, ref, err := w.buoyancies(str)
	return Claimed{Readings: list, Refs: []place.Ref{ref}}, err
}

func (w *Well) claimedHook(str int, said string) (Claimed, error) {
	h, err := w.Hanging(str)
	if err != nil {
		return Claimed{}, err
	}
	out, err := w.claimedBuoyed(str, said)
	if err != nil {
		return out, err
	}
	part := 1.0
	if h.String > 0 {
		part += float64(h.Drag / h.String)
	}
	pipe := h.Pipe + h.PipeDrag // that a liner is run on
	list := []Reading{{Value: float64(h.String + h.Drag + pipe + h.Block + h.Overpull), By: "buoyed weight, drag, block and overpull"}}
	if pipe > 0 {
		list = append(list, Reading{Value: float64(h.String + h.Drag + h.Block + h.Overpull), By: "without the pipe it is run on"})
	}
	for _, r := range out.Readings {
		list = append(list, Reading{r.Value * part, r.By + "; with drag", false},
			Reading{r.Value*part + float64(h.Block), r.By + "; with drag and block", false}, Reading{r.Value + float64(h.Block), r.By + "; with block", false},
			Reading{r.Value*part + float64(h.Block+h.Overpull), r.By + "; with drag, block and overpull", false})
	}
	out.Readings = list
	return out, nil
}

// claimedTension reads the least tension factor: ours of each load case, and
// by hand, the body or the joint of each segment over what hangs below its top
// in air or buoyed.
func (w *Well) claimedTension(str int, said string) (Claimed, error) {
	out, caseErr := claimedFactor("tension.")(w, str, said)
	list, refs, err := w.hand(str)
	if err != nil {
		return out, caseErr
	}
	buoyed, _, err := w.buoyancies(str)
	if err != nil {
		buoyed = nil
	}
	for _, g := range weighings() {
		for _, b := range append([]Reading{{Value: 1, By: "in air"}}, buoyed...) {
			for _, joint := range []bool{true, false} {
				if f, ok := handFactor(list, g, b.Value, joint); ok {
					of := map[bool]string{true: "joint", false: "body"}[joint]
					out.Readings = append(out.Readings, Reading{Value: f, By: of + " over " + g.by + "; " + b.By})
				}
			}
		}
	}
	if len(out.Readings) == 0 {
		return out, caseErr
	}
	out.Refs = append(out.Refs, refs...)
	return out, nil
}

func handFactor(list []hangs, g weighing, buoyancy float64, joint bool) (float64, bool) {
	least, below := 0.0, 0.0
	for i := len(list) - 1; i >= 0; i-- {
		below += g.of(&list[i]) * buoyancy
		rating, err := float64(list[i].rated.Yield.Value), list[i].rated.Yield.Err
		if joint {
			rating, err = float64(list[i].rated.Joint.Value), list[i].rated.Joint.Err
		}
		if err != nil || below <= 0 {
			return 0, false
		}
		if f := rating / below; least == 0 || f < least {
			least = f
		}
	}
	return least, least > 0
}
