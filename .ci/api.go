//go:build ignore

// Command api holds the exported names of the library against .ci/api.txt, the last
// listing that was read and accepted.
//
//	go run .ci/api.go            fails when a listed name went or changed
//	go run .ci/api.go -accept    writes the listing; read its difference
//	go run .ci/api.go -comments  fails on an exported name without a comment
//
// One line is a name with its type: no names of parameters, no values but those of
// constants. What is new is told and does not fail, as no caller can miss it.
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
	"slices"
	"strings"
)

const (
	module  = "example.org/forkcurve/"
	listing = ".ci/api.txt"
)

type listed struct {
	ImportPath, Dir, Name, Export string
	GoFiles                       []string
	DepOnly                       bool
}

func main() {
	log.SetFlags(0)
	accept := flag.Bool("accept", false, "write the listing")
	comments := flag.Bool("comments", false, "look for names without a comment")
	flag.Parse()
	out, err := exec.Command("go", "list", "-export", "-deps", "-json=ImportPath,Dir,Name,Export,GoFiles,DepOnly",
		"./...").Output()
	if err != nil {
		log.Fatal("go list: ", err)
	}
	exports := map[string]string{}
	var public []listed
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		if err := d.Decode(&p); err == io.EOF {
			break
		} else if err != nil {
			log.Fatal(err)
		}
		exports[p.ImportPath] = p.Export
		if !p.DepOnly && p.Name != "main" && !strings.Contains(p.ImportPath, "/internal/") {
			public = append(public, p)
		}
	}
	if *comments {
		bare(public)
		return
	}
	got := lines(public, exports)
	if *accept {
		if err := os.WriteFile(listing, []byte(strings.Join(got, "\n")+"\n"), 0o644); err != nil {
			log.Fatal(err)
		}
		return
	}
	text, err := os.ReadFile(listing)
	if err != nil {
		log.Fatal(err)
	}
	want := strings.Split(strings.TrimSpace(string(text)), "\n")
	for _, l := range got {
		if _, found := slices.BinarySearch(want, l); !found {
			fmt.Println("new:", l)
		}
	}
	gone := 0
	for _, l := range want {
		if _, found := slices.BinarySearch(got, l); !found {
			fmt.Println("GONE:", l)
			gone++
		}
	}
	if gone > 0 {
		log.Fatalf("%d names went or changed: undo it, or accept it with go run .ci/api.go -accept", gone)
	}
	fmt.Printf("%d names are as accepted\n", len(want))
}

func lines(public []listed, exports map[string]string) []string {
	imp := importer.ForCompiler(token.NewFileSet(), "gc", func(path string) (io.ReadCloser, error) {
		return os.Open(exports[path])
	})
	var all []string
	for _, p := range public {
		pkg, err := imp.Import(p.ImportPath)
		if err != nil {
			log.Fatal(err)
		}
		short := strings.TrimPrefix(p.ImportPath, module)
		add := func(format string, args ...any) { all = append(all, short+": "+fmt.Sprintf(format, args...)) }
		for _, name := range pkg.Scope().Names() {
			o := pkg.Scope().Lookup(name)
			if !o.Exported() {
				continue
			}
			switch o := o.(type) {
			case *types.Const:
				add("const %s %s = %s", name, typeName(o.Type()), o.Val().ExactString())
			case *types.Var:
				add("var %s %s", name, typeName(o.Type()))
			case *types.Func:
				add("func %s%s", name, signature(o))
			case *types.TypeName:
				typeLines(o, add)
			}
		}
	}
	slices.Sort(all)
	return all
}

func typeName(t types.Type) string {
	return types.TypeString(t, func(p *types.Package) string { return strings.TrimPrefix(p.Path(), module) })
}

// signature leaves the names of parameters out: callers do not write them.
func signature(f *types.Func) string {
	s := f.Signature()
	bare := func(t *types.Tuple) *types.Tuple {
		var vars []*types.Var
		for v := range t.Variables() {
			vars = append(vars, types.NewParam(token.NoPos, nil, "", v.Type()))
		}
		return types.NewTuple(vars...)
	}
	text := typeName(types.NewSignatureType(nil, nil, nil, bare(s.Params()), bare(s.Results()), s.Variadic()))
	var params []string
	for p := range s.TypeParams().TypeParams() {
		params = append(params, p.String()+" "+typeName(p.Constraint()))
	}
	if len(params) > 0 {
		text = "[" + strings.Join(params, ", ") + "]" + strings.TrimPrefix(text, "func")
	}
	return strings.TrimPrefix(text, "func")
}

