package helical_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

func TestEveryFieldHasLimits(t *testing.T) {
	made := func(s helical.Spec) error {
		_, err := helical.New(s)
		return err
	}
	base := helical.Spec{Wire: 5 * mm, FreeLength: 490 * mm, Material: of("sicrv")}
	for _, change := range []func(*helical.Spec){
		func(s *helical.Spec) { s.MeanDiameter, s.ActiveCoils = 38*mm, 25 },
		func(s *helical.Spec) { s.OuterDiameter, s.TotalCoils = 43*mm, 27 },
		func(s *helical.Spec) { s.OuterDiameter, s.Rate = 43*mm, 4.9*npm },
	} {
		refusal.Fields(t, func() helical.Spec {
			s := base
			change(&s)
			return s
		}, made)
	}
	refusal.Fields(t, func() helical.DesignSpec {
		s := offRoad()
		s.Clearance = 1 * mm
		return s
	}, func(s helical.DesignSpec) error {
		_, err := helical.Design(s)
		return err
	})
	refusal.Fields(t, func() helical.ForkSpec { return offRoadFork() }, func(s helical.ForkSpec) error {
		_, err := s.Design(1)
		return err
	})
	refusal.Fields(t, func() helical.MaterialSpec {
		return helical.MaterialSpec{ID: "x", ShearModulus: 80 * gpa, ElasticModulus: 206 * gpa, Density: 7850,
			Softening: 2.5e-4, YieldRatio: 0.5, Thin: []helical.Moduli{{UpTo: 1 * mm, ShearModulus: 82 * gpa,
				ElasticModulus: 210 * gpa}}, Strength: power(1500*mpa, 0, 1*mm, 8*mm)}
	}, func(s helical.MaterialSpec) error {
		_, err := helical.NewMaterial(s)
		return err
	}, "Strength*")
}

// strengths of a material made here.
func strengthFault(s helical.Strength) error {
	_, err := helical.NewMaterial(helical.MaterialSpec{ID: "x", ShearModulus: 80 * gpa, ElasticModulus: 206 * gpa,
		Density: 7850, YieldRatio: 0.5, Strength: s})
	return err
}

