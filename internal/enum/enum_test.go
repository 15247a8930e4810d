package enum_test

import (
	"encoding"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
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
		"Layout":    holds[geometry.Layout](geometry.Upright, 2),
		"Side":      holds[setup.Side](setup.Left, 2),
		"Start":     holds[conversion.From](conversion.PresentFork, 2),
		"Severity":  holds[conversion.Severity](conversion.Note, 3),
		"Criterion": holds[conversion.Criterion](conversion.SagForce, 3),
		"Verdict":   holds[conversion.Verdict](conversion.Refused, 3),
		"Chamber":   holds[setup.Chamber](setup.Positive, 6),
		"Species":   holds[gas.Species](gas.DryAir, 2),
		"Edge":      holds[damping.Edge](damping.Free, 4),
		"Ends":      holds[helical.Ends](helical.SquaredGround, 4),
		"Surface":   holds[helical.Surface](helical.Unpeened, 2),
		"From":      holds[bench.From](bench.Above, 3),
		"Grade":     holds[helical.Grade](helical.Grade1, 3),
	}
	for name, test := range tests {
		t.Run(name, test)
	}
	declared := regexp.MustCompile(`(?m)^type ([A-Z]\w*) u?int8?$`)
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if d != nil && d.IsDir() && (d.Name() == "examples" || d.Name() == "internal") {
			return fs.SkipDir
		}
		if err != nil || filepath.Ext(path) != ".go" {
			return err
		}
		text, err := os.ReadFile(path)
		for _, match := range declared.FindAllSubmatch(text, -1) {
			if tests[string(match[1])] == nil {
				t.Errorf("%s: %s has no test here", path, match[1])
			}
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
}
