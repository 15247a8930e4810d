package spring_test

import (
	"errors"
	"math"
	"slices"
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
	newProgressive := func(change func(*spring.ProgressiveSpec)) error {
		s := progressive
		s.Coils = slices.Clone(progressive.Coils)
		change(&s)
		_, err := spring.NewProgressive(s)
		return err
	}
	newTable := func(change func(*spring.RateTableSpec)) error {
		s := rates
		s.Rates = slices.Clone(rates.Rates)
		change(&s)
		_, err := spring.NewRateTable(s)
		return err
	}
	newStack := func(change func(*spring.StackSpec)) error {
		s := stack
		change(&s)
		_, err := spring.NewStack(s)
		return err
	}
	newNested := func(change func(*spring.NestedSpec)) error {
		s := nested
		change(&s)
		_, err := spring.NewNested(s)
		return err
	}
	newBumpStop := func(change func(*spring.BumpStopSpec)) error {
		s := bumpStop
		change(&s)
		_, err := spring.NewBumpStop(s)
		return err
	}
	newMeasured := func(change func(*spring.MeasuredSpec)) error {
		s := loop
		s.Loading, s.Unloading = slices.Clone(loop.Loading), slices.Clone(loop.Unloading)
		change(&s)
		_, err := spring.NewMeasured(s)
		return err
	}
	for _, c := range []struct {
		name string
		err  error
		want string
	}{
		{"rate missing", newCoil(func(s *spring.CoilSpec) { s.Rate = 0 }),
			"CoilSpec.Rate = 0 N/mm: want 0.1 N/mm to 200 N/mm"},
		{"rate without its unit", newCoil(func(s *spring.CoilSpec) { s.Rate = 9 }),
			"CoilSpec.Rate = 0.009 N/mm: want 0.1 N/mm to 200 N/mm"},
		{"rate NaN", newCoil(func(s *spring.CoilSpec) { s.Rate = units.Stiffness(nan) }), "CoilSpec.Rate = NaN N/mm"},
		{"preload infinite", newCoil(func(s *spring.CoilSpec) { s.Preload = units.Length(inf) }),
			"CoilSpec.Preload = +Inf m"},
		{"travel negative", newCoil(func(s *spring.CoilSpec) { s.Travel = -300 * mm }),
			"CoilSpec.Travel = -300 mm: want 1 mm to 400 mm"},
		{"solid before it starts", newCoil(func(s *spring.CoilSpec) { s.FreeLength, s.SolidLength = 200*mm, 198*mm }),
			"CoilSpec.FreeLength = 200 mm: want above solid length plus preload, 202 mm"},
		{"solid length alone", newCoil(func(s *spring.CoilSpec) { s.SolidLength = 200 * mm }),
			"CoilSpec.FreeLength = 0 mm"},
		{"bore missing", newAir(func(s *spring.AirSpec) { s.Bore = 0 }), "AirSpec.Bore = 0 mm: want 10 mm to 60 mm"},
		{"rod wider than the bore", newAir(func(s *spring.AirSpec) { s.Rod = 40 * mm }),
			"AirSpec.Rod = 40 mm: want 0 mm to"},
		{"no pressure, a vacuum", newAir(func(s *spring.AirSpec) { s.Pressure = units.AbsolutePressure{} }),
			"AirSpec.Pressure = 0 bar abs"},
		{"volume below the swept one", newAir(func(s *spring.AirSpec) { s.Volume = 250 * units.Milliliter }),
			"no gas would be left"},
		{"negative volume negative", newAir(func(s *spring.AirSpec) { s.NegativeVolume = -1e-6 }),
			"AirSpec.NegativeVolume = -1 mL"},
		{"port outside travel", newAir(func(s *spring.AirSpec) { s.Port = 31 * mm }),
			"AirSpec.Port = 31 mm: want 0 mm to 30 mm"},
		{"negative pressure without its chamber",
			newAir(func(s *spring.AirSpec) {
				s.NegativeVolume, s.NegativePressure = 0, s.Pressure
			}), "AirSpec.NegativePressure = 10.6 bar abs: want a negative volume with it"},
		{"negative chamber next to nothing",
			newAir(func(s *spring.AirSpec) {
				s.NegativeVolume, s.Port = 1*units.Milliliter, 30*mm
			}), "AirSpec.NegativeVolume = 1 mL: want more: the port leaves it at 281 bar abs"},
		{"the same with a floating piston",
			newPiston(func(s *spring.FloatingPistonSpec) {
				s.Air.NegativeVolume, s.Air.Port = 1*units.Milliliter, 30*mm
			}), "FloatingPistonSpec.Air.NegativeVolume = 1 mL: want more"},
		{"bore and volume absurd", newAir(func(s *spring.AirSpec) { s.Bore, s.Volume = 9*units.Meter, 9*units.Liter }),
			"AirSpec.Volume = 9000 mL"},
		{"absurd pressure without its chamber", newAir(func(s *spring.AirSpec) {
			s.NegativeVolume, s.NegativePressure = 0, units.Absolute(900*units.Bar)
		}), "AirSpec.NegativePressure = 900 bar abs"},
		{"floating piston without a bore, by its own field", newPiston(func(s *spring.FloatingPistonSpec) { s.Air.Bore = 0 }),
			"FloatingPistonSpec.Air.Bore = 0 mm"},
		{"negative pressure absurd", newAir(func(s *spring.AirSpec) {
			s.NegativePressure = units.Absolute(900 * units.Bar)
		}), "AirSpec.NegativePressure = 900 bar abs"},
		{"exponent below 1", newAir(func(s *spring.AirSpec) { s.Exponent = 0.9 }),
			"AirSpec.Exponent = 0.9: want 1 to 1.66"},
		{"ambient missing", newAir(func(s *spring.AirSpec) { s.Ambient = units.AbsolutePressure{} }),
			"AirSpec.Ambient = 0 bar abs"},
		{"chamber area zero", newChamber(func(s *spring.ChamberSpec) { s.Area = 0 }), "ChamberSpec.Area = 0 cm²"},
		{"chamber without gas at full travel",
			newChamber(func(s *spring.ChamberSpec) { s.Volume = 549 * units.Milliliter }), "no gas would be left"},
		{"second chamber below the main one", newPiston(func(s *spring.FloatingPistonSpec) { s.SecondPressure = sea }),
			"above the main chamber's 10.6 bar abs"},
		{"second chamber missing", newPiston(func(s *spring.FloatingPistonSpec) { s.SecondVolume = 0 }),
			"FloatingPistonSpec.SecondVolume = 0 mL"},
		{"top-out rate missing", newTopOut(func(s *spring.TopOutSpec) { s.Rate = 0 }), "TopOutSpec.Rate = 0 N/mm"},
		{"top-out length absurd", newTopOut(func(s *spring.TopOutSpec) { s.Length = 2 * units.Meter }),
			"TopOutSpec.Length = 2000 mm"},
		{"progressive without coils", newProgressive(func(s *spring.ProgressiveSpec) { s.Coils = nil }),
			"ProgressiveSpec.Coils = 0 groups: want 1 to 100 groups"},
		{"group without coils", newProgressive(func(s *spring.ProgressiveSpec) { s.Coils[1].Count = 0 }),
			"ProgressiveSpec.Coils[1].Count = 0: want 0.25 to 100"},
		{"group already closed", newProgressive(func(s *spring.ProgressiveSpec) { s.Coils[2].Gap = 0 }),
			"ProgressiveSpec.Coils[2].Gap = 0 mm"},
		{"rate of a coil NaN", newProgressive(func(s *spring.ProgressiveSpec) {
			s.Coils[0].Rate = units.Stiffness(nan)
		}), "ProgressiveSpec.Coils[0].Rate = NaN N/mm"},
		{"solid by its preload", newProgressive(func(s *spring.ProgressiveSpec) {
			s.Coils, s.Preload = s.Coils[1:2], 60*mm
		}), "ProgressiveSpec.Preload = 60 mm: want below 60 mm, where the spring ends"},
		{"table of one row", newTable(func(s *spring.RateTableSpec) { s.Rates = s.Rates[:1] }),
			"RateTableSpec.Rates = 1 rows: want 2 to 1000 rows"},
		{"table from elsewhere", newTable(func(s *spring.RateTableSpec) { s.Rates = s.Rates[1:] }),
			"RateTableSpec.Rates[0].Compression = 60 mm: want 0 mm, the free spring"},
		{"table out of order", newTable(func(s *spring.RateTableSpec) { s.Rates[2].Compression = 50 * mm }),
			"RateTableSpec.Rates[2].Compression = 50 mm: want 60.001 mm"},
		{"table with a falling spring", newTable(func(s *spring.RateTableSpec) { s.Rates[3].Rate = -1000 }),
			"RateTableSpec.Rates[3].Rate = -1 N/mm"},
		{"soft and hard swapped", newStack(func(s *spring.StackSpec) { s.Soft, s.Hard = s.Hard, s.Soft }),
			"StackSpec.Soft.Rate = 15 N/mm: want at most the rate of Hard, 10 N/mm (are the two swapped?)"},
		{"sleeve that never acts", newStack(func(s *spring.StackSpec) { s.Crossover = 51 * mm }),
			"StackSpec.Crossover = 51 mm: want 0.1 mm to 50 mm"},
		{"solid longer than free", newStack(func(s *spring.StackSpec) { s.Hard.SolidLength = 300 * mm }),
			"StackSpec.Hard.FreeLength = 260 mm: want at least 1 mm above the solid length 300 mm"},
		{"stack solid by its preload", newStack(func(s *spring.StackSpec) {
			s.Soft.FreeLength, s.Hard.FreeLength, s.Preload = 80*mm, 150*mm, 21*mm
		}), "StackSpec.Preload = 21 mm: want below 20 mm"},
		{"nested without the inner spring", newNested(func(s *spring.NestedSpec) { s.Inner = spring.CoilPart{} }),
			"NestedSpec.Inner.Rate = 0 N/mm"},
		{"nested that does not fit", newNested(func(s *spring.NestedSpec) {
			s.Inner.FreeLength, s.Inner.SolidLength = 400*mm, 395*mm
		}), "the installed length 390 mm must exceed both solid lengths"},
		{"bump stop of no rubber", newBumpStop(func(s *spring.BumpStopSpec) { s.Bore = 33 * mm }),
			"BumpStopSpec.Bore = 33 mm: want 0 mm to 30.6 mm"},
		{"modulus in bare MPa", newBumpStop(func(s *spring.BumpStopSpec) { s.Modulus = 3 }),
			"BumpStopSpec.Modulus = 3e-06 MPa: want 0.2 MPa to 50 MPa"},
		{"strain in percent", newBumpStop(func(s *spring.BumpStopSpec) { s.MaxStrain = 60 }),
			"BumpStopSpec.MaxStrain = 60: want 0.1 to 0.8"},
		{"bump stop out of reach", newBumpStop(func(s *spring.BumpStopSpec) { s.Contact = 151 * mm }),
			"BumpStopSpec.Contact = 151 mm: want 0 mm to 150 mm"},
		{"one reading", newMeasured(func(s *spring.MeasuredSpec) { s.Loading = s.Loading[:1] }),
			"MeasuredSpec.Loading = 1 readings: want 2 to 100000 readings"},
		{"empty branch", newMeasured(func(s *spring.MeasuredSpec) { s.Unloading = s.Unloading[:0] }),
			"MeasuredSpec.Unloading = 0 readings"},
		{"readings unsorted", newMeasured(func(s *spring.MeasuredSpec) { s.Loading[3].Travel = 40 * mm }),
			"MeasuredSpec.Loading[3].Travel = 40 mm: want at least 1 µm above the reading before it, 50 mm"},
		{"readings repeated", newMeasured(func(s *spring.MeasuredSpec) { s.Unloading[2].Travel = 35 * mm }),
			"MeasuredSpec.Unloading[2].Travel = 35 mm"},
		{"reading NaN", newMeasured(func(s *spring.MeasuredSpec) { s.Loading[2].Force = units.Force(nan) }),
			"MeasuredSpec.Loading[2].Force = NaN N"},
		{"readings that start late", newMeasured(func(s *spring.MeasuredSpec) { s.Loading = s.Loading[1:] }),
			"MeasuredSpec.Loading[0].Travel = 20 mm: want -10 mm to 0 mm"},
		{"readings before full extension only", newMeasured(func(s *spring.MeasuredSpec) {
			s.Loading = []spring.Reading{{-2 * mm, 1}, {-1 * mm, 2}}
		}), "MeasuredSpec.Loading = -1 mm: want readings up to a travel above 0"},
		{"branches swapped", newMeasured(func(s *spring.MeasuredSpec) {
			s.Loading, s.Unloading = s.Unloading, s.Loading
		}), "are loading and unloading swapped?"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out *units.RangeError
			if !errors.As(c.err, &out) || !strings.Contains(c.err.Error(), c.want) {
				t.Errorf("error %q, want a *units.RangeError with %q", c.err, c.want)
			}
			told := make(map[string]bool)
			for _, err := range units.Faults(c.err) {
				if errors.As(err, &out) && told[out.Field] {
					t.Errorf("%s told twice: %v", out.Field, c.err)
				}
				told[out.Field] = true
			}
		})
	}
}

