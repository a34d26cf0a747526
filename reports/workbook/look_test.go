package workbook_test

import (
	"os"
	"spudgate/plan/units"
	"testing"
)

func TestOut(t *testing.T) {
	os.WriteFile("/tmp/wb/audit.xlsx", written(t, sample(), units.Field), 0o644)
}
