package rules

import (
	"strings"
	"testing"

	"spudgate/rules/finding"
)

func TestEvidence(t *testing.T) {
	entry := func(more string) string {
		return `{"format":"spudgate-evidence/1","evidence":[{"book":"b","clause":"7","by":"reviewer","reference":"log 4",` + more + `}]}`
	}
	for text, says := range map[string]string{
		entry(`"text":"Mud is","date":"2026-11-20"`):     "",
		entry(`"text":"M","date":"2026-11-20"`):          "found 2 clauses",
		entry(`"text":"Air","date":"2026-11-20"`):        "found 0 clauses",
		entry(`"text":"Mud is","date":"2026-11-26"`):     "after the audit's date",
		entry(`"text":"Mud is","date":"last week"`):      "yyyy-mm-dd",
		entry(`"text":"Mud is"`):                         "yyyy-mm-dd",
		`{"format":"x"}`:                                 "expected \"spudgate-evidence/1\"",
		`{"format":"spudgate-evidence/1","evidences":1}`: "unknown field",
	} {
		book := []finding.Gap{{Clause: "7", Text: "Mud is tested."}, {Clause: "7", Text: "Mills report."}}
		r := &finding.Record{AsOf: "2026-11-25", Books: []finding.Book{{ID: "b", ByPerson: 2, Person: book}}}
		list, err := ParseEvidence("e.json", []byte(text))
		if err == nil {
			err = Answer(r, list)
		}
		if says == "" {
			if err != nil || r.Books[0].ByPerson != 1 || r.Books[0].Person[0].Evidence.Reference != "log 4" || book[0].Evidence != nil {
				t.Errorf("%v, %+v", err, r.Books[0])
			}
			continue
		}
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want %s", text, err, says)
		}
	}
}
