package workbook

import (
	"bytes"
	"errors"
	"fmt"
	"runtime"
	"sync"

	"github.com/xuri/excelize/v2"

	"spudgate/reports/drawing"
)

// pictures are the drawings that stand in the workbook, each on a sheet of its
// own, as audited.
var pictures = []struct{ kind, sheet, about string }{
	{"schematic", "Schematic", "Well schematic as audited"},
	{"window", "Window", "Pore pressure, fracture pressure and mud as audited"},
	{"placement", "Placement drawn", "Cement placement of one stage as audited"},
}

// draw adds the drawings the record holds something for.
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
		sheet := b.sheetName(p.sheet)
		if _, err := f.NewSheet(sheet); err != nil {
			return err
		}
		if err := b.pictures(f, sheet, p.about, pages[:min(len(pages), mostPages)]); err != nil {
			return err
		}
		if left := len(pages) - mostPages; left > 0 {
			if err := f.SetCellStr(sheet, fmt.Sprintf("A%d", 1+mostPages*pageRows), fmt.Sprintf("and %d more, not drawn here", left)); err != nil {
				return err
			}
		}
	}
	return nil
}

const (
	pageRows  = 43 // rows of the usual height that a drawing covers
	mostPages = 12 // on a sheet
)

// pictures puts drawings on a sheet, one under the other. They are drawn at
// twice their size and shown at half of it.
func (b *book) pictures(f *excelize.File, sheet, about string, pages []*drawing.Scene) error {
	painted, err := b.painted(pages)
	if err != nil {
		return err
	}
	for i, png := range painted {
		at := fmt.Sprintf("A%d", 1+i*pageRows)
		if i > 0 {
			if err := f.InsertPageBreak(sheet, at); err != nil {
				return err
			}
		}
		if err := f.AddPictureFromBytes(sheet, at, &excelize.Picture{
			Extension: ".png", File: png,
			Format: &excelize.GraphicOptions{ScaleX: 0.5, ScaleY: 0.5, AltText: about, LockAspectRatio: true},
		}); err != nil {
			return err
		}
	}
	return onPages(f, sheet, len(painted))
}

// painted are the pages as PNG. Painting is what a workbook waits for, so that
// as many are painted at once as there are processors.
func (b *book) painted(pages []*drawing.Scene) ([][]byte, error) {
	out, errs := make([][]byte, len(pages)), make([]error, len(pages))
	gate := make(chan struct{}, runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	for i, page := range pages {
		gate <- struct{}{}
		all.Go(func() {
			defer func() { <-gate }()
			var png bytes.Buffer
			errs[i] = drawing.Write(&png, []*drawing.Scene{page}, ".png", b.record.AsOf)
			out[i] = png.Bytes()
		})
	}
	all.Wait()
	return out, errors.Join(errs...)
}

// onPages prints a sheet on upright pages, one for each drawing, without grid
// lines on screen. One alone fills its page. More stand between page breaks at
// their own size: fitted to a number of pages, programs cut where they like.
func onPages(f *excelize.File, sheet string, pages int) error {
	a4, one, upright, lines := 9, 1, "portrait", false
	layout := &excelize.PageLayoutOptions{Size: &a4, Orientation: &upright}
	if fit := pages == 1; fit {
		layout.FitToWidth, layout.FitToHeight = &one, &one
		if err := f.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &fit}); err != nil {
			return err
		}
	}
	if err := f.SetPageLayout(sheet, layout); err != nil {
		return err
	}
	side, edge, middle := 0.5, 0.4, true
	if err := f.SetPageMargins(sheet, &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &edge, Bottom: &edge, Horizontally: &middle}); err != nil {
		return err
	}
	return f.SetSheetView(sheet, 0, &excelize.ViewOptions{ShowGridLines: &lines})
}
