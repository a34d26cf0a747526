// Package form is the list of the fields of a plan, as a table made from
// schema/plan.schema.json: readers, the form check, the template and the
// decoder all walk this one table.
package form

import "spudgate/plan/units"

// Kind says what a field holds.
type Kind uint8

// The kinds of field.
const (
	Text     Kind = iota // free text
	Flag                 // true or false; yes or no in a workbook
	Whole                // a whole number, not negative
	Date                 // yyyy-mm-dd
	Choice               // one of Choices
	Quantity             // a number with a unit
	Grade                // a density, a gradient or a pressure, as written
	Free                 // a number or a text, kept as written
	Card                 // one object
	List                 // a list of objects, each a row of a sheet
)

// Field is one member of an object.
type Field struct {
	Name     string // member name in JSON
	Title    string // column header or row label in a workbook
	About    string
	Kind     Kind
	Required bool
	Dim      units.Dim // Quantity
	Small    bool      // Quantity: a size, shown in inches or millimetres
	Unit     [2]string // Quantity, Grade: unit of a bare number, by units.System
	Min, Max float64   // Quantity: the range of values a plan can have, SI
	// ZeroUnknown marks a number that plans write as 0 where they mean that it
	// isn't known: a mud weight, a rating, a test pressure.
	ZeroUnknown bool
	Choices     []string // Choice
	Words       []Word   // Choice: other words people write for them in a workbook
	Const       string   // Text that must read exactly so
	Also        []string // other names of the header
	Example     string   // as written in JSON, without quotes
	Sheet       string   // Card, List: the sheet it stands on
	Of          *Object  // Card, List
}

// Word is what people write in a workbook for a choice.
type Word struct{ Text, Choice string }

// Ranged reports whether the field limits its value.
func (f *Field) Ranged() bool { return f.Min != 0 || f.Max != 0 }

// Object is a record of named fields.
type Object struct {
	Name   string // name in the schema
	Title  string
	Fields []Field
}

// Field finds a member by name, or nil.
func (o *Object) Field(name string) *Field {
	for i := range o.Fields {
		if o.Fields[i].Name == name {
			return &o.Fields[i]
		}
	}
	return nil
}

// NameField is the field by which other sheets and findings refer to a record
// of this kind, or nil where records have no name.
func (o *Object) NameField() *Field { return o.Field("name") }

// Bare is the unit of a bare number of this field in a plan of the given
// system.
func (f *Field) Bare(s units.System) units.Unit {
	u, _ := units.ByName(f.Unit[s])
	return u
}
