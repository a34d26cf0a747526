package sheet

import (
	"strings"
	"unicode"

	"spudgate/plan/form"
	"spudgate/plan/units"
)

// heading is a column header or a row label that was understood: the field it
// names and what it says about bare numbers under it.
type heading struct {
	field *form.Field
	unit  string // symbol of the unit it names, "" for the plan's own
	datum string // what its depths are measured from, "" if it doesn't say
	alien string // a unit it names that the field can't have
	extra string // words in brackets that say nothing known
	close bool   // it's the field's own title, not one of its other names
}

// directory finds fields by folded name. A field's own title goes before the
// other names of another field, and a name as it stands before one that only
// differs by a plural s.
type directory struct {
	titles, others   map[string]*form.Field
	titles1, others1 map[string]*form.Field // in the singular
}

func directoryOf(fields []*form.Field) directory {
	m := func() map[string]*form.Field { return map[string]*form.Field{} }
	d := directory{m(), m(), m(), m()}
	add := func(to map[string]*form.Field, key string, f *form.Field) {
		if _, taken := to[key]; !taken {
			to[key] = f
		}
	}
	for _, f := range fields {
		add(d.titles, fold(f.Title), f)
		add(d.titles1, singular(fold(f.Title)), f)
		for _, name := range f.Also {
			add(d.others, fold(name), f)
			add(d.others1, singular(fold(name)), f)
		}
	}
	for _, f := range fields {
		add(d.others, fold(f.Name), f)
	}
	return d
}

func (d directory) find(name string) (f *form.Field, title bool) {
	key := fold(name)
	if key == "" {
		return nil, false
	}
	one := singular(key)
	for _, m := range []struct {
		in    map[string]*form.Field
		key   string
		title bool
	}{{d.titles, key, true}, {d.others, key, false}, {d.titles1, one, true}, {d.others1, one, false}} {
		if f := m.in[m.key]; f != nil {
			return f, m.title
		}
	}
	return nil, false
}

// heading understands a header, or gives false. The unit may stand in
// brackets, behind a comma, or as the last words; some names of the trade end
// in a unit themselves ("Burst psi"), and then it counts as well.
func (d directory) heading(text string) (heading, bool) {
	text = strings.Join(strings.Fields(text), " ")
	base, inner, bracketed := brackets(text)
	if f, title := d.find(text); f != nil {
		h := heading{field: f, close: title}
		if bracketed {
			h.say(inner)
		} else {
			h.unit = lastUnit(text, f)
		}
		return h, true
	}
	if f, title := d.find(base); bracketed && f != nil {
		h := heading{field: f, close: title}
		h.say(inner)
		return h, true
	}
	if i := strings.LastIndexByte(text, ','); i > 0 {
		if f, title := d.find(text[:i]); f != nil {
			h := heading{field: f, close: title}
			h.say(text[i+1:])
			return h, true
		}
	}
	return d.trailing(text)
}

// trailing understands a header that ends in a unit without a mark before it.
func (d directory) trailing(text string) (heading, bool) {
	for i := len(text); i > 0; {
		i = strings.LastIndexByte(text[:i], ' ')
		if i < 0 {
			break
		}
		f, title := d.find(text[:i])
		if f == nil {
			continue
		}
		if u, ok := units.ByName(text[i+1:]); ok && fits(f, u) {
			return heading{field: f, unit: u.Symbol, close: title}, true
		}
	}
	return heading{}, false
}

// brackets splits "Shoe (m)" or "Shoe [m]" or "Shoe (m) MD".
func brackets(s string) (base, inner string, ok bool) {
	open := strings.LastIndexAny(s, "([")
	if open < 0 {
		return s, "", false
	}
	shut := strings.IndexAny(s[open:], ")]")
	if shut < 0 {
		return s, "", false
	}
	return strings.TrimSpace(s[:open] + s[open+shut+1:]), strings.TrimSpace(s[open+1 : open+shut]), true
}

// lastUnit is the unit of the field's kind that s ends in, the longest run of
// last words that is one.
func lastUnit(s string, f *form.Field) string {
	words := strings.Split(s, " ")
	for n := min(len(words), 3); n > 0; n-- {
		tail := strings.Join(words[len(words)-n:], " ")
		if u, ok := units.ByName(tail); ok && fits(f, u) {
			return u.Symbol
		}
	}
	return ""
}

// fits reports whether a value of the field may be given in u. A force may be
// given as the mass that weighs it.
func fits(f *form.Field, u units.Unit) bool {
	switch f.Kind {
	case form.Quantity:
		_, ok := f.Dim.Join(u.Dim)
		return ok || f.Dim == units.Force && u.Dim == units.Mass
	case form.Grade:
		return u.Dim == units.Density || u.Dim == units.Gradient || u.Dim == units.Pressure
	case form.Free:
		return true
	}
	return false
}

// lines are words that say along which line or from where a depth is measured,
// as they stand behind a unit.
var lines = map[string]string{
	"md": "", "tvd": "", "ah": "", "emw": "", "along hole": "",
	"mdrt": "rotary", "mdrkb": "rotary", "mdkb": "rotary", "tvdrt": "rotary", "tvdrkb": "rotary", "ahrt": "rotary", "bdf": "rotary",
	"tvdss": "sea level", "ss": "sea level", "subsea": "sea level", "tvdmsl": "sea level",
	"tvdbml": "mudline", "bml": "mudline", "tvdbgl": "ground", "bgl": "ground",
}

// say takes in what stands in brackets: a unit, a line or datum, or both.
func (h *heading) say(inner string) {
	rest := inner
	if measured(h.field) || h.field.Kind == form.Free {
		rest = h.sayUnit(inner)
	}
	datum, ok := datumOf(rest)
	if h.datum = datum; !ok {
		h.extra = rest
	}
}

// sayUnit takes the unit from the front of the words, the longest that is one,
// and gives the words behind it.
func (h *heading) sayUnit(inner string) string {
	words := strings.FieldsFunc(inner, func(r rune) bool { return r == ',' || unicode.IsSpace(r) })
	for n := len(words); n > 0; n-- {
		unit := strings.Join(words[:n], " ")
		u, ok := units.ByName(unit)
		if !ok {
			u, ok = units.ByName(strings.TrimSuffix(unit, ".")) // "in." and "ft."
		}
		if !ok {
			continue
		}
		if fits(h.field, u) {
			h.unit = u.Symbol
		} else {
			h.alien = u.Symbol
		}
		return strings.Join(words[n:], " ")
	}
	// "mMD" and "mTVDSS" are one word to those who write them.
	for _, unit := range []string{"ft", "m"} {
		if line, ok := strings.CutPrefix(inner, unit); ok && line != "" {
			if _, known := datumOf(line); known && fits(h.field, must(unit)) {
				h.unit = unit
				return line
			}
		}
	}
	return inner
}

func must(symbol string) units.Unit {
	u, _ := units.ByName(symbol)
	return u
}

// datumOf is the datum that words name, "" for words that only name a line.
func datumOf(words string) (string, bool) {
	key := strings.ToLower(strings.TrimSpace(words))
	if key == "" {
		return "", true
	}
	if d, ok := lines[key]; ok {
		return d, true
	}
	for _, lead := range []string{"", "from ", "below ", "md ", "tvd "} {
		if d, ok := units.DatumByName(strings.TrimPrefix(key, lead)); ok {
			return strings.ReplaceAll(d, "_", " "), true
		}
	}
	return "", false
}
