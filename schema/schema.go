// Package schema holds the forms of the documents that are read, as JSON
// Schema 2020-12, and checks the form of a plan against its own.
//
// The schema file is the one list of fields. The table in plan/form is made
// from it; so are the typed plan and the reference page.
package schema

import (
	"embed"
	"strings"
)

//go:generate go run ./gen

const ending = ".schema.json"

//go:embed *.schema.json
var files embed.FS

// Names lists the schemas, in order of name.
func Names() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		return nil // an embedded root can always be listed
	}
	names := make([]string, len(entries))
	for i, e := range entries {
		names[i] = strings.TrimSuffix(e.Name(), ending)
	}
	return names
}

// Text is the schema called name, as it stands in its file, and whether there
// is one.
func Text(name string) ([]byte, bool) {
	b, err := files.ReadFile(name + ending)
	return b, err == nil
}
