package expr

import "slices"

// comparison is l op r of two numbers.
type comparison struct {
	op   string
	l, r node
}

func (n comparison) typ() Type { return Type{Kind: Truth} }

func (n comparison) eval(lookup func(string) Result) (Result, error) {
	a, b, short, known, err := both(n.l, n.r, lookup)
	if err != nil || !known {
		return short, err
	}
	return Known(TruthOf(holds(a.SI, n.op, b.SI))), nil
}

// holds compares two numbers. Those that differ by no more than the tolerance
// are equal: an inclusive comparison takes them, a strict one doesn't.
func holds(a float64, op string, b float64) bool {
	equal := same(a, b)
	switch op {
	case "=":
		return equal
	case "<>":
		return !equal
	case "<":
		return a < b && !equal
	case "<=":
		return a < b || equal
	case ">":
		return a > b && !equal
	}
	return a > b || equal
}

// equality is l = r of two texts, or l <> r.
type equality struct {
	l, r   node
	differ bool
}

func (n equality) typ() Type { return Type{Kind: Truth} }

func (n equality) eval(lookup func(string) Result) (Result, error) {
	a, b, short, known, err := both(n.l, n.r, lookup)
	if err != nil || !known {
		return short, err
	}
	return Known(TruthOf((a.Text == b.Text) != n.differ)), nil
}

// member is x in a list of texts.
type member struct {
	x    node
	list []string
}

func (n member) typ() Type { return Type{Kind: Truth} }

func (n member) eval(lookup func(string) Result) (Result, error) {
	r, err := n.x.eval(lookup)
	if err != nil || !r.Known {
		return r, err
	}
	return Known(TruthOf(slices.Contains(n.list, r.Value.Text))), nil
}

// logic is l and r, or l or r. decides is the truth of one side that settles the
// whole whatever the other is: no for and, yes for or.
type logic struct {
	decides bool
	l, r    node
}

func (n logic) typ() Type { return Type{Kind: Truth} }

// eval leaves the right side alone when the left one settles it, so that a
// condition can guard what follows: "x <> 0 and 1 / x > 2".
func (n logic) eval(lookup func(string) Result) (Result, error) {
	l, err := n.l.eval(lookup)
	if err != nil || l.Known && l.Value.Truth == n.decides {
		return l, err
	}
	r, err := n.r.eval(lookup)
	if err != nil || r.Known && r.Value.Truth == n.decides {
		return r, err
	}
	if short, missing := merge(l, r); missing {
		return short, nil
	}
	return Known(TruthOf(!n.decides)), nil
}

// denial is not x.
type denial struct{ x node }

func (n denial) typ() Type { return Type{Kind: Truth} }

func (n denial) eval(lookup func(string) Result) (Result, error) {
	r, err := n.x.eval(lookup)
	r.Value.Truth = r.Known && !r.Value.Truth
	return r, err
}
