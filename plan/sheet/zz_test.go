package sheet

import (
	"bytes"
	"os"
	"os/exec"
	"testing"

	"spudgate/plan/units"
)

func TestZZ(t *testing.T) {
	for _, s := range []units.System{0, 1} {
		f, _ := os.Create("/tmp/sheetpng/" + s.String() + ".xlsx")
		_ = Template(f, s)
		f.Close()
	}
	bad := 0
	for seed := int64(100); seed < 108; seed++ {
		d := randomPlan(seed)
		os.WriteFile("/tmp/sheetpng/r.xlsx", workbook(t, d), 0o644)
		os.MkdirAll("/tmp/sheetpng/lo", 0o755)
		c := exec.Command("soffice", "--headless", "--convert-to", "xlsx", "--outdir", "/tmp/sheetpng/lo", "/tmp/sheetpng/r.xlsx")
		if out, err := c.CombinedOutput(); err != nil {
			t.Fatal(string(out))
		}
		b, _ := os.ReadFile("/tmp/sheetpng/lo/r.xlsx")
		docs, err := Read("r.xlsx", b)
		if err != nil {
			t.Fatal(err)
		}
		if diff := firstDifference(string(Canonical(docs[0])), string(Canonical(d))); diff != "" {
			bad++
			t.Log(seed, diff)
		}
		_ = bytes.Equal
	}
	t.Log("different", bad)
}
