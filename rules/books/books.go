// Package books loads rulebooks: the built-in ones, each a folder of JSON
// files (book.json with its head, the others with its requirements by family),
// and a company's own, one JSON file.
package books

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"path"

	"spudgate/plan/expr"
	"spudgate/plan/units"
	"spudgate/rules"
)

//go:embed */*.json
var builtin embed.FS

// Names lists the built-in books.
func Names() []string {
	dirs, _ := builtin.ReadDir(".")
	out := make([]string, 0, len(dirs))
	for _, d := range dirs {
		out = append(out, d.Name())
	}
	return out
}

// Always are the books every audit uses.
func Always() []string { return []string{"consistency", "good-practice"} }

// Builtin reads a built-in book and compiles it.
func Builtin(name string, g *rules.Registry, basis func(string) (expr.Type, bool)) (*rules.Book, error) {
	files, err := fs.Glob(builtin, name+"/*.json")
	if err != nil || len(files) == 0 {
		return nil, fmt.Errorf("there is no built-in book called %q", name)
	}
	var b rules.Book
	head, err := builtin.ReadFile(path.Join(name, "book.json"))
	if err != nil {
		return nil, err
	}
	if err := decode(head, &b); err != nil {
		return nil, fmt.Errorf("%s/book.json: %w", name, err)
	}
	for _, f := range files {
		if path.Base(f) == "book.json" {
			continue
		}
		raw, err := builtin.ReadFile(f)
		if err != nil {
			return nil, err
		}
		var part []rules.Requirement
		if err := decode(raw, &part); err != nil {
			return nil, fmt.Errorf("%s: %w", f, err)
		}
		b.Requirements = append(b.Requirements, part...)
	}
	return &b, b.Compile(g, basis)
}

// Own reads a company's book from the bytes of one file and compiles it; it
// gives the digest of the bytes too.
func Own(file string, raw []byte, g *rules.Registry, basis func(string) (expr.Type, bool)) (*rules.Book, string, error) {
	var b rules.Book
	if err := decode(raw, &b); err != nil {
		return nil, "", fmt.Errorf("%s: %w", file, err)
	}
	if err := b.Compile(g, basis); err != nil {
		return nil, "", fmt.Errorf("%s: %w", file, err)
	}
	sum := sha256.Sum256(raw)
	return &b, hex.EncodeToString(sum[:]), nil
}

func decode(raw []byte, into any) error {
	d := json.NewDecoder(bytes.NewReader(raw))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		return err
	}
	if d.More() {
		return fmt.Errorf("text after the end")
	}
	return nil
}

// ParseGiven reads a value of a case inside a requirement: true or false, a
// text, or a quantity with its unit.
func ParseGiven(t expr.Type, text string) (expr.Value, error) {
	switch t.Kind {
	case expr.Text:
		return expr.TextOf(text), nil
	case expr.Truth:
		if text != "true" && text != "false" {
			return expr.Value{}, fmt.Errorf("found %q, expected true or false", text)
		}
		return expr.TruthOf(text == "true"), nil
	}
	w, err := units.Parse(text)
	if err != nil {
		return expr.Value{}, err
	}
	one, _ := units.ByName("1")
	dim := units.None
	if w.HasUnit {
		dim = w.Unit.Dim
	}
	if _, ok := dim.Join(t.Dim); !ok {
		return expr.Value{}, fmt.Errorf("found %q, expected %s", text, t.Dim)
	}
	return expr.Number(w.SI(one), t.Dim), nil
}

// Given reads the values of cases by the types of checks and basis fields.
func Given(g *rules.Registry, b interface {
	TypeOf(string) (expr.Type, bool)
}) func(name, text string) (expr.Value, error) {
	return func(name, text string) (expr.Value, error) {
		if t, ok := b.TypeOf(name); ok {
			return ParseGiven(t, text)
		}
		if c := g.Find(name); c != nil {
			return ParseGiven(c.Type, text)
		}
		return expr.Value{}, fmt.Errorf("nothing is called %q", name)
	}
}
