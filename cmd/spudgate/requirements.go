package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"spudgate/plan/units"
	"spudgate/rules"
	"spudgate/rules/basis"
	"spudgate/rules/books"
	"spudgate/rules/checks"
	"spudgate/rules/finding"
)

// requirements lists or explains what is judged.
func (c *command) requirements(args []string) (int, error) {
	f := c.flags("requirements [BOOK/ID]", "Lists what is judged, or explains one requirement with its worked cases.")
	listBooks := f.Bool("books", false, "list the books")
	lint := f.String("check", "", "check a company's book or basis, a JSON `FILE`")
	if err := parse(f, args); err != nil {
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
	var all []*rules.Book
	for _, n := range books.Names() {
		book, err := books.Builtin(n, g, b.TypeOf)
		if err != nil {
			return 0, err
		}
		all = append(all, book)
	}
	switch {
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

// lint checks a company's book or basis.
func (c *command) lint(file string, g *rules.Registry, b *basis.Basis) (int, error) {
	raw, err := os.ReadFile(file)
	if err != nil {
		return 0, unfit{err}
	}
	name := filepath.Base(file)
	if strings.Contains(string(raw), basis.Format) {
		if err := b.Layer(name, raw); err != nil {
			return 0, unfit{err}
		}
		fmt.Fprintf(c.out, "%s: a basis called %s, nothing wrong with it\n", name, b.Name)
		return statusClear, nil
	}
	book, _, err := books.Own(name, raw, g, b.TypeOf)
	if err != nil {
		return 0, unfit{err}
	}
	tried, wrong := 0, 0
	for i := range book.Requirements {
		r := &book.Requirements[i]
		for _, cs := range r.Cases {
			tried++
			got, err := r.Try(cs, books.Given(g, b))
			if err != nil || got != cs.Gives {
				wrong++
				fmt.Fprintf(c.errs, "%s: %s, case %q: gives %s %v, expected %s\n", name, r.Key(), cs.Case, got, err, cs.Gives)
			}
		}
	}
	if wrong > 0 {
		return 0, unfitf("%s: %d of %d cases give another verdict", name, wrong, tried)
	}
	fmt.Fprintf(c.out, "%s: %d requirements, %d cases, nothing wrong with it\n", name, len(book.Requirements), tried)
	return statusClear, nil
}

func (c *command) listBooks(all []*rules.Book) {
	for _, b := range all {
		fmt.Fprintf(c.out, "%-22s %s, %s, edition %s\n", b.ID, b.Title, b.Publisher, b.Edition)
		fmt.Fprintf(c.out, "%-22s %d judged, %d for a person, %d not judged yet\n", "", len(b.Requirements), len(b.Person), len(b.Gaps))
	}
}

func (c *command) listRequirements(all []*rules.Book) {
	for _, b := range all {
		fmt.Fprintf(c.out, "%s: %s\n", b.ID, b.Title)
		for i := range b.Requirements {
			r := &b.Requirements[i]
			fmt.Fprintf(c.out, "  %-38s %-12s %-10s %s\n", r.ID, r.Grade, r.Subject, r.Title)
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
	w := c.out
	fmt.Fprintf(w, "%s: %s\n\n%s\n\n", r.Key(), r.Title, r.Text)
	fact := func(name, value string) {
		if value != "" {
			fmt.Fprintf(w, "  %-10s %s\n", name, value)
		}
	}
	fact("about", "each "+string(r.Subject))
	fact("when", r.When)
	fact("measure", r.Check)
	fact("is", strings.TrimSpace(string(r.Is)+" "+r.Limit+" "+r.Upper))
	fact("grade", string(r.Grade)+", asked from stage "+strings.ReplaceAll(string(r.Stage), "_", "-"))
	fact("stands in", r.Cite().String())
	fact("known", string(r.Sure))
	fact("mend", r.Remedy)
	fmt.Fprintf(w, "\nThe measure: %s\n\nCases\n", g.Find(r.Check).Doc)
	for _, cs := range r.Cases {
		var given []string
		for _, n := range append([]string{r.Check}, r.Names()...) {
			if v, ok := cs.Given[n]; ok {
				given = append(given, n+" "+v)
			}
		}
		fmt.Fprintf(w, "  %s: %s\n      %s\n", cs.Case, finding.Verdict(cs.Gives), strings.Join(given, ", "))
	}
	fmt.Fprintln(w)
}