func typeLines(o *types.TypeName, add func(string, ...any)) {
	name := o.Name()
	if o.IsAlias() {
		add("type %s = %s", name, typeName(types.Unalias(o.Type())))
		return
	}
	methods := types.NewMethodSet(types.NewPointer(o.Type()))
	switch u := o.Type().Underlying().(type) {
	case *types.Struct:
		hidden := ""
		for f := range u.Fields() {
			if f.Exported() {
				add("type %s struct, %s %s", name, f.Name(), typeName(f.Type()))
			} else {
				hidden = ", of which some are hidden"
			}
		}
		add("type %s struct%s", name, hidden)
	case *types.Interface:
		methods = types.NewMethodSet(o.Type())
		add("type %s interface of %d methods", name, u.NumMethods())
	default:
		add("type %s %s", name, typeName(u))
	}
	for m := range methods.Methods() {
		f, ok := m.Obj().(*types.Func)
		if !ok || !f.Exported() {
			continue
		}
		star := "*"
		if types.NewMethodSet(o.Type()).Lookup(f.Pkg(), f.Name()) != nil {
			star = ""
		}
		add("method (%s%s) %s%s", star, name, f.Name(), signature(f))
	}
}

// known methods are described by the interface they are made for.
var known = map[string]bool{"Error": true, "String": true}

// bare finds exported functions, methods, types, fields, constants and variables without a
// comment: their own, one at the end of the line, or that of their group.
func bare(public []listed) {
	fset := token.NewFileSet()
	n, missing := 0, 0
	for _, p := range public {
		about := false
		for _, file := range p.GoFiles {
			f, err := parser.ParseFile(fset, filepath.Join(p.Dir, file), nil, parser.ParseComments|parser.SkipObjectResolution)
			if err != nil {
				log.Fatal(err)
			}
			about = about || f.Doc != nil
			report := func(name *ast.Ident, comments ...*ast.CommentGroup) {
				if !name.IsExported() {
					return
				}
				n++
				if slices.ContainsFunc(comments, func(c *ast.CommentGroup) bool { return c.Text() != "" }) {
					return
				}
				at := fset.Position(name.Pos())
				rel, err := filepath.Rel(p.Dir, at.Filename)
				if err != nil {
					log.Fatal(err)
				}
				fmt.Printf("%s/%s:%d: %s has no comment\n", strings.TrimPrefix(p.ImportPath, module), rel, at.Line, name.Name)
				missing++
			}
			for _, d := range f.Decls {
				switch d := d.(type) {
				case *ast.FuncDecl:
					if d.Recv == nil || !known[d.Name.Name] && ast.IsExported(receiver(d.Recv.List[0].Type)) {
						report(d.Name, d.Doc)
					}
				case *ast.GenDecl:
					for _, s := range d.Specs {
						switch s := s.(type) {
						case *ast.TypeSpec:
							report(s.Name, d.Doc, s.Doc, s.Comment)
							fields(fset, s, report)
						case *ast.ValueSpec:
							for _, name := range s.Names {
								report(name, d.Doc, s.Doc, s.Comment)
							}
						}
					}
				}
			}
		}
		if !about {
			fmt.Printf("%s: the package has no comment\n", p.ImportPath)
			missing++
		}
	}
	if missing > 0 {
		log.Fatalf("%d without a comment", missing)
	}
	fmt.Printf("%d exported names have a comment\n", n)
}

// fields of an exported struct that has a line for each say what they are: beside them, above, above the
// group that they stand in, or in a tag. One of a line is told by the comment of the type, as is what is embedded.
func fields(fset *token.FileSet, s *ast.TypeSpec, report func(*ast.Ident, ...*ast.CommentGroup)) {
	t, ok := s.Type.(*ast.StructType)
	if !ok || !s.Name.IsExported() || fset.Position(t.Pos()).Line == fset.Position(t.End()).Line {
		return
	}
	var group *ast.CommentGroup
	last := 0
	for _, field := range t.Fields.List {
		if line := fset.Position(field.Pos()).Line; field.Doc != nil || line > last+1 {
			group = field.Doc
		}
		last = fset.Position(field.End()).Line
		if field.Tag != nil && strings.Contains(field.Tag.Value, ` doc:"`) {
			continue
		}
		for _, name := range field.Names {
			report(name, field.Comment, group)
		}
	}
}

func receiver(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return receiver(e.X)
	case *ast.IndexExpr:
		return receiver(e.X)
	case *ast.Ident:
		return e.Name
	}
	return ""
}
