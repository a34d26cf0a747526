package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/read"
	"spudgate/plan/sheet"
	"spudgate/plan/units"
	"spudgate/reports/findings"
	"spudgate/reports/workbook"
	"spudgate/rules"
	"spudgate/rules/basis"
	"spudgate/schema"
)

// template writes an empty plan.
func (c *command) template(args []string) (int, error) {
	f := c.flags("template OUT.xlsx|OUT.json", "Writes an empty plan to fill in (.xlsx), or an example of one (.json); a design\nbasis or variances to start from (.json).")
	of := f.String("of", "plan", "plan, basis or variances")
	system := f.String("units", "field", "field or metric")
	replace := f.Bool("replace", false, "overwrite an existing file")
	if err := parse(f, args); err != nil {
		return 0, err
	}
	s, ok := units.SystemByName(*system)
	switch {
	case f.NArg() != 1:
		return 0, unfitf("found %d names, expected one output", f.NArg())
	case !ok:
		return 0, unfitf("--units: found %q, expected field or metric", *system)
	}
	out := f.Arg(0)
	if err := checkOutput(out, *replace, nil); err != nil {
		return 0, err
	}
	isJSON := strings.EqualFold(filepath.Ext(out), ".json")
	switch {
	case *of != "plan" && *of != "basis" && *of != "variances":
		return 0, unfitf("--of: found %q, expected plan, basis or variances", *of)
	case *of != "plan" && !isJSON:
		return 0, unfitf("%s: a template of %s ends in .json", out, *of)
	}
	return statusClear, writeFile(out, func(w io.Writer) error {
		switch *of {
		case "basis":
			return basis.Template(w, s)
		case "variances":
			_, err := io.WriteString(w, rules.VarianceTemplate)
			return err
		}
		if isJSON {
			return sheet.TemplateJSON(w, s)
		}
		return sheet.Template(w, s)
	})
}

// convert writes a plan in the other form, nothing lost.
func (c *command) convert(args []string) (int, error) {
	f := c.flags("convert IN OUT", "Writes a plan in the form OUT's ending names: .json or .xlsx. Nothing is lost: a\nplan converted there and back is the same.")
	replace := f.Bool("replace", false, "overwrite an existing file")
	if err := parse(f, args); err != nil {
		return 0, err
	}
	if f.NArg() != 2 {
		return 0, unfitf("found %d names, expected an input and an output", f.NArg())
	}
	in, out := f.Arg(0), f.Arg(1)
	if err := checkOutput(out, *replace, []string{in}); err != nil {
		return 0, err
	}
	docs, err := read.File(in)
	if err != nil {
		return 0, err
	}
	if len(docs) != 1 {
		return 0, unfitf("%s holds %d wells, expected one", in, len(docs))
	}
	if faults := schema.Check(docs[0]); len(faults) > 0 {
		return 0, faults
	}
	c.sayUnread(docs[0])
	return statusClear, writeFile(out, func(w io.Writer) error {
		if strings.EqualFold(filepath.Ext(out), ".json") {
			_, err := w.Write(sheet.Canonical(docs[0]))
			return err
		}
		return sheet.Write(w, docs[0])
	})
}

// sayUnread tells what a conversion leaves behind.
func (c *command) sayUnread(d *doc.Doc) {
	for _, u := range d.Unread {
		fmt.Fprintf(c.errs, "%s: not read: %s\n", u.Place.Full(), u.Text)
	}
}

// report writes reports from an audit on record.
func (c *command) report(args []string) (int, error) {
	var a auditing
	f := c.flags("report FINDINGS.json", "Writes reports from the findings of an audit, without judging again.")
	f.StringArrayVarP(&a.outputs, "output", "o", nil, "write `FILE`; its ending says what: .xlsx, .json (repeat for several)")
	f.StringVar(&a.units, "units", "", "units of the report: field or metric (default the plan's)")
	f.BoolVar(&a.all, "all", false, "show every cause, the minors and what wasn't read")
	f.BoolVar(&a.quiet, "quiet", false, "print the outcome line only")
	f.BoolVar(&a.replace, "replace", false, "overwrite existing outputs")
	f.StringVar(&a.color, "color", "auto", "auto, always or never")
	if err := parse(f, args); err != nil {
		return 0, err
	}
	if f.NArg() != 1 {
		return 0, unfitf("found %d names, expected one findings document", f.NArg())
	}
	a.holdOn = "major"
	if err := c.check(&a, f.Args()); err != nil {
		return 0, err
	}
	raw, err := os.ReadFile(f.Arg(0))
	if err != nil {
		return 0, unfit{err}
	}
	r, err := findings.Read(raw)
	if err != nil {
		return 0, unfitf("%s: %w", f.Arg(0), err)
	}
	name := r.Well.Units
	if a.units != "" {
		name = a.units
	}
	s, _ := units.SystemByName(name)
	if err := c.show(&a, r, s); err != nil {
		return statusFailed, err
	}
	for _, o := range a.outputs {
		if err := writeFile(o, func(w io.Writer) error {
			if strings.EqualFold(filepath.Ext(o), ".json") {
				return findings.Write(w, r)
			}
			return workbook.Write(w, r, s)
		}); err != nil {
			return statusFailed, err
		}
	}
	return statusClear, nil
}

// schema prints the form of a document.
func (c *command) schema(args []string) (int, error) {
	f := c.flags("schema NAME", "Prints the JSON Schema of a document: "+strings.Join(schema.Names(), ", ")+".")
	if err := parse(f, args); err != nil {
		return 0, err
	}
	if f.NArg() != 1 {
		return 0, unfitf("found %d names, expected one of %s", f.NArg(), strings.Join(schema.Names(), ", "))
	}
	text, ok := schema.Text(f.Arg(0))
	if !ok {
		return 0, unfitf("found %q, expected one of %s", f.Arg(0), strings.Join(schema.Names(), ", "))
	}
	_, err := c.out.Write(text)
	return statusClear, err
}
