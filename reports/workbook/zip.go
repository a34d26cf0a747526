package workbook

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"io/fs"
	"slices"
	"sort"

	"github.com/xuri/excelize/v2"
)

// contentTypes is the part that must come first: programs look for it there.
const contentTypes = "[Content_Types].xml"

// parts is a zip writer whose bytes depend on nothing but the parts: it keeps
// them, sorts what was written in the order of a map, and packs by name.
type parts struct {
	to    io.Writer
	parts map[string]*bytes.Buffer
}

func newParts(w io.Writer) excelize.ZipWriter {
	return &parts{to: w, parts: map[string]*bytes.Buffer{}}
}

// Create begins a part.
func (p *parts) Create(name string) (io.Writer, error) {
	b := &bytes.Buffer{}
	p.parts[name] = b
	return b, nil
}

// AddFS is part of the interface; nothing here is added from a file system.
func (p *parts) AddFS(fs.FS) error {
	return errors.New("workbook: parts come from memory")
}

// Close packs all parts.
func (p *parts) Close() error {
	names := make([]string, 0, len(p.parts))
	for name := range p.parts {
		names = append(names, name)
	}
	sort.Slice(names, func(i, j int) bool {
		if (names[i] == contentTypes) != (names[j] == contentTypes) {
			return names[i] == contentTypes
		}
		return names[i] < names[j]
	})
	z := zip.NewWriter(p.to)
	for _, name := range names {
		b := p.parts[name].Bytes()
		if name == contentTypes {
			b = sortedElements(b)
		}
		w, err := z.Create(name)
		if err != nil {
			return err
		}
		if _, err := w.Write(b); err != nil {
			return err
		}
	}
	return z.Close()
}

// sortedElements sorts the elements between the outermost tags. The content
// types have no text and no nesting, so that every ">" ends one.
func sortedElements(b []byte) []byte {
	start := bytes.Index(b, []byte("<Types"))
	if start < 0 {
		return b
	}
	open := start + bytes.IndexByte(b[start:], '>') + 1
	end := bytes.LastIndex(b, []byte("</Types>"))
	if end < open {
		return b
	}
	elements := bytes.SplitAfter(bytes.ReplaceAll(b[open:end], []byte("></Default>"), []byte("/>")), []byte(">"))
	whole := make([][]byte, 0, len(elements))
	for _, e := range elements {
		switch {
		case bytes.Equal(e, []byte("</Override>")) && len(whole) > 0:
			last := len(whole) - 1
			whole[last] = append(slices.Clone(whole[last]), e...)
		case len(e) > 0:
			whole = append(whole, e)
		}
	}
	slices.SortFunc(whole, bytes.Compare)
	return slices.Concat(b[:open], bytes.Join(whole, nil), b[end:])
}
