//go:build ignore

// Command mutants changes the library in one place at a time and runs the tests of the
// package that was changed: a change that no test notices is a hole.
//
//	go run .ci/mutants.go                    every package of the list below
//	go run .ci/mutants.go -n 40 ./oil        40 of them, spread evenly
//	go run .ci/mutants.go -floor 95,90 ./oil fails below these shares
//
// All mutants of a package are compiled at once, each behind a switch that the
// environment sets, so that one costs a run of the tests and no build:
//
//	operator    a + b for a − b, a · b for a / b and back; −a for a
//	math        math.F(x) becomes x, min becomes max
//	logic       a comparison or condition is negated, one side of && or || left out
//	validation  a call of internal/check is left out, and counts as passed
//
// Limits of comparisons (< for ≤) are left alone. A test that never ends within its
// time has noticed. A survivor is printed with its place; "not run" says that no test
// reaches it. Nothing is written into the tree.
package main

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"log"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// packages hold physics or decisions.
var packages = []string{"./spring/setup", "./spring/conversion", "./spring", "./geometry", "./oil", "./damping",
	"./spring/gas", "./spring/helical", "./damping/ride", "./spring/fit", "./internal/chamber", "./internal/ode",
	"./oil/bath", "./geometry/fastener"}

const module = "example.org/forkcurve/"

