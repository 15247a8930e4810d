package spring_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/forkcurve/internal/curvetest"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

func TestSpecsRefuse(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	newAir := func(change func(*spring.AirSpec)) error {
		s := air
		change(&s)
		_, err := spring.NewAir(s)
		return err
	}
	newCoil := func(change func(*spring.CoilSpec)) error {
		s := coil
		change(&s)
		_, err := spring.NewCoil(s)
		return err
	}
	newChamber := func(change func(*spring.ChamberSpec)) error {
		s := gap
		change(&s)
		_, err := spring.NewChamber(s)
		return err
	}
	newPiston := func(change func(*spring.FloatingPistonSpec)) error {
		s := second
		change(&s)
		_, err := spring.NewFloatingPiston(s)
		return err
	}
	newTopOut := func(change func(*spring.TopOutSpec)) error {
		s := topOut
		change(&s)
		_, err := spring.NewTopOut(s)
		return err
	}
	for _, c := range []struct {
		name string
		err  error
		want string
	}{
		{"rate missing", newCoil(func(s *spring.CoilSpec) { s.Rate = 0 }), "CoilSpec.Rate = 0 N/mm: want 0.1 N/mm to 200 N/mm"},
		{"rate without its unit", newCoil(func(s *spring.CoilSpec) { s.Rate = 9 }), "CoilSpec.Rate = 0.009 N/mm: want 0.1 N/mm to 200 N/mm"},
		{"rate NaN", newCoil(func(s *spring.CoilSpec) { s.Rate = units.Stiffness(nan) }), "CoilSpec.Rate = NaN N/mm"},
		{"preload infinite", newCoil(func(s *spring.CoilSpec) { s.Preload = units.Length(inf) }), "CoilSpec.Preload = +Inf m"},
		{"travel negative", newCoil(func(s *spring.CoilSpec) { s.Travel = -300 * mm }), "CoilSpec.Travel = -300 mm: want 1 mm to 400 mm"},
		{"solid before it starts", newCoil(func(s *spring.CoilSpec) { s.FreeLength, s.SolidLength = 200*mm, 198*mm }),
			"CoilSpec.FreeLength = 200 mm: want above solid length plus preload, 202 mm"},
		{"solid length alone", newCoil(func(s *spring.CoilSpec) { s.SolidLength = 200 * mm }), "CoilSpec.FreeLength = 0 mm"},
		{"bore missing", newAir(func(s *spring.AirSpec) { s.Bore = 0 }), "AirSpec.Bore = 0 mm: want 10 mm to 60 mm"},
		{"rod wider than the bore", newAir(func(s *spring.AirSpec) { s.Rod = 40 * mm }), "AirSpec.Rod = 40 mm: want 0 mm to"},
		{"no pressure, a vacuum", newAir(func(s *spring.AirSpec) { s.Pressure = units.AbsolutePressure{} }), "AirSpec.Pressure = 0 bar abs"},
		{"volume below the swept one", newAir(func(s *spring.AirSpec) { s.Volume = 250 * units.Milliliter }), "no gas would be left"},
		{"negative volume negative", newAir(func(s *spring.AirSpec) { s.NegativeVolume = -1e-6 }), "AirSpec.NegativeVolume = -1 mL"},
		{"port outside travel", newAir(func(s *spring.AirSpec) { s.Port = 31 * mm }), "AirSpec.Port = 31 mm: want 0 mm to 30 mm"},
		{"negative pressure absurd", newAir(func(s *spring.AirSpec) { s.NegativePressure = units.Absolute(900 * units.Bar) }), "AirSpec.NegativePressure = 900 bar abs"},
		{"exponent below 1", newAir(func(s *spring.AirSpec) { s.Exponent = 0.9 }), "AirSpec.Exponent = 0.9: want 1 to 1.66"},
		{"ambient missing", newAir(func(s *spring.AirSpec) { s.Ambient = units.AbsolutePressure{} }), "AirSpec.Ambient = 0 bar abs"},
		{"chamber area zero", newChamber(func(s *spring.ChamberSpec) { s.Area = 0 }), "ChamberSpec.Area = 0 cm²"},
		{"chamber without gas at full travel", newChamber(func(s *spring.ChamberSpec) { s.Volume = 549 * units.Milliliter }), "no gas would be left"},
		{"second chamber below the main one", newPiston(func(s *spring.FloatingPistonSpec) { s.SecondPressure = sea }), "above the main chamber's 10.6 bar abs"},
		{"second chamber missing", newPiston(func(s *spring.FloatingPistonSpec) { s.SecondVolume = 0 }), "FloatingPistonSpec.SecondVolume = 0 mL"},
		{"top-out rate missing", newTopOut(func(s *spring.TopOutSpec) { s.Rate = 0 }), "TopOutSpec.Rate = 0 N/mm"},
		{"top-out length absurd", newTopOut(func(s *spring.TopOutSpec) { s.Length = 2 * units.Meter }), "TopOutSpec.Length = 2000 mm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out *units.RangeError
			if !errors.As(c.err, &out) || !strings.Contains(c.err.Error(), c.want) {
				t.Errorf("error %q, want a *units.RangeError with %q", c.err, c.want)
			}
		})
	}
}

