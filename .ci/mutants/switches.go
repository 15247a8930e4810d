package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"log"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// mutantPackage is compiled into the mutated package; all of it is inlined.
const mutantPackage = `package mutant

import ("os"; "strconv"; "sync/atomic")

var (
	active, _ = strconv.Atoi(os.Getenv("FORKCURVE_MUTANT"))
	seen [1 << 14]atomic.Bool
)

func note(id int) bool {
	if !seen[id].Load() && seen[id].CompareAndSwap(false, true) {
		if f, err := os.OpenFile(os.Getenv("FORKCURVE_SEEN"), os.O_APPEND|os.O_WRONLY, 0); err == nil {
			f.WriteString(strconv.Itoa(id)+"\n")
			f.Close()
		}
	}
	return false
}

type number interface{ ~int|~int8|~int16|~int32|~int64|
	~uint|~uint8|~uint16|~uint32|~uint64|~float32|~float64|~complex64|~complex128 }

func On(id int) bool { return active == id || active < 0 && note(id) }
func Off(id int) bool { return !On(id) }
func Not[B ~bool](id int, b B) B { return b != B(On(id)) }
func Add[T number](id int, a, b T) T { if On(id) { return a - b }; return a + b }
func Sub[T number](id int, a, b T) T { if On(id) { return a + b }; return a - b }
func Mul[T number](id int, a, b T) T { if On(id) { return a / b }; return a * b }
func Quo[T number](id int, a, b T) T { if On(id) { return a * b }; return a / b }
func Neg[T number](id int, a T) T { if On(id) { return a }; return -a }
func Math(id int, f func(float64) float64, x float64) float64 { if On(id) { return x }; return f(x) }
`

// mutant is one change; where it is without its line, which moves.
type mutant struct {
	id         int
	line       int
	kind, file string
	function   string
	was        string
}

// edit replaces [from, to) of a file by text; depth orders edits at one place.
type edit struct {
	from, to int
	text     string
	order    int
}

type mutator struct {
	fset    *token.FileSet
	info    *types.Info
	source  []byte
	edits   []edit
	mutants []mutant
	skip    map[ast.Node]bool
	dir     string
	inside  string // the function being changed
}

// rewrite puts a switch around everything in a file that a mutant changes.
func (m *mutator) rewrite(f *ast.File, path string) (string, bool) {
	source, err := os.ReadFile(path)
	if err != nil {
		log.Fatal(err)
	}
	m.source, m.edits, m.skip = source, nil, map[ast.Node]bool{}
	for _, d := range f.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && fn.Body != nil && fn.Name.Name != "String" {
			m.inside = name(fn)
			ast.Inspect(fn.Body, m.visit)
		}
	}
	if len(m.edits) == 0 {
		return "", false
	}
	at := m.offset(f.Name.End())
	m.edits = append(m.edits, edit{at, at, `; import mutant "` + module + `internal/mutant"`, 0})
	slices.SortStableFunc(m.edits, func(a, b edit) int {
		if a.from != b.from {
			return a.from - b.from
		}
		return a.order - b.order
	})
	var b strings.Builder
	last := 0
	for _, e := range m.edits {
		b.Write(source[last:e.from])
		b.WriteString(e.text)
		last = e.to
	}
	b.Write(source[last:])
	return b.String(), true
}

// name of a function as in a call: Type.Method.
func name(fn *ast.FuncDecl) string {
	if fn.Recv == nil {
		return fn.Name.Name
	}
	t := fn.Recv.List[0].Type
	if star, ok := t.(*ast.StarExpr); ok {
		t = star.X
	}
	if ix, ok := t.(*ast.IndexExpr); ok {
		t = ix.X
	}
	if id, ok := t.(*ast.Ident); ok {
		return id.Name + "." + fn.Name.Name
	}
	return fn.Name.Name
}

func (m *mutator) offset(p token.Pos) int { return m.fset.Position(p).Offset }

// wrap puts text before and after a node, outside of what is wrapped later, and
// replaces [from, to) when to > 0.
func (m *mutator) wrap(n ast.Node, before, after string) {
	k := len(m.edits) + 1
	m.edits = append(m.edits, edit{m.offset(n.Pos()), m.offset(n.Pos()), before, k},
		edit{m.offset(n.End()), m.offset(n.End()), after, -k})
}

func (m *mutator) replace(from token.Pos, length int, text string) {
	at := m.offset(from)
	m.edits = append(m.edits, edit{at, at + length, text, len(m.edits) + 1})
}

func (m *mutator) next(kind string, n ast.Node, what string) int {
	id := len(m.mutants) + 1
	at := m.fset.Position(n.Pos())
	where := m.fset.Position(n.Pos()).Filename
	if r, err := filepath.Rel(m.dir, where); err == nil {
		where = r
	}
	text := string(m.source[m.offset(n.Pos()):m.offset(n.End())])
	text = strings.Join(strings.Fields(text), " ")
	if r := []rune(text); len(r) > 70 {
		text = string(r[:70]) + "…"
	}
	m.mutants = append(m.mutants, mutant{id, at.Line, kind, where, m.inside, what + " in " + text})
	return id
}

func (m *mutator) number(e ast.Expr) bool {
	t := m.info.Types[e]
	if t.Value != nil || t.Type == nil {
		return false
	}
	b, ok := t.Type.Underlying().(*types.Basic)
	if !ok {
		p, isParam := t.Type.(*types.TypeParam)
		return isParam && strings.Contains(p.Constraint().Underlying().String(), "float64")
	}
	return b.Info()&types.IsNumeric != 0 && b.Info()&types.IsUntyped == 0
}

