package main

import (
	"io"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"spudgate/plan/read"
	"spudgate/plan/units"
	"spudgate/reports/drawing"
	"spudgate/rules/finding"
)

// draw writes a drawing of a plan.
func (c *command) draw(args []string) (int, error) {
	a := auditing{holdOn: "major", asOf: c.now().Format(time.DateOnly)}
	f := c.flags("draw PLAN OUT --of schematic|window|loads|placement", "Draws a plan as OUT's ending says: .svg, .png or .pdf. Of the loads it draws one\npage for each string, of the placement one for each cement stage: all in one\nfile, or one string's by its name.")
	of := f.String("of", "", "what to draw: `schematic`, window, loads or placement")
	only := f.String("string", "", "of loads or placement, only those of the string called `NAME`")
	f.StringArrayVar(&a.books, "book", nil, "add a rulebook, whose factors the loads are held against (repeat for several)")
	f.StringVar(&a.basis, "basis", "", "the company's design basis, a JSON `FILE`")
	f.StringVar(&a.units, "units", "", "units of the drawing: field or metric (default the plan's)")
	f.StringVar(&a.asOf, "as-of", a.asOf, "the audit's `DATE`, yyyy-mm-dd")
	f.BoolVar(&a.replace, "replace", false, "overwrite an existing file")
	if err := parse(f, args); err != nil {
		return 0, err
	}
	if f.NArg() != 2 {
		return 0, unfitf("found %d names, expected a plan and an output", f.NArg())
	}
	name, out := f.Arg(0), f.Arg(1)
	if err := checkDrawing(&a, *of, *only, name, out); err != nil {
		return 0, err
	}
	pages, err := c.pages(&a, name, *of, *only)
	if err != nil {
		return 0, err
	}
	return statusClear, writeFile(out, func(w io.Writer) error {
		return drawing.Write(w, pages, strings.ToLower(filepath.Ext(out)), a.asOf)
	})
}

// checkDrawing refuses options that can't be used before anything is read.
func checkDrawing(a *auditing, of, only, name, out string) error {
	switch {
	case !slices.Contains(drawing.Kinds(), of):
		return unfitf("--of: found %q, expected one of %s", of, strings.Join(drawing.Kinds(), ", "))
	case only != "" && of != "loads" && of != "placement":
		return unfitf("--string: found with --of %s, expected it with --of loads or placement", of)
	case !slices.Contains(drawing.Formats(), strings.ToLower(filepath.Ext(out))):
		return unfitf("%s: found the ending %q, expected one of %s", out, filepath.Ext(out), strings.Join(drawing.Formats(), ", "))
	}
	if a.units != "" {
		if _, ok := units.SystemByName(a.units); !ok {
			return unfitf("--units: found %q, expected field or metric", a.units)
		}
	}
	if _, err := time.Parse(time.DateOnly, a.asOf); err != nil {
		return unfitf("--as-of: found %q, expected a date as yyyy-mm-dd", a.asOf)
	}
	return mayWrite(out, a.replace, []string{name})
}

// pages judges the one well of a file and draws it.
func (c *command) pages(a *auditing, name, of, only string) ([]*drawing.Scene, error) {
	docs, err := read.File(name)
	if err != nil {
		return nil, err
	}
	if len(docs) != 1 {
		return nil, unfitf("%s holds %d wells, expected one to draw", name, len(docs))
	}
	r, p, err := c.judge(a, docs[0])
	if err != nil {
		return nil, err
	}
	system := p.System
	if a.units != "" {
		system, _ = units.SystemByName(a.units)
	}
	if only != "" {
		if err := narrow(&r.Drawings, of, only); err != nil {
			return nil, err
		}
	}
	pages, err := drawing.Draw(r, of, system)
	if err != nil {
		return nil, unfit{err}
	}
	return pages, nil
}

// narrow leaves only what is drawn of one string.
func narrow(d *finding.Drawings, of, only string) error {
	var names []string
	keep := func(name string) bool {
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
		return strings.EqualFold(name, only)
	}
	left := 0
	if of == "loads" {
		d.Loads = slices.DeleteFunc(d.Loads, func(l finding.StringLoads) bool { return !keep(l.Name) })
		left = len(d.Loads)
	} else {
		d.Placement = slices.DeleteFunc(d.Placement, func(p finding.Placement) bool { return !keep(p.String) })
		left = len(d.Placement)
	}
	if left == 0 {
		return unfitf("--string: found %q, expected one of %s", only, strings.Join(names, ", "))
	}
	return nil
}