// A branch without one sound travel has those faults, and not also that it ends too soon.
func TestMeasuredFaultsFollowFromNone(t *testing.T) {
	_, err := spring.NewMeasured(spring.MeasuredSpec{Loading: []spring.Reading{{600 * mm, 1}, {600 * mm, 2}}})
	if faults := units.Faults(err); len(faults) != 2 {
		t.Errorf("%d faults: %v", len(faults), err)
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
	if p := spring.At(c, x); math.IsNaN(float64(p.Force)) || math.IsNaN(float64(p.Rate)) ||
		math.IsNaN(float64(p.Energy)) {
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
	f.Fuzz(func(t *testing.T, bore, rod, volume, pressure, negative, port, negativePressure, ambient, n, travel, v2, p2,
		share float64) {
		s := spring.AirSpec{Bore: units.Length(bore), Rod: units.Length(rod), Volume: units.Volume(volume),
			Pressure: units.Absolute(units.Pressure(pressure)), NegativeVolume: units.Volume(negative),
			Port:             units.Length(port),
			NegativePressure: units.Absolute(units.Pressure(negativePressure)),
			Ambient:          units.Absolute(units.Pressure(ambient)),
			Exponent:         n, Travel: units.Length(travel)}
		a, err := spring.NewAir(s)
		holds(t, a, err, share)
		p, err := spring.NewFloatingPiston(spring.FloatingPistonSpec{Air: s, SecondVolume: units.Volume(v2),
			SecondPressure: units.Absolute(units.Pressure(p2))})
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
		c, err := spring.NewTopOut(spring.TopOutSpec{Rate: units.Stiffness(rate), Length: units.Length(length),
			Travel: units.Length(travel)})
		holds(t, c, err, share)
	})
}

func FuzzNewProgressive(f *testing.F) {
	f.Add(10.0, 0.004, 4e5, 12.0, 0.004, 2e5, 8.0, 0.006, 1e5, 0.005, 0.15, 0.5)
	f.Add(10.0, 0.004, 4e5, 10.0, 0.004, 4e5, 10.0, 0.002, 8e5, -0.005, 0.15, 0.5)
	f.Fuzz(func(t *testing.T, n1, g1, k1, n2, g2, k2, n3, g3, k3, preload, travel, share float64) {
		p, err := spring.NewProgressive(spring.ProgressiveSpec{Preload: units.Length(preload),
			Travel: units.Length(travel),
			Coils: []spring.CoilGroup{{n1, units.Length(g1), units.Stiffness(k1)},
				{n2, units.Length(g2), units.Stiffness(k2)}, {n3, units.Length(g3), units.Stiffness(k3)}}})
		holds(t, p, err, share)
	})
}

func FuzzNewRateTable(f *testing.F) {
	f.Add(4e3, 0.05, 5e3, 0.1, 6e3, 0.005, 0.15, 0.5)
	f.Fuzz(func(t *testing.T, k1, x2, k2, x3, k3, preload, travel, share float64) {
		p, err := spring.NewRateTable(spring.RateTableSpec{Preload: units.Length(preload), Travel: units.Length(travel),
			Rates: []spring.RatePoint{{0, units.Stiffness(k1)}, {units.Length(x2), units.Stiffness(k2)},
				{units.Length(x3), units.Stiffness(k3)}}})
		holds(t, p, err, share)
	})
}

func FuzzNewStackAndNested(f *testing.F) {
	f.Add(1e4, 0.12, 0.07, 1.5e4, 0.26, 0.14, 0.03, 0.01, 0.13, 0.5)
	f.Fuzz(func(t *testing.T, k1, free1, solid1, k2, free2, solid2, crossover, preload, travel, share float64) {
		a := spring.CoilPart{Rate: units.Stiffness(k1), FreeLength: units.Length(free1),
			SolidLength: units.Length(solid1)}
		b := spring.CoilPart{Rate: units.Stiffness(k2), FreeLength: units.Length(free2),
			SolidLength: units.Length(solid2)}
		s, err := spring.NewStack(spring.StackSpec{Soft: a, Hard: b, Crossover: units.Length(crossover),
			Preload: units.Length(preload), Travel: units.Length(travel)})
		holds(t, s, err, share)
		n, err := spring.NewNested(spring.NestedSpec{Outer: a, Inner: b, Preload: units.Length(preload),
			Travel: units.Length(travel)})
		holds(t, n, err, share)
	})
}

func FuzzNewBumpStop(f *testing.F) {
	f.Add(0.034, 0.014, 0.03, 3e6, 1.5, 0.13, 0.6, 0.15, 0.5)
	f.Fuzz(func(t *testing.T, outer, bore, height, modulus, restraint, contact, strain, travel, share float64) {
		b, err := spring.NewBumpStop(spring.BumpStopSpec{Outer: units.Length(outer), Bore: units.Length(bore),
			Height:  units.Length(height),
			Modulus: units.Stress(modulus), Restraint: restraint, Contact: units.Length(contact), MaxStrain: strain,
			Travel: units.Length(travel)})
		holds(t, b, err, share)
	})
}

func FuzzNewMeasured(f *testing.F) {
	f.Add(-0.001, 0.0, 0.02, 150.0, 0.05, 400.0, 0.1, 700.0, 0.0, -20.0, 0.1, 650.0, 0.5)
	f.Fuzz(func(t *testing.T, x1, f1, x2, f2, x3, f3, x4, f4, y1, g1, y2, g2, share float64) {
		read := func(x, f float64) spring.Reading {
			return spring.Reading{Travel: units.Length(x), Force: units.Force(f)}
		}
		record := []spring.Reading{read(x1, f1), read(x2, f2), read(x3, f3), read(x4, f4)}
		for _, s := range []spring.MeasuredSpec{{Loading: record},
			{Loading: record, Unloading: []spring.Reading{read(y1, g1), read(y2, g2)}}} {
			m, err := spring.NewMeasured(s)
			if err != nil {
				continue
			}
			x := m.Stroke() * units.Length(math.Abs(math.Remainder(share, 1)))
			for _, v := range []float64{float64(m.Force(x)), float64(m.Rate(x)), float64(m.Energy(x)),
				float64(m.Friction(x)), float64(m.Loss())} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Errorf("%+v gives %v at %v", s, v, x)
				}
			}
			if lo, hi := min(f1, f2, f3, f4), max(f1, f2, f3,
				f4); s.Unloading == nil && (float64(m.Force(x)) < lo-1e-6 || float64(m.Force(x)) > hi+1e-6) {
				t.Errorf("force %v at %v overshoots the readings %v to %v", m.Force(x), x, lo, hi)
			}
		}
		if s, err := spring.Branches(record); err == nil && len(s.Loading)+len(s.Unloading) < len(record) {
			t.Errorf("Branches of %v loses readings: %+v", record, s)
		}
	})
}

