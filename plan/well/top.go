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
	if len(s.Stages) == 0 {
		return 0, 0, Lack(s.Ref, "the top of cement of %s", s.Name.V)
	}
	top, _, err := w.WorkedTop(str)
	return top.Top, top.Ref, err
}

// WorkedTop is the shallowest cement outside a string, by volumes where they're
// planned and else as stated; gaps says whether the cement below it is broken.
func (w *Well) WorkedTop(str int) (top Sheath, gaps bool, err error) {
	list, err := w.Sheaths(str)
	if err != nil {
		return Sheath{}, false, err
	}
	if len(list) == 0 {
		return Sheath{}, false, Lack(w.Plan.Strings[str].Ref, "the cement of %s", w.Plan.Strings[str].Name.V)
	}
	return list[0], len(list) > 1, nil
}
