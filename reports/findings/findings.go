// Package findings writes the audit record as a JSON document and reads it
// back: what programs consume, and what any other report can be written from
// without judging again.
package findings

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"

	"spudgate/rules/finding"
)

// Write writes the record as one JSON document, indented by two spaces and
// ended by a line feed. Numbers carry 12 significant digits; the same record
// gives the same bytes. It fails on a number that is none.
func Write(w io.Writer, r *finding.Record) error {
	out, err := rounded(r)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(out); err != nil {
		return fmt.Errorf("findings: %w", err)
	}
	_, err = w.Write(b.Bytes())
	return err
}

// rounded is a copy of the record whose margins carry 12 significant digits.
// Quantities see to that themselves.
func rounded(r *finding.Record) (*finding.Record, error) {
	out := *r
	out.Findings = slices.Clone(r.Findings)
	out.Strings = slices.Clone(r.Strings)
	var faults []error
	for i := range out.Findings {
		f := &out.Findings[i]
		margin, err := digits(f.Margin)
		f.Margin = margin
		faults = append(faults, err)
	}
	for i := range out.Strings {
		margin, err := digits(out.Strings[i].Margin)
		out.Strings[i].Margin = margin
		faults = append(faults, err)
	}
	return &out, errors.Join(faults...)
}

func digits(x *float64) (*float64, error) {
	if x == nil {
		return nil, nil
	}
	if math.IsNaN(*x) || math.IsInf(*x, 0) {
		return nil, errors.New("findings: a margin that is no number reached the record")
	}
	y, err := strconv.ParseFloat(strconv.FormatFloat(*x, 'g', 12, 64), 64)
	return &y, err
}
