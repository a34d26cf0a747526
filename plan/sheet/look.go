package sheet

import (
	"spudgate/plan/form"

	"github.com/xuri/excelize/v2"
)

// The look: dark slate headers, white text, thin grey rules, nothing else.
const (
	slate = "2F3B47"
	pale  = "EEF1F4"
	rule  = "CBD2D9"
	grey  = "5B6670"
	face  = "Arial"
)

// look is the cell styles of one workbook.
type look struct {
	title, header, section     int
	plain, text, date          int // values: a number, a text, a date
	value                      int // a number among texts, in a card
	key                        int // names of records and of what they belong to
	label, small, body, strong int
}

const (
	asGeneral = 0
	asText    = 49 // a fraction or "7" typed here stays as typed
	asDate    = "yyyy-mm-dd"
)

// newLook adds the styles to a workbook.
func newLook(f *excelize.File) (look, error) {
	var l look
	under := []excelize.Border{{Type: "bottom", Color: rule, Style: 1}}
	date := asDate
	top := &excelize.Alignment{Vertical: "top", WrapText: true}
	for _, s := range []struct {
		to    *int
		style excelize.Style
	}{
		{&l.title, excelize.Style{Font: &excelize.Font{Family: face, Bold: true, Size: 16, Color: slate}}},
		{&l.header, excelize.Style{Font: &excelize.Font{Family: face, Bold: true, Size: 10, Color: "FFFFFF"}, Fill: solid(slate), Border: []excelize.Border{{Type: "right", Color: grey, Style: 1}}, Alignment: &excelize.Alignment{WrapText: true, Vertical: "center"}}},
		{&l.section, excelize.Style{Font: &excelize.Font{Family: face, Bold: true, Size: 11, Color: "FFFFFF"}, Fill: solid(slate), Alignment: &excelize.Alignment{Vertical: "center"}}},
		{&l.plain, excelize.Style{Font: &excelize.Font{Family: face, Size: 10}, Border: under, NumFmt: asGeneral}},
		{&l.text, excelize.Style{Font: &excelize.Font{Family: face, Size: 10}, Border: under, NumFmt: asText}},
		{&l.date, excelize.Style{Font: &excelize.Font{Family: face, Size: 10}, Border: under, CustomNumFmt: &date, Alignment: &excelize.Alignment{Horizontal: "left"}}},
		{&l.value, excelize.Style{Font: &excelize.Font{Family: face, Size: 10}, Border: under, Alignment: &excelize.Alignment{Horizontal: "left"}}},
		{&l.key, excelize.Style{Font: &excelize.Font{Family: face, Size: 10}, Fill: solid(pale), Border: under, NumFmt: asText}},
		{&l.label, excelize.Style{Font: &excelize.Font{Family: face, Size: 10}, Fill: solid(pale), Border: under}},
		{&l.small, excelize.Style{Font: &excelize.Font{Family: face, Size: 9, Color: grey}, Border: under, Alignment: top}},
		{&l.body, excelize.Style{Font: &excelize.Font{Family: face, Size: 10}, Alignment: top}},
		{&l.strong, excelize.Style{Font: &excelize.Font{Family: face, Bold: true, Size: 10, Color: slate}, Border: under, Alignment: top}},
	} {
		id, err := f.NewStyle(&s.style)
		if err != nil {
			return l, err
		}
		*s.to = id
	}
	return l, nil
}

func solid(color string) excelize.Fill {
	return excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{color}}
}

// of is the style of an empty cell for a field: names and sizes are text cells,
// so that a spreadsheet program leaves "7" and "9-5/8" as they are typed.
func (l *look) of(f *form.Field) int {
	switch {
	case f.Kind == form.Text || f.Kind == form.Free || f.Kind == form.Quantity && f.Small:
		return l.text
	case f.Kind == form.Date:
		return l.date
	}
	return l.plain
}
