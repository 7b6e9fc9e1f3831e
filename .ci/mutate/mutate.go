// Mutate asks whether the tests would notice a wrong formula. It puts one
// fault at a time into a package and runs the package's tests; a fault that no
// test notices is printed.
//
//	go run ./.ci/mutate [-tests PACKAGE] [-files REGEXP] [-skip REGEXP] [-later REGEXP] [-every N] PACKAGE...
//
// All faults of a package are compiled into one test program, and a variable
// of the environment wakes one of them: a fault costs a run of the tests, not
// a compilation. Constants declared as such are left as they are.
package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

var (
	tests   = flag.String("tests", "", "package whose tests judge (default: the package itself)")
	files   = flag.String("files", "", "only files whose name matches")
	skip    = flag.String("skip", "Alloc", "tests to leave out; a fault that sleeps allocates")
	later   = flag.String("later", "", "tests that judge only what the others left alive: slow ones")
	every   = flag.Int("every", 1, "take every Nth fault")
	workers = flag.Int("workers", 2, "faults at a time")
	seed    = flag.String("seed", "20260620", "seed of the property tests")
)

func main() {
	flag.Parse()
	for _, p := range flag.Args() {
		if err := examine(p); err != nil {
			fmt.Fprintln(os.Stderr, p+":", err)
			os.Exit(1)
		}
	}
}

// A listed package, as `go list` tells it.
type listed struct {
	ImportPath, Dir, Export string
	GoFiles, TestGoFiles    []string
	XTestGoFiles            []string
	Module                  struct{ Dir string }
}

func list(args ...string) (ps []listed, err error) {
	out, err := exec.Command("go", append([]string{"list", "-tags", "ci", "-json"}, args...)...).Output()
	if err != nil {
		return nil, fmt.Errorf("go list %v: %w", args, err)
	}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := d.Decode(&p); err == io.EOF {
			return ps, nil
		} else if err != nil {
			return nil, err
		}
		ps = append(ps, p)
	}
}

func examine(pattern string) error {
	ps, err := list(pattern)
	if err != nil {
		return err
	}
	p, judge := ps[0], ps[0]
	if *tests != "" {
		if ps, err = list(*tests); err != nil {
			return err
		}
		judge = ps[0]
	}
	temp, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	m, replaced, err := mutate(p, temp)
	if err != nil {
		return err
	}
	run := &runner{temp: temp, dir: judge.Dir}
	for _, f := range append(judge.TestGoFiles, judge.XTestGoFiles...) {
		text, _ := os.ReadFile(filepath.Join(judge.Dir, f))
		run.rapid = run.rapid || bytes.Contains(text, []byte("pgregory.net/rapid"))
	}
	for name, record := range map[string]string{"run": "false", "record": "true"} {
		support := filepath.Join(temp, "support-"+name+".go")
		if err := os.WriteFile(support, []byte(strings.Replace(supportCode, "RECORD", record, 1)), 0o666); err != nil {
			return err
		}
		replaced[filepath.Join(p.Module.Dir, "mutant", "mutant.go")] = support
		overlay, _ := json.Marshal(map[string]any{"Replace": replaced})
		path := filepath.Join(temp, name+".json")
		if err := os.WriteFile(path, overlay, 0o666); err != nil {
			return err
		}
		c := exec.Command("go", "test", "-c", "-vet=off", "-tags", "ci", "-overlay", path, "-o", filepath.Join(temp, name), judge.ImportPath)
		if out, err := c.CombinedOutput(); err != nil {
			return fmt.Errorf("compiling: %w\n%s", err, out)
		}
	}
	return run.all(p.ImportPath, m.faults)
}
