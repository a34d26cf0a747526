package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"
)

// allowed says which packages of the module each package may import. One
// direction of data: bytes, doc, plan, well, engine, record, reports. Longer
// prefixes win; a family of checks is rules/checks/*.
var allowed = map[string]string{
	"plan/place":             "",
	"plan/units":             "",
	"plan/form":              "plan/units",
	"plan/doc":               "plan/place",
	"plan/expr":              "plan/place plan/units",
	"plan/pipe":              "plan/units plan/expr",
	"plan/survey":            "plan/units plan/expr",
	"plan/fluid":             "plan/units plan/expr",
	"plan":                   "plan/doc plan/form plan/place plan/units",
	"plan/sheet":             "plan/doc plan/form plan/place plan/units",
	"plan/read":              "plan/doc plan/place plan/sheet",
	"schema":                 "plan/doc plan/form plan/place",
	"schema/gen":             "",
	"plan/well":              "plan plan/expr plan/fluid plan/pipe plan/place plan/survey plan/units",
	"rules/finding":          "plan/place plan/units plan/expr",
	"rules/basis":            "plan plan/expr plan/units plan/well rules/finding",
	"rules":                  "plan plan/expr plan/place plan/units plan/well rules/basis rules/finding",
	"rules/checks":           "rules rules/checks/*",
	"rules/checks/gen":       "",
	"rules/checks/checktest": "plan plan/read plan/well rules rules/basis rules/books rules/checks rules/finding schema",
	"rules/checks/*":         "plan plan/expr plan/fluid plan/pipe plan/place plan/survey plan/units plan/well rules",
	"rules/books":            "plan/expr plan/units rules",
	"rules/whatif":           "plan plan/place plan/units plan/well rules rules/finding",
	"rules/record":           "rules/whatif plan plan/pipe plan/doc plan/expr plan/form plan/place plan/units plan/well rules rules/basis rules/finding",
	"reports/office":         "",
	"reports/register":       "rules/finding",
	"reports/workbook":       "plan/expr plan/place plan/units reports/drawing rules/finding",
	"reports/*":              "plan/expr plan/place plan/units rules/finding",
	"cmd/spudgate":           "*",
}

// TestImports parses every import itself: a test that asked the go command
// would be answered from the test cache.
func TestImports(t *testing.T) {
	root := filepath.Join("..", "..")
	seen := map[string]bool{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		rel, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		from := filepath.ToSlash(rel)
		seen[from] = true
		rule, ok := ruleFor(from)
		if !ok {
			t.Errorf("package %s has no line in the table of imports", from)
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, im := range f.Imports {
			to, err := strconv.Unquote(im.Path.Value)
			if err != nil {
				return err
			}
			if to, ours := strings.CutPrefix(to, "spudgate/"); ours && !permits(rule, to) {
				t.Errorf("%s imports %s, and may import %q", path, to, rule)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(seen) < 10 {
		t.Errorf("only %d packages were walked", len(seen))
	}
}

func ruleFor(pkg string) (string, bool) {
	if r, ok := allowed[pkg]; ok {
		return r, true
	}
	var wild []string
	for k := range allowed {
		if strings.HasSuffix(k, "/*") && strings.HasPrefix(pkg, strings.TrimSuffix(k, "*")) {
			wild = append(wild, k)
		}
	}
	if len(wild) == 0 {
		return "", false
	}
	sort.Slice(wild, func(i, j int) bool { return len(wild[i]) > len(wild[j]) })
	return allowed[wild[0]], true
}

func permits(rule, to string) bool {
	for _, r := range strings.Fields(rule) {
		if r == "*" || r == to || strings.HasSuffix(r, "/*") && strings.HasPrefix(to, strings.TrimSuffix(r, "*")) {
			return true
		}
	}
	return false
}
