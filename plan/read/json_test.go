package read_test

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"strings"
	"testing"

	"spudgate/plan/doc"
	"spudgate/plan/read"
)

// The places in these tests were counted by hand, as an editor shows them.

func TestPlaces(t *testing.T) {
	text := "{\n  \"well\": {\"name\": \"Brå 13⅜\", \"h2s\": 20},\r\n\t\"strings\": [\n\t\t{\"od\": \"9 5/8\", \"13 3/8\": [true, null]}]}\n"
	d, err := read.JSON("some/where/p.json", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	strs := d.Root.Get("strings")
	odd := strs.Items[0].Get("13 3/8")
	for _, c := range []struct {
		n           *doc.Node
		place, path string
		text        string
	}{
		{d.Root, "1:1", "", ""},
		{d.Root.Get("well"), "2:11", "well", ""},
		{d.Root.Get("well").Get("name"), "2:20", "well.name", "Brå 13⅜"},
		{d.Root.Get("well").Get("h2s"), "2:38", "well.h2s", "20"},
		{strs, "3:13", "strings", ""},
		{strs.Items[0], "4:3", "strings[0]", ""},
		{strs.Items[0].Get("od"), "4:10", "strings[0].od", "9 5/8"},
		{odd, "4:29", `strings[0]["13 3/8"]`, ""},
		{odd.Items[0], "4:30", `strings[0]["13 3/8"][0]`, "true"},
		{odd.Items[1], "4:36", `strings[0]["13 3/8"][1]`, "null"},
	} {
		p := d.Place(c.n.Ref)
		if p.String() != c.place || p.Path != c.path || p.File != "p.json" || d.Text(c.n.Ref) != c.text {
			t.Errorf("%s: place %s, path %s, file %s, text %q; want %s, %q", c.path, p, p.Path, p.File, d.Text(c.n.Ref), c.place, c.text)
		}
	}
	key := d.Place(strs.Items[0].Members[1].KeyRef)
	if key.String() != "4:19" || key.Path != `strings[0]["13 3/8"]` {
		t.Errorf("key at %s, path %s", key, key.Path)
	}
}

func TestScalars(t *testing.T) {
	d, err := read.JSON("s.json", []byte(`[-1.50e2, 0, -0, 9007199254740993, "a\tA\ud83d\ude00\/", "", true, false, null, {}, []]`))
	if err != nil {
		t.Fatal(err)
	}
	want := []doc.Node{
		{Kind: doc.Number, Text: "-1.50e2", Num: -150}, {Kind: doc.Number, Text: "0"}, {Kind: doc.Number, Text: "-0"},
		{Kind: doc.Number, Text: "9007199254740993", Num: 9007199254740992},
		{Kind: doc.String, Text: "a\tA😀/"}, {Kind: doc.String},
		{Kind: doc.Bool, Bool: true}, {Kind: doc.Bool}, {Kind: doc.Null}, {Kind: doc.Object}, {Kind: doc.Array},
	}
	if len(d.Root.Items) != len(want) {
		t.Fatalf("%d items, want %d", len(d.Root.Items), len(want))
	}
	for i, w := range want {
		n := d.Root.Items[i]
		if n.Kind != w.Kind || n.Text != w.Text || n.Num != w.Num || n.Bool != w.Bool || len(n.Items)+len(n.Members) != 0 {
			t.Errorf("item %d: %+v, want %+v", i, *n, w)
		}
	}
}

func TestByteOrderMark(t *testing.T) {
	b := []byte("\xEF\xBB\xBF{\"units\": \"field\"}")
	d, err := read.JSON("b.json", b)
	if err != nil {
		t.Fatal(err)
	}
	if p := d.Place(d.Root.Get("units").Ref).String(); p != "1:11" {
		t.Errorf("value at %s, want 1:11", p)
	}
	sum := sha256.Sum256(b)
	if want := hex.EncodeToString(sum[:]); d.SHA256 != want {
		t.Errorf("digest %s, want %s of the bytes with the mark", d.SHA256, want)
	}
}

func TestDigest(t *testing.T) {
	d, err := read.JSON("d.json", []byte("{}"))
	// From memory: the widely seen digest of the two bytes {}.
	const want = "44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a"
	if err != nil || d.SHA256 != want || d.Format != doc.JSON || d.File != "d.json" {
		t.Errorf("%+v, %v", d, err)
	}
}

func TestSeveralPlans(t *testing.T) {
	docs, err := read.Bytes("two.json", []byte("[\n {\"units\": \"field\"},\n {\"units\": \"metric\"}\n]"))
	if err != nil || len(docs) != 2 {
		t.Fatal(len(docs), err)
	}
	for i, want := range []string{"2:12", "3:12"} {
		p := docs[i].Place(docs[i].Root.Get("units").Ref)
		if p.String() != want || p.Path != "units" || p.File != "two.json" || docs[i].SHA256 != docs[0].SHA256 {
			t.Errorf("plan %d: %s %s", i, p, p.Path)
		}
	}
	if d, err := read.JSON("two.json", []byte("[{}, {}]")); err != nil || d.Root.Kind != doc.Array || len(d.Root.Items) != 2 {
		t.Errorf("as one document: %v, %v", d, err)
	}
}

func TestNamesThatDifferByCase(t *testing.T) {
	d, err := read.JSON("c.json", []byte("{\"od\": 1,\n \"OD\": 2, \"Id\": 3}"))
	if err != nil {
		t.Fatal(err)
	}
	if len(d.Unread) != 1 || d.Unread[0].Place.String() != "2:2" || d.Unread[0].Text != `member "OD" differs only by case from "od" at 1:2` {
		t.Errorf("%+v", d.Unread)
	}
}

// faults are given as place, found and expected.
type refusal struct{ name, text, want string }

var refusals = []refusal{
	{"empty", "", "found an empty file, expected a JSON plan or an .xlsx workbook"},
	{"blank", " \n\t", "found a file with nothing in it, expected a JSON plan or an .xlsx workbook"},
	{"only a mark", "\xEF\xBB\xBF", "found a file with nothing in it, expected a JSON plan or an .xlsx workbook"},
	{"UTF-16 little", "\xFF\xFE{\x00}\x00", "found UTF-16, expected UTF-8: save as UTF-8"},
	{"UTF-16 big", "\xFE\xFF\x00{\x00}", "found UTF-16, expected UTF-8: save as UTF-8"},
	{"UTF-16 unmarked", "{\x00}\x00", "found UTF-16, expected UTF-8: save as UTF-8"},
	{"NUL", "{\n \"a\x00\": 1}", "2:4: found byte 0x00, expected text in UTF-8"},
	{"Latin-1", "{\"é\": \"caf\xE9\"}", "1:11: found byte 0xe9, expected text in UTF-8"},
	{"overlong", "{\"a\": \"\xC0\x80\"}", "1:8: found byte 0xc0, expected text in UTF-8"},
	{"raw surrogate", "{\"a\": \"\xED\xA0\x80\"}", "1:8: found byte 0xed, expected text in UTF-8"},
	{"lone surrogate", `{"a": "x\ud800"}`, `1:9: found \ud800, expected a whole character: two surrogates together make one`},
	{"half pair", `{"a": "\ud83dA"}`, `1:8: found \ud83d, expected a whole character: two surrogates together make one`},
	{"bad escape", `{"a": "9\q"}`, `1:9: found \q, expected an escape that JSON has: \" \\ \/ \b \f \n \r \t \u`},
	{"raw line end", "{\"a\": \"9\n\"}", `1:9: found a control character in a text, expected an escape such as \n or \t`},
	{"escaped NUL", `{"a": "9\u0000"}`, "1:7: a: found the control character U+0000 in a text, expected text that can be printed"},
	{"NUL in name", `{"a\u0001": 1}`, "1:2: found the control character U+0001 in a text, expected text that can be printed"},
	{"too large", `{"a": [1, 1e400]}`, "1:11: a[1]: found 1e400, expected a number below 1.8e308"},
	{"exponent", `{"a": -1e99999999999}`, "1:7: a: found -1e99999999999, expected a number below 1.8e308"},
	{"too small", `{"a": 1E-400}`, "1:7: a: found 1E-400, expected 0, or a number that can be told from it"},
	{"two large", "{\"a\": 1e400,\n\"b\": 1e401}", "1:7: a: found 1e400, expected a number below 1.8e308\n2:6: b: found 1e401, expected a number below 1.8e308"},
	{"twice", "{\"a\": 1, \"b\": {\"a\": 2},\n \"a\": 3}", `2:2: a: found member "a" again, expected each member once: the first is at 1:2`},
	{"three times", `{"a": {"b": 1, "b": 2, "b": 3}}`, `1:16: a.b: found member "b" again, expected each member once: the first is at 1:8` + "\n" + `1:24: a.b: found member "b" again, expected each member once: the first is at 1:8`},
	{"twice by escape", `{"a": 1, "\u0061": 2}`, `1:10: a: found member "a" again, expected each member once: the first is at 1:2`},
	{"trailing word", "{}\n end", `2:2: found "end", expected nothing after the end of the plan`},
	{"trailing plan", "{} {}", `1:4: found "{", expected nothing after the end of the plan`},
	{"trailing brace", "{}}", `1:3: found "}", expected nothing after the end of the plan`},
	{"comma at end", `{"a": 1,}`, `1:8: found ",", expected a member or value on both sides of a comma`},
	{"comma at start", `{"a": [,1]}`, `1:8: found ",", expected a member or value on both sides of a comma`},
	{"no colon", `{"a" 1}`, `1:6: found "1", expected ':' after the member name`},
	{"no value", `{"a": }`, `1:7: found "}", expected a value`},
	{"no comma", `{"a": 1 "b": 2}`, `1:9: found "\"", expected ',' or '}'`},
	{"no comma in list", `{"a": [1 2]}`, `1:10: found "2", expected ',' or ']'`},
	{"wrong bracket", `{"a": [1}`, `1:9: found "}", expected ',' or ']'`},
	{"bare name", `{od: 1}`, `1:2: found "od", expected a member name in double quotes`},
	{"number name", `{"a": 1, 2: 1}`, `1:10: found "2", expected a member name in double quotes`},
	{"not a number", `{"a": NaN}`, `1:7: found "NaN", expected a value`},
	{"comment", "{ // bit\n}", `1:3: found "//", expected a member name in double quotes`},
	{"True", `{"a": True}`, `1:7: found "True", expected a value`},
	{"misspelt", `{"a": [true, flase]}`, `1:14: found "flase", expected true, false or null`},
	{"dot", `{"a": 12.}`, `1:10: found "}", expected a digit`},
	{"leading zero", `{"a": 012}`, `1:8: found "12", expected ',' or '}'`},
	{"inch mark", `{"a": 9.625"}`, `1:12: found "\"", expected ',' or '}'`},
	{"curly quotes", `{"é": “x”}`, `1:7: found "“x”", expected a value`},
	{"cut in object", "{\"a\":\n {\"b\": 1", "2:9: found the end of the file, expected the end of what opens at 2:2"},
	{"cut in list", "{\"a\": [1,\n", "2:1: found the end of the file, expected the end of what opens at 1:7"},
	{"cut in text", "{\"a\":\n \"9 5", `2:6: found the end of the file, expected '"' to close the text that begins at 2:2`},
	{"cut in word", `{"a": tr`, "1:9: found the end of the file, expected the end of what opens at 1:1"},
	{"markup", "\n<workbook/>", "2:1: found XML or HTML, expected a JSON plan or an .xlsx workbook"},
	{"PDF", "%PDF-1.7\n", "1:1: found a PDF, expected a JSON plan or an .xlsx workbook"},
	{"table", "string,od\n", `1:1: found "string", expected a JSON plan or an .xlsx workbook`},
	{"number alone", "42", `1:1: found "42", expected a JSON plan or an .xlsx workbook`},
	{"empty list", " []", "1:2: found an empty list, expected at least one plan in it"},
	{"old workbook", "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1....", "found an older binary workbook, expected the same saved as .xlsx, or a JSON plan"},
	{"locked workbook", "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1..E\x00n\x00c\x00r\x00y\x00p\x00t\x00e\x00d\x00P\x00a\x00c\x00k\x00a\x00g\x00e\x00", "found a workbook locked with a password, expected an .xlsx workbook saved without one, or a JSON plan"},
}

func TestRefusals(t *testing.T) {
	for _, c := range refusals {
		docs, err := read.Bytes("dir/x", []byte(c.text))
		var faults doc.Faults
		if !errors.As(err, &faults) || docs != nil {
			t.Errorf("%s: %v, %v; want faults", c.name, docs, err)
			continue
		}
		if got := withoutFile(faults); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
	}
}

// withoutFile makes sure that each fault names the file and leaves it out.
func withoutFile(faults doc.Faults) string {
	lines := make([]string, len(faults))
	for i, f := range faults {
		s := strings.TrimPrefix(f.String(), "x: ")
		lines[i] = strings.TrimPrefix(s, "x:")
	}
	return strings.Join(lines, "\n")
}

// Beside each refused case stands one that is accepted.
func TestAccepted(t *testing.T) {
	for _, text := range []string{
		"{}", " {}\r\n", "[{}]", `{"a": "\ud83d\ude00"}`, `{"a": "\u0009\n\r"}`, `{"a": 1e308, "b": -1.7e308, "c": 1e-300, "d": 0e-999}`,
		`{"a": {"a": {"a": 1}}}`, `{"": 1}`, `{"a": "<b>", "b": "é⅜″"}`, `{"a": [], "b": {}}`,
		strings.Repeat("[", 64) + strings.Repeat("]", 64),
	} {
		if _, err := read.Bytes("x", []byte(text)); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
}