// Each number of a strength has a limit of its own, and the wire at both ends of its range is within it.
func TestStrengthHasLimits(t *testing.T) {
	step := func(up, rm float64) helical.StrengthStep {
		return helical.StrengthStep{UpTo: units.Length(up) * mm, Rm: units.Stress(rm) * mpa}
	}
	stepped := func(list ...helical.StrengthStep) helical.Strength {
		return helical.Strength{Thinnest: 1 * mm, Thickest: list[len(list)-1].UpTo, Steps: list}
	}
	law := func(change func(*helical.Strength)) helical.Strength {
		s := helical.Strength{Thinnest: 1 * mm, Thickest: 6 * mm, At1mm: 2000 * mpa, Exponent: 0.1}
		change(&s)
		return s
	}
	both := func(change func(*helical.Strength)) helical.Strength {
		s := stepped(step(2, 1700), step(4, 1600))
		change(&s)
		return s
	}
	for what, c := range map[string]struct {
		s  helical.Strength
		ok bool
	}{
		"law":                    {law(func(*helical.Strength) {}), true},
		"steps":                  {stepped(step(2, 1700), step(4, 1600)), true},
		"one step at the end":    {stepped(step(1, 1700)), true},
		"thinnest of none":       {law(func(s *helical.Strength) { s.Thinnest = 0 }), false},
		"thinner than none":      {law(func(s *helical.Strength) { s.Thinnest = -1 * mm }), false},
		"thickest below":         {law(func(s *helical.Strength) { s.Thickest = 0.9 * mm }), false},
		"endless":                {law(func(s *helical.Strength) { s.Thickest = units.Length(math.Inf(1)) }), false},
		"too strong":             {law(func(s *helical.Strength) { s.At1mm = 5100 * mpa }), false},
		"too weak when thick":    {law(func(s *helical.Strength) { s.Exponent = 2 }), false},
		"NaN":                    {law(func(s *helical.Strength) { s.Exponent = math.NaN() }), false},
		"steps and an exponent":  {both(func(s *helical.Strength) { s.Exponent = 0.1 }), false},
		"steps and a decade":     {both(func(s *helical.Strength) { s.LossPerDecade = 700 * mpa }), false},
		"steps and a strength":   {both(func(s *helical.Strength) { s.At1mm = 1700 * mpa }), false},
		"first step below":       {stepped(step(0.5, 1700), step(4, 1600)), false},
		"same step twice":        {stepped(step(2, 1700), step(2, 1650), step(4, 1600)), false},
		"step too strong":        {stepped(step(2, 5100), step(4, 1600)), false},
		"step too weak":          {stepped(step(2, 1700), step(3, 99), step(4, 1600)), false},
		"steps that end earlier": {both(func(s *helical.Strength) { s.Thickest = 5 * mm }), false},
	} {
		if err := strengthFault(c.s); (err == nil) != c.ok || len(units.Faults(err)) > 1 {
			t.Errorf("%s: %v", what, err)
		}
	}
	// Beyond its range nothing is known.
	m, err := helical.NewMaterial(helical.MaterialSpec{ID: "x", ShearModulus: 80 * gpa, ElasticModulus: 206 * gpa,
		Density: 7850, YieldRatio: 0.5, Strength: helical.Strength{Thinnest: 1 * mm, Thickest: 6 * mm, At1mm: 2000 * mpa,
			Exponent: 0.1, LossPerDecade: 100 * mpa}})
	if err != nil {
		t.Fatal(err)
	}
	for d, known := range map[units.Length]bool{0.99 * mm: false, 1 * mm: true, 6 * mm: true, 6.01 * mm: false} {
		if got := float64(m.TensileStrength(d)); math.IsNaN(got) == known {
			t.Errorf("wire of %v: %v", d, units.Stress(got))
		}
	}
	near(t, "between", float64(m.TensileStrength(4*mm)), (2000*math.Pow(4, -0.1)-100*math.Log10(4))*1e6, 1e-12)
	e, g := 206.0, 80.0
	for ratio, ok := range map[float64]bool{0.99: false, 1.01: true, 2.99: true, 3.01: false} {
		_, err := helical.NewMaterial(helical.MaterialSpec{ID: "x", ShearModulus: units.Stress(g) * gpa,
			ElasticModulus: units.Stress(g*ratio) * gpa, Density: 7850, YieldRatio: 0.5,
			Strength: power(1500*mpa, 0, 1*mm, 8*mm)})
		if (err == nil) != ok {
			t.Errorf("E of %g, not %g: %v", g*ratio, e, err)
		}
	}
}

// A spring just inside each limit is made, one just beyond is not, and the fault is told of what was given.
func TestSpringsAtTheLimits(t *testing.T) {
	sicrv := of("sicrv")
	for what, c := range map[string]struct {
		spec helical.Spec
		want string // field of the fault; "" for none
	}{
		"index 3.05": {helical.Spec{Wire: 8 * mm, MeanDiameter: 24.4 * mm, ActiveCoils: 5, FreeLength: 80 * mm}, ""},
		"index 2.95": {helical.Spec{Wire: 8 * mm, MeanDiameter: 23.6 * mm, ActiveCoils: 5, FreeLength: 80 * mm},
			"MeanDiameter"},
		"index 20.5": {helical.Spec{Wire: 3 * mm, MeanDiameter: 61.5 * mm, ActiveCoils: 5, FreeLength: 80 * mm},
			"MeanDiameter"},
		"few coils by rate": {helical.Spec{Wire: 8 * mm, MeanDiameter: 40 * mm, Rate: 700 * npm, FreeLength: 80 * mm},
			"Rate"},
		"many coils by rate": {helical.Spec{Wire: 3 * mm, MeanDiameter: 40 * mm, Rate: 0.02 * npm, FreeLength: 400 * mm},
			"Rate"},
		"solid": {helical.Spec{Wire: 5 * mm, MeanDiameter: 40 * mm, ActiveCoils: 20, FreeLength: 105 * mm},
			"FreeLength"},
		"steep": {helical.Spec{Wire: 5 * mm, MeanDiameter: 40 * mm, ActiveCoils: 2, FreeLength: 150 * mm},
			"FreeLength"},
	} {
		c.spec.Material = sicrv
		_, err := helical.New(c.spec)
		if (err == nil) != (c.want == "") || err != nil && !strings.HasPrefix(err.Error(), "Spec."+c.want) ||
			len(units.Faults(err)) > 1 {
			t.Errorf("%s: %v", what, err)
		}
	}
	_, err := helical.New(helical.Spec{Wire: 8 * mm, MeanDiameter: 23.6 * mm, ActiveCoils: 5, FreeLength: 80 * mm,
		Material: sicrv})
	_, outer := helical.New(helical.Spec{Wire: 8 * mm, OuterDiameter: 31.6 * mm, ActiveCoils: 5, FreeLength: 80 * mm,
		Material: sicrv})
	if !strings.Contains(err.Error(), "outer less one wire") || strings.Contains(outer.Error(), "outer less one wire") {
		t.Errorf("%v\n%v", err, outer)
	}
}

