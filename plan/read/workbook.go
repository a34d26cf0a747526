package read

import (
	"spudgate/plan/doc"
	"spudgate/plan/sheet"
)

// workbook hands a packed file to the reader of workbooks.
func workbook(name string, b []byte) ([]*doc.Doc, error) {
	return sheet.Read(name, b)
}
