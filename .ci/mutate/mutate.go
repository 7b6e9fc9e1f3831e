//go:build ignore

// Mutate asks whether the tests would notice a wrong formula. It puts one
// fault at a time into a package and runs the package's tests; a fault that no
// test notices is printed.
//
//	go run .ci/mutate/mutate.go [-tests PACKAGE] [-files REGEXP] [-skip REGEXP] [-later REGEXP] [-every N] PACKAGE...
//
// All faults of a package are compiled into one test program, and a variable
// of the environment wakes one of them: a fault costs a run of the tests, not
// a compilation. Constants declared as such are left as they are.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
	"sync"
	"time"
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

// fault is one change to the code. Number 0 is no fault.
type fault struct {
	pos  token.Position
	what string // the change, as "+ to -"
}

// edit replaces del bytes at a place. Ends go before operators, and these
// before beginnings; of ends the inner goes first, of beginnings the outer.
type edit struct {
	at, del, class int
	text           string
}

const (
	ending = iota
	operator
	beginning
)

type mutator struct {
	fset   *token.FileSet
	info   *types.Info
	pkg    *types.Package
	file   *ast.File
	faults []fault
	edits  []edit
}

func (m *mutator) add(pos token.Pos, what string) int {
	m.faults = append(m.faults, fault{m.fset.Position(pos), what})
	return len(m.faults) // numbers from 1
}

func (m *mutator) edit(class int, pos token.Pos, del int, format string, args ...any) {
	m.edits = append(m.edits, edit{m.fset.Position(pos).Offset, del, class, fmt.Sprintf(format, args...)})
}

// typeName is the type of an operand as this file would write it; "" if it
// can't, or if it holds no number (or text, where text may be).
func (m *mutator) typeName(t types.Type, allow types.BasicInfo) string {
	if t == nil {
		return ""
	}
	t = types.Default(t)
	b, ok := t.Underlying().(*types.Basic)
	if !ok || b.Info()&allow == 0 {
		return ""
	}
	ok = true
	name := types.TypeString(t, func(p *types.Package) string {
		if p == m.pkg {
			return ""
		}
		for _, i := range m.file.Imports {
			if strings.Trim(i.Path.Value, `"`) == p.Path() && i.Name == nil {
				return p.Name()
			}
		}
		ok = false
		return p.Name()
	})
	if !ok {
		return ""
	}
	return name
}

const numeric = types.IsInteger | types.IsFloat

// binary wraps `x op y` as `name[T](numbers, x, y)`.
func (m *mutator) binary(e *ast.BinaryExpr, call string) {
	m.edit(beginning, e.X.Pos(), 0, "%s", call)
	m.edit(operator, e.OpPos, len(e.Op.String()), ",")
	m.edit(ending, e.Y.End(), 0, ")")
}

func (m *mutator) constant(e ast.Expr) constant.Value { return m.info.Types[e].Value }

func (m *mutator) node(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.GenDecl:
		return n.Tok != token.CONST
	case *ast.ArrayType:
		return false
	case *ast.BinaryExpr:
		if (n.Op == token.SHL || n.Op == token.SHR) && m.constant(n) != nil {
			return false
		}
		m.binaryExpr(n)
	case *ast.UnaryExpr:
		if t := m.typeName(m.info.TypeOf(n), numeric); n.Op == token.SUB && t != "" {
			k := m.add(n.OpPos, "- left out")
			m.edit(beginning, n.OpPos, 1, "mutant.Minus[%s](%d, ", t, k)
			m.edit(ending, n.X.End(), 0, ")")
		}
	case *ast.AssignStmt:
		other := map[token.Token]string{token.ADD_ASSIGN: "-=", token.SUB_ASSIGN: "+=", token.MUL_ASSIGN: "/=", token.QUO_ASSIGN: "*="}[n.Tok]
		call, allow := "Opposite", types.BasicInfo(numeric)
		if n.Tok == token.MUL_ASSIGN || n.Tok == token.QUO_ASSIGN {
			call, allow = "Inverse", types.IsFloat
		}
		if other == "" {
			break
		}
		if t := m.typeName(m.info.TypeOf(n.Lhs[0]), allow); t != "" {
			k := m.add(n.TokPos, n.Tok.String()+" to "+other)
			m.edit(beginning, n.Rhs[0].Pos(), 0, "mutant.%s[%s](%d, ", call, t, k)
			m.edit(ending, n.Rhs[0].End(), 0, ")")
		}
	case *ast.CallExpr:
		m.call(n)
	}
	return true
}

