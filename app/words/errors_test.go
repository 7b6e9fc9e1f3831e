package words

import (
	"fmt"
	"go/ast"
	"go/token"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// plainErrors are the places that may make an error in plain English, and why. What
// only a fault of the program brings about needs no line here: it is a message.Fault.
var plainErrors = map[string]string{
	"calc/ode/":                 "the integrator's errors are for who calls it; what a person may see of them is a fault of Skep (calc/mash)",
	"calc/leastsquares/":        "the fit's errors are for who calls it",
	"calc/record/":              "published rows are read by tests only",
	"calc/message/error.go":     "message.Fault itself",
	"app/command/messages.go":   "errSaid ends a command that has said all; nobody reads it",
	"app/display/answers_ci.go": "a build for tests",
	"calc/design/file/index.go": "the offset is all that is taken of it",
}

var (
	verbs = regexp.MustCompile(`%[-+# 0-9.*]*[a-zA-Z%]`)
	word  = regexp.MustCompile(`[A-Za-z]{2,}`)
)

// Every error that a person can read is a message, so that it is said in their
// language: no plain English is made into an error, be it by errors.New, fmt.Errorf
// or in a type's own Error.
func TestErrorsAreMessages(t *testing.T) {
	t.Parallel()
	used := map[string]bool{}
	found := 0
	for _, tree := range []string{"app", "calc", "plotting", "assets"} {
		for _, c := range plainEnglish(t, os.DirFS("../.."), tree) {
			found++
			i := slices.IndexFunc(keys(plainErrors), func(place string) bool { return strings.HasPrefix(c, place) })
			if i < 0 {
				t.Errorf("%s: an error in plain English: message.NewError says it in every language, message.Fault is for a fault of the program", c)
				continue
			}
			used[keys(plainErrors)[i]] = true
		}
	}
	if found == 0 {
		t.Error("no error found at all: the scan is broken")
	}
	for place := range plainErrors {
		if !used[place] {
			t.Errorf("%s has no plain error any more: take its line out", place)
		}
	}
}

func keys(m map[string]string) []string {
	var all []string
	for k := range m {
		all = append(all, k)
	}
	slices.Sort(all)
	return all
}

// plainEnglish are the errors of a tree that are English sentences, each with its
// place. A text of places and punctuation alone, such as "%s: %w", is none.
func plainEnglish(t *testing.T, root fs.FS, tree string) (list []string) {
	t.Helper()
	goFiles(t, root, tree, func(_ string, parsed *ast.File, files *token.FileSet) {
		english := func(e ast.Expr) bool {
			text, ok := literal(e)
			return !ok || word.MatchString(verbs.ReplaceAllString(text, ""))
		}
		tell := func(n ast.Node) { list = append(list, files.Position(n.Pos()).String()) }
		ast.Inspect(parsed, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				name := callee(n.Fun)
				if (name == "errors.New" || name == "fmt.Errorf") && len(n.Args) > 0 && english(n.Args[0]) {
					tell(n)
				}
			case *ast.FuncDecl:
				if n.Recv == nil || n.Name.Name != "Error" || n.Body == nil {
					return true
				}
				ast.Inspect(n.Body, func(in ast.Node) bool {
					if lit, ok := in.(*ast.BasicLit); ok && lit.Kind == token.STRING && english(lit) {
						tell(lit)
					}
					return true
				})
			}
			return true
		})
	})
	return list
}

// The scan itself must see what it should see.
func TestPlainEnglishIsFound(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	src := "package x\n" +
		"var a = errors.New(`so it is`)\n" +
		"var b = fmt.Errorf(\"%s: %w\", c, d)\n" +
		"var e = fmt.Errorf(\"%s \"+\"is not there\", c)\n" +
		"var f = errors.New(text)\n" +
		"func (t T) Error() string { return fmt.Sprintf(\"%d bytes\", t) }\n" +
		"func (t U) Error() string { return t.AsMessage().String() }\n"
	if err := os.WriteFile(dir+"/x.go", []byte(src), 0o600); err != nil {
		t.Fatal(err)
	}
	if got, want := fmt.Sprint(plainEnglish(t, os.DirFS(dir), ".")), "[x.go:2:9 x.go:4:9 x.go:5:9 x.go:6:48]"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
