package coverage_test

import "testing"

func TestProbe(t *testing.T) {
	run(t, "us-onshore-federal", tundra, []trial{
		{"probe uncemented surface", "surface-cement", "surface", []string{`"shoe":2030,"top_of_cement":30`, `"shoe":2030,"cemented":false`}, not},
		{"probe uncemented production zone", "isolate-zones", "production / Ridge sand", []string{`"top_of_cement":8000`, `"cemented":false`}, not},
		{"probe", "wait-on-cement", "surface", []string{`"shoe":2030,"top_of_cement":30`, `"shoe":2030,"existing":true,"top_of_cement":30`}, none},
	})
}