func (m *mutator) binaryExpr(n *ast.BinaryExpr) {
	switch n.Op {
	case token.ADD, token.SUB, token.MUL, token.QUO, token.REM:
		t := m.typeName(m.info.TypeOf(n), numeric)
		x, y := m.constant(n.X), m.constant(n.Y)
		whole := x != nil && y != nil && x.Kind() == constant.Int && y.Kind() == constant.Int
		if t == "" || n.Op == token.QUO && whole { // whole: 1/2 is 0 as a constant
			return
		}
		name := map[token.Token]string{token.ADD: "Add", token.SUB: "Sub", token.MUL: "Mul", token.QUO: "Div", token.REM: "Rem"}[n.Op]
		other := map[token.Token]string{token.ADD: "-", token.SUB: "+", token.MUL: "/", token.QUO: "*", token.REM: "*"}[n.Op]
		m.binary(n, fmt.Sprintf("mutant.%s[%s](%d, ", name, t, m.add(n.OpPos, n.Op.String()+" to "+other)))
	case token.LSS, token.LEQ, token.GTR, token.GEQ:
		operand := m.info.TypeOf(n.X)
		if m.constant(n.X) != nil {
			operand = m.info.TypeOf(n.Y)
		}
		t := m.typeName(operand, numeric|types.IsString)
		if t == "" || m.constant(n) != nil {
			return
		}
		name := map[token.Token][3]string{token.LSS: {"Less", "<=", ">="}, token.LEQ: {"AtMost", "<", ">"},
			token.GTR: {"More", ">=", "<="}, token.GEQ: {"AtLeast", ">", "<"}}[n.Op]
		edge, not := m.add(n.OpPos, n.Op.String()+" to "+name[1]), m.add(n.OpPos, n.Op.String()+" to "+name[2])
		m.binary(n, fmt.Sprintf("mutant.%s[%s](%d, %d, ", name[0], t, edge, not))
	case token.EQL, token.NEQ:
		if m.constant(n) != nil {
			return
		}
		m.edit(beginning, n.X.Pos(), 0, "mutant.Not(%d, ", m.add(n.OpPos, n.Op.String()+" turned round"))
		m.edit(ending, n.Y.End(), 0, ")")
	case token.LAND, token.LOR:
		name, other := "And", "||"
		if n.Op == token.LOR {
			name, other = "Or", "&&"
		}
		m.edit(beginning, n.X.Pos(), 0, "mutant.%s(%d, ", name, m.add(n.OpPos, n.Op.String()+" to "+other))
		m.edit(operator, n.OpPos, 2, ", func() bool { return (") // a line may end here
		m.edit(ending, n.Y.End(), 0, ")})")
	}
}

// call swaps the smaller with the larger.
func (m *mutator) call(n *ast.CallExpr) {
	var name string
	switch f := n.Fun.(type) {
	case *ast.Ident:
		if _, ok := m.info.Uses[f].(*types.Builtin); ok {
			name = map[string]string{"min": "Min", "max": "Max"}[f.Name]
		}
	case *ast.SelectorExpr:
		if o := m.info.Uses[f.Sel]; o != nil && o.Pkg() != nil && o.Pkg().Path() == "math" {
			name = map[string]string{"Min": "Min", "Max": "Max"}[f.Sel.Name]
		}
	}
	if t := m.typeName(m.info.TypeOf(n), numeric); name != "" && t != "" && len(n.Args) > 1 && m.constant(n) == nil {
		k := m.add(n.Pos(), map[string]string{"Min": "min to max", "Max": "max to min"}[name])
		m.edit(beginning, n.Fun.Pos(), int(n.Lparen+1-n.Fun.Pos()), "mutant.%s[%s](%d, ", name, t, k)
	}
}

func (m *mutator) rewrite(path string) ([]byte, error) {
	src, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	m.edits = nil
	ast.Inspect(m.file, m.node)
	if len(m.edits) == 0 {
		return nil, nil
	}
	order := make([]int, len(m.edits))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(i, j int) bool {
		a, b := m.edits[order[i]], m.edits[order[j]]
		switch {
		case a.at != b.at:
			return a.at < b.at
		case a.class != b.class:
			return a.class < b.class
		case a.class == ending:
			return order[i] > order[j]
		}
		return order[i] < order[j]
	})
	var out bytes.Buffer
	name := m.fset.Position(m.file.Name.End()).Offset
	out.Write(src[:name])
	out.WriteString(`; import "skep/mutant"`)
	last := name
	for _, i := range order {
		e := m.edits[i]
		out.Write(src[last:e.at])
		out.WriteString(e.text)
		last = e.at + e.del
	}
	out.Write(src[last:])
	for _, i := range m.file.Imports {
		if i.Path.Value == `"math"` && i.Name == nil {
			out.WriteString("\nvar _ = math.Pi\n") // may be used no more
		}
	}
	return out.Bytes(), nil
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

