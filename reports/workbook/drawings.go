package workbook

import (
	"bytes"
	"errors"

	"github.com/xuri/excelize/v2"

	"spudgate/reports/drawing"
)

// pictures are the drawings that stand in the workbook, each on a sheet of its
// own, as audited.
var pictures = []struct{ kind, sheet, about string }{
	{"schematic", "Schematic", "Well schematic as audited"},
	{"window", "Window", "Pore pressure, fracture pressure and mud as audited"},
}

// draw adds the drawings the record holds something for. They are drawn at
// twice their size and shown at half of it.
func (b *book) draw(f *excelize.File) error {
	for _, p := range pictures {
		pages, err := drawing.Draw(b.record, p.kind, b.units)
		var empty drawing.Empty
		if errors.As(err, &empty) {
			continue
		}
		if err != nil {
			return err
		}
		var png bytes.Buffer
		if err := drawing.Write(&png, pages, ".png", b.record.AsOf); err != nil {
			return err
		}
		sheet := b.sheetName(p.sheet)
		if _, err := f.NewSheet(sheet); err != nil {
			return err
		}
		if err := f.AddPictureFromBytes(sheet, "A1", &excelize.Picture{
			Extension: ".png", File: png.Bytes(),
			Format: &excelize.GraphicOptions{ScaleX: 0.5, ScaleY: 0.5, AltText: p.about, LockAspectRatio: true},
		}); err != nil {
			return err
		}
		if err := onePage(f, sheet); err != nil {
			return err
		}
	}
	return nil
}

// onePage prints a sheet on one upright page, without grid lines on screen.
func onePage(f *excelize.File, sheet string) error {
	a4, one, upright := 9, 1, "portrait"
	fit, lines := true, false
	if err := f.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
		return err
	}
	if err := f.SetPageLayout(sheet, &excelize.PageLayoutOptions{Size: &a4, Orientation: &upright, FitToWidth: &one, FitToHeight: &one}); err != nil {
		return err
	}
	return f.SetSheetView(sheet, 0, &excelize.ViewOptions{ShowGridLines: &lines})
}
