package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"spudgate/plan/units"
	"spudgate/reports/terminal"
	"spudgate/rules"
	"spudgate/rules/basis"
	"spudgate/rules/books"
	"spudgate/rules/checks"
)

// requirements lists or explains what is judged.
func (c *command) requirements(args []string) (int, error) {
	f := c.flags("requirements [BOOK/ID]", "Lists what is judged, or explains requirements with their worked cases.")
	listBooks := f.Bool("books", false, "list the books")
	asked := f.StringArray("book", nil, "only these rulebooks: a built-in `NAME` or a file (repeat for several)")
	lint := f.String("check", "", "check a company's book, basis or variances, a JSON `FILE`")
	plan := f.String("for", "", "say what could be judged on a `PLAN` and what it waits for")
	stage := f.String("stage", "", "with --for: permit, programme or pre_spud")
	out := f.StringP("output", "o", "", "write the register to `FILE`: .json, .md or .xlsx")
	replace := f.Bool("replace", false, "overwrite an existing output")
	if err := parse(f, args); err != nil {
		return 0, err
	}
	if err := c.fitRegister(*out, *stage, *plan, *replace); err != nil {
		return 0, err
	}
	g, err := rules.NewRegistry(checks.All())
	if err != nil {
		return 0, err
	}
	b, err := basis.Default(units.Field)
	if err != nil {
		return 0, err
	}
	if *lint != "" {
		return c.lint(*lint, g, b)
	}
	all, err := listed(*asked, g, b)
	if err != nil {
		return 0, unfit{err}
	}
	reg := registerOf(all, g)
	if *plan != "" {
		if reg.For, err = c.covers(*plan, *stage, c.now().Format(time.DateOnly), *asked); err != nil {
			return 0, err
		}
		reg.Books = used(reg.Books, reg.For)
	}
	if *out != "" {
		return statusClear, writeRegister(*out, reg)
	}
	switch {
	case reg.For != nil:
		c.listCoverage(reg.For)
	case *listBooks:
		c.listBooks(all)
	case f.NArg() == 0:
		c.listRequirements(all)
	default:
		for _, id := range f.Args() {
			if !c.explain(all, g, id) {
				return 0, unfitf("found %q, expected the name of a requirement; spudgate requirements lists them", id)
			}
		}
	}
	return statusClear, nil
}

// fitRegister refuses options that can't be used before anything is read.
func (c *command) fitRegister(out, stage, plan string, replace bool) error {
	switch strings.ToLower(filepath.Ext(out)) {
	case ".json", ".md", ".xlsx":
	default:
		if out != "" {
			return unfitf("-o %s: found the ending %q, expected .json, .md or .xlsx", out, filepath.Ext(out))
		}
	}
	switch {
	case stage != "" && !slices.Contains([]string{"permit", "programme", "pre_spud"}, stage):
		return unfitf("--stage: found %q, expected permit, programme or pre_spud", stage)
	case stage != "" && plan == "":
		return unfitf("found --stage without --for, expected both: the stage is a plan's")
	case out == "":
		return nil
	}
	return mayWrite(out, replace, []string{plan})
}

// listed are the books asked for, or all that are built in.
func listed(asked []string, g *rules.Registry, b *basis.Basis) ([]*rules.Book, error) {
	names := asked
	if len(names) == 0 {
		names = books.Names()
	}
	var all []*rules.Book
	for _, n := range names {
		if slices.Contains(books.Names(), n) {
			book, err := books.Builtin(n, g, b.TypeOf)
			if err != nil {
				return nil, err
			}
			all = append(all, book)
			continue
		}
		raw, err := os.ReadFile(n)
		if err != nil {
			return nil, fmt.Errorf("--book %s: found neither a built-in book (%s) nor a file", n, strings.Join(books.Names(), ", "))
		}
		book, _, err := books.Own(filepath.Base(n), raw, g, b.TypeOf)
		if err != nil {
			return nil, err
		}
		all = append(all, book)
	}
	return all, nil
}

// columns is how wide the lists of books and requirements are.
const columns = 80

// hang prints a text behind a label, its further lines below its first.
func (c *command) hang(label string, indent int, text string) {
	for i, line := range terminal.Wrap(text, columns-indent) {
		if i > 0 {
			label = ""
		}
		fmt.Fprintf(c.out, "%-*s%s\n", indent, label, line)
	}
}

func (c *command) listBooks(all []*rules.Book) {
	room := 0
	for _, b := range all {
		room = max(room, len(b.ID)+2)
	}
	for _, b := range all {
		c.hang(b.ID, room, b.Title+". "+b.Publisher+".")
		c.hang("", room, "edition "+b.Edition+during(b.From, b.Until))
		fmt.Fprintf(c.out, "%-*s%d judged, %d for a person, %d not judged\n", room, "", len(b.Requirements), len(b.Person), len(b.Gaps))
	}
}

// during says from when until when a book is in force.
func during(from, until string) string {
	switch {
	case from != "" && until != "":
		return "; in force from " + from + " until " + until
	case from != "":
		return "; in force from " + from
	case until != "":
		return "; in force until " + until
	}
	return ""
}

func (c *command) listRequirements(all []*rules.Book) {
	for _, b := range all {
		c.hang(b.ID+":", len(b.ID)+2, b.Title)
		for i := range b.Requirements {
			r := &b.Requirements[i]
			c.hang(fmt.Sprintf("  %-30s %-11s ", r.ID, r.Grade), 45, r.Title)
		}
	}
}

func (c *command) explain(all []*rules.Book, g *rules.Registry, id string) bool {
	found := false
	for _, b := range all {
		for i := range b.Requirements {
			if r := &b.Requirements[i]; r.ID == id || r.Key() == id {
				found = true
				c.explainOne(r, g)
			}
		}
	}
	return found
}

func (c *command) explainOne(r *rules.Requirement, g *rules.Registry) {
	c.hang("", 0, r.Key()+": "+r.Title)
	fmt.Fprintln(c.out)
	c.hang("", 0, r.Text)
	fmt.Fprintln(c.out)
	fact := func(name, value string) {
		if value != "" {
			c.hang("  "+name, 13, value)
		}
	}
	fact("about", "each "+string(r.Subject))
	fact("when", r.When)
	fact("measure", r.Check)
	fact("is", strings.TrimSpace(string(r.Is)+" "+r.Limit+" "+r.Upper))
	fact("grade", string(r.Grade)+", asked from stage "+strings.ReplaceAll(string(r.Stage), "_", "-"))
	fact("stands in", r.Cite().String()+during(r.From, r.Until))
	fact("known", string(r.Sure))
	fact("mend", r.Remedy)
	fmt.Fprintln(c.out)
	c.hang("", 0, "The measure: "+g.Find(r.Check).Doc)
	c.listCases(entry(r, g).Cases)
	fmt.Fprintln(c.out)
}
