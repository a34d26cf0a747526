package rules

import (
	"bytes"
	"encoding/json"
	"fmt"

	"spudgate/plan"
	"spudgate/plan/expr"
	"spudgate/plan/place"
	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// VarianceFormat is the form of a variances document.
const VarianceFormat = "spudgate-variances/1"

// Variance is an approved departure from one requirement for one subject, down
// (or up) to a stated value.
type Variance struct {
	Requirement string `json:"requirement"` // book/id
	Subject     string `json:"subject"`
	Value       string `json:"value,omitempty"` // granted, with its unit; empty for a yes-or-no
	Reason      string `json:"reason"`
	Approver    string `json:"approver"`
	Reference   string `json:"reference"`
	Granted     string `json:"granted"` // yyyy-mm-dd
	Expires     string `json:"expires"` // yyyy-mm-dd
	Kind        string `json:"kind"`    // agency or company

	at place.Place // where the plan's own sheet gives it
}

// PlanVariances are the variances the plan itself carries.
func PlanVariances(p *plan.Plan) []Variance {
	var out []Variance
	for i := range p.Variances {
		v := &p.Variances[i]
		out = append(out, Variance{Requirement: v.Requirement.V, Subject: v.Subject.V, Value: v.Value.V, Reason: v.Reason.V, Approver: v.Approver.V,
			Reference: v.Reference.V, Granted: v.Granted.V, Expires: v.Expires.V, Kind: v.Kind.V, at: barePlace(p, v.Ref)})
	}
	return out
}

// ParseVariances reads a variances document; an error names the entry.
func ParseVariances(file string, raw []byte) ([]Variance, error) {
	d := json.NewDecoder(bytes.NewReader(raw))
	d.DisallowUnknownFields()
	var doc struct {
		Format    string     `json:"format"`
		Variances []Variance `json:"variances"`
	}
	if err := d.Decode(&doc); err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	if doc.Format != VarianceFormat {
		return nil, fmt.Errorf("%s: found format %q, expected %q", file, doc.Format, VarianceFormat)
	}
	for i, v := range doc.Variances {
		if v.Requirement == "" || v.Subject == "" || (v.Kind != "agency" && v.Kind != "company") {
			return nil, fmt.Errorf("%s: variance %d: found requirement %q, subject %q, kind %q, expected all three, kind agency or company", file, i+1, v.Requirement, v.Subject, v.Kind)
		}
		if v.Value != "" {
			if _, err := units.Parse(v.Value); err != nil {
				return nil, fmt.Errorf("%s: variance %d: value %q: %w", file, i+1, v.Value, err)
			}
		}
	}
	return doc.Variances, nil
}

// Vary holds findings that aren't met against the variances granted. A finding
// no worse than granted becomes varied and keeps its numbers; one that is worse
// stays not met and says by how much. What is wrong with a variance is a
// finding of its own, added at the end.
func Vary(fs []finding.Finding, vs []Variance, books []*Book, p *plan.Plan, o Options) []finding.Finding {
	for _, v := range vs {
		matched := false
		for i := range fs {
			f := &fs[i]
			if f.Book+"/"+f.Requirement != v.Requirement || !plan.Same(f.Subject, v.Subject) {
				continue
			}
			matched = true
			if f.Verdict != finding.NotMet {
				continue
			}
			r := requirementOf(books, f)
			if why := v.unfit(r, p, o); why != "" {
				fs = append(fs, v.finding(r, finding.Major, "variance in force", why))
				fs[i].Reason = joinReason(fs[i].Reason, "a variance doesn't cover it: "+why)
				continue
			}
			v.apply(&fs[i], r)
		}
		if !matched {
			fs = append(fs, v.finding(nil, finding.Minor, "variance matches a requirement and a subject", "matches nothing this plan is judged on"))
		}
	}
	return fs
}

func requirementOf(books []*Book, f *finding.Finding) *Requirement {
	for _, b := range books {
		for i := range b.Requirements {
			if r := &b.Requirements[i]; b.ID == f.Book && r.ID == f.Requirement {
				return r
			}
		}
	}
	return nil
}

// unfit says why a variance can't be used, or nothing.
func (v Variance) unfit(r *Requirement, p *plan.Plan, o Options) string {
	spud := p.Well.SpudDate.Or(o.AsOf)
	switch {
	case v.Kind != "agency" && v.Kind != "company":
		return "it doesn't say whether an agency or the company granted it"
	case v.Approver == "" || v.Reference == "" || v.Reason == "" || v.Granted == "":
		return "it isn't signed: approver, reference, reason and date granted are needed"
	case v.Expires == "":
		return "it has no date of expiry"
	case v.Granted > o.AsOf:
		return "granted on " + v.Granted + ", after the audit's date " + o.AsOf
	case v.Expires < o.AsOf:
		return "expired on " + v.Expires
	case v.Expires < spud:
		return "expires on " + v.Expires + ", before the planned spud " + spud
	case !r.Vary:
		return "no variance may be granted from this requirement"
	case v.Kind == "company" && r.book.Regulation:
		return "a company can't vary a regulation"
	}
	return ""
}

// apply holds the finding against the value granted.
func (v Variance) apply(f *finding.Finding, r *Requirement) {
	label := fmt.Sprintf("%s variance %s, %s", v.Kind, v.Reference, v.Reason)
	if v.at != (place.Place{}) {
		label += ", as the plan itself gives it"
	}
	if r.check.Type.Kind != expr.Num {
		f.Verdict, f.Reason = finding.Varied, joinReason(f.Reason, label)
		return
	}
	w, err := units.Parse(v.Value)
	one, _ := units.ByName("1")
	granted := w.SI(one)
	if _, ok := r.check.Type.Dim.Join(w.Unit.Dim); err != nil || (w.HasUnit && !ok) || (!w.HasUnit && r.check.Type.Dim != units.None) {
		f.Reason = joinReason(f.Reason, label+": the value granted, "+v.Value+", isn't "+r.check.Type.Dim.String())
		return
	}
	ok, spare := compare(r.Is, f.Measure.Quantity.SI, granted)
	below := r.Is == AtLeast && r.check.Type.Dim == units.None && f.Limit != nil && f.Limit.Quantity.SI >= 1 && granted < 1
	switch {
	case below && v.Kind == "company":
		f.Reason = joinReason(f.Reason, label+": a company can't grant a factor under 1.00")
	case ok:
		f.Verdict, f.Reason = finding.Varied, joinReason(f.Reason, label+", granted "+v.Value+" until "+v.Expires)
	default:
		f.Reason = joinReason(f.Reason, fmt.Sprintf("%s: granted %s, worse than that by %s %% of it", label, v.Value, units.Decimal(-spare*100, 1)))
	}
}

func joinReason(a, b string) string {
	if a == "" {
		return b
	}
	return a + "; " + b
}

// finding is what is wrong with the variance itself.
func (v Variance) finding(r *Requirement, g finding.Grade, title, why string) finding.Finding {
	f := finding.Finding{
		Key: "variances/" + v.Requirement + "@" + v.Subject, Book: "variances", Requirement: v.Requirement, Kind: "variance", Subject: v.Subject,
		Title: title, Verdict: finding.NotMet, Grade: g, Sure: finding.CommonPractice, Stage: finding.Permit, Sense: string(IsTrue),
		Cite:   finding.Cite{Document: "Variance", Clause: v.Reference},
		Text:   "A variance counts while it is signed, in force on the audit's date and the planned spud date, and names a requirement that may be varied.",
		Reason: why, Remedy: "Obtain a variance that is signed and in force, or withdraw it.",
	}
	if r != nil {
		f.Requirement = r.Key()
	}
	if v.at != (place.Place{}) {
		f.Places = []place.Place{v.at}
	}
	no := false
	f.Measure = &finding.Value{Truth: &no}
	return f
}

// VarianceTemplate is a variances document to start from.
const VarianceTemplate = `{
  "format": "spudgate-variances/1",
  "variances": [
    {
      "requirement": "good-practice/liner-lap",
      "subject": "name of the string",
      "value": "80 ft",
      "reason": "why the departure is safe",
      "approver": "",
      "reference": "",
      "granted": "",
      "expires": "",
      "kind": "company"
    }
  ]
}
`
