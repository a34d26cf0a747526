package sheet

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand"
	"runtime"
	"strings"
	"testing"
	"time"

	"spudgate/plan/doc"
)

// survey is a workbook whose one sheet is the given XML.
func survey(sheet string) *packer {
	p := newPacker()
	p.add("xl/workbook.xml", "<workbook "+mainNS+`><sheets><sheet name="Survey" sheetId="1" r:id="rId1"/></sheets></workbook>`)
	p.add("xl/_rels/workbook.xml.rels", `<Relationships><Relationship Id="rId1" Type="x/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`)
	return p.add("xl/worksheets/sheet1.xml", sheet)
}

func sheetXML(rows string) string {
	return "<worksheet " + mainNS + `><dimension ref="A1:XFD1048576"/><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>MD</t></is></c></row>` + rows + "</sheetData></worksheet>"
}

// bomb is a workbook with a part of so many zeroes.
func bomb(n int) []byte {
	p := survey(sheetXML(""))
	w, _ := p.z.Create("xl/media/image1.png")
	block := make([]byte, 1<<20)
	for ; n > 0; n -= len(block) {
		_, _ = w.Write(block[:min(n, len(block))])
	}
	return p.bytes()
}

// understated makes every declared unpacked size small: in the directory and in
// front of each part.
func understated(b []byte) []byte {
	b = bytes.Clone(b)
	for _, at := range []struct {
		magic  string
		offset int
	}{{"PK\x01\x02", 24}, {"PK\x07\x08", 12}} {
		for i := bytes.Index(b, []byte(at.magic)); i >= 0; {
			binary.LittleEndian.PutUint32(b[i+at.offset:], 10)
			next := bytes.Index(b[i+4:], []byte(at.magic))
			if next < 0 {
				break
			}
			i += 4 + next
		}
	}
	return b
}

// overstated makes the directory say that the first part unpacks to 300 MB.
func overstated(b []byte) []byte {
	b = bytes.Clone(b)
	binary.LittleEndian.PutUint32(b[bytes.Index(b, []byte("PK\x01\x02"))+24:], 300_000_000)
	return b
}

func many(n int, f func(i int) string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(f(i))
	}
	return b.String()
}

// Each hostile workbook is refused with the fault named, within 10 s and
// 512 MB.
func TestHostile(t *testing.T) {
	good := survey(sheetXML(`<row r="2"><c r="A2"><v>1</v></c></row>`)).bytes()
	for _, c := range []struct {
		name string
		b    []byte
		want string
	}{
		{"empty", nil, "its end is cut off"},
		{"no zip", []byte("PK\x03\x04 and no more"), "its end is cut off"},
		{"cut", good[:len(good)-30], "its end is cut off"},
		{"too large", make([]byte, MaxBytes+1), "found a workbook of 60000001 bytes"},
		{"too many parts", func() []byte {
			p := newPacker()
			for i := range MaxEntries + 1 {
				p.add(fmt.Sprintf("part%d", i), "")
			}
			return p.bytes()
		}(), "found a workbook of 2001 parts"},
		{"bomb", bomb(MaxUnpacked + 1), "unpacks to more than 256000000 bytes"},
		{"bomb by its own word", overstated(good), "unpacks to more than 256000000 bytes"},
		{"bomb that lies", understated(bomb(MaxUnpacked + 1<<20)), "can't be unpacked"},
		{"no workbook", newPacker().add("readme.txt", "x").bytes(), "a zip file without a workbook in it"},
		{"binary workbook", newPacker().add("xl/workbook.bin", "x").bytes(), "found a binary workbook"},
		{"open document", newPacker().add("mimetype", "application/vnd.oasis.opendocument.spreadsheet").bytes(), "found an OpenDocument file"},
		{"text document", newPacker().add("word/document.xml", "x").bytes(), "found a text or slide document"},
		{"no sheets", newPacker().add("xl/workbook.xml", "<workbook/>").bytes(), "it lists no sheets"},
		{"a part twice", survey("").add("xl/Workbook.xml", "<workbook/>").bytes(), "two parts called"},
		{"not well-formed", survey("<worksheet><row>").bytes(), "isn't well-formed"},
		{"entities", survey(`<!DOCTYPE w [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><worksheet><sheetData><row r="1"><c r="A1"><v>&b;</v></c></row></sheetData></worksheet>`).bytes(), "isn't well-formed"},
		{"missing sheet", newPacker().add("xl/workbook.xml", `<workbook><sheets><sheet name="Survey"/></sheets></workbook>`).bytes(), "no part"},
		{"row 0", survey(sheetXML(`<row r="0"><c><v>1</v></c></row>`)).bytes(), "Survey: found a row numbered 0"},
		{"row -5", survey(sheetXML(`<row r="-5"/>`)).bytes(), "a row numbered -5"},
		{"row too far", survey(sheetXML(`<row r="99999999"/>`)).bytes(), "a row numbered 99999999"},
		{"row twice", survey(sheetXML(`<row r="1"><c r="B1"><v>1</v></c></row>`)).bytes(), "found row 1 twice"},
		{"cell twice", survey(sheetXML(`<row r="2">` + strings.Repeat(`<c r="A2"><v>1</v></c>`, 100_000) + `</row>`)).bytes(), "found cell A2 twice"},
		{"cell in another row", survey(sheetXML(`<row r="2"><c r="A3"><v>1</v></c></row>`)).bytes(), `found a cell named "A3" in row 2`},
		{"cell without row", survey("<worksheet><c r=\"A1\"><v>1</v></c></worksheet>").bytes(), "found a cell named"},
		{"shared text that isn't there", survey(sheetXML(`<row r="2"><c r="A2" t="s"><v>99999999</v></c></row>`)).bytes(), "which isn't there"},
		{"negative shared text", survey(sheetXML(`<row r="2"><c r="A2" t="s"><v>-1</v></c></row>`)).bytes(), "which isn't there"},
		{"number too large", survey(sheetXML(`<row r="2"><c r="A2"><v>1e999</v></c></row>`)).bytes(), `found the number "1e999" in A2`},
		{"no number", survey(sheetXML(`<row r="2"><c r="A2"><v>NaN</v></c></row>`)).bytes(), `found the number "NaN" in A2`},
		{"long text", survey(sheetXML(`<row r="2"><c r="A2" t="inlineStr"><is><t>` + strings.Repeat("x", 1_000_000) + `</t></is></c></row>`)).bytes(), "Survey!A2: found a text longer than any cell can hold"},
		{"too many rows", survey(sheetXML(many(MaxRows, func(i int) string { return fmt.Sprintf(`<row r="%d"><c><v>1</v></c></row>`, i+2) }))).bytes(), "found more than 200000 rows"},
		{"too many cells", survey(sheetXML(many(100, func(i int) string {
			return fmt.Sprintf(`<row r="%d">`, i+2) + strings.Repeat(`<c><v>1</v></c>`, 6000) + "</row>"
		}))).bytes(), "found more than 500000 cells"},
		{"a part too large", survey(sheetXML(strings.Repeat("<row/>", MaxPart/6+1))).bytes(), "at most 64000000"},
		{"deep", survey(strings.Repeat("<a>", 1_000_000)).bytes(), "isn't well-formed"},
		{"1,000 faults", survey(sheetXML(many(5000, func(i int) string { return fmt.Sprintf(`<row r="%d"><c t="e"><v>#REF!</v></c></row>`, i+2) }))).bytes(), "found 999 faults"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.GC()
			runtime.ReadMemStats(&before)
			start := time.Now()
			_, err := Read("dir/h.xlsx", c.b)
			took := time.Since(start)
			runtime.ReadMemStats(&after)
			var fs doc.Faults
			if !errors.As(err, &fs) || !strings.Contains(err.Error(), c.want) {
				t.Fatalf("got %.300v, want %s", err, c.want)
			}
			for _, f := range fs {
				if f.Place.File != "h.xlsx" {
					t.Errorf("a fault without its file: %v", f)
				}
			}
			// Most of what is allocated is garbage at once; the sum bounds the peak.
			if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; took > 10*time.Second || mb > 512 {
				t.Errorf("took %v and %d MB", took, mb)
			}
		})
	}
}

