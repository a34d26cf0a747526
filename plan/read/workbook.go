package read

import "spudgate/plan/doc"

// workbook hands a packed file to the reader of workbooks.
func workbook(name string, _ []byte) ([]*doc.Doc, error) {
	return nil, whole(name, "a workbook", "a JSON plan")
}
