package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
)

// schema is the part of the JSON Schema the generator reads, members in the
// order they stand in the file.
type schema struct {
	Root    object
	Objects []object // $defs, in order
}

type object struct {
	Name, Title string
	Fields      []field
	required    map[string]bool
}

type field struct {
	Name       string
	Title      string            `json:"title"`
	About      string            `json:"description"`
	Type       any               `json:"type"`
	Format     string            `json:"format"`
	Enum       []string          `json:"enum"`
	Words      map[string]string `json:"words"` // other words for a choice
	Const      string            `json:"const"`
	Quantity   string            `json:"quantity"`
	Unit       map[string]string `json:"unit"`
	Range      []float64         `json:"range"`
	Zero       string            `json:"zero"`
	Also       []string          `json:"also"`
	Examples   []any             `json:"examples"`
	Sheet      string            `json:"sheet"`
	Ref        string            `json:"$ref"`
	Items      *field            `json:"items"`
	Required   bool              `json:"-"`
	exampleRaw string
}

// of is the name of the object a card or list holds.
func (f field) of() string {
	ref := f.Ref
	if f.Items != nil {
		ref = f.Items.Ref
	}
	return strings.TrimPrefix(ref, "#/$defs/")
}

// kind is the form.Kind constant of the field.
func (f field) kind() string {
	t, _ := f.Type.(string)
	switch {
	case f.Items != nil:
		return "List"
	case f.Ref != "":
		return "Card"
	case f.Quantity == "grade":
		return "Grade"
	case f.Quantity != "":
		return "Quantity"
	case t == "boolean":
		return "Flag"
	case t == "integer":
		return "Whole"
	case f.Format == "date":
		return "Date"
	case len(f.Enum) > 0:
		return "Choice"
	case t == "string":
		return "Text"
	}
	return "Free"
}

func parse(raw []byte) (*schema, error) {
	var top struct {
		Title      string          `json:"title"`
		Properties json.RawMessage `json:"properties"`
		Required   []string        `json:"required"`
		Defs       json.RawMessage `json:"$defs"`
	}
	if err := json.Unmarshal(raw, &top); err != nil {
		return nil, err
	}
	s := &schema{}
	var err error
	if s.Root, err = parseObject("plan", top.Title, top.Properties, top.Required); err != nil {
		return nil, err
	}
	names, bodies, err := ordered(top.Defs)
	if err != nil {
		return nil, err
	}
	for i, n := range names {
		var d struct {
			Title      string          `json:"title"`
			Properties json.RawMessage `json:"properties"`
			Required   []string        `json:"required"`
		}
		if err := json.Unmarshal(bodies[i], &d); err != nil {
			return nil, fmt.Errorf("%s: %w", n, err)
		}
		o, err := parseObject(n, d.Title, d.Properties, d.Required)
		if err != nil {
			return nil, err
		}
		s.Objects = append(s.Objects, o)
	}
	return s, nil
}

func parseObject(name, title string, props json.RawMessage, required []string) (object, error) {
	o := object{Name: name, Title: title, required: map[string]bool{}}
	for _, r := range required {
		o.required[r] = true
	}
	names, bodies, err := ordered(props)
	if err != nil {
		return o, fmt.Errorf("%s: %w", name, err)
	}
	for i, n := range names {
		var f field
		if err := json.Unmarshal(bodies[i], &f); err != nil {
			return o, fmt.Errorf("%s.%s: %w", name, n, err)
		}
		f.Name, f.Required = n, o.required[n]
		if len(f.Examples) > 0 {
			b, _ := json.Marshal(f.Examples[0])
			f.exampleRaw = strings.Trim(string(b), `"`)
		}
		o.Fields = append(o.Fields, f)
	}
	return o, nil
}

// ordered splits a JSON object into its members, in order.
func ordered(raw json.RawMessage) (names []string, bodies []json.RawMessage, err error) {
	d := json.NewDecoder(bytes.NewReader(raw))
	if _, err := d.Token(); err != nil {
		return nil, nil, err
	}
	for d.More() {
		t, err := d.Token()
		if err != nil {
			return nil, nil, err
		}
		var b json.RawMessage
		if err := d.Decode(&b); err != nil {
			return nil, nil, err
		}
		names, bodies = append(names, t.(string)), append(bodies, b)
	}
	return names, bodies, nil
}
