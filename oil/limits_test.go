package oil_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/refusal"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

func errOf(_ any, err error) error { return err }

// gapFaults are those of a gap, which is made of what passes its check and of nothing else.
func gapFaults(s oil.AirGapSpec) error {
	made := errOf(oil.NewAirGap(s))
	if checked := s.Validate(); fmt.Sprint(checked) != fmt.Sprint(made) {
		return fmt.Errorf("checked: %v; made: %v", checked, made)
	}
	return made
}

func TestFillsAndGapsHaveLimits(t *testing.T) {
	refusal.Fields(t, func() oil.AirGapSpec {
		return oil.AirGapSpec{Area: 18e-4, Residual: 150 * mL, Travel: 160 * mm, Pressure: sea, Ambient: sea, Exponent: 1.3}
	}, gapFaults)
	for _, change := range []func(*oil.FillSpec){func(s *oil.FillSpec) { s.Volume = 500 * mL },
		func(s *oil.FillSpec) { s.Level = 130 * mm }} {
		refusal.Fields(t, func() oil.FillSpec {
			s := oil.FillSpec{Interior: 900 * mL, Column: 15e-4, Metal: 40 * mL}
			change(&s)
			return s
		}, func(s oil.FillSpec) error { return errOf(oil.NewFill(s)) })
	}
	closed := oil.InteriorSpec{Fork: enduro, Depth: 500 * mm, Rod: 12 * mm, Cartridge: open, Closed: true}
	refusal.Fields(t, func() oil.InteriorSpec { return closed },
		func(s oil.InteriorSpec) error { return errOf(oil.NewInterior(s)) })
	refusal.Fields(t, func() oil.FluidSpec {
		s := sheet(15*cSt, 3.4*cSt)
		s.Second, s.Index = oil.Measurement{}, 120
		return s
	}, func(s oil.FluidSpec) error { return errOf(oil.NewFluid(s)) }, "Second*")
}

// What is just within a limit is made; just beyond it one fault is told.
func TestEndsOfFills(t *testing.T) {
	fill, err := oil.NewFill(oil.FillSpec{Interior: 900 * mL, Column: 15e-4, Metal: 40 * mL, Volume: 500 * mL})
	if err != nil {
		t.Fatal(err)
	}
	refitted := func(metal, residual float64) error {
		return errOf(fill.Refitted(units.Volume(metal)*mL, units.Volume(residual)*mL))
	}
	gap := func(residual float64) error {
		return gapFaults(oil.AirGapSpec{Area: 10e-4, Residual: units.Volume(residual) * mL, Travel: 100 * mm,
			Pressure: sea, Ambient: sea, Exponent: 1})
	}
	index := func(at40, at100 float64) error {
		return errOf(oil.ViscosityIndex(units.KinematicViscosity(at40)*cSt, units.KinematicViscosity(at100)*cSt))
	}
	leg := func(change func(*oil.InteriorSpec)) error {
		s := oil.InteriorSpec{Fork: enduro, Depth: 500 * mm, Rod: 12 * mm, Cartridge: open, Length: 300 * mm}
		change(&s)
		return errOf(oil.NewInterior(s))
	}
	thin := func(viscosity float64) error {
		s := sheet(15*cSt, 3.4*cSt)
		s.Second.Viscosity = units.KinematicViscosity(viscosity) * cSt
		return errOf(oil.NewFluid(s))
	}
	twice := sheet(15*cSt, 3.4*cSt)
	twice.Viscosity, twice.Second = twice.Second, twice.Viscosity // the colder one second
	rises := twice
	rises.Second.Viscosity = 3 * cSt
	for what, c := range map[string]struct {
		err error
		ok  bool
	}{
		"refitted":                    {refitted(60, 300), true},
		"refitted with no metal":      {refitted(0, 300), true},
		"refitted with no gas":        {refitted(60, 0), true},
		"below no gas":                {refitted(60, -1), false},
		"more gas than the leg":       {refitted(0, 901), false},
		"more metal than the leg":     {refitted(901, 0), false},
		"no room for oil":             {refitted(500, 400), false},
		"a milliliter for oil":        {refitted(500, 399), true},
		"gap of 2 mL extended":        {gap(-98), true},
		"gap of none extended":        {gap(-99.5), false},
		"an oil":                      {index(15, 3.4), true},
		"an oil that does not thin":   {index(3.4, 3.4), false},
		"an oil of no viscosity":      {index(math.NaN(), 3.4), false},
		"an oil of too much at 40":    {index(3e6, 3.4), false},
		"an oil of too little at 100": {index(15, 1.9), false},
		"a length without cartridge":  {leg(func(s *oil.InteriorSpec) { s.Cartridge = geometry.Tube{} }), false},
		"closed without cartridge": {leg(func(s *oil.InteriorSpec) {
			s.Cartridge, s.Length, s.Closed = geometry.Tube{}, 0, true
		}), false},
		"no cartridge":              {leg(func(s *oil.InteriorSpec) { s.Cartridge, s.Length = geometry.Tube{}, 0 }), true},
		"closed with a length":      {leg(func(s *oil.InteriorSpec) { s.Closed = true }), false},
		"a rod too thick for it":    {leg(func(s *oil.InteriorSpec) { s.Rod, s.Cartridge.Bore = 19.9*mm, 19*mm }), false},
		"a second one of 2 mm²/s":   {thin(2), true},
		"a second one of 1.9 mm²/s": {thin(1.9), false},
		"a second one below none":   {thin(-1), false},
		"the second one colder":     {errOf(oil.NewFluid(twice)), true},
		"and thinner":               {errOf(oil.NewFluid(rises)), false},
	} {
		if (c.err == nil) != c.ok || len(units.Faults(c.err)) > 1 {
			t.Errorf("%s: %v", what, c.err)
		}
	}
}

