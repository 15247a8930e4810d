// Command mutants changes the library in one place at a time and runs the tests of the
// package that was changed: a change that no test notices is a hole.
//
//	go run ./.ci/mutants                       every package of the list below, an hour
//	go run ./.ci/mutants -n 40 ./oil           40 of them, spread evenly
//	go run ./.ci/mutants -floor 95,90,100 ./oil fails below these percentages
//	go run ./.ci/mutants -v ./oil              what survived, and the reason if one is listed
//	go run ./.ci/mutants -markdown             the table of the README
//
// All mutants of a package are compiled at once, each behind a switch that the
// environment sets, so that one costs a run of the tests that reach it and no build:
//
//	operator    a + b for a − b, a · b for a / b and back; −a for a
//	math        math.F(x) becomes x
//	logic       a comparison or condition is negated, one side of && or || left out
//	validation  a call of internal/check is left out, and counts as passed
//
// Limits of comparisons (< for ≤) are left alone. A test that never ends within its
// time has noticed. Survivors that change nothing anybody could see stand in
// .ci/mutants/harmless.txt, each with its reason. General numerics, as internal/ode, are left
// to certified problems. Nothing is written into the tree.
package main

import (
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
	"strings"
)

// packages hold physics or decisions.
var packages = []string{"./geometry", "./geometry/fastener", "./spring/gas", "./spring", "./spring/helical",
	"./spring/fit", "./oil", "./oil/bath", "./damping", "./damping/ride", "./spring/setup", "./spring/bench",
	"./spring/conversion", "./internal/chamber"}

const module = "example.org/forkcurve/"

// groups of kinds that are counted together; each may have a floor.
var groups = []struct {
	title string
	kinds []string
}{{"operators, math", []string{"operator", "math"}}, {"logic", []string{"logic"}},
	{"validation", []string{"validation"}}}

// table is how the counts are set.
type table struct{ head, row, cell string }

var (
	plain = table{fmt.Sprintf("%-20s %22s %22s %22s\n", "killed + harmless", groups[0].title, groups[1].title,
		groups[2].title), "%-20s", " %22s"}
	marked = table{fmt.Sprintf("| killed in | %s | %s | %s |\n|---|---:|---:|---:|\n", groups[0].title, groups[1].title,
		groups[2].title), "| `%s` |", " %s |"}
)

func main() {
	log.SetFlags(0)
	only := flag.String("only", "", "those whose line of -v matches this pattern")
	n := flag.Int("n", 0, "at most so many mutants of each package; 0: all")
	floor := flag.String("floor", "0,0,0", "least percentage killed: operators and math, logic, validation")
	markdown := flag.Bool("markdown", false, "the table as the README has it")
	verbose := flag.Bool("v", false, "print what survived")
	flag.Parse()
	list := flag.Args()
	if len(list) == 0 {
		list = packages
	}
	var floors [3]float64
	if _, err := fmt.Sscanf(*floor, "%g,%g,%g", &floors[0], &floors[1], &floors[2]); err != nil {
		log.Fatal("-floor: ", err)
	}
	known := readHarmless(".ci/mutants/harmless.txt")
	work, err := os.MkdirTemp("", "mutants")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(work)
	table := plain
	if *markdown {
		table = marked
	}
	fmt.Print(table.head)
	low := false
	for _, p := range list {
		s := compile(p, work).judge(*n, regexp.MustCompile(*only), known)
		if *verbose {
			s.printSurvivors()
		}
		fmt.Println(s.line(table))
		low = low || s.below(floors)
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

// compile builds the tests of a package with a switch at every place that can be changed.
func compile(pkg, work string) *suite {
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
	put(filepath.Join(root, "internal/mutant/mutant.go"), mutantPackage)
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
	return &suite{pkg: pkg, dir: p.Dir, binary: binary, work: work, mutants: m.mutants}
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
