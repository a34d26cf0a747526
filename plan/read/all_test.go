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
	const most = 1_000_000
	b, err := all(endless{}, 0, most)
	if err != nil || len(b) != most+1 {
		t.Fatalf("%d bytes, %v", len(b), err)
	}
	if _, err := Bytes("pipe", make([]byte, MaxBytes+1)); err == nil || err.Error() != "pipe: found more than 200000000 bytes, expected at most 200000000 bytes" {
		t.Error(err)
	}
}
