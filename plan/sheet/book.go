package sheet

import (
	"encoding/xml"
	"strconv"
	"strings"

	"spudgate/plan/doc"
)

// book is a workbook as far as it is read before its sheets.
type book struct {
	*archive
	sheets   []sheetEntry
	shared   []sharedText
	formats  []format // of cells, by style
	date1904 bool
}

// sheetEntry is a sheet as the workbook lists it.
type sheetEntry struct {
	name   string
	part   string
	hidden bool
}

type sharedText struct {
	s string
	n int // characters, more than MaxText if s was cut
}

// open reads what all sheets need: their list, the shared texts, the number
// formats.
func open(file string, b []byte) (*book, error) {
	a, err := unpack(file, b)
	if err != nil {
		return nil, err
	}
	top, err := a.relations("")
	if err != nil {
		return nil, err
	}
	part := top.byType["officeDocument"]
	if a.parts[part] == nil {
		part = "xl/workbook.xml"
	}
	if a.parts[part] == nil {
		return nil, a.other()
	}
	bk := &book{archive: a}
	return bk, bk.workbook(part)
}

func (bk *book) workbook(part string) error {
	rels, err := bk.relations(part)
	if err != nil {
		return err
	}
	err = bk.scan(part, func(_ *xml.Decoder, e xml.StartElement) error {
		switch e.Name.Local {
		case "workbookPr":
			bk.date1904 = isTrue(attr(e, "date1904"))
		case "sheet":
			// The plain id and r:id share their local name's end only.
			s := sheetEntry{name: attr(e, "name"), part: rels.byID[relationID(e)], hidden: attr(e, "state") != "" && attr(e, "state") != "visible"}
			bk.sheets = append(bk.sheets, s)
		}
		return nil
	})
	if err != nil {
		return err
	}
	if len(bk.sheets) == 0 {
		return damaged(bk.file, "it lists no sheets")
	}
	if p := rels.byType["sharedStrings"]; bk.parts[p] != nil {
		if err := bk.sharedTexts(p); err != nil {
			return err
		}
	}
	if p := rels.byType["styles"]; bk.parts[p] != nil {
		return bk.styles(p)
	}
	return nil
}

// relationID is the r:id of an element, in either form of the standard.
func relationID(e xml.StartElement) string {
	for _, a := range e.Attr {
		if a.Name.Local == "id" && strings.HasSuffix(a.Name.Space, "/relationships") {
			return a.Value
		}
	}
	return ""
}

func (bk *book) sharedTexts(part string) error {
	return bk.scan(part, func(d *xml.Decoder, e xml.StartElement) error {
		if e.Name.Local != "si" {
			return nil
		}
		s, n, err := text(d)
		bk.shared = append(bk.shared, sharedText{s, n})
		return err
	})
}

// styles reads the number format of each cell style.
func (bk *book) styles(part string) error {
	codes := map[int]string{}
	inCells := false
	return bk.scan(part, func(_ *xml.Decoder, e xml.StartElement) error {
		switch e.Name.Local {
		case "numFmt":
			if id, err := strconv.Atoi(attr(e, "numFmtId")); err == nil {
				codes[id] = attr(e, "formatCode")
			}
		case "cellXfs", "cellStyleXfs", "cellStyles", "dxfs":
			inCells = e.Name.Local == "cellXfs"
		case "xf":
			if inCells {
				id, _ := strconv.Atoi(attr(e, "numFmtId"))
				bk.formats = append(bk.formats, formatOf(id, codes[id]))
			}
		}
		return nil
	})
}

// format is the number format of a style; a style that isn't there has none.
func (bk *book) format(style int) format {
	if style < 0 || style >= len(bk.formats) {
		return format{}
	}
	return bk.formats[style]
}

// remarks says what the workbook holds besides cells.
func (bk *book) remarks(d *doc.Doc) {
	say := func(s string) { d.Unread = append(d.Unread, doc.Remark{Text: s}) }
	if bk.has("xl/vbaproject") || bk.has("xl/macrosheets/") {
		say("the workbook holds macros; they weren't run")
	}
	if bk.has("xl/externallinks/") || bk.has("xl/connections") {
		say("the workbook links to other files; the links weren't followed, values are those it was saved with")
	}
}
