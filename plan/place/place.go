// Package place says where in a plan document a value stands: a line and
// column of a JSON text, or a sheet and cell of a workbook.
package place

import "strconv"

// Ref is an index into the table of places of one document. Zero means
// "nowhere": the value was absent. Four bytes, so that every typed leaf of a
// plan can carry one and copying a plan stays cheap.
type Ref uint32

// Place is a position a person can go to. Exactly one of the two forms is
// filled: Line and Column (both from 1, columns counted in Unicode code
// points) for JSON, Sheet and Cell (A1 form) for a workbook.
type Place struct {
	File   string `json:"file,omitempty"`
	Line   int    `json:"line,omitempty"`
	Column int    `json:"column,omitempty"`
	Sheet  string `json:"sheet,omitempty"`
	Cell   string `json:"cell,omitempty"`
	// Path is the member path of the value, such as strings[2].segments[0].od.
	Path string `json:"path,omitempty"`
}

// Zero reports whether p names no position at all.
func (p Place) Zero() bool { return p.Line == 0 && p.Cell == "" && p.Sheet == "" }

// String gives the short form used in reports: "12:7" or "Strings!F9".
// The file is left out: a report names it once.
func (p Place) String() string {
	switch {
	case p.Sheet != "" && p.Cell != "":
		return p.Sheet + "!" + p.Cell
	case p.Sheet != "":
		return p.Sheet
	case p.Line != 0 && p.Column != 0:
		return strconv.Itoa(p.Line) + ":" + strconv.Itoa(p.Column)
	case p.Line != 0:
		return strconv.Itoa(p.Line)
	}
	return ""
}

// Full is String with the file in front, for faults, where several files may
// be in play.
func (p Place) Full() string {
	s := p.String()
	switch {
	case p.File == "":
		return s
	case s == "":
		return p.File
	case p.Sheet != "":
		return p.File + " " + s
	}
	return p.File + ":" + s
}

// Less orders places within one document: by line and column, or by sheet
// name, row and column.
func Less(a, b Place) bool {
	if a.Line != b.Line {
		return a.Line < b.Line
	}
	if a.Column != b.Column {
		return a.Column < b.Column
	}
	if a.Sheet != b.Sheet {
		return a.Sheet < b.Sheet
	}
	ar, ac := cellOrder(a.Cell)
	br, bc := cellOrder(b.Cell)
	if ar != br {
		return ar < br
	}
	if ac != bc {
		return ac < bc
	}
	return a.Path < b.Path
}

// cellOrder turns an A1 name into row and column numbers; an unreadable name
// sorts first.
func cellOrder(cell string) (row, col int) {
	i := 0
	for ; i < len(cell) && cell[i] >= 'A' && cell[i] <= 'Z'; i++ {
		col = col*26 + int(cell[i]-'A'+1)
	}
	row, _ = strconv.Atoi(cell[i:])
	return row, col
}
