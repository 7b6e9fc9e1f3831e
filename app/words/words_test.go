package words

import (
	"bytes"
	"cmp"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"

	"skep/assets"
	"skep/calc/design"
	"skep/calc/explain"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/reckon"
)

var update = flag.Bool("update", false, "write translations/en.json anew from the texts in the source")

const englishList = "translations/en.json"

// callees are the calls that are given a text, and which argument it is:
// package words, package message, and what other packages have for them.
var callees = map[string]int{
	"words.T": 0, "words.N": 0, "message.New": 0, "message.NewError": 0, "message.Counted": 0,
}

// short are what single packages call them.
var short = map[string]map[string]int{
	"brewday":  {"s.do": 0, "s.note": 0, "s.warn": 1, "s.lead": 0, "s.number": 0, "s.blank": 0},
	"design":   {"c.error": 1, "c.warn": 1},
	"file":     {"r.report": 3},
	"reckon":   {"a.fail": 1},
	"water":    {"dry": 0},
	"follow":   {"s.advise": 0, "why": 0},
	"command":  {"s.line": 0},
	"measured": {"p.flag": 1, "p.drop": 1},
	"message":  {"NewError": 0},
	"sheet":    {"c.text": 0, "s.c.text": 0, "t.c.text": 0},
	"quantity": {"p.f.say": 0, "f.say": 0}, "compare": {"say": 0},
}

// labels are those of them that fill no place.
var labels = map[string]bool{"s.lead": true, "s.number": true, "s.blank": true}

type text struct {
	key   string
	one   string // the English of one; empty where nothing is counted
	where token.Position
	by    string // package and call, as short has them
}

// It is not parallel, so that the list is written before the languages are held
// against it.
func TestNoTextIsMissing(t *testing.T) {
	var texts []text
	var complaints []string
	for _, tree := range []string{"..", "../../calc", "../../plotting"} {
		more, others := scan(t, os.DirFS(tree))
		if tree != "../../plotting" && len(more) == 0 {
			t.Fatalf("no text found in %s: the scan is broken", tree)
		}
		texts, complaints = append(texts, more...), append(complaints, others...)
	}
	catalogue, err := assets.LoadCatalogue()
	if err != nil {
		t.Fatal(err)
	}
	for file, list := range map[string][]string{
		"calc/quantity/kind.go": quantity.Symbols(), "calc/design/keys.go": design.Texts(), "calc/reckon/reckon.go": reckon.Texts(),
		"calc/explain/sheets.go": explain.Texts(), "assets/catalogue": catalogue.Texts(),
	} {
		for _, english := range list {
			if english != "" {
				texts = append(texts, text{key: english, where: token.Position{Filename: file}})
			}
		}
	}
	for in, calls := range short {
		for name := range calls {
			if !slices.ContainsFunc(texts, func(tx text) bool { return tx.by == in+" "+name }) {
				complaints = append(complaints, fmt.Sprintf("package %s gives no text to %s: it moved, and the scan no longer finds its texts", in, name))
			}
		}
	}
	for _, c := range complaints {
		t.Error(c)
	}
	if *update {
		write(t, texts)
	}
	known := map[string]any{}
	raw, err := os.ReadFile(englishList)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &known); err != nil {
		t.Fatal(err)
	}
	for _, tx := range texts {
		if _, ok := known[tx.key]; !ok {
			t.Errorf("%s: %q is not in %s; run: go test -tags ci ./app/words -update", tx.where, tx.key, englishList)
		}
		if strings.Contains(tx.key, "{{") || strings.Count(tx.key, "{") != strings.Count(tx.key, "}") {
			t.Errorf("%s: %q has a broken place", tx.where, tx.key)
		}
	}
	used := map[string]bool{}
	for _, tx := range texts {
		used[tx.key] = true
	}
	for key := range known {
		if !used[key] {
			t.Errorf("%s has %q, which no code says; run: go test -tags ci ./app/words -update", englishList, key)
		}
	}
}