// What lies or is odd without harm is read.
func TestOdd(t *testing.T) {
	d := readOne(t, survey(sheetXML(`<row r="1048576"><c r="XFD1048576"><v>7</v></c></row><row r="3"><c r="B3"><v>5</v></c><c r="A3" s="-1"><v>2</v></c></row><row r="2"><c s="99"><v>1</v></c></row>`+strings.Repeat("<row/>", 0))).bytes())
	check(t, d, "survey[0].md", "Survey!A2=1")
	check(t, d, "survey[1].md", "Survey!A3=2")
	check(t, d, "survey[2]", "")
}

// A workbook damaged anywhere is read or refused; nothing panics, and what is
// read has finite numbers and places.
func TestDamage(t *testing.T) {
	var parts []*zip.File
	good := workbook(t, randomPlan(7))
	z, err := zip.NewReader(bytes.NewReader(good), int64(len(good)))
	if err != nil {
		t.Fatal(err)
	}
	parts = z.File
	contents := make([]string, len(parts))
	for i, f := range parts {
		var b bytes.Buffer
		r, _ := f.Open()
		_, _ = b.ReadFrom(r)
		contents[i] = b.String()
	}
	rnd := rand.New(rand.NewSource(1))
	for range 100 {
		p := newPacker()
		hit := rnd.Intn(len(parts))
		for i, f := range parts {
			s := contents[i]
			if i == hit && len(s) > 40 {
				at := rnd.Intn(len(s) - 20)
				s = s[:at] + []string{"", "<", "\x00", "9999999999", "\"", "-1", "&#0;", "</c>"}[rnd.Intn(8)] + s[at+rnd.Intn(20):]
			}
			p.add(f.Name, s)
		}
		docs, err := Read("plan.xlsx", p.bytes())
		var fs doc.Faults
		if err != nil && !errors.As(err, &fs) {
			t.Fatalf("an error that is no fault: %v", err)
		}
		for _, d := range docs {
			checkPlaces(t, d, d.Root)
		}
	}
	for range 150 {
		b := bytes.Clone(good)
		for range 1 + rnd.Intn(4) {
			b[rnd.Intn(len(b))] ^= byte(1 << rnd.Intn(8))
		}
		if _, err := Read("plan.xlsx", b[:len(b)-rnd.Intn(2)*rnd.Intn(len(b))]); err != nil {
			var fs doc.Faults
			if !errors.As(err, &fs) {
				t.Fatalf("an error that is no fault: %v", err)
			}
		}
	}
}

func FuzzRead(f *testing.F) {
	f.Add(survey(sheetXML(`<row r="2"><c r="A2"><v>1</v></c></row>`)).bytes())
	f.Add(packTabs(tab{name: "Strings", rows: [][]any{{"String", "Shoe (m)"}, {"surface", 1000.0}}}).bytes())
	f.Fuzz(func(t *testing.T, b []byte) {
		docs, err := Read("plan.xlsx", b)
		if (err == nil) == (len(docs) == 0) {
			t.Errorf("%d plans and error %v", len(docs), err)
		}
	})
}
