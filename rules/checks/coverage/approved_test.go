package coverage_test

import (
	"strings"
	"testing"

	"spudgate/rules/checks/coverage"
)

// The shoe of middle is planned at 10,000 ft and its cement at 7,000 ft: an
// approval of 9,950 and 6,900 ft is 50 ft off, and the cement 100 ft low.
func TestApproved(t *testing.T) {
	with := func(rows string) string {
		return strings.Replace(deep, `"approved":[{"string":"middle","shoe_tvd":10100},{"string":"liner"}]`, `"approved":[`+rows+`]`, 1)
	}
	measure(t, with(`{"string":"middle","shoe":9950,"top_of_cement":6900},{"string":"surface","shoe_tvd":3000},{"string":"liner"}`), []want{
		{check: coverage.Approved, subject: "middle", value: "yes"},
		{check: coverage.Approved, subject: "drive", value: "no"},
		{check: coverage.ApprovedShoeAlong, subject: "middle", value: "50 ft"},
		{check: coverage.ApprovedShoeAlong, subject: "surface", absent: "true vertical depth only"},
		{check: coverage.ApprovedShoeAlong, subject: "liner", missing: "the approved depth of the shoe of liner"},
		{check: coverage.ApprovedShoeAlong, subject: "drive", absent: "doesn't name the string"},
		{check: coverage.ApprovedCement, subject: "middle", value: "100 ft"},
		{check: coverage.ApprovedCement, subject: "surface", absent: "gives no top of cement"},
		{check: coverage.ApprovedVertical, subject: "surface", value: "yes"},
		{check: coverage.ApprovedVertical, subject: "middle", value: "no"},
	})
	measure(t, with(`{"string":"middle","shoe":10050,"top_of_cement":7200}`), []want{
		{check: coverage.ApprovedShoeAlong, subject: "middle", value: "50 ft"},
		{check: coverage.ApprovedCement, subject: "middle", value: "-200 ft"},
	})
	measure(t, with(``), []want{
		{check: coverage.Approved, subject: "middle", absent: "no approval"},
		{check: coverage.ApprovedShoeAlong, subject: "middle", absent: "no approval"},
		{check: coverage.ApprovedCement, subject: "middle", absent: "no approval"},
		{check: coverage.ApprovedVertical, subject: "middle", value: "no"},
	})
}
