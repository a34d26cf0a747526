package sheet

import (
	"bytes"
	"encoding/xml"
	"io"
	"path"
	"strconv"
	"strings"
	"unicode/utf8"

	"spudgate/plan/doc"
)

// scan walks the elements of a part; visit is called with each start element
// and may read on in the decoder. Names are compared without their namespace:
// the strict and the transitional form of the standard differ only in that.
func (a *archive) scan(part string, visit func(*xml.Decoder, xml.StartElement) error) error {
	b, ok := a.parts[part]
	switch {
	case !ok:
		return damaged(a.file, "no part "+doc.Quote(part))
	case len(b) > MaxPart:
		return whole(a.file, doc.Quote(part)+" of "+strconv.Itoa(len(b))+" bytes", "at most "+strconv.Itoa(MaxPart))
	}
	d := xml.NewDecoder(bytes.NewReader(b))
	for {
		t, err := d.Token()
		if err == io.EOF {
			return nil
		}
		if e, ok := t.(xml.StartElement); ok && err == nil {
			err = visit(d, e)
		}
		if err != nil {
			if fs, ok := err.(doc.Faults); ok {
				return fs
			}
			return damaged(a.file, doc.Quote(part)+" isn't well-formed")
		}
	}
}

// attr is the value of an attribute, "" if there is none.
func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// isTrue reads a boolean attribute.
func isTrue(s string) bool { return s == "1" || s == "true" || s == "on" }

// relations of a part: id to target, and the targets by the last word of
// their type.
type relations struct {
	byID   map[string]string
	byType map[string]string
}

// relations reads the relations of a part; a part without any has none.
func (a *archive) relations(part string) (relations, error) {
	dir, base := path.Split(part)
	rels := relations{map[string]string{}, map[string]string{}}
	name := dir + "_rels/" + base + ".rels"
	if _, ok := a.parts[name]; !ok {
		return rels, nil
	}
	return rels, a.scan(name, func(_ *xml.Decoder, e xml.StartElement) error {
		if e.Name.Local != "Relationship" || attr(e, "TargetMode") == "External" {
			return nil
		}
		target := attr(e, "Target")
		if !strings.HasPrefix(target, "/") {
			target = dir + target
		}
		rels.byID[attr(e, "Id")] = clean(target)
		kind := path.Base(attr(e, "Type"))
		if _, ok := rels.byType[kind]; !ok {
			rels.byType[kind] = clean(target)
		}
		return nil
	})
}

// text collects the text of the open element, rich text without its looks and
// without the reading aids of East Asian text. It stops collecting, not
// reading, behind the longest text a cell can hold; n counts on.
func text(d *xml.Decoder) (s string, n int, err error) {
	var b strings.Builder
	inT, skip := 0, 0
	for depth := 1; depth > 0; {
		t, err := d.Token()
		if err != nil {
			return "", 0, err
		}
		switch t := t.(type) {
		case xml.StartElement:
			depth++
			switch {
			case skip > 0 || t.Name.Local == "rPh":
				skip++
			case t.Name.Local == "t" || inT > 0:
				inT++
			}
		case xml.EndElement:
			depth--
			skip, inT = max(skip-1, 0), max(inT-1, 0)
		case xml.CharData:
			if inT > 0 && skip == 0 {
				if n += utf8.RuneCount(t); n <= MaxText {
					b.Write(t)
				}
			}
		}
	}
	return unescape(b.String()), n, nil
}

// unescape turns _x000D_ into the character it stands for (ECMA-376 part 1,
// 22.9.2.19, ST_Xstring).
func unescape(s string) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		if i+7 <= len(s) && s[i] == '_' && s[i+1] == 'x' && s[i+6] == '_' {
			if c, err := strconv.ParseUint(s[i+2:i+6], 16, 16); err == nil {
				b.WriteRune(rune(c))
				i += 6
				continue
			}
		}
		b.WriteByte(s[i])
	}
	return b.String()
}
