package read

import "testing"

// endless is a pipe that never closes.
type endless struct{}

func (endless) Read(b []byte) (int, error) {
	clear(b)
	return len(b), nil
}

// A pipe has no size: reading stops one byte past the limit, which is enough
// for Bytes to refuse it.
func TestEndlessPipe(t *testing.T) {
	b, err := all(endless{}, 0)
	if err != nil || len(b) != MaxBytes+1 {
		t.Fatalf("%d bytes, %v", len(b), err)
	}
	if _, err := Bytes("pipe", b); err == nil || err.Error() != "pipe: found more than 200000000 bytes, expected at most 200000000 bytes" {
		t.Error(err)
	}
}
