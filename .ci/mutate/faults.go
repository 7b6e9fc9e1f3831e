package main

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/constant"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
)

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
