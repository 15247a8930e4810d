package prose_test

import (
	"math"
	"testing"
	"text/template"

	"example.org/forkcurve/internal/prose"
	"example.org/forkcurve/units"
)

func TestSet(t *testing.T) {
	got, err := prose.Set(`FORK
{{section "HEAT, AT %.0f" .Power}}
{{line "Sag" "%.0f, %.0f %%, and more of it than fits into the rest of a line of eighty" .Sag 22.0}}
{{line "None" ""}}
{{table 8 .Rows 5 7}}
`, map[string]any{"Power": 150 * units.Watt, "Sag": 66 * units.Millimeter,
		"Rows": [][]string{{"m/s", "1", "2"}, {"N", "30", "4000"}}})
	const want = `FORK

HEAT, AT 150 W
  Sag                   66 mm, 22 %, and more of it than fits into the rest of a
                        line of eighty
  m/s       1      2
  N        30   4000
`
	if err != nil || got != want {
		t.Errorf("%v\n%s", err, got)
	}
	// Rows of cells in one format, quantities as those who read them want them.
	got, err = prose.SetAt(24, `{{row 8 7 "%.1f" "m" 1.0 .Sag}}
{{line "Sag" "%v" .Sag}}
`, inches{Sag: 66 * units.Millimeter})
	const wanted = `  m         1.0    2.6
  Sag                   2.6
`
	if err != nil || got != wanted {
		t.Errorf("%v\n%s", err, got)
	}
	// A function of the caller, on a constant of the template.
	got, err = prose.Set(`{{line "Pressure" "%.1f" (absolute 3e5)}}`, nil, template.FuncMap{"absolute": units.Absolute})
	if called := "  Pressure              3.0 bar abs"; err != nil || got != called {
		t.Errorf("%v\n%q", err, got)
	}
	for _, bad := range []string{"{{line}}", "{{.Nothing}}", "{{"} {
		if got, err := prose.Set(bad, struct{}{}); err == nil {
			t.Errorf("%s prints %q", bad, got)
		}
	}
}

type inches struct{ Sag units.Length }

func (inches) Shown(v any) any {
	if l, ok := v.(units.Length); ok {
		return math.Round(10*l.In(units.Inch)) / 10
	}
	return v
}