// Grades are known within the scope of the standard and not a hair outside.
func TestToleranceAtItsEnds(t *testing.T) {
	good := helical.Spec{Wire: 5 * mm, MeanDiameter: 38 * mm, ActiveCoils: 25, FreeLength: 490 * mm}
	for what, c := range map[string]struct {
		change func(*helical.Spec)
		known  bool
	}{
		"as it is":        {func(*helical.Spec) {}, true},
		"630 mm long":     {func(s *helical.Spec) { s.FreeLength = 630 * mm }, true},
		"630.1 mm long":   {func(s *helical.Spec) { s.FreeLength = 630.1 * mm }, false},
		"index of 4":      {func(s *helical.Spec) { s.MeanDiameter, s.FreeLength = 20*mm, 200*mm }, true},
		"index of 3.99":   {func(s *helical.Spec) { s.MeanDiameter, s.FreeLength = 19.95*mm, 200*mm }, false},
		"index of 20":     {func(s *helical.Spec) { s.Wire, s.MeanDiameter = 3*mm, 60*mm }, true},
		"2 coils":         {func(s *helical.Spec) { s.ActiveCoils, s.FreeLength = 2, 60*mm }, true},
		"1.99 coils":      {func(s *helical.Spec) { s.ActiveCoils, s.FreeLength = 1.99, 60*mm }, false},
		"10 mm wide":      {func(s *helical.Spec) { s.Wire, s.MeanDiameter, s.FreeLength = 1*mm, 10*mm, 100*mm }, true},
		"9.9 mm wide":     {func(s *helical.Spec) { s.Wire, s.MeanDiameter, s.FreeLength = 1*mm, 9.9*mm, 100*mm }, false},
		"63.1 mm wide":    {func(s *helical.Spec) { s.MeanDiameter = 63.1 * mm }, false},
		"3 coils of rate": {func(s *helical.Spec) { s.ActiveCoils, s.FreeLength = 3, 80*mm }, true},
	} {
		spec := good
		spec.Material = of("sm")
		c.change(&spec)
		s := build(t, spec)
		if got := float64(s.DiameterTolerance(helical.Grade1)); math.IsNaN(got) == c.known {
			t.Errorf("%s: ±%v", what, units.Length(got))
		}
		for _, g := range []helical.Grade{0, 4} {
			if d, k := float64(s.DiameterTolerance(g)), float64(s.RateTolerance(g)); !math.IsNaN(d) || !math.IsNaN(k) {
				t.Errorf("%s, grade %d: ±%v, ±%v", what, g, d, k)
			}
		}
		if got := float64(s.RateTolerance(helical.Grade1)); math.IsNaN(got) != (s.ActiveCoils() < 3) {
			t.Errorf("%s: rate ±%v", what, got)
		}
	}
}

// Springs and materials are equal if all of them is, and to nothing if one is none.
func TestEqualSprings(t *testing.T) {
	spec := helical.Spec{Wire: 5 * mm, MeanDiameter: 38 * mm, ActiveCoils: 25, FreeLength: 490 * mm, Material: of("sm")}
	s := build(t, spec)
	longer, other := spec, spec
	longer.FreeLength += 1 * mm
	other.Material = of("sicrv")
	for what, o := range map[string]helical.Spring{"longer": build(t, longer), "of another wire": build(t, other),
		"none": {}} {
		if s.Equal(o) || o.Equal(s) {
			t.Errorf("%s: equal", what)
		}
	}
	again, err := helical.NewMaterial(of("sm").Spec())
	if err != nil || !again.Equal(of("sm")) || !s.Equal(build(t, spec)) ||
		!(helical.Material{}).Equal(helical.Material{}) {
		t.Error("not equal to itself", err)
	}
	if of("sm").Equal(helical.Material{}) || (helical.Material{}).Equal(of("sm")) {
		t.Error("a wire is equal to none")
	}
}