// mutate writes the package with all faults in it.
func mutate(p listed, temp string) (*mutator, map[string]string, error) {
	deps, err := list("-export", "-deps", p.ImportPath)
	if err != nil {
		return nil, nil, err
	}
	export := map[string]string{}
	for _, d := range deps {
		export[d.ImportPath] = d.Export
	}
	m := &mutator{fset: token.NewFileSet(), info: &types.Info{Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}, Defs: map[*ast.Ident]types.Object{}}}
	var parsed []*ast.File
	for _, f := range p.GoFiles {
		a, err := parser.ParseFile(m.fset, filepath.Join(p.Dir, f), nil, parser.SkipObjectResolution)
		if err != nil {
			return nil, nil, err
		}
		parsed = append(parsed, a)
	}
	imports := importer.ForCompiler(m.fset, "gc", func(path string) (io.ReadCloser, error) { return os.Open(export[path]) })
	m.pkg, err = (&types.Config{Importer: imports}).Check(p.ImportPath, m.fset, parsed, m.info)
	if err != nil {
		return nil, nil, err
	}
	only, err := regexp.Compile(*files)
	if err != nil {
		return nil, nil, err
	}
	replaced := map[string]string{}
	for i, f := range p.GoFiles {
		if !only.MatchString(f) {
			continue
		}
		m.file = parsed[i]
		text, err := m.rewrite(filepath.Join(p.Dir, f))
		if err != nil {
			return nil, nil, err
		}
		if text == nil {
			continue
		}
		path := filepath.Join(temp, "with-faults-"+f)
		if err := os.WriteFile(path, text, 0o666); err != nil {
			return nil, nil, err
		}
		replaced[filepath.Join(p.Dir, f)] = path
	}
	return m, replaced, nil
}

type runner struct {
	temp, dir string
	rapid     bool
}

// once runs the tests with one fault awake; it tells whether they passed, and
// whether they came to an end in time.
func (r *runner) once(program string, number int, most time.Duration) (passed, ended bool, out []byte) {
	ctx, stop := context.WithTimeout(context.Background(), most)
	defer stop()
	if *later == "" {
		return r.some(ctx, program, number, "-test.skip="+*skip)
	}
	first := strings.Trim(*skip+"|"+*later, "|") // nothing before a bar would match all
	if passed, ended, out = r.some(ctx, program, number, "-test.skip="+first); passed {
		return r.some(ctx, program, number, "-test.run="+*later, "-test.skip="+*skip)
	}
	return passed, ended, out
}

func (r *runner) some(ctx context.Context, program string, number int, which ...string) (passed, ended bool, out []byte) {
	args := append([]string{"-test.failfast", "-test.timeout=0"}, which...)
	if r.rapid {
		args = append(args, "-rapid.seed="+*seed, "-rapid.shrinktime=1ns", "-rapid.nofailfile")
	}
	c := exec.CommandContext(ctx, filepath.Join(r.temp, program), args...)
	c.Dir = r.dir
	c.Env = append(os.Environ(), fmt.Sprint("MUTANT=", number), "MUTANT_REACHED="+filepath.Join(r.temp, "reached"), "GOMAXPROCS=1", "GOMEMLIMIT=1GiB")
	out, err := c.CombinedOutput()
	return err == nil, ctx.Err() == nil, out
}

