package read_test

import (
	"errors"
	"testing"

	"spudgate/plan/doc"
	"spudgate/plan/read"
)

// A packed file goes to the workbook reader whatever its name says; one that
// holds no workbook is refused as a whole, not as bad JSON.
func TestPackedFileIsNoJSON(t *testing.T) {
	for _, magic := range []string{"PK\x03\x04", "PK\x05\x06", "PK\x07\x08"} {
		_, err := read.Bytes("plan.json", []byte(magic+"no more"))
		var faults doc.Faults
		if !errors.As(err, &faults) || len(faults) != 1 || faults[0].Place.Line != 0 || faults[0].Place.File != "plan.json" {
			t.Errorf("%q: %v", magic, err)
		}
	}
}
