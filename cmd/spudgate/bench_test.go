package main

import (
	"bytes"
	"io"
	"os"
	"testing"

	"spudgate/plan"
	"spudgate/plan/read"
	"spudgate/plan/units"
	"spudgate/plan/well"
	"spudgate/reports/workbook"
	"spudgate/rules/basis"
	"spudgate/schema"
)

// The three steps whose time a user feels: reading and checking the form,
// judging, writing the workbook.

func BenchmarkFormCheck(b *testing.B) {
	raw, err := os.ReadFile(demo + "harrow-fen-a.json")
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(raw)))
	for b.Loop() {
		docs, err := read.Bytes("a.json", raw)
		if err != nil {
			b.Fatal(err)
		}
		if faults := schema.Check(docs[0]); len(faults) > 0 {
			b.Fatal(faults)
		}
		if _, faults := plan.Decode(docs[0]); len(faults) > 0 {
			b.Fatal(faults)
		}
	}
}

func BenchmarkAudit(b *testing.B) {
	docs, err := read.File(demo + "harrow-fen-a.json")
	if err != nil {
		b.Fatal(err)
	}
	c := &command{out: io.Discard, errs: io.Discard}
	a := &auditing{asOf: "2026-11-25", holdOn: "major"}
	findings := 0
	for b.Loop() {
		r, _, err := c.judge(a, docs[0])
		if err != nil {
			b.Fatal(err)
		}
		findings = len(r.Findings)
	}
	b.ReportMetric(float64(findings), "findings")
}

func BenchmarkWorkbook(b *testing.B) {
	r, _ := audited(b, demo+"harrow-fen-a.json")
	var out bytes.Buffer
	for b.Loop() {
		out.Reset()
		if err := workbook.Write(&out, r, units.Field); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(out.Len()), "bytes")
}

// BenchmarkStrength judges every load case of every string of the seven-string
// deviated plan and prints how many places that is.
func BenchmarkStrength(b *testing.B) {
	docs, err := read.File(demo + "harrow-fen-a.json")
	if err != nil {
		b.Fatal(err)
	}
	p, faults := plan.Decode(docs[0])
	if len(faults) > 0 {
		b.Fatal(faults)
	}
	bs, err := basis.Default(p.System)
	if err != nil {
		b.Fatal(err)
	}
	places := 0
	for b.Loop() {
		w := well.New(p, bs.Assumptions())
		places = 0
		for i := range p.Strings {
			for _, c := range well.StrengthCases() {
				if r, err := w.Strength(i, c); err == nil {
					places += len(r.Lines)
				}
			}
		}
	}
	b.ReportMetric(float64(places), "places")
}
