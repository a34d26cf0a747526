// Package read turns bytes into positioned trees: it finds out what a file is
// by its content, refuses what nobody can read, and keeps the place of every
// value and every member name.
//
// All errors are [doc.Faults]. Whether the tree is a plan is the business of
// the form check; here it only has to be readable.
package read

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"spudgate/plan/doc"
	"spudgate/plan/place"
)

// What is refused for its size. A plan with a page for every joint stays far
// below all of these; a file above them was made to be too large.
const (
	MaxBytes  = 200_000_000 // of a file
	MaxDepth  = 64          // of objects and lists inside one another
	MaxValues = 500_000     // in one file
	MaxText   = 1_000_000   // bytes of one text
	MaxNumber = 100         // characters of one number
	MaxName   = 100         // bytes of a member name
	MaxPath   = 256         // bytes of a member path
	MaxFaults = 1_000       // said before reading stops
)

const readable = "a JSON plan or an .xlsx workbook"

// File reads the plans of a file: a JSON object is one, a JSON list has one in
// each item, a workbook has one for each well. The size is looked at before
// anything is read.
func File(path string) ([]*doc.Doc, error) {
	name := filepath.Base(path)
	f, err := os.Open(path)
	if err != nil {
		return nil, whole(name, reason(err), readable)
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return nil, whole(name, reason(err), readable)
	case info.IsDir():
		return nil, whole(name, "a folder", readable)
	case info.Size() > MaxBytes:
		return nil, tooLarge(name, fmt.Sprintf("%d bytes", info.Size()))
	}
	b, err := all(f, info.Size(), MaxBytes)
	if err != nil {
		return nil, whole(name, reason(err), readable)
	}
	return Bytes(name, b)
}

// all reads to the end, or one byte over most: a pipe has no size to look at
// beforehand.
func all(r io.Reader, size, most int64) ([]byte, error) {
	var buf bytes.Buffer
	buf.Grow(int(size) + bytes.MinRead)
	_, err := buf.ReadFrom(io.LimitReader(r, most+1))
	return buf.Bytes(), err
}

// reason says in plain words why a file can't be opened, without its path: the
// place of the fault carries the name.
func reason(err error) string {
	var at *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "no such file"
	case errors.Is(err, fs.ErrPermission):
		return "a file that may not be read"
	case errors.As(err, &at):
		return at.Err.Error()
	}
	return err.Error()
}

var (
	zipMagics = [][]byte{[]byte("PK\x03\x04"), []byte("PK\x05\x06"), []byte("PK\x07\x08")}
	// oleMagic begins a compound file: the older binary workbook, and the
	// envelope of a newer one that is locked with a password.
	oleMagic = []byte("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1")
	// lockedName is the name, in UTF-16, of the stream that holds a locked
	// workbook ([MS-OFFCRYPTO] 1.3.3).
	lockedName = utf16Bytes("EncryptedPackage")
)

// Bytes reads the plans of a file that is in memory already. What the file is
// follows from its content, never from the ending of its name.
func Bytes(name string, b []byte) ([]*doc.Doc, error) {
	name = filepath.Base(name)
	switch {
	case len(b) > MaxBytes:
		return nil, tooLarge(name, fmt.Sprintf("more than %d bytes", MaxBytes))
	case beginsWithAny(b, zipMagics):
		return workbook(name, b)
	case bytes.HasPrefix(b, oleMagic) && bytes.Contains(b, lockedName):
		return nil, whole(name, "a workbook locked with a password", "an .xlsx workbook saved without one, or a JSON plan")
	case bytes.HasPrefix(b, oleMagic):
		return nil, whole(name, "an older binary workbook", "the same saved as .xlsx, or a JSON plan")
	}
	return plans(name, b)
}

// plans reads a JSON text that has to be an object or a list.
func plans(name string, b []byte) ([]*doc.Doc, error) {
	text, fault := plainText(name, b)
	if fault != nil {
		return nil, fault
	}
	start := skipSpace(text, 0)
	switch text[start] {
	case '{', '[':
		return newParser(name, b, text).plans()
	}
	var at cursor
	at.move(text, start)
	found := word(text[start:])
	switch {
	case text[start] == '<':
		found = "XML or HTML"
	case len(text)-start > 4 && text[start:start+5] == "%PDF-":
		found = "a PDF"
	}
	return nil, doc.Faults{{Place: at.place(name), Found: found, Expected: readable}}
}

// JSON reads any JSON text into one tree, whatever its root is. The digest is
// of the bytes as given, a byte order mark included.
func JSON(name string, b []byte) (*doc.Doc, error) {
	name = filepath.Base(name)
	if len(b) > MaxBytes {
		return nil, tooLarge(name, fmt.Sprintf("more than %d bytes", MaxBytes))
	}
	text, fault := plainText(name, b)
	if fault != nil {
		return nil, fault
	}
	return newParser(name, b, text).one()
}

func beginsWithAny(b []byte, prefixes [][]byte) bool {
	for _, p := range prefixes {
		if bytes.HasPrefix(b, p) {
			return true
		}
	}
	return false
}

// whole is the fault of a file as such, which has no line.
func whole(name, found, expected string) doc.Faults {
	return doc.Faults{{Place: place.Place{File: name}, Found: found, Expected: expected}}
}

func tooLarge(name, found string) doc.Faults {
	return whole(name, found, fmt.Sprintf("at most %d bytes", MaxBytes))
}
