package read_test

import (
	"bytes"
	"fmt"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"spudgate/plan/doc"
	"spudgate/plan/read"
)

const (
	mostTime   = slower * 10 * time.Second
	mostMemory = 512 << 20
)

// peakOf is how far the heap grew while f ran, looked at every two
// milliseconds and at the end.
func peakOf(t *testing.T, f func()) uint64 {
	t.Helper()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	base := m.HeapInuse
	var peak atomic.Uint64
	look := func() {
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		if m.HeapInuse > base {
			peak.Store(max(peak.Load(), m.HeapInuse-base))
		}
	}
	done, ended := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(ended)
		for {
			select {
			case <-done:
				return
			case <-time.After(2 * time.Millisecond):
				look()
			}
		}
	}()
	f()
	close(done)
	<-ended
	look()
	return peak.Load()
}

func measured(t *testing.T, f func()) {
	t.Helper()
	start := time.Now()
	peak := peakOf(t, f)
	took := time.Since(start)
	t.Logf("%v, %d MB", took.Round(time.Millisecond), peak>>20)
	if took > mostTime || peak > mostMemory {
		t.Errorf("took %v and %d MB, at most %v and %d MB", took, peak>>20, mostTime, mostMemory>>20)
	}
}

func TestHostile(t *testing.T) {
	distinct := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, `"k%d":1,`, i)
		}
		return `{` + b.String() + `"z":1}`
	}
	deepNames := strings.Repeat(`{"`+strings.Repeat("n", 99)+`":`, 3)
	for _, c := range []struct {
		name string
		text func() string
		want string // end of the last fault; "" is accepted
	}{
		{"lists in lists", func() string { return strings.Repeat("[", 200_000) }, "1:65: " + strings.Repeat("[0]", 63) + ": found one more object or list inside the others, expected at most 64 inside one another"},
		{"objects in objects", func() string { return strings.Repeat(`{"a":`, 200_000) }, "expected at most 64 inside one another"},
		{"values", func() string { return `{"a":[` + strings.Repeat("1,", 600_000) + "1]}" }, "1:1000003: a[499998]: found one value more, expected at most 500000 values in a file"},
		{"most values", func() string { return `{"a":[` + strings.Repeat("1,", 499_997) + "1]}" }, ""},
		{"most members", func() string { return distinct(499_998) }, ""},
		{"most members, short objects", func() string {
			return `{"` + strings.Repeat("n", 100) + `":{"` + strings.Repeat("n", 100) + `":[` + strings.Repeat(`{"a":{"b":1}},`, 160_000) + "1]}}"
		}, ""},
		{"the same member", func() string { return `{` + strings.Repeat(`"a":1,`, 400_000) + `"a":1}` }, "found 1000 faults, expected these mended first: reading stopped here"},
		{"long path", func() string { return deepNames + "1}}}" }, "found a member path of 299 bytes, expected at most 256"},
		{"long name", func() string { return `{"` + strings.Repeat("n", 1_000_000) + `":1}` }, "1:2: found a member name of 1000000 bytes, expected at most 100"},
		{"long text", func() string { return `{"a":"` + strings.Repeat("x", 40_000_000) + `"}` }, "1:6: a: found a text of 40000000 bytes, expected at most 1000000"},
		{"many texts", func() string {
			return `{"a":[` + strings.Repeat(`"`+strings.Repeat(`\u0041`, 160_000)+`",`, 20) + `1]}`
		}, ""},
		{"long number", func() string { return `{"a":` + strings.Repeat("9", 1_000_000) + `}` }, "1:6: a: found a number of 1000000 characters, expected at most 100"},
		{"long fraction", func() string { return `{"a":0.` + strings.Repeat("0", 1_000_000) + `1}` }, "expected at most 100"},
		{"space", func() string { return strings.Repeat(" ", 20_000_000) + `{}` + strings.Repeat("\n", 20_000_000) }, ""},
		{"word", func() string { return strings.Repeat("x", 40_000_000) }, "expected a JSON plan or an .xlsx workbook"},
		{"cut text", func() string { return `{"a":"` + strings.Repeat("x", 40_000_000) }, "expected '\"' to close the text that begins at 1:6"},
		{"bad byte at the end", func() string { return `{"a":"` + strings.Repeat("x", 60_000_000) + "\xFF" }, "found byte 0xff, expected text in UTF-8"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := []byte(c.text())
			measured(t, func() {
				docs, err := read.Bytes("x", b)
				if c.want == "" {
					if err != nil {
						t.Errorf("refused: %.300v", err)
					}
					runtime.KeepAlive(docs)
					return
				}
				faults, ok := err.(doc.Faults)
				if !ok || !strings.HasSuffix(faults[len(faults)-1].String(), c.want) {
					t.Errorf("got  %.300v\nwant ... %s", err, c.want)
				}
			})
		})
	}
}

func TestBytesTooLarge(t *testing.T) {
	b := bytes.Repeat([]byte{' '}, read.MaxBytes+1)
	for _, f := range []func() error{
		func() error { _, err := read.Bytes("x", b); return err },
		func() error { _, err := read.JSON("x", b); return err },
	} {
		if err := f(); err == nil || err.Error() != "x: found more than 200000000 bytes, expected at most 200000000 bytes" {
			t.Error(err)
		}
	}
}