func (m *mutator) checkCall(c *ast.CallExpr) (name string, boolean bool) {
	if ix, ok := c.Fun.(*ast.IndexExpr); ok {
		c = &ast.CallExpr{Fun: ix.X}
	}
	s, ok := c.Fun.(*ast.SelectorExpr)
	if !ok {
		return "", false
	}
	o := m.info.Uses[s.Sel]
	if o == nil || o.Pkg() == nil || o.Pkg().Path() != module+"internal/check" {
		return "", false
	}
	switch o.Name() {
	case "Between", "Absolute", "Gauge", "Temperature":
		return o.Name(), true
	case "Report", "Nest", "Add":
		return o.Name(), false
	}
	return "", false
}

func (m *mutator) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.ExprStmt:
		if c, ok := n.X.(*ast.CallExpr); ok && !m.skip[n] {
			if name, _ := m.checkCall(c); name != "" {
				m.skip[c] = true
				m.wrap(n, fmt.Sprintf("if mutant.Off(%d) { ", m.next("validation", n, name)), " }")
			}
		}
	case *ast.CallExpr:
		m.call(n)
	case *ast.UnaryExpr:
		if n.Op == token.SUB && m.number(n) {
			id := m.next("operator", n, "-")
			m.wrap(n, "", ")")
			m.replace(n.OpPos, 1, fmt.Sprintf("mutant.Neg(%d, ", id))
		}
	case *ast.BinaryExpr:
		m.binary(n)
	case *ast.IfStmt: // a switch does not fit in front of its condition
		if n.Init != nil {
			m.skip[n.Init] = true
		}
		m.condition(n.Cond)
	case *ast.AssignStmt:
		m.assign(n)
	case *ast.ForStmt: // its step stays as it is
		if n.Post != nil {
			m.skip[n.Post] = true
		}
	case *ast.CaseClause: // no duplicate or constant cases to be made
		return true
	}
	return true
}

func (m *mutator) call(c *ast.CallExpr) {
	if name, boolean := m.checkCall(c); boolean && !m.skip[c] {
		m.wrap(c, fmt.Sprintf("(mutant.On(%d) || ", m.next("validation", c, name)), ")")
		return
	}
	if s, ok := c.Fun.(*ast.SelectorExpr); ok && len(c.Args) == 1 {
		o := m.info.Uses[s.Sel]
		if o == nil || o.Pkg() == nil || o.Pkg().Path() != "math" || m.info.Types[c].Value != nil {
			return
		}
		if sig, ok := o.Type().(*types.Signature); ok && sig.String() == "func(x float64) float64" {
			id := m.next("math", c, s.Sel.Name)
			m.replace(c.Lparen, 1, ",")
			m.wrap(c, fmt.Sprintf("mutant.Math(%d, ", id), "")
		}
	}
}

func (m *mutator) binary(b *ast.BinaryExpr) {
	names := map[token.Token]string{token.ADD: "Add", token.SUB: "Sub", token.MUL: "Mul", token.QUO: "Quo"}
	switch b.Op {
	case token.ADD, token.SUB, token.MUL, token.QUO:
		if m.number(b) {
			id := m.next("operator", b, b.Op.String())
			m.wrap(b, fmt.Sprintf("mutant.%s(%d, ", names[b.Op], id), ")")
			m.replace(b.OpPos, 1, ",")
		}
	case token.EQL, token.NEQ, token.LSS, token.GTR, token.LEQ, token.GEQ:
		if m.info.Types[b].Value == nil {
			m.wrap(b, fmt.Sprintf("mutant.Not(%d, ", m.next("logic", b, "not")), ")")
		}
	case token.LAND, token.LOR:
		m.side(b, b.X, "left")
		m.side(b, b.Y, "right")
	}
}

// side can leave out one side of && or ||.
func (m *mutator) side(b *ast.BinaryExpr, x ast.Expr, which string) {
	id := m.next("logic", b, which+" of "+b.Op.String())
	if b.Op == token.LAND {
		m.wrap(x, fmt.Sprintf("(mutant.On(%d) || ", id), ")")
	} else {
		m.wrap(x, fmt.Sprintf("(mutant.Off(%d) && (", id), "))")
	}
}

// condition negates what is no comparison and has no sides.
func (m *mutator) condition(e ast.Expr) {
	switch x := e.(type) {
	case *ast.BinaryExpr:
		return
	case *ast.CallExpr:
		if name, _ := m.checkCall(x); name != "" {
			return
		}
	}
	m.wrap(e, fmt.Sprintf("mutant.Not(%d, ", m.next("logic", e, "not")), ")")
}

func (m *mutator) assign(a *ast.AssignStmt) {
	swap := map[token.Token]token.Token{token.ADD_ASSIGN: token.SUB_ASSIGN, token.SUB_ASSIGN: token.ADD_ASSIGN,
		token.MUL_ASSIGN: token.QUO_ASSIGN, token.QUO_ASSIGN: token.MUL_ASSIGN}
	to, ok := swap[a.Tok]
	if !ok || m.skip[a] || !m.number(a.Lhs[0]) {
		return
	}
	if b := m.info.Types[a.Rhs[0]]; b.Value != nil && b.Value.String() == "1" && a.Tok != token.ADD_ASSIGN {
		return
	}
	id := m.next("operator", a, a.Tok.String())
	left := string(m.source[m.offset(a.Lhs[0].Pos()):m.offset(a.Lhs[0].End())])
	right := string(m.source[m.offset(a.Rhs[0].Pos()):m.offset(a.Rhs[0].End())])
	m.wrap(a, fmt.Sprintf("if mutant.On(%d) { %s %s %s } else { ", id, left, to, right), " }")
}
