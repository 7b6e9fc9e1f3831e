package words

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"
	"text/template"

	"skep/calc/quantity"
)

var update = flag.Bool("update", false, "write translations/en.json anew from the texts in the source")

const english = "translations/en.json"

// inApp are the calls that are given a text, and which argument it is: words.T
// and words.N, Fyne's own names, and the say function that packages without
// the toolkit are handed.
var inApp = map[string]int{
	"words.T": 0, "words.N": 0, "lang.L": 0, "lang.N": 0, "lang.Localize": 0, "lang.LocalizePlural": 0, "say": 0,
}

// inCalc make the sentences of package calc: says.Say itself, and what the
// packages brewday and follow have for it.
var inCalc = map[string]int{
	"says.Say": 0, "says.Failed": 0, "s.do": 0, "s.note": 0, "s.warn": 1, "s.advise": 0, "why": 0, "p.flag": 1, "p.drop": 1, "say": 0,
}

type text struct {
	key    string
	plural bool
	where  token.Position
}

func TestNoTextIsMissing(t *testing.T) {
	t.Parallel()
	texts, complaints := scan(t, os.DirFS(".."), inApp)
	more, others := scan(t, os.DirFS("../../calc"), inCalc)
	if len(more) == 0 {
		t.Fatal("no text found in calc: the scan is broken")
	}
	texts, complaints = append(texts, more...), append(complaints, others...)
	for _, symbol := range quantity.Symbols() {
		texts = append(texts, text{symbol, false, token.Position{Filename: "calc/quantity/kind.go"}})
	}
	for _, c := range complaints {
		t.Error(c)
	}
	if len(texts) == 0 {
		t.Fatal("no text found: the scan is broken")
	}
	if *update {
		write(t, texts)
	}
	known := map[string]any{}
	raw, err := os.ReadFile(english)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &known); err != nil {
		t.Fatal(err)
	}
	for _, tx := range texts {
		if _, ok := known[tx.key]; !ok {
			t.Errorf("%s: %q is not in %s; run: go test -tags ci ./app/words -update", tx.where, tx.key, english)
		}
		if _, err := template.New("").Parse(tx.key); err != nil {
			t.Errorf("%s: %q has a broken place: %v", tx.where, tx.key, err)
		}
	}
	used := map[string]bool{}
	for _, tx := range texts {
		used[tx.key] = true
	}
	for key := range known {
		if !used[key] {
			t.Errorf("%s has %q, which no code says; run: go test -tags ci ./app/words -update", english, key)
		}
	}
}

// scan finds the texts in all Go files of the tree except tests.
func scan(t *testing.T, tree fs.FS, callees map[string]int) (texts []text, complaints []string) {
	t.Helper()
	files := token.NewFileSet()
	err := fs.WalkDir(tree, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		src, err := fs.ReadFile(tree, path)
		if err != nil {
			return err
		}
		parsed, err := parser.ParseFile(files, path, src, 0)
		if err != nil {
			return err
		}
		own := strings.HasPrefix(path, "words/") // T and N themselves pass on what they get
		ast.Inspect(parsed, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || own || call.Ellipsis.IsValid() { // with...: what stands for says.Say passes on
				return true
			}
			name := callee(call.Fun)
			at, ok := callees[name]
			if !ok || len(call.Args) <= at {
				return true
			}
			where := files.Position(call.Pos())
			key, ok := literal(call.Args[at])
			if !ok {
				complaints = append(complaints, fmt.Sprintf("%s: the text given to %s is no literal, so its translation can't be found", where, name))
				return true
			}
			texts = append(texts, text{key, strings.HasSuffix(name, "N") || strings.HasSuffix(name, "Plural"), where})
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return texts, complaints
}

func callee(fun ast.Expr) string {
	switch f := fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		if f.Sel.Name == "say" {
			return "say"
		}
		if pkg, ok := f.X.(*ast.Ident); ok {
			return pkg.Name + "." + f.Sel.Name
		}
	}
	return ""
}

// literal joins string constants written with +.
func literal(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		s, err := strconv.Unquote(e.Value)
		return s, err == nil
	case *ast.BinaryExpr:
		a, okA := literal(e.X)
		b, okB := literal(e.Y)
		return a + b, okA && okB && e.Op == token.ADD
	case *ast.ParenExpr:
		return literal(e.X)
	}
	return "", false
}

func write(t *testing.T, texts []text) {
	t.Helper()
	sort.Slice(texts, func(i, j int) bool { return texts[i].key < texts[j].key })
	// Go's encoder sorts map keys, so the file has one order.
	out := map[string]any{}
	for _, tx := range texts {
		if tx.plural {
			out[tx.key] = map[string]string{"one": tx.key, "other": tx.key}
			if old, ok := oldEntry(tx.key); ok {
				out[tx.key] = old // the singular was worded by hand
			}
		} else if _, plural := out[tx.key]; !plural {
			out[tx.key] = tx.key
		}
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(out); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(english, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

func oldEntry(key string) (any, bool) {
	raw, err := os.ReadFile(english)
	if err != nil {
		return nil, false
	}
	old := map[string]any{}
	if json.Unmarshal(raw, &old) != nil {
		return nil, false
	}
	_, isMap := old[key].(map[string]any)
	return old[key], isMap
}

// The scan itself must see what it should see.
func TestScanFindsTextsAndLiterals(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	src := "package x\nfunc f(say func(string) string) { words.T(`plain`); words.N(\"{{.Count}} \"+\"jars\", 2); p.f.say(\"said\"); words.T(variable); other.T(\"not this\"); words.T(passed, on...) }\n"
	if err := os.WriteFile(filepath.Join(dir, "x.go"), []byte(src), 0o600); err != nil {
		t.Fatal(err)
	}
	texts, complaints := scan(t, os.DirFS(dir), inApp)
	var got []string
	for _, tx := range texts {
		got = append(got, fmt.Sprint(tx.key, tx.plural))
	}
	if want := "[plainfalse {{.Count}} jarstrue saidfalse]"; fmt.Sprint(got) != want {
		t.Errorf("got %v, want %v", got, want)
	}
	if len(complaints) != 1 || !strings.Contains(complaints[0], "no literal") {
		t.Errorf("complaints: %v", complaints)
	}
}

// And in calc: the text's place differs by call, and what passes on with... is
// no sentence of its own.
func TestScanFindsCalcsSentences(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	src := "package x\nfunc f() { says.Say(`a {}`, 1); s.warn(keys, \"b\"); p.flag(code, \"c\"); s.do(text, with...); s.do(text); words.T(\"not this\") }\n"
	if err := os.WriteFile(filepath.Join(dir, "x.go"), []byte(src), 0o600); err != nil {
		t.Fatal(err)
	}
	texts, complaints := scan(t, os.DirFS(dir), inCalc)
	var got []string
	for _, tx := range texts {
		got = append(got, tx.key)
	}
	if want := "[a {} b c]"; fmt.Sprint(got) != want || len(complaints) != 1 {
		t.Errorf("got %v, want %v; complaints %v", got, want, complaints)
	}
}

// English must come out as it was written, places filled.
func TestTranslates(t *testing.T) {
	if got := T("read as {{.Value}}", map[string]any{"Value": "66.1 °C"}); got != "read as 66.1 °C" {
		t.Errorf("got %q", got)
	}
	if got := T("a text that nobody listed"); got != "a text that nobody listed" {
		t.Errorf("an unlisted text must stay as it is: %q", got)
	}
}
