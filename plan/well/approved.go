package well

import (
	"math"

	"spudgate/plan"
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// Approval is the approved baseline of a string. Absent where nothing is
// approved yet; a string the approvals leave out is Absent too (IsApproved
// tells the two apart).
func (w *Well) Approval(str int) (*plan.Approved, error) {
	for i := range w.Plan.Approved {
		if w.Plan.StringIndex(w.Plan.Approved[i].String.V) == str {
			return &w.Plan.Approved[i], nil
		}
	}
	if len(w.Plan.Approved) == 0 {
		return nil, Absent("the plan carries no approval")
	}
	return nil, Absent("the approval doesn't name the string")
}

// IsApproved reports whether the approved baseline names a string; Absent where
// the plan carries none.
func (w *Well) IsApproved(str int) (bool, place.Ref, error) {
	if len(w.Plan.Approved) == 0 {
		return false, 0, Absent("the plan carries no approval")
	}
	a, err := w.Approval(str)
	if err != nil {
		return false, w.Plan.Strings[str].Ref, nil
	}
	return true, a.Ref, nil
}

// ShoeMovedAlong is how far a planned shoe lies from the approved one along the
// hole, without sign.
func (w *Well) ShoeMovedAlong(str int) (units.MD, []place.Ref, error) {
	a, err := w.Approval(str)
	if err != nil {
		return 0, nil, err
	}
	shoe := w.Plan.Strings[str].Shoe
	switch {
	case !a.Shoe.Known() && a.ShoeTVD.Known():
		return 0, nil, Absent("the approval gives the shoe's true vertical depth only")
	case !a.Shoe.Known():
		return 0, nil, Lack(a.Ref, "the approved depth of the shoe of %s", a.String.V)
	case !shoe.Known():
		return 0, nil, Lack(w.Plan.Strings[str].Ref, "the shoe of %s", a.String.V)
	}
	return units.MD(math.Abs(float64(shoe.V - a.Shoe.V))), []place.Ref{shoe.Ref, a.Shoe.Ref}, nil
}

// CementLowered is how far the planned top of cement lies below the approved
// one along the hole; negative where it stands higher.
func (w *Well) CementLowered(str int) (units.MD, []place.Ref, error) {
	a, err := w.Approval(str)
	if err != nil {
		return 0, nil, err
	}
	if !a.TopOfCement.Known() {
		return 0, nil, Absent("the approval gives no top of cement")
	}
	top, ref, err := w.TopOfCement(str)
	if err != nil {
		return 0, nil, err
	}
	return top - a.TopOfCement.V, []place.Ref{ref, a.TopOfCement.Ref}, nil
}
