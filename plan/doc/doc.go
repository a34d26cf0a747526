// Package doc holds the positioned tree that every reader makes of a plan,
// whether it came as JSON or as a workbook, and the faults of what could not
// be read.
package doc

import (
	"slices"

	"spudgate/plan/place"
)

// Kind is the kind of a node.
type Kind uint8

// The kinds of node, as in JSON.
const (
	Null Kind = iota
	Bool
	Number
	String
	Array
	Object
)

var kindNames = [...]string{"nothing", "true or false", "a number", "text", "a list", "an object"}

func (k Kind) String() string { return kindNames[k] }

// Node is one value of the tree. A scalar keeps its text as written.
type Node struct {
	Kind    Kind
	Ref     place.Ref
	Text    string  // String: the text; Number: as written ("9.625", "1e3")
	Num     float64 // Number only, always finite
	Bool    bool
	Items   []*Node  // Array
	Members []Member // Object, in the order written
}

// Member is one named value of an object. KeyRef is where the name stands (in
// a workbook: the column header).
type Member struct {
	Key    string
	KeyRef place.Ref
	Value  *Node
}

// Get is the member called key, or nil.
func (n *Node) Get(key string) *Node {
	if n == nil {
		return nil
	}
	for i := range n.Members {
		if n.Members[i].Key == key {
			return n.Members[i].Value
		}
	}
	return nil
}

// Format names the container a document came in.
type Format string

// The containers that are read.
const (
	JSON     Format = "json"
	Workbook Format = "xlsx"
)

// Doc is one document: its tree, the table of places its Refs point into, and
// what the reader has to say about the file besides.
type Doc struct {
	File   string // base name, for reports
	Format Format
	SHA256 string // lower-case hex of the bytes read
	Root   *Node
	places []place.Place
	texts  []string

	// Unread lists what stood in the file and no part of the plan takes:
	// columns nobody knows, hidden sheets, macros, external links.
	Unread []Remark
}

// Remark is something said about a place, no fault and no finding.
type Remark struct {
	Place place.Place
	Text  string
}

// Add records a place with its text as written and gives its Ref. Ref zero is
// never given out.
func (d *Doc) Add(p place.Place, text string) place.Ref {
	if len(d.places) == 0 {
		d.places = append(d.places, place.Place{})
		d.texts = append(d.texts, "")
	}
	if p.File == "" {
		p.File = d.File
	}
	d.places = append(d.places, p)
	d.texts = append(d.texts, text)
	return place.Ref(len(d.places) - 1)
}

// Grow makes room for n more places at once.
func (d *Doc) Grow(n int) {
	d.places = slices.Grow(d.places, n+1)
	d.texts = slices.Grow(d.texts, n+1)
}

// Place looks a Ref up; an unknown Ref gives the zero Place.
func (d *Doc) Place(r place.Ref) place.Place {
	if d == nil || int(r) >= len(d.places) {
		return place.Place{}
	}
	return d.places[r]
}

// Text is what was written at r.
func (d *Doc) Text(r place.Ref) string {
	if d == nil || int(r) >= len(d.texts) {
		return ""
	}
	return d.texts[r]
}

// SetPath fills in the member path of a place once the whole tree is known.
func (d *Doc) SetPath(r place.Ref, path string) {
	if int(r) < len(d.places) && r != 0 {
		d.places[r].Path = path
	}
}
