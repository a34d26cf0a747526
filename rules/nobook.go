package rules

import (
	"strings"

	"spudgate/plan/place"
	"spudgate/rules/finding"
)

// NoBook is the finding of a jurisdiction the plan names and no rulebook
// covers: what that jurisdiction asks isn't assessed, and the plan can't pass
// as if it were.
func NoBook(jurisdiction string, have []string, at place.Place) finding.Finding {
	at.File = ""
	return finding.Finding{
		Key: "consistency/jurisdiction@" + jurisdiction, Book: "consistency", Requirement: "jurisdiction", Kind: string(Well), Subject: jurisdiction,
		Title: "rulebook of the jurisdiction", Verdict: finding.NotAssessed, Grade: finding.Major, Sure: finding.CommonPractice, Stage: finding.Permit, Sense: string(IsTrue),
		Cite:   finding.Cite{Document: "The plan itself"},
		Text:   "A jurisdiction the plan names is judged by its rulebook.",
		Reason: "no rulebook is called " + jurisdiction + "; there are " + strings.Join(have, ", "),
		Places: []place.Place{at},
	}
}
