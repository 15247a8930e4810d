package data_test

import (
	"math"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

const mpa = units.Megapascal

func wire(t *testing.T, id string) helical.Material {
	t.Helper()
	m, err := data.Reference().Material(id)
	if err != nil {
		t.Fatal(err)
	}
	w, err := m.Wire()
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// TestWireStrength: strengths as printed or worked out elsewhere.
func TestWireStrength(t *testing.T) {
	for _, tc := range []struct {
		id     string
		d      units.Length
		want   units.Stress
		within units.Stress
		source string
	}{
		{"a227", 2 * mm, 1563 * mpa, 1 * mpa, "Shigley, 8th ed., solution of problem 10-5: Sut = 1563 MPa"},
		{"a228", 3 * mm, 1885.5 * mpa, 1 * mpa, "A = 2211 MPa, m = 0.145 of Shigley, Table 10-4, worked out at 3 mm"},
		{"a229", 3 * mm, 1510.5 * mpa, 1 * mpa, "A = 1855 MPa, m = 0.187 of Shigley, Table 10-4, worked out at 3 mm"},
		{"a232", 3 * mm, 1667.1 * mpa, 1.5 * mpa, "A = 2005 MPa, m = 0.168, from memory of Shigley, Table 10-4"},
		{"a401", 3 * mm, 1753.1 * mpa, 1.5 * mpa, "A = 1974 MPa, m = 0.108, from memory of Shigley, Table 10-4"},
		{"sm", 4 * mm, 1530 * mpa, 5 * mpa, "a supplier's table to EN 10270-1: 1530 MPa at 4.0 mm"},
		{"sm", 5 * mm, 1460 * mpa, 5 * mpa, "a supplier's table to EN 10270-1: 1460 MPa at 5.0 mm"},
		{"sicr", 4.0 * mm, 1860 * mpa, 0, "a supplier's table to EN 10270-2 VDSiCr: 1860 MPa to 1960 MPa from 3.5 mm to 4.5 mm"},
		{"sicr", 5.0 * mm, 1810 * mpa, 0, "the same: 1810 MPa to 1910 MPa from 4.5 mm to 5.6 mm"},
		{"sicr", 6.0 * mm, 1760 * mpa, 0, "the same: 1760 MPa to 1860 MPa from 5.6 mm to 6.5 mm"},
		{"sicrv", 4.5 * mm, 2030 * mpa, 0, "a supplier's table of high-strength SiCrV: 2030 MPa to 2130 MPa from 4 mm to 5 mm"},
	} {
		if got := wire(t, tc.id).TensileStrength(tc.d); math.Abs(float64(got-tc.want)) > float64(tc.within)*(1+1e-9) {
			t.Errorf("%s at %v: got %.1f MPa, want %.1f MPa: %s", tc.id, tc.d, got.In(mpa), tc.want.In(mpa), tc.source)
		}
	}
}

// TestShearModulus: G as printed in Shigley, Mechanical Engineering Design, 9th ed.,
// Table 10-5, in GPa: music wire above 0.125 in, and tempered wire.
func TestShearModulus(t *testing.T) {
	for id, want := range map[string]float64{"a228": 80.0, "a229": 77.2, "a232": 77.2, "a401": 77.2} {
		if got := wire(t, id).ShearModulus(4 * mm).In(1000 * mpa); math.Abs(got-want) > 0.05 {
			t.Errorf("%s: got %.1f GPa, want %.1f", id, got, want)
		}
	}
}

// TestWiresAgree: package helical has the same wires built in; the two tables were not
// written by the same hand.
func TestWiresAgree(t *testing.T) {
	for m := range data.Reference().Materials() {
		built, ok := helical.MaterialByID(m.ID)
		if !ok {
			t.Errorf("%s is not built in", m.ID)
			continue
		}
		ours := wire(t, m.ID)
		if ours.Density() != built.Density() || ours.YieldRatio() != built.YieldRatio() {
			t.Errorf("%s: density %v and yield ratio %v, built in %v and %v", m.ID, ours.Density(), ours.YieldRatio(), built.Density(), built.YieldRatio())
		}
		lo, hi := ours.WireRange()
		if l, h := built.WireRange(); math.Abs(float64(l/lo-1)) > 1e-12 || math.Abs(float64(h/hi-1)) > 1e-12 {
			t.Errorf("%s: from %v to %v, built in %v to %v", m.ID, lo, hi, l, h)
		}
		for d := lo + 0.05*mm; d < hi; d += 0.1 * mm { // off the edges of the bands
			if a, b := ours.TensileStrength(d), built.TensileStrength(d); math.Abs(float64(a/b-1)) > 1e-12 {
				t.Errorf("%s at %v: %v, built in %v", m.ID, d, a, b)
			}
			if a, b := ours.ShearModulus(d), built.ShearModulus(d); d > 3.2*mm && a != b {
				t.Errorf("%s at %v: G %v, built in %v", m.ID, d, a, b)
			}
		}
	}
}

// TestViscosityGrades: ISO 3448:1992, midpoint and limits at 40 °C in mm²/s. VG 22 and
// above as quoted by suppliers, below from memory. The midpoints of VG 5 and 7 are not
// their names.
func TestViscosityGrades(t *testing.T) {
	for _, tc := range []struct {
		id              string
		lo, middle, top float64
	}{
		{"iso-vg-5", 4.14, 4.6, 5.06}, {"iso-vg-7", 6.12, 6.8, 7.48}, {"iso-vg-10", 9.00, 10, 11.0}, {"iso-vg-15", 13.5, 15, 16.5},
		{"iso-vg-22", 19.8, 22, 24.2}, {"iso-vg-32", 28.8, 32, 35.2}, {"iso-vg-46", 41.4, 46, 50.6}, {"iso-vg-68", 61.2, 68, 74.8},
	} {
		f, err := data.Reference().Fluid(tc.id)
		if err != nil {
			t.Fatal(err)
		}
		const cst = units.SquareMillimeterPerSecond
		for _, v := range []struct{ got, want float64 }{
			{f.Viscosities.Lo.In(cst), tc.lo}, {f.Viscosity.Value.In(cst), tc.middle}, {f.Viscosities.Hi.In(cst), tc.top},
		} {
			if math.Abs(v.got-v.want) > 0.005 {
				t.Errorf("%s: got %v, want %v", tc.id, v.got, v.want)
			}
		}
	}
}

// TestFluids: every fluid works in package oil and flows at 40 °C as it says.
func TestFluids(t *testing.T) {
	for f := range data.Reference().Fluids() {
		o, err := f.Oil()
		if err != nil {
			t.Errorf("%s: %v", f.ID, err)
			continue
		}
		if got := o.Viscosity(units.Celsius(40)); f.Index.Given() && math.Abs(float64(got/f.Viscosity.Value-1)) > 1e-9 {
			t.Errorf("%s: %v at 40 °C, want %v", f.ID, got, f.Viscosity.Value)
		}
		if got := o.Density(units.Celsius(15)); math.Abs(float64(got/f.Density.Value-1)) > 1e-12 {
			t.Errorf("%s: %v at 15 °C, want %v", f.ID, got, f.Density.Value)
		}
	}
}

// TestGases: ρ = p·M/(R·T) at 15 °C and 101.325 kPa, M of dry air 28.9644 g/mol (ISO
// 2533) and of nitrogen 28.0134 g/mol, R = 8.314462618 J/(mol·K).
func TestGases(t *testing.T) {
	for id, molar := range map[string]float64{"air": 28.9644e-3, "nitrogen": 28.0134e-3} {
		g, err := data.Reference().Gas(id)
		if err != nil {
			t.Fatal(err)
		}
		want := 101325 * molar / (8.314462618 * 288.15)
		if got := float64(g.Density.Value); math.Abs(got-want) > 0.0005 {
			t.Errorf("%s: got %.4f kg/m³, want %.4f", id, got, want)
		}
	}
}
