package read

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"spudgate/plan/doc"
	"spudgate/plan/place"
)

// parser builds trees from the tokens of one text. Scalars and names are
// slices of that text, not copies.
type parser struct {
	name   string
	digest string
	text   string
	dec    *jsontext.Decoder
	at     cursor
	doc    *doc.Doc      // being built
	open   []place.Place // where the objects and lists around the cursor begin
	values int
	faults doc.Faults
	stop   bool // reading on makes no sense

	scratch []byte // for texts with escapes, one after the other
}

// token is one token and where it stands.
type token struct {
	kind       jsontext.Kind
	start, end int
	place      place.Place
}

func newParser(name string, b []byte, text string) *parser {
	sum := sha256.Sum256(b)
	plain := b[len(b)-len(text):]
	return &parser{
		name:   name,
		digest: hex.EncodeToString(sum[:]),
		text:   text,
		// Repeated names are looked for here, so that all of them are said,
		// each with both places. A bytes.Buffer is read in place.
		dec: jsontext.NewDecoder(bytes.NewBuffer(plain), jsontext.AllowDuplicateNames(true)),
	}
}

// one reads the text as a single document.
func (p *parser) one() (*doc.Doc, error) {
	t, ok := p.next()
	if ok {
		p.begin(t)
	}
	docs, err := p.finish(p.doc)
	if err != nil {
		return nil, err
	}
	return docs[0], nil
}

// plans reads an object as one document, a list as one document an item.
func (p *parser) plans() ([]*doc.Doc, error) {
	t, ok := p.next()
	if !ok || t.kind != '[' {
		if ok {
			p.begin(t)
		}
		return p.finish(p.doc)
	}
	var docs []*doc.Doc
	p.open = append(p.open, t.place)
	for item, ok := p.next(); ok && item.kind != ']'; item, ok = p.next() {
		p.begin(item)
		docs = append(docs, p.doc)
	}
	p.open = nil
	if len(docs) == 0 && !p.stop {
		p.fault(t.place, "an empty list", "at least one plan in it")
	}
	return p.finish(docs...)
}

// begin starts a document whose root begins with t.
func (p *parser) begin(t token) {
	p.doc = &doc.Doc{File: p.name, Format: doc.JSON, SHA256: p.digest}
	if len(p.open) == 0 { // a plan by itself: about one place for every 18 bytes
		p.doc.Grow(min(len(p.text)/18, 2*MaxValues))
	}
	p.doc.Root = p.value(t, "")
}

// finish makes sure that nothing follows and gives either documents or faults.
func (p *parser) finish(docs ...*doc.Doc) ([]*doc.Doc, error) {
	if !p.stop {
		p.nothingLeft()
	}
	if len(p.faults) > 0 {
		return nil, p.faults.Sort()
	}
	return docs, nil
}

func (p *parser) nothingLeft() {
	start := skipSpace(p.text, int(p.dec.InputOffset()))
	if _, err := p.dec.ReadToken(); err == io.EOF {
		return
	}
	p.at.move(p.text, start)
	p.fatal(p.at.place(p.name), word(p.text[start:]), "nothing after the end of the plan")
}

// next reads a token; false means that reading is over.
func (p *parser) next() (token, bool) {
	if p.stop {
		return token{}, false
	}
	from := int(p.dec.InputOffset())
	tok, err := p.dec.ReadToken()
	if err != nil {
		p.syntax(from, err)
		return token{}, false
	}
	start := skipBetween(p.text, from)
	p.at.move(p.text, start)
	return token{tok.Kind(), start, int(p.dec.InputOffset()), p.at.place(p.name)}, true
}

// value builds the node that begins with t.
func (p *parser) value(t token, path string) *doc.Node {
	t.place.Path = path
	if p.values++; p.values > MaxValues {
		p.fatal(t.place, "one value more", fmt.Sprintf("at most %d values in a file", MaxValues))
		return nil
	}
	switch t.kind {
	case '{', '[':
		return p.container(t)
	case '"':
		s := p.string(t)
		return &doc.Node{Kind: doc.String, Text: s, Ref: p.doc.Add(t.place, s)}
	case '0':
		return p.number(t)
	}
	n := &doc.Node{Kind: doc.Null, Ref: p.doc.Add(t.place, p.text[t.start:t.end])}
	if t.kind != 'n' {
		n.Kind, n.Bool = doc.Bool, t.kind == 't'
	}
	return n
}

func (p *parser) container(t token) *doc.Node {
	n := &doc.Node{Kind: doc.Object, Ref: p.doc.Add(t.place, "")}
	if p.open = append(p.open, t.place); len(p.open) > MaxDepth {
		p.fatal(t.place, "one more object or list inside the others", fmt.Sprintf("at most %d inside one another", MaxDepth))
		return n
	}
	if t.kind == '{' {
		p.members(n, t.place.Path)
	} else {
		n.Kind = doc.Array
		p.items(n, t.place.Path)
	}
	p.open = p.open[:len(p.open)-1]
	return n
}

