package enum_test

import (
	"encoding"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"example.org/forkcurve/damping"
	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring/bench"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// text is what every enumeration of the library has.
type text[E any] interface {
	*E
	encoding.TextUnmarshaler
}

// holds checks every value from the first up to the first that is none.
func holds[E interface {
	~int | ~uint8
	fmt.Stringer
	encoding.TextMarshaler
}, P text[E]](first E, count int) func(*testing.T) {
	return func(t *testing.T) {
		for e := first; int(e) < int(first)+count; e++ {
			b, err := e.MarshalText()
			if err != nil || string(b) != e.String() || len(b) == 0 {
				t.Fatalf("%v is written as %q, %v", e, b, err)
			}
			back := E(200)
			if err := P(&back).UnmarshalText(b); err != nil || back != e {
				t.Errorf("%q is read as %v, %v", b, back, err)
			}
		}
		none := first + E(count)
		var out *units.RangeError
		if b, err := none.MarshalText(); !errors.As(err, &out) {
			t.Errorf("%v is written as %q, %v", none, b, err)
		}
		back := first
		if err := P(&back).UnmarshalText([]byte("nonsense")); !errors.As(err, &out) || back != first {
			t.Errorf("nonsense is read as %v, %v", back, err)
		}
	}
}

// Every enumeration of the library is a text both ways.
func TestEveryEnumeration(t *testing.T) {
	tests := map[string]func(*testing.T){
		"geometry.Layout":      holds[geometry.Layout](geometry.Upright, 2),
		"setup.Side":           holds[setup.Side](setup.Left, 2),
		"setup.Chamber":        holds[setup.Chamber](setup.Positive, 6),
		"conversion.From":      holds[conversion.From](conversion.PresentFork, 2),
		"conversion.Severity":  holds[conversion.Severity](conversion.Note, 3),
		"conversion.Criterion": holds[conversion.Criterion](conversion.SagForce, 3),
		"conversion.Verdict":   holds[conversion.Verdict](conversion.Refused, 3),
		"gas.Species":          holds[gas.Species](gas.DryAir, 2),
		"damping.Edge":         holds[damping.Edge](damping.Free, 4),
		"helical.Ends":         holds[helical.Ends](helical.SquaredGround, 4),
		"helical.Surface":      holds[helical.Surface](helical.Unpeened, 2),
		"helical.Grade":        holds[helical.Grade](helical.Grade1, 3),
		"bench.From":           holds[bench.From](bench.Above, 3),
	}
	for name, test := range tests {
		t.Run(name, test)
	}
	found := map[string]bool{}
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if d != nil && d.IsDir() && (d.Name() == "examples" || d.Name() == "internal" || d.Name() == ".ci") {
			return fs.SkipDir
		}
		if err != nil || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if of, ok := n.(*ast.TypeSpec); ok && of.Name.IsExported() && isWhole(of.Type) {
				found[file.Name.Name+"."+of.Name.Name] = true
			}
			return true
		})
		return nil
	})
	for name := range found {
		if tests[name] == nil {
			t.Errorf("%s has no test here", name)
		}
	}
	for name := range tests {
		if !found[name] {
			t.Errorf("%s is no enumeration of the library", name)
		}
	}
	if err != nil {
		t.Error(err)
	}
}

// isWhole tells a type of whole numbers.
func isWhole(e ast.Expr) bool {
	name, ok := e.(*ast.Ident)
	return ok && (strings.HasPrefix(name.Name, "int") || strings.HasPrefix(name.Name, "uint"))
}