// runtime is compiled into the mutated package; all of it is inlined.
const runtime = `package mutant

import ("os"; "strconv"; "sync")

var (
	active, _ = strconv.Atoi(os.Getenv("FORKCURVE_MUTANT"))
	mu sync.Mutex
	seen = map[int]bool{}
)

func note(id int) bool {
	mu.Lock()
	defer mu.Unlock()
	if !seen[id] {
		seen[id] = true
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

type mutant struct {
	id               int
	kind, place, was string
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
}

func main() {
	log.SetFlags(0)
	n := flag.Int("n", 0, "at most so many mutants of each package; 0: all")
	floor := flag.String("floor", "0,0", "least percentage killed: operator and math, logic and validation")
	quiet := flag.Bool("q", false, "no survivors, the table only")
	flag.Parse()
	list := flag.Args()
	if len(list) == 0 {
		list = packages
	}
	var floors [2]float64
	if _, err := fmt.Sscanf(*floor, "%g,%g", &floors[0], &floors[1]); err != nil {
		log.Fatal("-floor: ", err)
	}
	work, err := os.MkdirTemp("", "mutants")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(work)
	low := false
	for _, p := range list {
		line, ok := survey(p, work, *n, floors, *quiet)
		fmt.Println(line)
		low = low || !ok
	}
	if low {
		os.RemoveAll(work)
		log.Fatal("below the floor")
	}
}

type listed struct {
	ImportPath, Dir, Export string
	GoFiles                 []string
}

func survey(pkg, work string, n int, floors [2]float64, quiet bool) (string, bool) {
	p, exports := load(pkg)
	m := &mutator{fset: token.NewFileSet(), dir: p.Dir, info: &types.Info{
		Types: map[ast.Expr]types.TypeAndValue{}, Uses: map[*ast.Ident]types.Object{}}}
	var files []*ast.File
	for _, name := range p.GoFiles {
		f, err := parser.ParseFile(m.fset, filepath.Join(p.Dir, name), nil, parser.SkipObjectResolution|parser.ParseComments)
		if err != nil {
			log.Fatal(err)
		}
		files = append(files, f)
	}
	conf := types.Config{Importer: importer.ForCompiler(m.fset, "gc", func(path string) (io.ReadCloser, error) {
		return os.Open(exports[path])
	})}
	if _, err := conf.Check(p.ImportPath, m.fset, files, m.info); err != nil {
		log.Fatal(err)
	}
	overlay := map[string]string{}
	put := func(target, text string) {
		name := filepath.Join(work, fmt.Sprintf("%d.go", len(overlay)))
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			log.Fatal(err)
		}
		overlay[target] = name
	}
	root, err := os.Getwd()
	if err != nil {
		log.Fatal(err)
	}
	put(filepath.Join(root, "internal/mutant/mutant.go"), runtime)
	for _, f := range files {
		name := m.fset.Position(f.Pos()).Filename
		if text, changed := m.rewrite(f, name); changed {
			put(name, text)
		}
	}
	text, err := json.Marshal(map[string]any{"Replace": overlay})
	if err != nil {
		log.Fatal(err)
	}
	plan := filepath.Join(work, "overlay.json")
	if err := os.WriteFile(plan, text, 0o644); err != nil {
		log.Fatal(err)
	}
	binary := filepath.Join(work, "tests")
	build := exec.Command("go", "test", "-c", "-vet=off", "-overlay", plan, "-o", binary, pkg)
	if out, err := build.CombinedOutput(); err != nil {
		log.Fatalf("%s: the switches do not compile: %v\n%s", pkg, err, out)
	}
	return m.judge(pkg, binary, work, n, floors, quiet)
}

func load(pkg string) (listed, map[string]string) {
	out, err := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Dir,Export,GoFiles", pkg).Output()
	if err != nil {
		log.Fatal("go list: ", err)
	}
	exports := map[string]string{}
	var p listed
	for d := json.NewDecoder(strings.NewReader(string(out))); ; exports[p.ImportPath] = p.Export {
		var next listed
		if d.Decode(&next) != nil { // the package itself comes last
			return p, exports
		}
		p = next
	}
}

// judge runs the tests once as they are, once to see what they reach, and then for
// each mutant.
func (m *mutator) judge(pkg, binary, work string, n int, floors [2]float64, quiet bool) (string, bool) {
	seenFile := filepath.Join(work, "seen")
	if err := os.WriteFile(seenFile, nil, 0o644); err != nil {
		log.Fatal(err)
	}
	var failing []string
	began := time.Now()
	out, err := m.run(binary, "", 10*time.Minute, nil, false)
	for _, f := range regexp.MustCompile(`(?m)^--- FAIL: (\S+)`).FindAllStringSubmatch(out, -1) {
		failing = append(failing, "^"+f[1]+"$") // as a rule a test of allocations or of time
	}
	if err != nil && len(failing) == 0 {
		log.Fatalf("%s: the tests fail without a mutant\n%s", pkg, out)
	}
	limit := 10*time.Since(began) + 10*time.Second
	if out, err := m.run(binary, "-1", time.Hour, failing, false); err != nil {
		log.Fatalf("%s: the tests fail without a mutant\n%s", pkg, out)
	}
	text, err := os.ReadFile(seenFile)
	if err != nil {
		log.Fatal(err)
	}
	reached := map[int]bool{}
	for _, s := range strings.Fields(string(text)) {
		if id, err := strconv.Atoi(s); err == nil {
			reached[id] = true
		}
	}
	chosen := m.mutants
	if n > 0 && n < len(chosen) {
		chosen = nil
		for i := range n {
			chosen = append(chosen, m.mutants[i*len(m.mutants)/n])
		}
	}
	killed, all := map[string]int{}, map[string]int{}
	for _, x := range chosen {
		all[x.kind]++
		note := "not run "
		if reached[x.id] {
			if _, err := m.run(binary, strconv.Itoa(x.id), limit, failing, true); err != nil {
				killed[x.kind]++
				continue
			}
			note = "survived"
		}
		if !quiet {
			fmt.Printf("%s %-10s %s: %s\n", note, x.kind, x.place, x.was)
		}
	}
	ok := true
	line := fmt.Sprintf("%-20s", pkg)
	for i, group := range [][]string{{"operator", "math"}, {"logic", "validation"}} {
		k, a := 0, 0
		for _, kind := range group {
			k, a = k+killed[kind], a+all[kind]
			line += fmt.Sprintf("  %s %d of %d", kind, killed[kind], all[kind])
		}
		share := 100 * float64(k) / float64(max(a, 1))
		line += fmt.Sprintf(" (%.1f %%)", share)
		ok = ok && (a == 0 || share >= floors[i])
	}
	if len(failing) > 0 {
		line += "  without " + strings.Join(failing, " ")
	}
	return line, ok
}

func (m *mutator) run(binary, id string, limit time.Duration, skip []string, fast bool) (string, error) {
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	args := []string{"-test.count=1"}
	if fast {
		args = append(args, "-test.failfast")
	}
	if len(skip) > 0 {
		args = append(args, "-test.skip", strings.Join(skip, "|"))
	}
	cmd := exec.CommandContext(ctx, binary, args...)
	cmd.Dir = m.dir
	cmd.Env = append(os.Environ(), "FORKCURVE_MUTANT="+id, "FORKCURVE_SEEN="+filepath.Join(filepath.Dir(binary), "seen"),
		"GOMEMLIMIT=1GiB", "UPDATE_GOLDEN=")
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// rewrite puts a switch around everything in a file that a mutant changes.
func (m *mutator) rewrite(f *ast.File, name string) (string, bool) {
	source, err := os.ReadFile(name)
	if err != nil {
		log.Fatal(err)
	}
	m.source, m.edits, m.skip = source, nil, map[ast.Node]bool{}
	for _, d := range f.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && fn.Body != nil && fn.Name.Name != "String" {
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
	m.mutants = append(m.mutants, mutant{id, kind, fmt.Sprintf("%s:%d", where, at.Line), what + " in " + text})
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
		if c, ok := n.X.(*ast.CallExpr); ok {
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
	case *ast.IfStmt:
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