func (p *parser) items(n *doc.Node, path string) {
	for t, ok := p.next(); ok && t.kind != ']'; t, ok = p.next() {
		item := path + "[" + strconv.Itoa(len(n.Items)) + "]"
		n.Items = append(n.Items, p.value(t, item))
	}
}

func (p *parser) members(n *doc.Node, path string) {
	var seen names
	for k, ok := p.next(); ok && k.kind != '}'; k, ok = p.next() {
		m := doc.Member{Key: p.string(k)}
		k.place.Path = p.join(k.place, path, m.Key)
		first := seen.find(n.Members, m.Key)
		m.KeyRef = p.doc.Add(k.place, m.Key)
		t, ok := p.next()
		if !ok {
			return
		}
		m.Value = p.value(t, k.place.Path)
		if first >= 0 {
			was := p.doc.Place(n.Members[first].KeyRef)
			p.fault(k.place, "member "+doc.Quote(m.Key)+" again", "each member once: the first is at "+was.String())
			continue
		}
		n.Members = append(n.Members, m)
	}
	p.remarkCase(n)
}

// join adds a member to a path. Paths are kept for every value, so a long one
// must not be allowed to multiply.
func (p *parser) join(at place.Place, path, name string) string {
	if len(name) > MaxName {
		p.fatal(at, "a member name of "+strconv.Itoa(len(name))+" bytes", fmt.Sprintf("at most %d", MaxName))
		return path
	}
	switch {
	case !plainName(name):
		quoted, _ := jsontext.AppendQuote(nil, name)
		path += "[" + string(quoted) + "]"
	case path == "":
		path = name
	default:
		path += "." + name
	}
	if len(path) > MaxPath {
		p.fatal(at, "a member path of "+strconv.Itoa(len(path))+" bytes", fmt.Sprintf("at most %d", MaxPath))
	}
	return path
}

// plainName reports whether a path can show name without quotes.
func plainName(name string) bool {
	for i, c := range []byte(name) {
		letter := c == '_' || 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z'
		if !letter && (i == 0 || c < '0' || c > '9') {
			return false
		}
	}
	return name != ""
}

// string is the text of a string token.
func (p *parser) string(t token) string {
	if t.end-t.start-2 > MaxText {
		p.fault(t.place, fmt.Sprintf("a text of %d bytes", t.end-t.start-2), fmt.Sprintf("at most %d", MaxText))
		return ""
	}
	raw := p.text[t.start+1 : t.end-1]
	if strings.IndexByte(raw, '\\') < 0 {
		return raw
	}
	// The decoder has accepted the token, so this can't fail.
	p.scratch, _ = jsontext.AppendUnquote(p.scratch[:0], p.text[t.start:t.end])
	if i := bytes.IndexFunc(p.scratch, unprintable); i >= 0 {
		p.fault(t.place, fmt.Sprintf("the control character U+%04X in a text", p.scratch[i]), "text that can be printed")
	}
	return string(p.scratch)
}

// unprintable reports the control characters that neither a workbook nor a
// page can hold; tab and line ends are fine. Raw ones aren't JSON at all, so
// only an escape can bring them in.
func unprintable(r rune) bool { return r < ' ' && r != '\t' && r != '\n' && r != '\r' }

func (p *parser) number(t token) *doc.Node {
	raw := p.text[t.start:t.end]
	if len(raw) > MaxNumber {
		p.fault(t.place, fmt.Sprintf("a number of %d characters", len(raw)), fmt.Sprintf("at most %d", MaxNumber))
		return nil
	}
	x, err := strconv.ParseFloat(raw, 64)
	if err != nil || math.IsInf(x, 0) {
		p.fault(t.place, raw, "a number below 1.8e308")
	}
	if mantissa, _, _ := strings.Cut(strings.ToLower(raw), "e"); x == 0 && strings.ContainsAny(mantissa, "123456789") {
		p.fault(t.place, raw, "0, or a number that can be told from it")
	}
	return &doc.Node{Kind: doc.Number, Text: raw, Num: x, Ref: p.doc.Add(t.place, raw)}
}

// fault notes something that doesn't keep the rest from being read.
func (p *parser) fault(at place.Place, found, expected string) {
	p.faults = append(p.faults, doc.Fault{Place: at, Found: found, Expected: expected})
	if len(p.faults) == MaxFaults {
		p.fatal(at, strconv.Itoa(MaxFaults)+" faults", "these mended first: reading stopped here")
	}
}

// fatal notes the last thing that can be said.
func (p *parser) fatal(at place.Place, found, expected string) {
	if p.stop {
		return
	}
	p.stop = true
	p.faults = append(p.faults, doc.Fault{Place: at, Found: found, Expected: expected})
}
