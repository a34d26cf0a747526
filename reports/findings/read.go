package findings

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"

	"spudgate/rules/finding"
)

// Read reads what Write wrote. It refuses a document of another format, of
// members or words that the format doesn't know, or with anything behind it;
// the error says where.
func Read(b []byte) (*finding.Record, error) {
	if !utf8.Valid(b) {
		return nil, errors.New("findings: not UTF-8 text")
	}
	if err := checkFormat(b); err != nil {
		return nil, err
	}
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	r := &finding.Record{}
	if err := d.Decode(r); err != nil {
		return nil, located(b, d.InputOffset(), err)
	}
	if _, err := d.Token(); err != io.EOF {
		return nil, located(b, d.InputOffset(), errors.New("something follows the document"))
	}
	return r, checkWords(r)
}

// checkFormat looks at the format alone, so that a document of another kind is
// refused by its name and not by the first member that differs.
func checkFormat(b []byte) error {
	var head struct {
		Format string `json:"format"`
	}
	d := json.NewDecoder(bytes.NewReader(b))
	if err := d.Decode(&head); err != nil {
		return located(b, d.InputOffset(), err)
	}
	if head.Format != finding.Format {
		return fmt.Errorf("findings: format %q, expected %q", head.Format, finding.Format)
	}
	return nil
}

// located puts line and column in front of an error, counted from 1 in code
// points.
func located(b []byte, offset int64, err error) error {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		offset = syntax.Offset
	case errors.As(err, &kind):
		offset = kind.Offset
	}
	before := b[:min(max(offset, 0), int64(len(b)))]
	line := bytes.Count(before, []byte{'\n'}) + 1
	column := utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:]) + 1
	return fmt.Errorf("findings: %d:%d: %w", line, column, err)
}

// checkWords holds the words that a report decides by to those of the format.
func checkWords(r *finding.Record) error {
	if r.Outcome.Word != finding.Clear && r.Outcome.Word != finding.Hold {
		return fmt.Errorf("findings: outcome %q, expected %s or %s", r.Outcome.Word, finding.Clear, finding.Hold)
	}
	for i := range r.Findings {
		f := &r.Findings[i]
		switch f.Verdict {
		case finding.Met, finding.NotMet, finding.NotAssessed, finding.NotApplicable, finding.Varied:
		default:
			return fmt.Errorf("findings: %s: unknown verdict %q", f.Key, f.Verdict)
		}
		switch f.Grade {
		case finding.Major, finding.Minor, finding.Observation:
		default:
			return fmt.Errorf("findings: %s: unknown grade %q", f.Key, f.Grade)
		}
	}
	return nil
}
