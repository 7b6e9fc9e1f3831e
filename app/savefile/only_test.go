package savefile

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// elsewhere are the files that touch the disk without this package, and why they may.
var elsewhere = map[string]string{
	"toolkitlog.go": "before there is a window: it opens what Go's log is written to",
	"soak.go":       "built for the soak alone",
}

// touches are the functions with which Go's own library reaches a file by its name.
var touches = map[string][]string{
	"os": {"ReadFile", "Open", "OpenFile", "Create", "CreateTemp", "WriteFile", "Stat", "Lstat", "ReadDir", "Readlink", "Remove", "RemoveAll",
		"Rename", "Mkdir", "MkdirAll", "MkdirTemp", "DirFS", "Chmod", "Chtimes", "Link", "Symlink", "Truncate", "CopyFS", "OpenRoot"},
	"filepath": {"EvalSymlinks", "Walk", "WalkDir", "Glob"},
	"ioutil":   {"ReadFile", "ReadDir", "WriteFile", "TempDir", "TempFile"},
	"storage":  {"Reader", "Writer", "Delete", "List", "Exists", "CanRead", "CanWrite", "Copy", "Move"},
	"syscall":  {"Open", "Stat", "Unlink", "Rename"},
}

// Every file of a person's is read and written through this package, which takes plain
// files only, opens without waiting and asks the descriptor what it is, and gives a
// silent disk up. Nothing else in the program reaches a file by its name.
func TestNothingElseTouchesTheDisk(t *testing.T) {
	t.Parallel()
	files := 0
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if path == filepath.Join("..", "savefile") {
				return filepath.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || elsewhere[d.Name()] != "" {
			return nil
		}
		files++
		set := token.NewFileSet()
		src, err := parser.ParseFile(set, path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(src, func(n ast.Node) bool {
			s, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			of, ok := s.X.(*ast.Ident)
			if !ok || of.Obj != nil { // a variable, not a package
				return true
			}
			for _, name := range touches[of.Name] {
				if s.Sel.Name == name {
					t.Errorf("%s: %s.%s reaches a file without savefile", set.Position(n.Pos()), of.Name, name)
				}
			}
			return true
		})
		return nil
	})
	if err != nil || files < 200 {
		t.Errorf("%d files looked at, %v", files, err)
	}
}