// A spring is held to what it has room for, to a hair.
func TestCheckToAHair(t *testing.T) {
	spec := offRoad()
	s, err := helical.Design(spec)
	if err != nil {
		t.Fatal(err)
	}
	for what, c := range map[string]struct {
		change func(*helical.DesignSpec)
		ok     bool
	}{
		"as long as its room":       {func(d *helical.DesignSpec) { d.FreeLength = s.FreeLength() }, true},
		"a rod that clears it":      {func(d *helical.DesignSpec) { d.Rod = s.InnerDiameter() - 1*mm }, true},
		"a rod half as far":         {func(d *helical.DesignSpec) { d.Rod = s.InnerDiameter() - 0.5*mm }, false},
		"a bore that clears it":     {func(d *helical.DesignSpec) { d.Bore = s.OuterDiameterAtSolid() + 1*mm }, true},
		"a bore half as far":        {func(d *helical.DesignSpec) { d.Bore = s.OuterDiameterAtSolid() + 0.5*mm }, false},
		"a room shorter by a tenth": {func(d *helical.DesignSpec) { d.FreeLength = s.FreeLength() - 0.1*mm }, false},
		"half of the clearance": {func(d *helical.DesignSpec) { d.Clearance, d.Rod = 0.5*mm, s.InnerDiameter()-0.5*mm },
			true},
		"more stroke by a tenth mm": {func(d *helical.DesignSpec) {
			d.Stroke += s.BindMargin(d.Stroke+d.Preload) - s.DynamicMinimumGap() + 0.1*mm
		}, false},
		"all the stroke that it has": {func(d *helical.DesignSpec) { d.Preload -= 0.1 * mm }, true},
	} {
		d := spec
		c.change(&d)
		if err := d.Check(s); (err == nil) != c.ok {
			t.Errorf("%s: %v", what, err)
		}
	}
	for total, ok := range map[float64]bool{501.5: true, 502.5: false} {
		_, err := helical.New(helical.Spec{Wire: 0.5 * mm, MeanDiameter: 5 * mm, TotalCoils: total, FreeLength: 600 * mm,
			Material: of("sm")})
		if (err == nil) != ok {
			t.Errorf("%v coils in all: %v", total, err)
		}
	}
}

// All that Design chooses from starts at the thinnest wire there is and ends at the thickest that goes in, at index 4
// to
// 20; what it says is missing is enough.
func TestDesignLooksEverywhere(t *testing.T) {
	spec := offRoad()
	spec.Rate, spec.Stroke = 4.9*npm, 120*mm
	list, err := helical.DesignByWire(spec)
	if err != nil || len(list) < 5 {
		t.Fatal(len(list), err)
	}
	wires := make([]float64, len(list))
	for i, s := range list {
		wires[i] = s.Wire().In(mm)
		if c := s.Index(); c < 4-1e-9 || c > 20+1e-9 {
			t.Errorf("index %v", c)
		}
		if s.OuterDiameterAtSolid() > spec.Bore-1*mm+1e-12 || s.InnerDiameter() < spec.Rod+1*mm {
			t.Errorf("%v to %v in %v around %v", s.InnerDiameter(), s.OuterDiameterAtSolid(), spec.Bore, spec.Rod)
		}
	}
	if !slices.IsSorted(wires) {
		t.Errorf("wires %v", wires)
	}
	// Each is the widest of its wire: with the bore as wide as it is alone it is found again.
	for _, s := range list[:3] {
		tight := spec
		tight.Bore = s.OuterDiameterAtSolid() + 1*mm + 1e-9*mm
		again, err := helical.DesignByWire(tight)
		if err != nil || !slices.ContainsFunc(again, s.Equal) {
			t.Errorf("not found in its own bore: %v, %v", s, err)
		}
	}
	rod := spec
	rod.Rod = 43 * mm
	_, err = helical.Design(rod)
	faults := faults(err)
	if len(faults) != 1 || faults[0].Field != "DesignSpec.Rod" {
		t.Fatalf("%v", err)
	}
	var most float64
	text := strings.TrimPrefix(faults[0].Want, "at most ")
	if _, err := fmt.Sscan(text, &most); err != nil {
		t.Fatal(text, err)
	}
	for by, ok := range map[float64]bool{-0.01: true, 0.2: false} {
		rod.Rod = units.Length(most+by) * mm
		rod.FreeLength = 1000 * mm
		if _, err := helical.Design(rod); (err == nil) != ok {
			t.Errorf("a rod of %v: %v", rod.Rod, err)
		}
	}
}
