package sheet

import (
	"fmt"
	"math/rand"
	"strconv"

	"spudgate/plan/doc"
	"spudgate/plan/form"
	"spudgate/plan/units"
)

// planMaker makes random plans that the form allows, by walking it.
type planMaker struct {
	*rand.Rand
	system units.System
	sparse int // how many of ten single values are left out
}

func randomPlan(seed int64) *doc.Doc {
	m := &planMaker{Rand: rand.New(rand.NewSource(seed))}
	m.system = units.System(m.Intn(2))
	m.sparse = m.Intn(10)
	root := m.object(form.Plan)
	set := func(key, text string) {
		root.Members = append(root.Members, doc.Member{Key: key, Value: &doc.Node{Kind: doc.String, Text: text}})
	}
	set("format", form.Plan.Field("format").Const)
	set("units", m.system.String())
	return &doc.Doc{File: "random.json", Format: doc.JSON, Root: root}
}

func (m *planMaker) object(o *form.Object) *doc.Node {
	n := &doc.Node{Kind: doc.Object}
	for i := range o.Fields {
		f := &o.Fields[i]
		if o == form.Plan && (f.Name == "format" || f.Name == "units") || f.Of == nil && m.Intn(10) < m.sparse {
			continue
		}
		n.Members = append(n.Members, doc.Member{Key: f.Name, Value: m.value(f)})
	}
	m.Shuffle(len(n.Members), func(i, j int) { n.Members[i], n.Members[j] = n.Members[j], n.Members[i] })
	return n
}

func (m *planMaker) value(f *form.Field) *doc.Node {
	switch f.Kind {
	case form.Card:
		return m.object(f.Of)
	case form.List:
		n := &doc.Node{Kind: doc.Array}
		for i := m.Intn(4); i > 0; i-- {
			n.Items = append(n.Items, m.object(f.Of))
		}
		return n
	case form.Flag:
		return &doc.Node{Kind: doc.Bool, Bool: m.Intn(2) == 0}
	case form.Whole:
		return numberNode(float64(m.Intn(1000)))
	case form.Choice:
		return textNode(f.Choices[m.Intn(len(f.Choices))])
	case form.Date:
		return textNode(fmt.Sprintf("%04d-%02d-%02d", 1000+m.Intn(3000), 1+m.Intn(12), 1+m.Intn(28)))
	case form.Text:
		return textNode(m.text())
	case form.Free:
		return []*doc.Node{m.number(), textNode(m.text()), textNode("3,200 ft"), textNode("1.32")}[m.Intn(4)]
	}
	return m.quantity(f)
}

func numberNode(x float64) *doc.Node {
	return &doc.Node{Kind: doc.Number, Num: x, Text: strconv.FormatFloat(x, 'g', -1, 64)}
}

func textNode(s string) *doc.Node { return &doc.Node{Kind: doc.String, Text: s} }

// awkward are texts that spreadsheet programs, XML or the reader might take for
// something else.
var awkward = []string{
	"7", "B", "2026-10-02", "9-5/8", "13 3/8 surface", "=1+1", "+7", "-5", "@SUM(A1)", "=HYPERLINK(\"x\")", "TRUE", "yes", "x", "1e5", "0.30000000000000004",
	"a\nb", "a\tb", "a\r\nb", " spaced ", "  ", "", "-", "n/a", "_x000D_", "_x005F_x000D_", "<b>&amp;\"'", "ünïcode ⅜ 井", "surface", "#1a", "Well", "Rig", "'quoted", "100%", "1,56",
}

func (m *planMaker) text() string {
	if m.Intn(3) > 0 {
		return awkward[m.Intn(len(awkward))]
	}
	b := make([]rune, 1+m.Intn(12))
	for i := range b {
		b[i] = []rune("aBc 0159-/_#&<>\"'=+@.,;:()[]%äß井\u00a0")[m.Intn(33)]
	}
	if _, ok := numbered(string(b)); ok {
		return "a"
	}
	return string(b)
}

func (m *planMaker) number() *doc.Node {
	switch m.Intn(4) {
	case 0:
		return numberNode(float64(m.Intn(20000)))
	case 1:
		return numberNode(float64(m.Intn(2000000)) / 1000)
	case 2:
		return numberNode(m.NormFloat64() * 1e3) // 17 digits
	}
	return numberNode([]float64{0, 1e300, 1e-300, -0.1, 0.30000000000000004, 123456789012345, 1e15, 1e21}[m.Intn(8)])
}

func (m *planMaker) quantity(f *form.Field) *doc.Node {
	x := strconv.FormatFloat(float64(m.Intn(100000))/100, 'f', -1, 64)
	unit := f.Unit[m.Intn(2)]
	switch m.Intn(6) {
	case 0:
		return textNode(x + " " + unit)
	case 1:
		return textNode(x)
	case 2:
		return textNode([]string{"9-5/8", "13 3/8", "13⅜", "9,850", "1e3", "+5", " 12.5 ", "9,850 " + unit, "5/8 " + unit, "1,56"}[m.Intn(10)])
	case 3:
		return textNode(x + " " + unit + " from sea level")
	}
	return m.number()
}
