package helical_test

import (
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// One spring with the whole rate, or one in each leg, worked by hand with the formulas
// of the package comment: wire and outer diameter given. The masses by hand leave out
// the rise of the coils, less than 2 %. Free to choose, in a bore that clears the spring
// by hand by 1 mm when closed, Design comes out no longer, with wire within 0.1 mm of it.
func TestOneLegOrTwo(t *testing.T) {
	for _, row := range []struct {
		name                            string
		k, wire, outer, bore, stroke    float64 // stroke with preload
		coils, solid, needed, mass, tau float64
	}{
		{"off-road, two of 4.9 N/mm", 4.9, 5.1, 43, 44.8, 311, 25, 139, 485, 0.52, 1109},
		{"off-road, one of 9.8 N/mm", 9.8, 6.5, 43, 44.6, 311, 37, 255, 619, 1.17, 1032},
		{"bicycle, one of 8.3 N/mm", 8.3, 4.5, 31.5, 33, 173, 25, 121, 320, 0.29, 1083},
		{"bicycle, two of 4.15 N/mm", 4.15, 3.6, 31.5, 33.2, 173, 19, 74, 266, 0.14, 1093},
	} {
		t.Run(row.name, func(t *testing.T) {
			rate, wire, stroke := units.Stiffness(row.k)*npm, units.Length(row.wire)*mm, units.Length(row.stroke)*mm
			s := build(t, helical.Spec{Wire: wire, OuterDiameter: units.Length(row.outer) * mm, Rate: rate,
				FreeLength: units.Length(row.needed) * mm, Material: of("sicrv")})
			needed := s.SolidLength() + s.DynamicMinimumGap() + stroke
			compare(t, []number{
				{"coils", s.ActiveCoils(), row.coils, 0.5, ""},
				{"solid, mm", s.SolidLength().In(mm), row.solid, 0.5, ""},
				{"free length needed, mm", needed.In(mm), row.needed, 0.5, ""},
				{"τ, MPa", s.ShearStress(units.Force(row.k * row.stroke)).In(mpa), row.tau, 0.5, ""},
				{"mass, kg", float64(s.Mass()), row.mass, 0.005 + 0.02*row.mass, "the rise of the coils"},
			})
			best, err := helical.Design(helical.DesignSpec{Rate: rate, Stroke: stroke, Bore: units.Length(row.bore) * mm,
				FreeLength: 1000 * mm, Material: of("sicrv")})
			if err != nil || best.FreeLength().In(mm) > row.needed || !(math.Abs(float64(best.Wire()-wire)) <= 0.101e-3) {
				t.Errorf("designed of wire %v, %v long, %v", best.Wire(), best.FreeLength(), err)
			}
		})
	}
}

// A full-size off-road spring of 495 mm: by hand it buckles after 34 mm of its
// 311 mm and grows 0.1·(p² − 0.8·p·d − 0.2·d²)/D, some 0.75 mm.
func TestOffRoadSpringByHand(t *testing.T) {
	s := build(t, helical.Spec{Wire: 5.1 * mm, OuterDiameter: 43 * mm, Rate: 4.9 * npm, FreeLength: 495 * mm,
		Material: of("sicrv")})
	y, ok := s.BucklingDeflection()
	// n = G·d⁴/(8·D³·k) coils, squared and ground: p = (L0 − 2·d)/n.
	const d, mean = 5.1, 43 - 5.1
	coils := s.Material().ShearModulus(5.1*mm).In(mpa) * math.Pow(d, 4) / (8 * mean * mean * mean * 4.9)
	p := (495 - 2*d) / coils
	growth := 0.1 * (p*p - 0.8*p*d - 0.2*d*d) / mean
	compare(t, []number{
		{"L0/D", s.Slenderness(), 13.1, 0.05, ""},
		{"buckles at, mm", y.In(mm), 34, 0.5, ""},
		{"grows, mm", (s.OuterDiameterAtSolid() - s.OuterDiameter()).In(mm), growth, 1e-9, "by hand"},
		{"grows some, mm", growth, 0.75, 0.05, "a hand's rounding"},
	})
	if !ok {
		t.Error("does not buckle")
	}
}

func offRoad() helical.DesignSpec {
	return helical.DesignSpec{
		Rate: 4.9 * npm, Stroke: 305 * mm, Preload: 6 * mm,
		Bore: 44.5 * mm, Rod: 12 * mm, FreeLength: 500 * mm, Material: of("sicrv"),
	}
}

// holds checks everything that Design promises.
func holds(t *testing.T, spec helical.DesignSpec, s helical.Spring) {
	t.Helper()
	clearance := spec.Clearance
	if clearance == 0 {
		clearance = 1 * mm
	}
	stroke := spec.Stroke + spec.Preload
	const dust = 1e-9 * mm
	if !(math.Abs(float64(s.Rate()/spec.Rate)-1) <= 1e-9) {
		t.Errorf("rate %v, want %v", s.Rate(), spec.Rate)
	}
	if s.OuterDiameterAtSolid() > spec.Bore-clearance+dust {
		t.Errorf("%v when closed in a bore of %v", s.OuterDiameterAtSolid(), spec.Bore)
	}
	if s.InnerDiameter() < spec.Rod+clearance-dust {
		t.Errorf("%v inside over a rod of %v", s.InnerDiameter(), spec.Rod)
	}
	if s.FreeLength() > spec.FreeLength+dust {
		t.Errorf("%v long in %v", s.FreeLength(), spec.FreeLength)
	}
	if s.BindMargin(stroke) < s.DynamicMinimumGap()-dust {
		t.Errorf("%v left at full stroke, want %v", s.BindMargin(stroke), s.DynamicMinimumGap())
	}
	f := s.Force(stroke)
	if spec.SolidSafe {
		f = s.SolidForce()
	}
	if s.ShearStress(f) > s.StaticLimit()*(1+1e-12) {
		t.Errorf("%v of %v", s.ShearStress(f), s.StaticLimit())
	}
	if c := s.Index(); c < 4-1e-9 || c > 20+1e-9 || s.ActiveCoils() < 2 {
		t.Errorf("index %g, %g coils", c, s.ActiveCoils())
	}
}

func TestDesign(t *testing.T) {
	for _, row := range []struct {
		why    string
		change func(*helical.DesignSpec)
	}{
		{"as it is", func(*helical.DesignSpec) {}},
		{"safe when closed", func(s *helical.DesignSpec) { s.SolidSafe, s.FreeLength = true, 550*mm }},
		{"a weaker wire takes more length", func(s *helical.DesignSpec) { s.Material, s.FreeLength = of("dh"), 600*mm }},
		{"titanium", func(s *helical.DesignSpec) { s.Material, s.FreeLength = of("ti-beta"), 600*mm }},
		{"ends not ground", func(s *helical.DesignSpec) { s.Ends = helical.Squared }},
		{"bicycle", func(s *helical.DesignSpec) {
			s.Rate, s.Stroke, s.Preload, s.Bore, s.Rod = 8.3*npm, 170*mm, 3*mm, 33*mm, 10*mm
		}},
		{"more clearance", func(s *helical.DesignSpec) { s.Clearance = 3 * mm }},
		{"wide bore, soft spring", func(s *helical.DesignSpec) { s.Rate, s.Bore, s.Stroke = 1*npm, 100*mm, 50*mm }},
		{"short and stiff", func(s *helical.DesignSpec) { s.Rate, s.Stroke, s.Preload = 60*npm, 20*mm, 0 }},
	} {
		t.Run(row.why, func(t *testing.T) {
			spec := offRoad()
			row.change(&spec)
			s, err := helical.Design(spec)
			if err != nil {
				t.Fatal(err)
			}
			holds(t, spec, s)
		})
	}
}

// No wire and diameter on the grid gives a shorter spring that holds, tried one by one.
func TestDesignIsTheShortest(t *testing.T) {
	spec := offRoad()
	best, err := helical.Design(spec)
	if err != nil {
		t.Fatal(err)
	}
	stroke, tried := spec.Stroke+spec.Preload, 0
	for wire := 20; wire <= 100; wire++ {
		for outer := 200; outer <= 435; outer++ {
			given := helical.Spec{
				Wire: units.Length(wire) * 0.1 * mm, OuterDiameter: units.Length(outer) * 0.1 * mm,
				Rate: spec.Rate, FreeLength: best.FreeLength() - 1*mm, Material: spec.Material,
			}
			s, err := helical.New(given)
			if err != nil || s.Index() < 4 || s.ActiveCoils() < 2 || s.InnerDiameter() < spec.Rod+1*mm {
				continue
			}
			tried++
			if s.ShearStress(units.Force(float64(s.Rate())*float64(stroke))) <= s.StaticLimit() &&
				s.BindMargin(stroke) >= s.DynamicMinimumGap() && s.OuterDiameterAtSolid() <= spec.Bore-1*mm {
				t.Errorf("%v wire, %v outside is shorter than %v", s.Wire(), s.OuterDiameter(), best.FreeLength())
			}
		}
	}
	if tried < 1000 {
		t.Errorf("only %d springs tried", tried)
	}
}

func TestNoDesign(t *testing.T) {
	for _, row := range []struct {
		why    string
		change func(*helical.DesignSpec)
		fields string
		says   string
	}{
		{"one leg for the whole rate does not fit", func(s *helical.DesignSpec) { s.Rate *= 2 }, "FreeLength",
			"one in each leg"},
		{"thick rod", func(s *helical.DesignSpec) { s.Rod = 34 * mm }, "Rod", "clears the inside"},
		{"no wire is strong enough", func(s *helical.DesignSpec) { s.Rate, s.Bore, s.Rod = 90*npm, 20*mm, 0 }, "Rate",
			"27990 N"},
		{"kgf/mm typed as N/mm", func(s *helical.DesignSpec) { s.Rate = 0.5 * npm }, "Rate", "1 kgf/mm is 9.80665 N/mm"},
		{"bare numbers", func(s *helical.DesignSpec) { s.Stroke, s.Bore = 305, 44 }, "Stroke Bore", "units.Millimeter"},
		{"rod as wide as the bore", func(s *helical.DesignSpec) { s.Rod = s.Bore }, "Rod", "less than the bore"},
		{"wire too thick for the bore", func(s *helical.DesignSpec) { s.Bore, s.Rod, s.Material = 8*mm, 0, of("sicr") },
			"Bore", "at least 11 mm"},
		{"nothing", func(s *helical.DesignSpec) { *s = helical.DesignSpec{} },
			"Rate Stroke Bore FreeLength Material", ""},
		{"NaN everywhere", func(s *helical.DesignSpec) {
			n := units.Length(math.NaN())
			*s = helical.DesignSpec{Rate: units.Stiffness(n), Stroke: n, Preload: n, Bore: n, Rod: n, FreeLength: n,
				Clearance: n, Ends: -1}
		}, "Rate Stroke Preload Bore FreeLength Clearance Ends Material", ""},
	} {
		t.Run(row.why, func(t *testing.T) {
			spec := offRoad()
			row.change(&spec)
			s, err := helical.Design(spec)
			wantFields(t, err, "DesignSpec", row.fields)
			if err != nil && !strings.Contains(err.Error(), row.says) {
				t.Errorf("%v: does not say %q", err, row.says)
			}
			if err != nil && (strings.Contains(err.Error(), "cut") || strings.Contains(err.Error(), "grind")) {
				t.Errorf("%v: no spring is cut or ground to fit", err)
			}
			if s != (helical.Spring{}) {
				t.Error("a spring came with the error")
			}
		})
	}
}

// What the error asks for is enough, and a millimeter less is not.
func TestDesignSaysHowMuchRoom(t *testing.T) {
	spec := offRoad()
	spec.Rate *= 2
	_, err := helical.Design(spec)
	list := faults(err)
	if len(list) != 1 || !strings.Contains(list[0].Want, "at least 6") {
		t.Fatalf("%v", err)
	}
	spec.FreeLength = 1000 * mm
	s, err := helical.Design(spec)
	if err != nil {
		t.Fatal(err)
	}
	spec.FreeLength = s.FreeLength()
	if _, err := helical.Design(spec); err != nil {
		t.Error(err)
	}
	spec.FreeLength -= 1 * mm
	if _, err := helical.Design(spec); err == nil {
		t.Error("fits a millimeter less")
	}
}