func TestSpecReportsAllFaultsAtOnce(t *testing.T) {
	_, err := spring.NewAir(spring.AirSpec{})
	for _, field := range []string{"Bore", "Volume", "Pressure", "Travel", "Ambient", "Exponent"} {
		if !strings.Contains(err.Error(), "AirSpec."+field+" ") {
			t.Errorf("the error of an empty AirSpec does not name %s: %v", field, err)
		}
	}
}

// holds checks that a curve a constructor accepted is a number at a travel.
func holds(t *testing.T, c spring.Curve, err error, share float64) {
	t.Helper()
	if err != nil {
		return
	}
	x := c.Stroke() * units.Length(math.Abs(math.Remainder(share, 1)))
	if p := spring.At(c, x); math.IsNaN(float64(p.Force)) || math.IsNaN(float64(p.Rate)) || math.IsNaN(float64(p.Energy)) {
		t.Errorf("accepted, but at %v: %+v", x, p)
	}
	if _, err := spring.Equilibrium(c, c.Force(x)); err != nil && !(c.Force(x) < 0) {
		t.Errorf("no equilibrium at its own force at %v: %v", x, err)
	}
}

func FuzzNewCoil(f *testing.F) {
	f.Add(9000.0, 0.004, 0.305, 0.6, 0.25, 0.5)
	f.Fuzz(func(t *testing.T, rate, preload, travel, free, solid, share float64) {
		c, err := spring.NewCoil(spring.CoilSpec{Rate: units.Stiffness(rate), Preload: units.Length(preload),
			Travel: units.Length(travel), FreeLength: units.Length(free), SolidLength: units.Length(solid)})
		holds(t, c, err, share)
	})
}

func FuzzNewAir(f *testing.F) {
	f.Add(0.034, 0.012, 430e-6, 10.6e5, 70e-6, 0.0, 0.0, 1.01325e5, 1.3, 0.305, 60e-6, 18e5, 0.5)
	f.Fuzz(func(t *testing.T, bore, rod, volume, pressure, negative, port, negativePressure, ambient, n, travel, v2, p2, share float64) {
		s := spring.AirSpec{Bore: units.Length(bore), Rod: units.Length(rod), Volume: units.Volume(volume),
			Pressure: units.Absolute(units.Pressure(pressure)), NegativeVolume: units.Volume(negative), Port: units.Length(port),
			NegativePressure: units.Absolute(units.Pressure(negativePressure)), Ambient: units.Absolute(units.Pressure(ambient)),
			Exponent: n, Travel: units.Length(travel)}
		a, err := spring.NewAir(s)
		holds(t, a, err, share)
		p, err := spring.NewFloatingPiston(spring.FloatingPistonSpec{Air: s, SecondVolume: units.Volume(v2), SecondPressure: units.Absolute(units.Pressure(p2))})
		holds(t, p, err, share)
	})
}

func FuzzNewChamber(f *testing.F) {
	f.Add(18e-4, 800e-6, 1.01325e5, 1.01325e5, 1.3, 0.305, 0.5)
	f.Fuzz(func(t *testing.T, area, volume, pressure, ambient, n, travel, share float64) {
		c, err := spring.NewChamber(spring.ChamberSpec{Area: units.Area(area), Volume: units.Volume(volume),
			Pressure: units.Absolute(units.Pressure(pressure)), Ambient: units.Absolute(units.Pressure(ambient)),
			Exponent: n, Travel: units.Length(travel)})
		if err == nil {
			curvetest.Rising(t, c)
		}
		holds(t, c, err, share)
	})
}

func FuzzNewTopOut(f *testing.F) {
	f.Add(5000.0, 0.045, 0.16, 0.5)
	f.Fuzz(func(t *testing.T, rate, length, travel, share float64) {
		c, err := spring.NewTopOut(spring.TopOutSpec{Rate: units.Stiffness(rate), Length: units.Length(length), Travel: units.Length(travel)})
		holds(t, c, err, share)
	})
}
