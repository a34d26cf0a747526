package sheet

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"strings"
	"testing"
)

// A workbook for tests is put together from the parts of the standard by hand,
// so that the reader is tried against what no writer of ours makes.

type tab struct {
	name  string
	rows  [][]any
	state string // hidden, veryHidden
	extra string // XML behind the rows
}

// Cells of special kinds; a string, a float64 or a bool stands for itself, nil
// for no cell.
type (
	formatted struct { // a number in a number format
		x    float64
		code string
	}
	rawCell string // XML of a cell, %s where its name goes
)

type packer struct {
	b bytes.Buffer
	z *zip.Writer
}

func newPacker() *packer {
	p := &packer{}
	p.z = zip.NewWriter(&p.b)
	return p
}

func (p *packer) add(name, content string) *packer {
	w, _ := p.z.Create(name)
	_, _ = w.Write([]byte(content))
	return p
}

func (p *packer) bytes() []byte {
	_ = p.z.Close()
	return p.b.Bytes()
}

const mainNS = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"`

func packTabs(tabs ...tab) *packer {
	p := newPacker()
	p.add("_rels/.rels", `<Relationships><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`)
	var list, rels, formats, xfs strings.Builder
	codes := map[string]int{}
	for i, t := range tabs {
		fmt.Fprintf(&list, `<sheet name="%s" sheetId="%d" state="%s" r:id="rId%d"/>`, escaped(t.name), i+1, t.state, i+1)
		fmt.Fprintf(&rels, `<Relationship Id="rId%d" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet%d.xml"/>`, i+1, i+1)
		p.add(fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1), "<worksheet "+mainNS+`><dimension ref="A1"/><sheetData>`+rowsXML(t.rows, codes)+"</sheetData>"+t.extra+"</worksheet>")
	}
	byID := make([]string, len(codes)+1)
	for code, id := range codes {
		byID[id] = code
	}
	xfs.WriteString(`<xf numFmtId="0"/>`)
	for id, code := range byID[1:] {
		fmt.Fprintf(&formats, `<numFmt numFmtId="%d" formatCode="%s"/>`, 164+id, escaped(code))
		fmt.Fprintf(&xfs, `<xf numFmtId="%d"/>`, 164+id)
	}
	fmt.Fprintf(&rels, `<Relationship Id="s" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="/xl/styles.xml"/>`)
	p.add("xl/styles.xml", "<styleSheet "+mainNS+"><numFmts>"+formats.String()+`</numFmts><cellStyleXfs><xf numFmtId="14"/></cellStyleXfs><cellXfs>`+xfs.String()+"</cellXfs></styleSheet>")
	p.add("xl/workbook.xml", "<workbook "+mainNS+"><sheets>"+list.String()+"</sheets></workbook>")
	return p.add("xl/_rels/workbook.xml.rels", "<Relationships>"+rels.String()+"</Relationships>")
}

func escaped(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}

func rowsXML(rows [][]any, codes map[string]int) string {
	var b strings.Builder
	for i, row := range rows {
		fmt.Fprintf(&b, `<row r="%d">`, i+1)
		for j, v := range row {
			b.WriteString(cellXML(name(j+1, i+1), v, codes))
		}
		b.WriteString("</row>")
	}
	return b.String()
}

func cellXML(ref string, v any, codes map[string]int) string {
	switch v := v.(type) {
	case nil:
		return ""
	case string:
		return fmt.Sprintf(`<c r="%s" t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`, ref, escaped(v))
	case bool:
		return fmt.Sprintf(`<c r="%s" t="b"><v>%d</v></c>`, ref, map[bool]int{true: 1}[v])
	case formatted:
		if codes[v.code] == 0 {
			codes[v.code] = len(codes) + 1
		}
		return fmt.Sprintf(`<c r="%s" s="%d"><v>%v</v></c>`, ref, codes[v.code], v.x)
	case rawCell:
		return fmt.Sprintf(string(v), ref)
	}
	return fmt.Sprintf(`<c r="%s"><v>%v</v></c>`, ref, v)
}

func TestUnescape(t *testing.T) {
	for in, want := range map[string]string{"a_x000D_b": "a\rb", "_x005F_x000D_": "_x000D_", "_x00": "_x00", "_xZZZZ_": "_xZZZZ_", "plain": "plain"} {
		if got := unescape(in); got != want {
			t.Errorf("%q: %q", in, got)
		}
	}
}
