package record

import (
	"spudgate/plan/well"
	"spudgate/rules/finding"
)

// tables are the sheets of numbers behind the findings.
func tables(w *well.Well) []finding.Table {
	return []finding.Table{asRead(w)}
}
