package workbook

import (
	"spudgate/rules/finding"
)

// layBasis lays the design basis, the books and the files that the audit rests
// on.
func (b *book) layBasis() *grid {
	g := &grid{name: "Basis", columns: []float64{34, 50, 16, 22, 24}}
	g.top("Design basis: "+b.record.Basis.Name, b.record)
	g.heads(words("Value"), words("What it is for"), numbers("Used"), words("From"), words("For"))
	for i := range b.record.Basis.Values {
		v := &b.record.Basis.Values[i]
		g.add(text(v.Name, plain), text(v.About, plain), b.basisValue(v, g.columns[2]), text(v.From, fromLook(v)), text(v.For, plain))
	}
	b.layBooks(g)
	b.layFiles(g)
	return g
}

func (b *book) basisValue(v *finding.BasisLine, width float64) cell {
	if v.Value.Quantity == nil {
		return text(v.Value.Show(b.units), number)
	}
	return fitting(b.figure(*v.Value.Quantity).fully(), width, "")
}

// fromLook sets off what isn't the tool's own default.
func fromLook(v *finding.BasisLine) look {
	if v.From == "default" {
		return faint
	}
	return strong
}

func (b *book) layBooks(g *grid) {
	g.high(10)
	g.add(text("Judged against", section).over(5))
	g.add(words("Book"), words("Title"), words("Edition"), words("Publisher"), words("Requirements; clauses for a person"))
	for _, k := range b.record.Books {
		about := count(k.Judged, "requirement", "requirements") + "; " + count(k.ByPerson, "clause", "clauses")
		g.add(text(k.ID, strong), text(k.Title, plain), text(k.Edition, plain), text(k.Publisher, plain), text(about, plain))
	}
}

func (b *book) layFiles(g *grid) {
	g.high(10)
	g.add(text("Files the audit rests on", section).over(5))
	g.add(words("File"), words("SHA-256 of its bytes").over(3), words("Read as"))
	for _, s := range b.record.Inputs {
		g.add(text(s.Name, strong), text(s.SHA256, plain).over(3), text(s.Role, plain))
	}
}
