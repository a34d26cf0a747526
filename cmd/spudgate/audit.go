package main

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"spudgate/plan"
	"spudgate/plan/doc"
	"spudgate/plan/read"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/reports/findings"
	"spudgate/reports/terminal"
	"spudgate/reports/workbook"
	"spudgate/rules"
	"spudgate/rules/basis"
	"spudgate/rules/books"
	"spudgate/rules/checks"
	"spudgate/rules/finding"
	"spudgate/rules/record"
	"spudgate/rules/whatif"
	"spudgate/schema"
)

// auditing holds the options of an audit.
type auditing struct {
	outputs []string
	books   []string
	basis   string
	varied  string
	proof   string
	stage   string
	asOf    string
	holdOn  string
	units   string
	all     bool
	quiet   bool
	replace bool
	color   string
}

func (a *auditing) register(f *pflag.FlagSet) {
	f.StringArrayVarP(&a.outputs, "output", "o", nil, "write `FILE`; its ending says what: .xlsx, .json (repeat for several)")
	f.StringArrayVar(&a.books, "book", nil, "add a rulebook: a built-in `NAME` or a file (repeat for several)")
	f.StringVar(&a.basis, "basis", "", "the company's design basis, a JSON `FILE`")
	f.StringVar(&a.varied, "variances", "", "variances granted, a JSON `FILE`")
	f.StringVar(&a.proof, "evidence", "", "what a person says of clauses only a person can judge, a JSON `FILE`")
	f.StringVar(&a.stage, "stage", "", "how far the plan has come: permit, programme or pre_spud")
	f.StringVar(&a.asOf, "as-of", "", "the audit's `DATE`, yyyy-mm-dd (default today)")
	f.StringVar(&a.holdOn, "hold-on", "major", "the gravest `GRADE` that may pass is below this: major, minor or observation")
	f.StringVar(&a.units, "units", "", "units of the report: field or metric (default the plan's)")
	f.BoolVar(&a.all, "all", false, "show every cause, the minors and what wasn't read")
	f.BoolVar(&a.quiet, "quiet", false, "print the outcome line only")
	f.BoolVar(&a.replace, "replace", false, "overwrite existing outputs")
	f.StringVar(&a.color, "color", "auto", "auto, always or never")
}

// audit judges plans; over several, the highest status wins.
func (c *command) audit(args []string) (int, error) {
	var a auditing
	f := c.flags("audit PLAN...", "Judges a plan (JSON or .xlsx) against a design basis and rulebooks.\nStatus 0 CLEAR, 1 HOLD, 2 something given can't be used, 3 our fault.")
	a.register(f)
	if err := parse(f, args); err != nil {
		return 0, err
	}
	if f.NArg() == 0 {
		return 0, unfitf("found no plan, expected the name of at least one")
	}
	if err := c.check(&a, f.Args()); err != nil {
		return 0, err
	}
	worst := statusClear
	for i, name := range f.Args() {
		status, err := c.auditFile(&a, name, i > 0)
		worst = max(worst, c.finish(status, err))
	}
	return worst, nil
}

// check refuses options that can't be used before anything is read.
func (c *command) check(a *auditing, plans []string) error {
	switch {
	case a.stage != "" && !slices.Contains([]string{"permit", "programme", "pre_spud"}, a.stage):
		return unfitf("--stage: found %q, expected permit, programme or pre_spud", a.stage)
	case !slices.Contains([]string{"major", "minor", "observation"}, a.holdOn):
		return unfitf("--hold-on: found %q, expected major, minor or observation", a.holdOn)
	case a.units != "" && a.units != "field" && a.units != "metric":
		return unfitf("--units: found %q, expected field or metric", a.units)
	case !slices.Contains([]string{"auto", "always", "never"}, a.color):
		return unfitf("--color: found %q, expected auto, always or never", a.color)
	case len(a.outputs) > 0 && len(plans) > 1:
		return unfitf("found %d plans and -o, expected one plan for one output", len(plans))
	}
	if a.asOf == "" {
		a.asOf = c.now().Format(time.DateOnly)
	} else if _, err := time.Parse(time.DateOnly, a.asOf); err != nil {
		return unfitf("--as-of: found %q, expected a date as yyyy-mm-dd", a.asOf)
	}
	for _, o := range a.outputs {
		if err := checkOutput(o, a.replace, plans); err != nil {
			return err
		}
	}
	return nil
}

