package calc_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// oneBeer are the steps that a beer is worked out with: each is taken in package
// calc and in no other, so that there is one place to change how a beer comes
// about. The value says what to ask instead.
var oneBeer = map[string]string{
	"skep/calc/alcohol.RealExtractAfter": "Beer.RePlato",
	"skep/calc/taste.Dryness":            "Beer.Dryness",
	"skep/calc/taste.Weight":             "Beer.Body",
	"skep/calc/taste.Draw":               "Brew.Inputs",
	"skep/calc/mash.TabulateErring":      "NewBrew, Engine.Brew",
	"skep/calc/mash.ResponseQuantile":    "Brew.Inputs",
	"skep/calc/honey.DiastaseTrim":       "Brew.Inputs",
	"skep/calc/honey.Solids":             "Brew.Inputs",
	"skep/calc/yeast.NewScale":           "TakeOf",
	"skep/calc/ferment.Fermentation":     "Brew.Ferment",
	"skep/calc/ferment.Pitched":          "Brew.Ferment",
	"skep/calc/ferment.Run":              "Brew.Ferment",
	"skep/calc/ferment.RateFactor":       "Brew.Inputs",
	"skep/calc/ferment.LagFactor":        "Brew.Inputs",
}

// used are the names of other packages that a file uses, with their import path.
func used(file *ast.File) (names []string, dotted bool) {
	imports := map[string]string{}
	for _, i := range file.Imports {
		from, err := strconv.Unquote(i.Path.Value)
		if err != nil {
			continue
		}
		name := path.Base(from)
		if i.Name != nil {
			name = i.Name.Name
		}
		dotted = dotted || name == "." && strings.HasPrefix(from, "skep/")
		imports[name] = from
	}
	ast.Inspect(file, func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := s.X.(*ast.Ident); ok && imports[x.Name] != "" {
				names = append(names, imports[x.Name]+"."+s.Sel.Name)
			}
		}
		return true
	})
	return names, dotted
}

// No package but calc puts a beer together: a copy of the mass balance, of the
// mash's tables or of the course can't be had without one of these.
func TestTheBeerIsWorkedOutInOnePlace(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for _, root := range []string{".", "../app", "../plotting"} {
		err := filepath.WalkDir(root, func(name string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
				return err
			}
			fileSet := token.NewFileSet()
			file, err := parser.ParseFile(fileSet, name, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			names, dotted := used(file)
			if dotted {
				t.Errorf("%s: a dot import hides what it uses", name)
			}
			for _, n := range names {
				instead, step := oneBeer[n]
				switch {
				case !step:
				case filepath.Dir(name) == ".":
					seen[n] = true
				case name == "recipe/guard.go" && n == "skep/calc/honey.DiastaseTrim":
					// What a year in the bottle may do at most, of no beer that is predicted.
				case strings.HasPrefix(name, "ferment/") && n == "skep/calc/alcohol.RealExtractAfter":
					// A course by the hour, which ends in the beer's own balance.
				case strings.HasPrefix("skep/calc/"+filepath.ToSlash(name), n[:strings.LastIndex(n, ".")]+"/"):
					// What the step is calibrated with stands under its package.
				default:
					t.Errorf("%s uses %s: a beer is worked out in package calc alone; ask %s", name, n, instead)
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for n := range oneBeer {
		if !seen[n] && n != "skep/calc/ferment.Run" {
			t.Errorf("package calc does not use %s: the name has changed, and nothing watches over it", n)
		}
	}
}

func TestUsedSeesThroughNames(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		source string
		want   []string
		dotted bool
	}{
		{`package x; import "skep/calc/taste"; var a = taste.Dryness(1, 2)`, []string{"skep/calc/taste.Dryness"}, false},
		{`package x; import t "skep/calc/taste"; var f = t.Body`, []string{"skep/calc/taste.Body"}, false},
		{`package x; import "skep/calc/ferment"; type w struct{ f ferment.Fermentation }`, []string{"skep/calc/ferment.Fermentation"}, false},
		{`package x; import . "skep/calc/taste"; var a = Dryness(1, 2)`, nil, true},
		{`package x; type t struct{ Dryness int }; var taste t; var a = taste.Dryness`, nil, false},
	} {
		file, err := parser.ParseFile(token.NewFileSet(), "x.go", c.source, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		if got, dotted := used(file); !slices.Equal(got, c.want) || dotted != c.dotted {
			t.Errorf("%s: %v, %v", c.source, got, dotted)
		}
	}
}