// goFiles visits the Go files below a root, except tests.
func goFiles(t *testing.T, tree fs.FS, root string, visit func(path string, parsed *ast.File, files *token.FileSet)) {
	t.Helper()
	files := token.NewFileSet()
	err := fs.WalkDir(tree, root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		src, err := fs.ReadFile(tree, path)
		if err != nil {
			return err
		}
		parsed, err := parser.ParseFile(files, path, src, 0)
		if err == nil {
			visit(path, parsed, files)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// scan finds the texts in all Go files of the tree except tests.
func scan(t *testing.T, tree fs.FS) (texts []text, complaints []string) {
	t.Helper()
	goFiles(t, tree, ".", func(path string, parsed *ast.File, files *token.FileSet) {
		// T, N and New themselves pass on what they get.
		own := path == "words/words.go" || path == "message/message.go"
		ast.Inspect(parsed, func(n ast.Node) bool {
			if field, ok := n.(*ast.Field); ok && field.Tag != nil {
				if english := told(field.Tag.Value); english != "" {
					texts = append(texts, text{key: english, where: files.Position(field.Pos())})
				}
			}
			call, ok := n.(*ast.CallExpr)
			if !ok || own || call.Ellipsis.IsValid() { // with...: what stands for message.New passes on
				return true
			}
			name := callee(call.Fun)
			at, ok := callees[name]
			if !ok {
				at, ok = short[filepath.Base(filepath.Dir(path))][name]
			}
			if !ok || len(call.Args) <= at {
				return true
			}
			where := files.Position(call.Pos())
			key, ok := literal(call.Args[at])
			if !ok {
				complaints = append(complaints, fmt.Sprintf("%s: the text given to %s is no literal, so its translation can't be found", where, name))
				return true
			}
			tx, values := text{key: key, where: where, by: filepath.Base(filepath.Dir(path)) + " " + name}, len(call.Args)-at-1
			places := message.Places(key)
			if strings.HasSuffix(name, ".N") || strings.HasSuffix(name, ".Counted") {
				tx.one = key
				if tx.key, ok = literal(call.Args[at+1]); !ok {
					complaints = append(complaints, fmt.Sprintf("%s: the plural given to %s is no literal", where, name))
					return true
				}
				places = slices.DeleteFunc(message.Places(tx.key), func(name string) bool { return name == "count" })
				values = len(call.Args) - at - 3
			}
			// A text without any value may get it later (package lever), and a
			// label's other arguments are no values.
			if len(places) != values && values != 0 && !labels[name] {
				complaints = append(complaints, fmt.Sprintf("%s: %d values for the %d places of %q", where, values, len(places), tx.key))
			}
			texts = append(texts, tx)
			return true
		})
	})
	return texts, complaints
}

// told is what the tag of a field says to a person: the help of a command or flag, or
// what a key of JSON holds.
func told(tag string) string {
	tag, err := strconv.Unquote(tag)
	if err != nil {
		return ""
	}
	return cmp.Or(reflect.StructTag(tag).Get("help"), reflect.StructTag(tag).Get("about"))
}

func callee(fun ast.Expr) string {
	switch f := fun.(type) {
	case *ast.Ident:
		return f.Name
	case *ast.SelectorExpr:
		if of := callee(f.X); of != "" {
			return of + "." + f.Sel.Name
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
		if tx.one != "" {
			out[tx.key] = map[string]string{"one": tx.one, "other": tx.key}
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
	if err := os.WriteFile(englishList, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// The scan itself must see what it should see.
func TestScanFindsTextsAndLiterals(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "brewday"), 0o700); err != nil {
		t.Fatal(err)
	}
	src := "package x\nfunc f(say func(string) string) { words.T(`plain`); words.N(\"one\", \"{count} \"+\"jars\", 2); s.do(\"said\"); words.T(variable); other.T(\"not this\"); words.T(passed, on...); message.New(`a {b}`, 1); s.warn(keys, \"b\"); s.do(text, with...); words.T(`{a} {b}`, 1) }\n"
	if err := os.WriteFile(filepath.Join(dir, "brewday", "x.go"), []byte(src), 0o600); err != nil {
		t.Fatal(err)
	}
	texts, complaints := scan(t, os.DirFS(dir))
	var got []string
	for _, tx := range texts {
		got = append(got, tx.key+"/"+tx.one)
	}
	if want := "[plain/ {count} jars/one said/ a {b}/ b/ {a} {b}/]"; fmt.Sprint(got) != want {
		t.Errorf("got %v, want %v", got, want)
	}
	if len(complaints) != 2 || !strings.Contains(complaints[0], "no literal") || !strings.Contains(complaints[1], "1 values for the 2 places") {
		t.Errorf("complaints: %v", complaints)
	}
}

// English must come out as it was written, places filled.
func TestTranslates(t *testing.T) {
	if got := T("read as {value}", "66.1 °C"); got != "read as 66.1 °C" {
		t.Errorf("got %q", got)
	}
	if got := T("a text that nobody listed"); got != "a text that nobody listed" {
		t.Errorf("an unlisted text must stay as it is: %q", got)
	}
}

func read(t *testing.T, file string) []byte {
	t.Helper()
	raw, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return raw
}

// On a Mac the shortcuts are pressed with the command key, in every language.
func TestAMacHasItsOwnKeys(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"Ctrl+S, Ctrl+Shift+S": "Cmd+S, Cmd+Shift+S", "Ein Blatt (Strg+P)": "Ein Blatt (Cmd+P)", "F1": "fn+F1", "Alt+↑": "Option+↑", "a beer": "a beer",
	} {
		if got := keysOn("darwin", text); got != want {
			t.Errorf("%q on a Mac is %q, want %q", text, got, want)
		}
		if got := keysOn("windows", text); got != text {
			t.Errorf("%q elsewhere is %q", text, got)
		}
	}
}
