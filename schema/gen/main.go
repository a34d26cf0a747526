// Command gen makes, from plan.schema.json, the table of fields
// (plan/form/form_gen.go), the typed plan (plan/model_gen.go) and the
// reference page (schema/README.md). Run it by go generate ./...
package main

import (
	"bytes"
	"fmt"
	"go/format"
	"log"
	"os"
)

func main() {
	log.SetFlags(0)
	raw, err := os.ReadFile("plan.schema.json")
	if err != nil {
		log.Fatal(err)
	}
	s, err := parse(raw)
	if err != nil {
		log.Fatal("plan.schema.json: ", err)
	}
	for _, out := range []struct {
		file string
		make func(*schema) []byte
		go_  bool
	}{
		{"../plan/form/form_gen.go", table, true},
		{"../plan/model_gen.go", model, true},
		{"README.md", page, false},
	} {
		b := out.make(s)
		if out.go_ {
			if b, err = format.Source(b); err != nil {
				log.Fatal(out.file, ": ", err)
			}
		}
		if old, err := os.ReadFile(out.file); err == nil && bytes.Equal(old, b) {
			continue
		}
		if err := os.WriteFile(out.file, b, 0o644); err != nil {
			log.Fatal(err)
		}
		fmt.Println("wrote", out.file)
	}
}
