package register

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// A Citation is an id in a test: the folder of its package, its file and line, and the function.
type Citation struct {
	ID, Package, File, Test string
	Line                    int
}

var form = regexp.MustCompile(`^[A-Z]-[0-9]{2}$`)

// Cited are the ids in the test files of the module in the folder root that use this package, in
// order of file and line: every string literal that has the form of an id, in a call of Cite or in
// a table whose rows are handed to it.
func Cited(root string) ([]Citation, error) {
	var list []Citation
	err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() && path != root && (strings.HasPrefix(e.Name(), ".") || e.Name() == "testdata") {
			return filepath.SkipDir
		}
		if !strings.HasSuffix(path, "_test.go") {
			return nil
		}
		files := token.NewFileSet()
		f, err := parser.ParseFile(files, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		uses := func(s *ast.ImportSpec) bool { return strings.HasSuffix(s.Path.Value, `/internal/register"`) }
		if !slices.ContainsFunc(f.Imports, uses) {
			return nil
		}
		folder, err := filepath.Rel(root, filepath.Dir(path))
		if err != nil {
			return err
		}
		for _, d := range f.Decls {
			name := ""
			if function, ok := d.(*ast.FuncDecl); ok {
				name = function.Name.Name
			}
			ast.Inspect(d, func(n ast.Node) bool {
				if l, ok := n.(*ast.BasicLit); ok && l.Kind == token.STRING {
					if id, err := strconv.Unquote(l.Value); err == nil && form.MatchString(id) {
						list = append(list, Citation{id, filepath.ToSlash(folder), filepath.Base(path), name,
							files.Position(l.Pos()).Line})
					}
				}
				return true
			})
		}
		return nil
	})
	return list, err
}