func (r *runner) all(name string, faults []fault) error {
	if ok, _, out := r.once("record", 0, time.Hour); !ok {
		return fmt.Errorf("the tests fail without a fault:\n%s", out)
	}
	start := time.Now()
	if ok, _, out := r.once("run", 0, time.Hour); !ok {
		return fmt.Errorf("the tests fail without a fault:\n%s", out)
	}
	took := time.Since(start)
	most := 5*time.Second + 5*took
	reached := map[int]bool{}
	text, _ := os.ReadFile(filepath.Join(r.temp, "reached"))
	for _, w := range strings.Fields(string(text)) {
		k := 0
		fmt.Sscan(w, &k)
		reached[k] = true
	}
	verdict := make([]string, len(faults)+1)
	queue := make(chan int)
	var wg sync.WaitGroup
	for range *workers {
		wg.Go(func() {
			for k := range queue {
				switch passed, ended, _ := r.once("run", k, most); {
				case !ended:
					verdict[k] = "no end"
				case passed:
					verdict[k] = "alive"
				default:
					verdict[k] = "killed"
				}
			}
		})
	}
	taken := 0
	for k := 1; k <= len(faults); k++ {
		if (k-1)%*every != 0 {
			continue
		}
		taken++
		if !reached[k] {
			verdict[k] = "not reached"
			continue
		}
		queue <- k
	}
	close(queue)
	wg.Wait()
	count, lines := map[string]int{}, map[string][]string{}
	for k, f := range faults {
		v := verdict[k+1]
		count[v]++
		if v == "" || v == "killed" {
			continue
		}
		if lines[f.pos.Filename] == nil {
			src, _ := os.ReadFile(f.pos.Filename)
			lines[f.pos.Filename] = strings.Split(string(src), "\n")
		}
		fmt.Printf("%-11s %s:%d:%d %-16s %s\n", v, filepath.Base(f.pos.Filename), f.pos.Line, f.pos.Column, f.what, strings.TrimSpace(lines[f.pos.Filename][f.pos.Line-1]))
	}
	dead := count["killed"] + count["no end"]
	fmt.Printf("%s: %d faults, %d tried, %d killed (%d of them without end), %d alive, %d not reached: %.1f %% killed; the tests take %.2f s\n",
		name, len(faults), taken, dead, count["no end"], count["alive"], count["not reached"], 100*float64(dead)/float64(max(taken, 1)), took.Seconds())
	return nil
}

// supportCode is package mutant, which exists only while a mutant is compiled.
const supportCode = `package mutant

import ("math"; "os"; "strconv"; "sync")

const record = RECORD

var awake, _ = strconv.Atoi(os.Getenv("MUTANT"))

var (
	seen sync.Map
	to   = sync.OnceValue(func() *os.File {
		f, err := os.OpenFile(os.Getenv("MUTANT_REACHED"), os.O_CREATE|os.O_WRONLY|os.O_APPEND, 0o666)
		if err != nil { panic(err) }
		return f
	})
)

func reach(k int) {
	if _, old := seen.LoadOrStore(k, true); !old { to().WriteString(strconv.Itoa(k) + "\n") }
}

func on(k int) bool {
	if record { reach(k) }
	return awake == k
}

type whole interface { ~int | ~int8 | ~int16 | ~int32 | ~int64 | ~uint | ~uint8 | ~uint16 | ~uint32 | ~uint64 | ~uintptr }
type number interface { whole | ~float32 | ~float64 }
type ordered interface { number | ~string }

func Add[T number](k int, a, b T) T { if on(k) { return a - b }; return a + b }
func Sub[T number](k int, a, b T) T { if on(k) { return a + b }; return a - b }
func Mul[T number](k int, a, b T) T { if on(k) { return a / b }; return a * b }
func Div[T number](k int, a, b T) T { if on(k) { return a * b }; return a / b }
func Rem[T whole](k int, a, b T) T { if on(k) { return a * b }; return a % b }
func Minus[T number](k int, a T) T { if on(k) { return a }; return -a }
func Opposite[T number](k int, a T) T { if on(k) { return -a }; return a }
func Inverse[T ~float32 | ~float64](k int, a T) T { if on(k) { return 1 / a }; return a }
func Not(k int, a bool) bool { return a != on(k) }
func And(k int, a bool, b func() bool) bool { if on(k) { return a || b() }; return a && b() }
func Or(k int, a bool, b func() bool) bool { if on(k) { return a && b() }; return a || b() }
func Less[T ordered](e, n int, a, b T) bool { if on(e) { return a <= b }; if on(n) { return a >= b }; return a < b }
func AtMost[T ordered](e, n int, a, b T) bool { if on(e) { return a < b }; if on(n) { return a > b }; return a <= b }
func More[T ordered](e, n int, a, b T) bool { if on(e) { return a >= b }; if on(n) { return a <= b }; return a > b }
func AtLeast[T ordered](e, n int, a, b T) bool { if on(e) { return a > b }; if on(n) { return a < b }; return a >= b }

func Min[T number](k int, a ...T) T { return extreme(on(k), a) }
func Max[T number](k int, a ...T) T { return extreme(!on(k), a) }

func extreme[T number](most bool, a []T) T {
	v := a[0]
	for _, x := range a[1:] {
		switch f, ok := any(v).(float64); {
		case ok && most: v = any(math.Max(f, any(x).(float64))).(T)
		case ok: v = any(math.Min(f, any(x).(float64))).(T)
		case most: v = max(v, x)
		default: v = min(v, x)
		}
	}
	return v
}
`
