package drawing

import (
	"fmt"
	"io"
	"strings"
	"time"

	"spudgate/plan/units"
	"spudgate/rules/finding"
)

// Kinds are the drawings there are, by the names they are asked for.
func Kinds() []string { return []string{"schematic", "window", "loads", "placement"} }

// Formats are the endings of the files a drawing can be written as.
func Formats() []string { return []string{".svg", ".png", ".pdf"} }

// Empty is the error of a drawing the record holds nothing for. It says what
// the plan would have to give.
type Empty string

func (e Empty) Error() string { return string(e) }

// Draw draws one kind in a unit system: one page, or of the loads one page for
// each string, of the placement one for each cement stage. A record with nothing to draw gives Empty.
func Draw(r *finding.Record, kind string, s units.System) ([]*Scene, error) {
	switch kind {
	case "schematic":
		return schematic(r, s)
	case "window":
		return window(r, s)
	case "loads":
		return loads(r, s)
	case "placement":
		return placement(r, s)
	}
	return nil, fmt.Errorf("found drawing %q, expected one of %s", kind, strings.Join(Kinds(), ", "))
}

// Write writes pages in a format: a PDF of one sheet each, an SVG or a PNG
// with one under the other. asOf, yyyy-mm-dd, is the only date in the file.
func Write(w io.Writer, pages []*Scene, format, asOf string) error {
	if len(pages) == 0 {
		return Empty("there is nothing to draw")
	}
	switch format {
	case ".svg":
		return writeSVG(w, pages)
	case ".png":
		return writePNG(w, pages)
	case ".pdf":
		date, err := time.Parse(time.DateOnly, asOf)
		if err != nil {
			return fmt.Errorf("found the date %q, expected yyyy-mm-dd", asOf)
		}
		return writePDF(w, pages, date)
	}
	return fmt.Errorf("found the ending %q, expected one of %s", format, strings.Join(Formats(), ", "))
}