func checkOutput(o string, replace bool, inputs []string) error {
	switch strings.ToLower(filepath.Ext(o)) {
	case ".xlsx", ".json":
	default:
		return unfitf("-o %s: found the ending %q, expected .xlsx or .json", o, filepath.Ext(o))
	}
	return mayWrite(o, replace, inputs)
}

// mayWrite refuses an output that is an input, or exists without --replace.
func mayWrite(o string, replace bool, inputs []string) error {
	info, err := os.Stat(o)
	if err != nil {
		return nil
	}
	for _, in := range inputs {
		if other, err := os.Stat(in); err == nil && os.SameFile(info, other) {
			return unfitf("%s: found an input, expected an output of its own: an input is never overwritten", o)
		}
	}
	if !replace {
		return unfitf("%s: found an existing file; --replace overwrites it", o)
	}
	return nil
}

func (c *command) auditFile(a *auditing, name string, again bool) (int, error) {
	docs, err := read.File(name)
	if err != nil {
		return 0, err
	}
	if len(docs) > 1 && len(a.outputs) > 0 {
		return 0, unfitf("%s holds %d wells and -o names one output; audit them one by one", name, len(docs))
	}
	worst := statusClear
	for i, d := range docs {
		if again || i > 0 {
			fmt.Fprintln(c.out)
		}
		status, err := c.auditDoc(a, d)
		worst = max(worst, c.finish(status, err))
	}
	return worst, nil
}

func (c *command) auditDoc(a *auditing, d *doc.Doc) (int, error) {
	r, p, err := c.judge(a, d)
	if err != nil {
		return 0, err
	}
	system := p.System
	if a.units != "" {
		system, _ = units.SystemByName(a.units)
	}
	if err := c.show(a, r, system); err != nil {
		return statusFailed, err
	}
	status := statusClear
	if r.Outcome.Word == finding.Hold {
		status = statusHold
	}
	if r.Outcome.Failed > 0 {
		status = statusFailed
	}
	for _, o := range a.outputs {
		if err := writeFile(o, func(w io.Writer) error {
			if strings.EqualFold(filepath.Ext(o), ".json") {
				return findings.Write(w, r)
			}
			return workbook.Write(w, r, system)
		}); err != nil {
			return statusFailed, err
		}
	}
	return status, nil
}

func (c *command) show(a *auditing, r *finding.Record, s units.System) error {
	columns := c.tty()
	if a.quiet {
		_, err := fmt.Fprintf(c.out, "%-5s  %s: %s\n", r.Outcome.Word, r.Well.Name, r.Outcome.Why)
		return err
	}
	color := a.color == "always" || (a.color == "auto" && columns > 0 && c.env("NO_COLOR") == "" && c.env("TERM") != "dumb")
	return terminal.Write(c.out, r, terminal.Options{Columns: min(max(columns, 80), 120), Units: s, All: a.all, Color: color})
}

// judge reads, checks and judges one document.
func (c *command) judge(a *auditing, d *doc.Doc) (*finding.Record, *plan.Plan, error) {
	faults := schema.Check(d)
	p, more := plan.Decode(d)
	if faults = append(faults, more...).Sort(); len(faults) > 0 {
		c.sayUnread(d) // a sheet nobody knew may be why something is missing
		return nil, nil, faults
	}
	b, sources, err := loadBasis(a.basis, p)
	if err != nil {
		return nil, nil, unfit{err}
	}
	g, err := rules.NewRegistry(checks.All())
	if err != nil {
		return nil, nil, err
	}
	list, own, unknown, err := loadBooks(a.books, p, g, b)
	if err != nil {
		return nil, nil, unfit{err}
	}
	o := rules.Options{Stage: finding.Programme, AsOf: a.asOf, HoldOn: finding.Grade(a.holdOn)}
	from := "default"
	switch {
	case a.stage != "":
		o.Stage, from = finding.Stage(a.stage), "option"
	case p.Well.Stage.Known():
		o.Stage, from = finding.Stage(p.Well.Stage.V), "plan"
	}
	w := well.New(p, b.Assumptions())
	e := rules.New(p, w, g, b, o)
	attached, unfitting := rules.Conditions(p, g, b.TypeOf, e.Subjects)
	if attached != nil {
		list = append(list, attached)
	}
	fs := append(e.All(list), unfitting...)
	granted := rules.PlanVariances(p)
	if a.varied != "" {
		raw, err := os.ReadFile(a.varied)
		if err != nil {
			return nil, nil, unfit{err}
		}
		vs, err := rules.ParseVariances(filepath.Base(a.varied), raw)
		if err != nil {
			return nil, nil, unfit{err}
		}
		granted = append(granted, vs...)
		sources = append(sources, source("variances", a.varied, raw))
	}
	fs = rules.Vary(fs, granted, list, p, o)
	rules.Govern(fs, list)
	for _, j := range unknown {
		f := rules.NoBook(j, books.Names(), p.Place(p.Well.Jurisdiction.Ref))
		fs = append(fs, f)
	}
	var answers []rules.Evidence
	if a.proof != "" {
		raw, err := os.ReadFile(a.proof)
		if err != nil {
			return nil, nil, unfit{err}
		}
		if answers, err = rules.ParseEvidence(filepath.Base(a.proof), raw); err != nil {
			return nil, nil, unfit{err}
		}
		sources = append(sources, source("evidence", a.proof, raw))
	}
	again := func(p *plan.Plan) *rules.Engine { return rules.New(p, well.New(p, b.Assumptions()), g, b, o) }
	bears := whatif.Excess(w, again, list, fs)
	r := record.Make(record.Input{Excess: bears, Plan: p, Well: w, Books: list, Basis: b, Sources: append(sources, own...), Options: o, StageFrom: from, Version: version()}, fs)
	rules.AnswerFromPlan(r, p)
	if err := rules.Answer(r, answers); err != nil {
		return nil, nil, unfit{err}
	}
	return r, p, nil
}