func FuzzCombined(f *testing.F) {
	f.Add(9e3, 0.004, 0.1, 5e3, 0.0, 0.2, 0.01, 1.5, 0.25, 0.5)
	f.Fuzz(func(t *testing.T, k1, p1, travel1, k2, p2, travel2, by, factor, end, share float64) {
		a, errA := spring.NewCoil(spring.CoilSpec{Rate: units.Stiffness(k1), Preload: units.Length(p1),
			Travel: units.Length(travel1)})
		b, errB := spring.NewCoil(spring.CoilSpec{Rate: units.Stiffness(k2), Preload: units.Length(p2),
			Travel: units.Length(travel2)})
		if errA != nil || errB != nil {
			return
		}
		straight, byRoot := spring.Series(a, b), spring.Series(spring.Scale(a, 1), b)
		holds(t, straight, nil, share)
		holds(t, byRoot, nil, share)
		x := straight.Stroke() * units.Length(math.Abs(math.Remainder(share, 1)))
		// The energy: the force may jump, where a bound spring hands over to a caged one.
		if e, g := float64(straight.Energy(x)), float64(byRoot.Energy(x)); !close(e, g, 1e-8) {
			t.Errorf("in series to %v: %v J in closed form, %v J by root", x, e, g)
		}
		if c := spring.Limit(spring.Scale(spring.Shift(byRoot, units.Length(by)), factor),
			units.Length(end)); c.Stroke() > 0 && math.Abs(factor) < 1e6 {
			x := c.Stroke() * units.Length(math.Abs(math.Remainder(share, 1)))
			if p := spring.At(c, x); math.IsNaN(float64(p.Force)) || math.IsNaN(float64(p.Rate)) ||
				math.IsNaN(float64(p.Energy)) {
				t.Errorf("combined at %v: %+v", x, p)
			}
		}
	})
}
