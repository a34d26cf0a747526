package sheet

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"io/fs"
	"sort"

	"github.com/xuri/excelize/v2"
)

// orderedZip packs the parts of a workbook in order of name, the list of
// contents first, so that one workbook gives the same bytes on every run: the
// library hands streamed sheets over in the order of a map.
type orderedZip struct {
	to    io.Writer
	parts map[string]*bytes.Buffer
}

func newOrderedZip(w io.Writer) excelize.ZipWriter {
	return &orderedZip{to: w, parts: map[string]*bytes.Buffer{}}
}

// Create gives the writer of a part.
func (z *orderedZip) Create(name string) (io.Writer, error) {
	b := new(bytes.Buffer)
	z.parts[name] = b
	return b, nil
}

// AddFS isn't needed for any workbook made here.
func (z *orderedZip) AddFS(fs.FS) error { return errors.New("a file system can't be packed") }

// Close writes the archive. The entries carry no time.
func (z *orderedZip) Close() error {
	names := make([]string, 0, len(z.parts))
	for n := range z.parts {
		names = append(names, n)
	}
	// "[" sorts before "_" and the small letters that all other names begin with.
	sort.Strings(names)
	out := zip.NewWriter(z.to)
	for _, n := range names {
		w, err := out.CreateHeader(&zip.FileHeader{Name: n, Method: zip.Deflate})
		if err != nil {
			return err
		}
		if _, err := w.Write(z.parts[n].Bytes()); err != nil {
			return err
		}
	}
	return out.Close()
}
