package unitjson_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/forkcurve/internal/unitjson"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

type shape interface{ area() float64 }

type square struct{ Side units.Length }

func (square) area() float64 { return 0 }

type document struct {
	Name     string
	Preload  units.Length `json:"preload"`
	Altitude units.Length `unit:"m"`
	Rake     units.Angle
	Air      units.Temperature
	Fill     units.GaugePressure
	Inside   units.AbsolutePressure
	Window   [2]units.Share
	Rates    []units.Stiffness
	Loose    *units.Length
	Side     setup.Side
	Shape    shape
	Value    any
	Oil      oil.Fluid
	Ratio    float64
	Wet      bool
	Teeth    int
	Hidden   int `json:"-"`
}

func codec() *unitjson.Codec {
	var c unitjson.Codec
	unitjson.StandIn(&c, oil.Fluid.Spec, oil.NewFluid)
	unitjson.Variant[shape, square](&c, "square")
	unitjson.Variant[any, units.Force](&c, "force")
	return &c
}

func full(t *testing.T) document {
	t.Helper()
	fluid, err := oil.NewFluid(oil.FluidSpec{Density: 860, Reference: units.Celsius(15), Expansion: 7.5e-4})
	if err != nil {
		t.Fatal(err)
	}
	loose := 12.5 * units.Millimeter
	return document{Name: "a \"b\" <c>", Preload: 3.3 * units.Millimeter, Altitude: 2500, Rake: 27.2 * units.Degree,
		Air:  units.Celsius(22),
		Fill: units.Gauge(9 * units.Bar), Inside: units.Absolute(0.985 * units.Bar), Window: [2]units.Share{0.17, 0.27},
		Rates: []units.Stiffness{8400, 8800}, Loose: &loose, Side: setup.Right, Shape: square{2 * units.Millimeter},
		Value: 12 * units.Newton, Oil: fluid, Ratio: 4.5, Wet: true, Teeth: -3}
}

func TestText(t *testing.T) {
	got, err := codec().Marshal(full(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"preload_mm":3.3,`, `"altitude_m":2500,`, `"rake_deg":27.2,`, `"air_degC":22,`,
		`"fill_bar_gauge":9,`,
		`"inside_bar_abs":0.985,`, `"window_percent":[17,27],`,
		`"rates_N_per_mm":[8.4,8.8],`, `"loose_mm":12.5,`, `"side":"right",`,
		`"shape":{"kind":"square","side_mm":2},`,
		`"value":{"kind":"force","number":12,"unit":"N"},`, `"density_kg_per_m3":860`, `"ratio":4.5,`} {
		if !strings.Contains(string(got), want) {
			t.Errorf("no %s in\n%s", want, got)
		}
	}
	empty, err := codec().Marshal(struct {
		List []units.Length
		None *units.Length
	}{})
	if err != nil || string(empty) != `{"list_mm":[],"none_mm":null}` {
		t.Errorf("nothing is %s, %v", empty, err)
	}
}

func TestRoundTrip(t *testing.T) {
	for name, in := range map[string]document{"full": full(t), "absent": {Oil: full(t).Oil}} {
		text, err := codec().Marshal(in)
		if err != nil {
			t.Fatal(err)
		}
		var back document
		if err := codec().Unmarshal(text, &back); err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(in, back); d != "" {
			t.Errorf("%s: %s", name, d)
		}
	}
}

func TestFaults(t *testing.T) {
	text, err := codec().Marshal(full(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ name, old, new, want string }{
		{"missing", `"preload_mm":3.3,`, ``, "preload_mm: missing"},
		{"not known", `"name":`, `"extra":1,"name":`, "extra: not a key"},
		{"text for a number", `"preload_mm":3.3`, `"preload_mm":"3.3 mm"`, "preload_mm: want a finite number"},
		{"huge", `"rake_deg":27.2`, `"rake_deg":1e999999999`, "rake_deg: want a finite number"},
		{"null for a list", `[8.4,8.8]`, `null`, "rates_N_per_mm: want a list"},
		{"one share", `[17,27]`, `[17]`, "window_percent: want 2 values"},
		{"no such side", `"right"`, `"middle"`, "side: "},
		{"number for a word", `"right"`, `1`, "side: want Side"},
		{"no such kind", `"kind":"square"`, `"kind":"round"`, `shape: want an object of kind ["square"]`},
		{"other unit", `"unit":"N"`, `"unit":"kN"`, `value.unit: want "N"`},
		{"what the constructor refuses", `"density_kg_per_m3":860`, `"density_kg_per_m3":86`, "oil: FluidSpec.Density"},
		{"whole number", `"teeth":-3`, `"teeth":0.5`, "teeth: want int"},
		{"true", `"wet":true`, `"wet":"yes"`, "wet: want bool"},
		{"more", `}`, `}}`, "more text"},
	} {
		t.Run(c.name, func(t *testing.T) {
			bad := strings.Replace(string(text), c.old, c.new, 1)
			if c.name == "more" {
				bad = string(text) + "{}"
			}
			var back document
			if err := codec().Unmarshal([]byte(bad), &back); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v", err)
			}
		})
	}
	for _, bad := range []any{struct{ X units.Length }{units.Length(math.NaN())},
		struct{ X map[string]int }{map[string]int{"a": 1}}, struct{ S setup.Side }{7},
		struct{ F units.Flow }{1}} {
		if text, err := codec().Marshal(bad); err == nil {
			t.Errorf("%s", text)
		}
	}
}

func TestKeys(t *testing.T) {
	got := strings.Join(unitjson.Keys[document](codec()), " ")
	for _, want := range []string{"name", "preload_mm", "window_percent[]", "rates_N_per_mm[]", "shape.kind",
		"shape(square).side_mm",
		`value(force).number in "N"`, "oil.viscosity.viscosity_mm2_per_s"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %s in %s", want, got)
		}
	}
}

// Every number of every kind of unit is read back bit for bit, and the text is JSON.
func FuzzNumber(f *testing.F) {
	for _, x := range []float64{0, 1, -1, 0.1, 273.15, 293.15, 27.2 * math.Pi / 180, 1e-300, 1e300, 5e-324,
		math.MaxFloat64, 1e21, 123456.789} {
		f.Add(x)
	}
	type numbers struct {
		L units.Length
		A units.Angle
		T units.Temperature
		K units.Stiffness
	}
	f.Fuzz(func(t *testing.T, x float64) {
		if !(math.Abs(x) <= 1e300) {
			return
		}
		in := numbers{L: units.Length(x), A: units.Angle(x), K: units.Stiffness(x)}
		if x == 0 || math.Abs(x) > 1e-15 { // else no text of reasonable length
			in.T = units.Kelvin(x)
		}
		text, err := codec().Marshal(in)
		if err != nil {
			if !math.IsNaN(x) && !math.IsInf(x, 0) {
				t.Fatal(err)
			}
			return
		}
		var back numbers
		if err := codec().Unmarshal(text, &back); !json.Valid(text) || err != nil || back != in {
			t.Errorf("%s is %v, %v", text, back, errors.Join(err))
		}
	})
}
