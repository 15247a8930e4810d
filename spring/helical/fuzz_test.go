package helical_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// material picks any built-in wire, or none.
func material(i uint8) helical.Material {
	all := every()
	if int(i) >= len(all) {
		return helical.Material{}
	}
	return all[i]
}

func FuzzNew(f *testing.F) {
	f.Add(0.0051, 0.0379, 0.0, 25.0, 0.0, 0.0, 0, 0.495, uint8(1))
	f.Add(0.0051, 0.0, 0.043, 0.0, 27.0, 0.0, 1, 0.495, uint8(0))
	f.Add(0.0051, 0.0, 0.043, 0.0, 0.0, 4900.0, 2, 0.495, uint8(4))
	f.Add(math.NaN(), math.Inf(1), -1.0, math.NaN(), 0.0, 1e300, -1, 0.0, uint8(200))
	f.Fuzz(func(t *testing.T, wire, mean, outer, active, total, rate float64, ends int, free float64, m uint8) {
		s, err := helical.New(helical.Spec{
			Wire: units.Length(wire), MeanDiameter: units.Length(mean), OuterDiameter: units.Length(outer),
			ActiveCoils: active, TotalCoils: total, Rate: units.Stiffness(rate), Ends: helical.Ends(ends),
			FreeLength: units.Length(free), Material: material(m),
		})
		if err != nil {
			if len(faults(err)) == 0 || s != (helical.Spring{}) {
				t.Fatalf("%v with %+v", err, s)
			}
			return
		}
		half := s.SolidDeflection() / 2
		y, _ := s.BucklingDeflection()
		for what, x := range map[string]float64{
			"rate": float64(s.Rate()), "solid": float64(s.SolidLength()), "pitch": float64(s.Pitch()),
			"force":  float64(s.Force(half)),
			"stress": float64(s.ShearStress(s.Force(half))), "corrected": float64(s.CorrectedStress(s.Force(half))),
			"strength": float64(s.TensileStrength()), "mass": float64(s.Mass()), "wire": float64(s.WireLength()),
			"gap": float64(s.MinimumGap()), "margin": float64(s.BindMargin(half)), "solid factor": s.SolidFactor(),
			"surge": float64(s.SurgeFrequency()), "buckles": float64(y),
			"grown": float64(s.OuterDiameterAtSolid()), "index": s.Index(), "inner": float64(s.InnerDiameter()),
		} {
			if !(x > 0) || math.IsInf(x, 0) {
				t.Errorf("%s = %v of %+v", what, x, s)
			}
		}
		if rate != 0 && !(math.Abs(float64(s.Rate())/rate-1) <= 1e-9) {
			t.Errorf("rate %v, asked for %v", s.Rate(), rate)
		}
	})
}

func FuzzDesign(f *testing.F) {
	f.Add(4900.0, 0.305, 0.006, 0.0445, 0.012, 0.5, 0.0, 0, false, uint8(1))
	f.Add(8300.0, 0.17, 0.003, 0.033, 0.01, 0.4, 0.002, 1, true, uint8(0))
	f.Add(60000.0, 0.02, 0.0, 0.05, 0.0, 0.4, 0.0, 3, false, uint8(5))
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, 0.0, 1e300, math.NaN(), 9, true, uint8(200))
	f.Fuzz(func(t *testing.T, rate, stroke, preload, bore, rod, free, clearance float64, ends int, solidSafe bool,
		m uint8) {
		spec := helical.DesignSpec{
			Rate: units.Stiffness(rate), Stroke: units.Length(stroke), Preload: units.Length(preload), Bore: units.Length(bore),
			Rod: units.Length(rod), FreeLength: units.Length(free), Clearance: units.Length(clearance),
			Ends: helical.Ends(ends), Material: material(m), SolidSafe: solidSafe,
		}
		s, err := helical.Design(spec)
		if err != nil {
			if len(faults(err)) == 0 || s != (helical.Spring{}) {
				t.Fatalf("%v with %+v", err, s)
			}
			return
		}
		holds(t, spec, s)
	})
}

func FuzzEnds(f *testing.F) {
	f.Add("squared and ground")
	f.Add("")
	f.Fuzz(func(t *testing.T, text string) {
		var e helical.Ends
		if e.UnmarshalText([]byte(text)) == nil {
			if back, err := e.MarshalText(); err != nil || string(back) != text {
				t.Errorf("%q came back as %q, %v", text, back, err)
			}
		}
	})
}
