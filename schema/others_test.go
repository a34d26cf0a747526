package schema_test

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v5"

	"spudgate/schema"
)

func compiled(t *testing.T, name string) *jsonschema.Schema {
	t.Helper()
	text, ok := schema.Text(name)
	if !ok {
		t.Fatalf("no schema called %s", name)
	}
	c := jsonschema.NewCompiler()
	c.AssertFormat = true
	if err := c.AddResource(name, bytes.NewReader(text)); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(name)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func value(t *testing.T, raw []byte) any {
	t.Helper()
	var v any
	if err := json.Unmarshal(raw, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// The built-in books, put together as one document each, have the form of a
// book; a book with a member nobody knows hasn't.
func TestBooks(t *testing.T) {
	s := compiled(t, "book")
	heads, err := filepath.Glob("../rules/books/*/book.json")
	if err != nil || len(heads) < 3 {
		t.Fatal(heads, err)
	}
	for _, head := range heads {
		raw, err := os.ReadFile(head)
		if err != nil {
			t.Fatal(err)
		}
		book := value(t, raw).(map[string]any)
		parts, err := filepath.Glob(filepath.Join(filepath.Dir(head), "*.json"))
		if err != nil {
			t.Fatal(err)
		}
		list, _ := book["requirements"].([]any)
		for _, p := range parts {
			if filepath.Base(p) == "book.json" {
				continue
			}
			raw, err := os.ReadFile(p)
			if err != nil {
				t.Fatal(err)
			}
			list = append(list, value(t, raw).([]any)...)
		}
		book["requirements"] = list
		if err := s.Validate(book); err != nil {
			t.Errorf("%s: %#v", head, err)
		}
		book["publishers"] = "two"
		if s.Validate(book) == nil {
			t.Errorf("%s: an unknown member is accepted", head)
		}
	}
}

func TestBasisAndVariances(t *testing.T) {
	for name, texts := range map[string][2]string{
		"basis": {`{"format":"spudgate-basis/1","name":"a","values":{"burst":1.2,"lap":"30 m"},"for":[{"role":"production","values":{"burst":"1.25"}}]}`,
			`{"format":"spudgate-basis/1","name":"a","values":{"burst":true}}`},
		"variances": {`{"format":"spudgate-variances/1","variances":[{"requirement":"b/r","subject":"s","kind":"agency","expires":"2027-01-01"}]}`,
			`{"format":"spudgate-variances/1","variances":[{"requirement":"b/r","subject":"s","kind":"agency","expires":"soon"}]}`},
		"evidence": {`{"format":"spudgate-evidence/1","evidence":[{"book":"b","text":"Mud is","by":"a","date":"2026-11-20","reference":"r"}]}`,
			`{"format":"spudgate-evidence/1","evidence":[{"book":"b","text":"Mud is","by":"a","date":"soon","reference":"r"}]}`},
		"findings": {`{"format":"spudgate-findings/1","tool":{"name":"spudgate","version":"1"},"as_of":"2026-11-25","caution":"c","well":{"name":"w","stage":"permit","stage_from":"plan","units":"field"},"inputs":[],"books":[],"basis":{"name":"b","values":[]},"outcome":{"word":"CLEAR","why":"x"},"strings":[],"waiting":[],"findings":[],"notes":[],"unread":[],"tables":[]}`,
			`{"format":"spudgate-findings/1","outcome":{"word":"MAYBE","why":"x"}}`},
	} {
		s := compiled(t, name)
		if err := s.Validate(value(t, []byte(texts[0]))); err != nil {
			t.Errorf("%s: %#v", name, err)
		}
		if s.Validate(value(t, []byte(texts[1]))) == nil {
			t.Errorf("%s accepts %s", name, texts[1])
		}
	}
	if got := strings.Join(schema.Names(), " "); got != "basis book evidence findings plan variances" {
		t.Errorf("schemas: %s", got)
	}
}
