package read_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"spudgate/plan/read"
)

// sixtyKB is a made-up plan of about 60 KB, most of it tables.
func sixtyKB() []byte {
	var b strings.Builder
	b.WriteString("{\n  \"format\": \"spudgate-plan/1\",\n  \"well\": {\"name\": \"Tarn Hollow 3\"},\n  \"strings\": [")
	for i := range 40 {
		if i > 0 {
			b.WriteString(",")
		}
		fmt.Fprintf(&b, "\n    {\"name\": \"string %d\", \"role\": \"intermediate\", \"segments\": [{\"from\": 0, \"to\": \"9,850 ft\", \"od\": \"9-5/8 in\", \"weight\": 47, \"grade\": \"L80\", \"wall\": 0.472}]}", i)
	}
	b.WriteString("],\n  \"survey\": [")
	for i := range 750 {
		if i > 0 {
			b.WriteString(",")
		}
		fmt.Fprintf(&b, "\n    {\"md\": %d, \"inclination\": %.2f, \"azimuth\": %.2f}", i*30, float64(i)/10, 120+float64(i)/7)
	}
	b.WriteString("]\n}\n")
	return []byte(b.String())
}

func BenchmarkJSON(b *testing.B) {
	text := sixtyKB()
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := read.JSON("p.json", text); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkLibrary is the same text by the standard library, without places:
// the two only mean something side by side.
func BenchmarkLibrary(b *testing.B) {
	text := sixtyKB()
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		var v any
		if err := json.Unmarshal(text, &v); err != nil {
			b.Fatal(err)
		}
	}
}
