package rules

import (
	"errors"
	"strconv"

	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/plan/well"
)

// Check yields one measure of one kind of subject. It holds no limit, grade or
// citation and compares nothing.
type Check struct {
	Name  string // "burst.gas_to_surface": family and measure
	About Kind
	Type  expr.Type
	Small bool // a size or gap: shown in inches or millimetres
	// NotNegative says the measure is never below zero, so that a limit there
	// can be told to decide nothing.
	NotNegative bool
	Doc         string // what is measured, the convention, the source
	Measure     func(w *well.Well, s Subject) Measure
}

// Measure is what a check found.
type Measure struct {
	Result expr.Result
	// Absent says why there is nothing of the kind to measure; the engine
	// makes "not applicable" of it.
	Absent string
	// Unloaded says why no load acts; such a requirement is met, and shows no
	// factor.
	Unloaded string
	// Gaps are missing inputs of a profile whose known part gave the value: a
	// known failure stands, anything else is not assessed.
	Gaps    []expr.Lack
	At      well.At
	Refs    []place.Ref    // where the inputs stand; the first is where a reader goes
	Note    string         // which bound governed, which convention was used
	Working []expr.Working // the steps, the last giving the result
	Err     error          // the tool's own fault or a value outside a formula's domain
}

// Num is a measured number.
func Num(si float64, d units.Dim, refs ...place.Ref) Measure {
	return Measure{Result: expr.Known(expr.Number(si, d)), Refs: refs}
}

// Truth is a measured yes or no.
func Truth(b bool, refs ...place.Ref) Measure {
	return Measure{Result: expr.Known(expr.TruthOf(b)), Refs: refs}
}

// Text is a measured text.
func Text(s string, refs ...place.Ref) Measure {
	return Measure{Result: expr.Known(expr.TextOf(s)), Refs: refs}
}

// Lacking is a measure that waits for inputs.
func Lacking(refs []place.Ref, lacks ...expr.Lack) Measure {
	return Measure{Result: expr.Unknown(lacks...), Refs: refs}
}

// None is a measure of something that isn't there.
func None(why string) Measure { return Measure{Absent: why} }

// From turns an error of package well into a measure: missing inputs, nothing
// to measure, or a fault.
func From(err error, refs ...place.Ref) Measure {
	var missing well.Missing
	var absent well.Absent
	switch {
	case errors.As(err, &missing):
		return Lacking(refs, missing...)
	case errors.As(err, &absent):
		return None(string(absent))
	}
	return Measure{Err: err, Refs: refs, Result: expr.Unknown()}
}

// With adds a note to the measure.
func (m Measure) With(note string) Measure { m.Note = note; return m }

// Where says where in the well the measure was taken.
func (m Measure) Where(at well.At) Measure { m.At = at; return m }

// By adds the steps of the working.
func (m Measure) By(steps ...expr.Working) Measure { m.Working = append(m.Working, steps...); return m }

func itoa(i int) string { return strconv.Itoa(i) }
