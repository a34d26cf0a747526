package well

import (
	"spudgate/plan/place"
	"spudgate/plan/units"
)

// TopOfCement is the planned top of cement outside a string: stated, else from
// the volumes planned, enlargement counted.
func (w *Well) TopOfCement(str int) (units.MD, place.Ref, error) {
	s := &w.Plan.Strings[str]
	if !Cemented(s) {
		return 0, 0, Absent("the string isn't cemented")
	}
	if s.TopOfCement.Known() {
		return s.TopOfCement.V, s.TopOfCement.Ref, nil
	}
	return 0, 0, Lack(s.Ref, "the top of cement of %s", s.Name.V)
}
