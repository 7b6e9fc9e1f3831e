package command_test

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"skep/assets"
)

// skep is the program built for these tests, the pure-Go one. It is the real
// main and not this test binary, since what the toolkit prints while packages
// initialise depends on what is linked.
var skep string

func TestMain(m *testing.M) {
	os.Exit(func() int {
		dir, err := os.MkdirTemp("", "skep-script-")
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			return 1
		}
		defer os.RemoveAll(dir)
		skep = filepath.Join(dir, "skep")
		build := exec.Command("go", "build", "-tags", "ci", "-o", skep, "skep")
		build.Env = append(os.Environ(), "CGO_ENABLED=0")
		if out, err := build.CombinedOutput(); err != nil {
			fmt.Fprintf(os.Stderr, "go build: %v\n%s", err, out)
			return 1
		}
		return m.Run()
	}())
}

// Every command as a person would use it, in testdata/script.
func TestScripts(t *testing.T) {
	t.Parallel()
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("..", "..", "testdata", "script"),
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("PATH", filepath.Dir(skep)+string(os.PathListSeparator)+e.Getenv("PATH"))
			for _, name := range assets.Demos() {
				src, err := assets.Demo(name)
				if err != nil {
					return err
				}
				short := strings.TrimPrefix(name, "gate-field-")
				if err := os.WriteFile(filepath.Join(e.WorkDir, short), src, 0o644); err != nil {
					return err
				}
			}
			return nil
		},
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){
			"exits":  exits,
			"column": column,
			"json":   jsonKeys,
		},
		Condition: func(cond string) (bool, error) {
			if cond == "root" {
				return os.Getuid() == 0, nil
			}
			return false, fmt.Errorf("no condition %q", cond)
		},
	})
}

// exits CODE PROGRAM ARGS... runs a program and checks its exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE PROGRAM ARGS...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%s: %v", args[1], err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// column NAME rising|falling|VALUES looks at a column of the CSV on stdout.
func column(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: column NAME rising|falling|V1,V2,...")
	}
	rows, err := csv.NewReader(strings.NewReader(ts.ReadFile("stdout"))).ReadAll()
	ts.Check(err)
	at := -1
	for i, name := range rows[0] {
		if name == args[0] {
			at = i
		}
	}
	if at < 0 {
		ts.Fatalf("no column %s in %v", args[0], rows[0])
	}
	var texts []string
	var values []float64
	for _, row := range rows[1:] {
		v, err := strconv.ParseFloat(row[at], 64)
		ts.Check(err)
		if math.IsNaN(v) || math.IsInf(v, 0) {
			ts.Fatalf("column %s has %v", args[0], v)
		}
		texts, values = append(texts, row[at]), append(values, v)
	}
	if len(values) < 2 {
		ts.Fatalf("column %s has %d values", args[0], len(values))
	}
	if args[1] != "rising" && args[1] != "falling" {
		if got := strings.Join(texts, ","); got != args[1] {
			ts.Fatalf("column %s is %s, want %s", args[0], got, args[1])
		}
		return
	}
	for i := 1; i < len(values); i++ {
		if up := values[i] > values[i-1]; values[i] == values[i-1] || up != (args[1] == "rising") {
			ts.Fatalf("column %s is not %s: %v", args[0], args[1], values)
		}
	}
}

// json KEYS... checks that stdout is one JSON object with exactly these keys in
// this order, and that every band in it is finite and in order.
func jsonKeys(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: json KEY...")
	}
	text := ts.ReadFile("stdout")
	d := json.NewDecoder(strings.NewReader(text))
	_, err := d.Token()
	ts.Check(err)
	var keys []string
	for d.More() {
		key, err := d.Token()
		ts.Check(err)
		keys = append(keys, fmt.Sprint(key))
		var value any
		ts.Check(d.Decode(&value))
		if err := inOrder(keys[len(keys)-1], value); err != nil {
			ts.Fatalf("%v", err)
		}
	}
	if got, want := strings.Join(keys, " "), strings.Join(args, " "); got != want {
		ts.Fatalf("keys\n%s\nwant\n%s", got, want)
	}
}

// inOrder looks for bands in a JSON value.
func inOrder(at string, value any) error {
	switch v := value.(type) {
	case nil:
		return fmt.Errorf("%s is null", at)
	case []any:
		for i, e := range v {
			if err := inOrder(fmt.Sprintf("%s.%d", at, i), e); err != nil {
				return err
			}
		}
	case map[string]any:
		low, isBand := v["low"].(float64)
		mid, ok1 := v["mid"].(float64)
		high, ok2 := v["high"].(float64)
		if isBand && !(ok1 && ok2 && low <= mid && mid <= high) {
			return fmt.Errorf("%s: low, mid, high are %v", at, v)
		}
		for k, e := range v {
			if err := inOrder(at+"."+k, e); err != nil {
				return err
			}
		}
	}
	return nil
}
