package sheet

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"

	"spudgate/plan/doc"
	"spudgate/plan/place"
)

const readable = "an .xlsx workbook"

// whole is the fault of a file as such, which has no sheet.
func whole(name, found, expected string) doc.Faults {
	return doc.Faults{{Place: place.Place{File: name}, Found: found, Expected: expected}}
}

func damaged(name, what string) doc.Faults {
	return whole(name, "a damaged workbook: "+what, "one that a spreadsheet program opens")
}

// archive is the zip file a workbook is. Every part has been read to its end
// once, so that a cut or corrupted file is refused as a whole; the parts that
// make a workbook were kept.
type archive struct {
	file  string
	names []string // of all parts, as they stand in the file
	parts map[string][]byte
}

// unpack opens the archive within the limits. The declared sizes are looked at
// first, then the bytes are counted as they come: a header may lie.
func unpack(file string, b []byte) (*archive, error) {
	if len(b) > MaxBytes {
		return nil, whole(file, fmt.Sprintf("a workbook of %d bytes", len(b)), fmt.Sprintf("at most %d", MaxBytes))
	}
	z, err := zip.NewReader(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return nil, damaged(file, "its end is cut off or isn't a zip file's")
	}
	if len(z.File) > MaxEntries {
		return nil, whole(file, fmt.Sprintf("a workbook of %d parts", len(z.File)), fmt.Sprintf("at most %d", MaxEntries))
	}
	var declared uint64
	for _, f := range z.File {
		declared += min(f.UncompressedSize64, MaxUnpacked+1)
	}
	if declared > MaxUnpacked {
		return nil, tooMuch(file)
	}
	a := &archive{file: file, parts: map[string][]byte{}}
	left := int64(MaxUnpacked)
	for _, f := range z.File {
		if err := a.part(f, &left); err != nil {
			return nil, err
		}
	}
	return a, nil
}

func tooMuch(file string) doc.Faults {
	return whole(file, fmt.Sprintf("a workbook that unpacks to more than %d bytes", MaxUnpacked), "less: it was packed to be too large")
}

// part reads one entry to its end and keeps it if it may be needed.
func (a *archive) part(f *zip.File, left *int64) error {
	name := clean(f.Name)
	if strings.HasSuffix(f.Name, "/") {
		return nil
	}
	a.names = append(a.names, name)
	if _, twice := a.parts[name]; twice {
		return damaged(a.file, "it has two parts called "+doc.Quote(f.Name))
	}
	r, err := f.Open()
	if err != nil {
		return damaged(a.file, doc.Quote(f.Name)+" can't be unpacked")
	}
	defer r.Close()
	var kept bytes.Buffer
	var to io.Writer = io.Discard
	if ext := path.Ext(name); ext == ".xml" || ext == ".rels" || name == "mimetype" {
		to = &kept
	}
	n, err := io.Copy(to, io.LimitReader(r, *left+1))
	if *left -= n; *left < 0 {
		return tooMuch(a.file)
	}
	if err != nil && !errors.Is(err, io.EOF) {
		return damaged(a.file, doc.Quote(f.Name)+" can't be unpacked")
	}
	a.parts[name] = kept.Bytes()
	return nil
}

// clean is a part name as the standard compares them: without case and leading
// slash (ECMA-376 part 2, 6.2.2.3).
func clean(name string) string {
	return strings.ToLower(strings.TrimPrefix(path.Clean("/"+strings.ReplaceAll(name, `\`, "/")), "/"))
}

// has reports whether any part's name begins so.
func (a *archive) has(prefix string) bool {
	for _, n := range a.names {
		if strings.HasPrefix(n, prefix) {
			return true
		}
	}
	return false
}

// other says what a zip file without a workbook is, as far as one can tell.
func (a *archive) other() error {
	switch {
	case a.has("xl/workbook.bin"):
		return whole(a.file, "a binary workbook", "the same saved as .xlsx")
	case bytes.Contains(a.parts["mimetype"], []byte("opendocument")):
		return whole(a.file, "an OpenDocument file", "the same saved as .xlsx")
	case a.has("word/") || a.has("ppt/"):
		return whole(a.file, "a text or slide document", readable)
	}
	return whole(a.file, "a zip file without a workbook in it", readable)
}