func loadBasis(file string, p *plan.Plan) (*basis.Basis, []finding.Source, error) {
	b, err := basis.Default(p.System)
	if err != nil {
		return nil, nil, err
	}
	var sources []finding.Source
	if file != "" {
		raw, err := os.ReadFile(file)
		if err != nil {
			return nil, nil, err
		}
		if err := b.Layer(filepath.Base(file), raw); err != nil {
			return nil, nil, err
		}
		sources = append(sources, source("basis", file, raw))
	}
	b.Hold(p)
	return b, sources, nil
}

func source(role, file string, raw []byte) finding.Source {
	sum := sha256.Sum256(raw)
	return finding.Source{Role: role, Name: filepath.Base(file), SHA256: hex.EncodeToString(sum[:])}
}

// loadBooks gathers the books: those every audit uses, those the plan's
// jurisdiction names, those asked for; unknown are the jurisdictions there is
// no book for.
func loadBooks(asked []string, p *plan.Plan, g *rules.Registry, b *basis.Basis) (list []*rules.Book, own []finding.Source, unknown []string, err error) {
	names := books.Always()
	for _, j := range strings.FieldsFunc(p.Well.Jurisdiction.V, func(r rune) bool { return r == ';' || r == ',' }) {
		j = strings.TrimSpace(j)
		switch {
		case j == "" || slices.Contains(names, j):
		case slices.Contains(books.Names(), j):
			names = append(names, j)
		default:
			unknown = append(unknown, j)
		}
	}
	var files []string
	for _, n := range asked {
		switch {
		case slices.Contains(names, n):
		case slices.Contains(books.Names(), n):
			names = append(names, n)
		default:
			files = append(files, n)
		}
	}
	for _, n := range names {
		book, err := books.Builtin(n, g, b.TypeOf)
		if err != nil {
			return nil, nil, nil, err
		}
		list = append(list, book)
	}
	for _, f := range files {
		raw, err := os.ReadFile(f)
		if err != nil {
			return nil, nil, nil, fmt.Errorf("--book %s: found neither a built-in book (%s) nor a file", f, strings.Join(books.Names(), ", "))
		}
		book, _, err := books.Own(filepath.Base(f), raw, g, b.TypeOf)
		if err != nil {
			return nil, nil, nil, err
		}
		list, own = append(list, book), append(own, source("book", f, raw))
		unknown = slices.DeleteFunc(unknown, func(j string) bool { return j == book.ID })
	}
	return list, own, unknown, nil
}

// writeFile writes to a temporary name beside the file and renames it, so that
// a failed write leaves nothing half done.
func writeFile(name string, write func(io.Writer) error) error {
	f, err := os.CreateTemp(filepath.Dir(name), ".spudgate-*")
	if err != nil {
		return fmt.Errorf("%s can't be written: %w", name, err)
	}
	defer os.Remove(f.Name())
	if err := write(f); err != nil {
		f.Close()
		return fmt.Errorf("%s: %w", name, err)
	}
	if err := f.Close(); err != nil {
		return fmt.Errorf("%s can't be written: %w", name, err)
	}
	if err := os.Chmod(f.Name(), 0o644); err != nil {
		return fmt.Errorf("%s can't be written: %w", name, err)
	}
	return os.Rename(f.Name(), name)
}