// A sheet without a first viscosity has no second one, and no index either.
func TestViscosityIsWholeOrNone(t *testing.T) {
	second, index, none := sheet(15*cSt, 3.4*cSt), sheet(15*cSt, 3.4*cSt), sheet(15*cSt, 3.4*cSt)
	second.Viscosity = oil.Measurement{}
	index.Viscosity, index.Second, index.Index = oil.Measurement{}, oil.Measurement{}, 120
	none.Viscosity, none.Second = oil.Measurement{}, oil.Measurement{}
	for what, c := range map[string]struct {
		s  oil.FluidSpec
		ok bool
	}{"second alone": {second, false}, "index alone": {index, false}, "none": {none, true}} {
		if err := errOf(oil.NewFluid(c.s)); (err == nil) != c.ok {
			t.Errorf("%s: %v", what, err)
		}
	}
	whole, err := oil.NewFluid(sheet(15*cSt, 3.4*cSt))
	if err != nil {
		t.Fatal(err)
	}
	bare, err := oil.NewFluid(none)
	if err != nil {
		t.Fatal(err)
	}
	for what, pair := range map[string][2]oil.Fluid{"known in the first": {whole, bare}, "in the second": {bare, whole}} {
		mix, err := oil.Blend(pair[0], 300*mL, pair[1], 100*mL)
		if err != nil || mix.HasViscosity() {
			t.Errorf("%s alone: %v, %v", what, mix, err)
		}
	}
	if !whole.Equal(whole) || whole.Equal(bare) || (oil.Fluid{}).Equal(whole) {
		t.Error("equal to what it is not")
	}
}

// The expansion of a blend is that of its parts by volume.
func TestBlendExpands(t *testing.T) {
	spec := sheet(15*cSt, 3.4*cSt)
	more := spec
	more.Expansion *= 1.3
	a, err := oil.NewFluid(spec)
	if err != nil {
		t.Fatal(err)
	}
	b, err := oil.NewFluid(more)
	if err != nil {
		t.Fatal(err)
	}
	mix, err := oil.Blend(a, 200*mL, b, 100*mL)
	if err != nil {
		t.Fatal(err)
	}
	from, to := units.Celsius(15), units.Celsius(60)
	apart := float64(a.Expand(200*mL, from, to) + b.Expand(100*mL, from, to))
	if got := float64(mix.Expand(300*mL, from, to)); !(math.Abs(got-apart) <= 1e-4*(apart-300e-6)) {
		t.Errorf("%v, apart %v", got, apart)
	}
}
