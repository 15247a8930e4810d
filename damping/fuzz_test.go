package damping

import (
	"math"
	"testing"

	"example.org/forkcurve/units"
)

// honest checks a valve on one flow: the pressure of Drop is where Flow passes q.
func honest(t *testing.T, v Valve, q float64, o Oil) {
	t.Helper()
	p := float64(v.Drop(units.Flow(q), o))
	switch {
	case math.IsNaN(p) || p*q < 0:
		t.Errorf("Drop(%v) = %v", q, p)
	case q == 0 || p == 0:
		if p != 0 {
			t.Errorf("Drop(0) = %v", p)
		}
	case !math.IsInf(p, 0):
		below := math.Abs(float64(v.Flow(units.Pressure(p*(1-1e-7)), o)))
		above := math.Abs(float64(v.Flow(units.Pressure(p*(1+1e-7)), o)))
		if q := math.Abs(q); !(below <= q*(1+1e-6) && above >= q*(1-1e-6)) {
			t.Errorf("Drop(%v) = %v, but the flow there is from %v to %v", q, p, below, above)
		}
	}
}

func fuzzOil(density, viscosity float64) Oil {
	o := Oil{Density: units.Density(density), Viscosity: units.DynamicViscosity(viscosity)}
	if o.Validate() != nil {
		return warm
	}
	return o
}

func FuzzValves(f *testing.F) {
	f.Add(0.002, 0.02, 2.3, 0.5, 0.7, 1e5, 5e5, 1e-4, 850.0, 0.0128)
	f.Add(0.025, 0.0001, 0.0, 1.0, 0.62, 0.0, 0.0, 1e-9, 885.0, 0.5)
	f.Add(0.02, 0.0002, 0.005, 0.5, 0.7, 1e5, 5e5, 1e-4, 850.0, 0.0128) // with which an annulus is made
	f.Add(0.01, 0.0002, 0.02, 0.5, 0.7, 1e5, 5e5, -1e-5, 850.0, 0.0128) // and a film between disks
	f.Add(math.NaN(), math.Inf(1), -1.0, math.NaN(), 0.0, math.NaN(), -1.0, math.NaN(), 0.0, math.Inf(1))
	f.Fuzz(func(t *testing.T, a, b, c, e, discharge, crack, open, q, density, viscosity float64) {
		o := fuzzOil(density, viscosity)
		if !(math.Abs(q) <= 1) {
			q = 1e-4
		}
		tryPipe, err := NewPipe(PipeSpec{units.Length(a), units.Length(b), c})
		tryValve(t, tryPipe, err, q, o)
		tryAnnulus, err := NewAnnulus(AnnulusSpec{units.Length(a), units.Length(b), units.Length(c), e, discharge})
		tryValve(t, tryAnnulus, err, q, o)
		tryGap, err := NewRadialGap(RadialGapSpec{units.Length(a), units.Length(c), units.Length(b)})
		tryValve(t, tryGap, err, q, o)
		tryOrifice, err := NewOrifice(OrificeSpec{units.Area(a * b), discharge})
		tryValve(t, tryOrifice, err, q, o)
		tryCheck, err := NewCheck(CheckSpec{units.Area(a * b), discharge, units.Pressure(crack), units.Pressure(open)})
		tryValve(t, tryCheck, err, q, o)
		if adjuster, err := NewAdjuster(AdjusterSpec{int(min(max(e, -10), 200)), units.Area(a * b), units.Area(c),
			discharge}); err == nil {
			at, err := adjuster.At(int(min(max(open, -10), 200)))
			tryValve(t, at, err, q, o)
		}
	})
}

func tryValve(t *testing.T, v Valve, err error, q float64, o Oil) {
	t.Helper()
	if err != nil {
		_ = err.Error()
		return
	}
	honest(t, v, q, o)
}

func FuzzPlate(f *testing.F) {
	f.Add(0.03, 0.01, 0.0002, 206e9, 0.3, uint8(Free), uint8(Clamped), 1e5, 0.016, 0.026, 3.0, 0.03, 0.028)
	f.Add(0.1, 0.099, 0.0002, 206e9, 0.5, uint8(Clamped), uint8(Guided), -1e5, 0.1, 0.0, 3.0, -1.0, 0.5)
	f.Add(math.NaN(), 0.0, math.Inf(1), -1.0, 2.0, uint8(7), uint8(9), 0.0, 0.0, 0.0, 0.0, 0.0, math.NaN())
	f.Fuzz(func(t *testing.T, outer, inner, h, young, poisson float64, oe, ie uint8, p, from, to, force, circle,
		at float64) {
		plate, err := NewPlate(PlateSpec{units.Length(outer), units.Length(inner), units.Length(h), units.Stress(young),
			poisson, Edge(oe), Edge(ie)})
		if err != nil {
			_ = err.Error()
			return
		}
		for _, x := range []float64{p, from, to, force, circle, at} {
			if !(math.Abs(x) <= 1e9) {
				return
			}
		}
		l := Load{units.Pressure(p), units.Length(from), units.Length(to), units.Force(force), units.Length(circle)}
		finite(t, "deflection and stress", float64(plate.Deflection(l, units.Length(at))),
			float64(plate.Stress(l, units.Length(at))))
	})
}

func FuzzShimStack(f *testing.F) {
	f.Add([]byte{30, 15, 30, 15, 24, 20, 18, 25}, 10.0, 16.0, 26.0, 28.0, 0.05, 1.0, 1e-4)
	f.Add([]byte{30, 15, 18, 10, 30, 15, 12, 250, 29, 5}, 10.0, 10.0, 30.0, 30.0, 0.0, 0.0, 1e-6)
	f.Add([]byte{}, math.NaN(), 0.0, -1.0, 0.0, math.NaN(), 0.0, 1.0)
	f.Fuzz(func(t *testing.T, shims []byte, clamp, from, to, seat, dish, land, q float64) {
		s := ShimStackSpec{Clamp: units.Length(clamp) * mm, PortInner: units.Length(from) * mm,
			PortOuter: units.Length(to) * mm,
			Seat:      units.Length(seat) * mm, Dish: units.Length(dish) * mm, Land: units.Length(land) * mm,
			Young: 206e9, Poisson: 0.3, Ports: 80 * units.SquareMillimeter, Discharge: 0.7}
		for i := 0; i+1 < len(shims); i += 2 {
			s.Shims = append(s.Shims, Shim{units.Length(shims[i]) * mm, units.Length(shims[i+1]) * mm / 100})
		}
		v, err := NewShimStack(s)
		if err != nil {
			_ = err.Error()
			return
		}
		if !(v.compliance > 0) || math.IsInf(v.compliance, 0) {
			t.Fatalf("compliance %v of %+v", v.compliance, s)
		}
		// Backing never makes a face shim softer.
		s.Shims = s.Shims[:1]
		if alone := must(NewShimStack(s)).compliance; v.compliance > alone*(1+1e-9) {
			t.Errorf("compliance %v with backing, %v without", v.compliance, alone)
		}
		if q > 0 && q < 1 {
			honest(t, v, q, warm)
		}
	})
}

// counted is a part whose evaluations are counted.
type counted struct {
	Valve
	calls *int
}

func (c counted) Flow(p units.Pressure, o Oil) units.Flow { *c.calls++; return c.Valve.Flow(p, o) }
func (c counted) Drop(q units.Flow, o Oil) units.Pressure { *c.calls++; return c.Valve.Drop(q, o) }

// grow builds a network from bytes: three levels of series and parallel at most.
func grow(code *[]byte, depth int, calls *int) (v Valve, parts int) {
	next := func() byte {
		if len(*code) == 0 {
			return 0
		}
		b := (*code)[0]
		*code = (*code)[1:]
		return b
	}
	kind, size := next(), float64(next())
	area := units.Area(0.01*math.Pow(10, size/64)) * units.SquareMillimeter
	crack := units.Pressure(next()) * units.Bar / 8
	switch kind %= 8; {
	case kind < 4 && depth > 0:
		var list []Valve
		for range 1 + int(next()%3) {
			child, n := grow(code, depth-1, calls)
			parts += n
			list = append(list, child)
		}
		if kind%2 == 0 {
			return Series(list...), parts
		}
		return Parallel(list...), parts
	case kind == 4:
		v = must(NewCheck(CheckSpec{Area: area, Discharge: 0.7, Crack: crack, FullOpen: crack * 2}))
	case kind == 5:
		v = Reverse(must(NewCheck(CheckSpec{Area: area, Discharge: 0.7, Crack: crack, FullOpen: crack})))
	case kind == 6:
		v = must(NewPipe(PipeSpec{Diameter: units.Length(0.1+size/20) * mm, Length: 10 * mm, Entrance: Entrance}))
	default:
		v = must(NewOrifice(OrificeSpec{Area: area, Discharge: 0.62}))
	}
	return counted{v, calls}, 1
}

func FuzzNetwork(f *testing.F) {
	f.Add([]byte{1, 0, 0, 2, 7, 100, 0, 2, 0, 0, 1, 7, 80, 0, 6, 30, 0, 4, 150, 20}, 1e-4, 0.0128)
	f.Add([]byte{0, 0, 0, 1, 5, 0, 0, 1, 0, 0, 2, 4, 255, 255, 5, 255, 255, 7, 0, 0}, -1e-4, 0.5)
	f.Add([]byte{0, 0, 0, 2, 7, 255, 0, 1, 0, 0, 2, 0, 0, 0, 1, 7, 0, 0, 4, 9, 255, 7, 1, 1}, 1e-9, 1e-3)
	f.Fuzz(func(t *testing.T, code []byte, q, viscosity float64) {
		calls := 0
		n, parts := grow(&code, 3, &calls)
		if !(math.Abs(q) <= 1e-2 && math.Abs(q) >= 1e-10) {
			q = 1e-4
		}
		o := fuzzOil(850, viscosity)
		p := n.Drop(units.Flow(q), o)
		// Each of three levels takes at most 200 steps and a few evaluations at its ends.
		if most := parts * 210 * 210 * 210; calls > most {
			t.Errorf("%d evaluations, want at most %d", calls, most)
		}
		if math.IsNaN(float64(p)) || float64(p)*q < 0 {
			t.Fatalf("Drop(%v) = %v", q, p)
		}
		honest(t, n, q, o)
		if math.IsInf(float64(p), 0) {
			return
		}
		// Never falls.
		last := 0.0
		for _, part := range []float64{0.01, 0.1, 0.5, 0.9, 1, 1.5} {
			flow := math.Abs(float64(n.Flow(p*units.Pressure(part), o)))
			if flow < last*(1-1e-9)-1e-20 || math.IsNaN(flow) {
				t.Errorf("flow falls from %v to %v at %v of %v", last, flow, part, p)
			}
			last = flow
		}
	})
}

func FuzzCartridge(f *testing.F) {
	f.Add(0.025, 0.012, 2e5, 850.0, 0.0128, 1.0, []byte{7, 100, 0}, []byte{7, 90, 0})
	f.Add(0.025, 0.012, 2e4, 885.0, 0.5, -20.0, []byte{6, 1, 0}, []byte{6, 0, 0})
	f.Add(math.NaN(), 0.0, math.Inf(1), 0.0, math.NaN(), math.NaN(), []byte{5}, []byte{})
	f.Fuzz(func(t *testing.T, bore, rod, reservoir, density, viscosity, v float64, piston, base []byte) {
		calls := 0
		s := CartridgeSpec{Bore: units.Length(bore), Rod: units.Length(rod),
			Reservoir: units.Absolute(units.Pressure(reservoir)),
			Oil:       Oil{units.Density(density), units.DynamicViscosity(viscosity)}}
		s.Piston, _ = grow(&piston, 1, &calls)
		if len(base) > 0 {
			s.Base, _ = grow(&base, 1, &calls)
		}
		c, err := NewCartridge(s)
		if err != nil {
			_ = err.Error()
			return
		}
		if !(math.Abs(v) <= 20) {
			v = 1
		}
		last := math.Inf(-1)
		for _, part := range []float64{-1, -0.3, -0.01, 0, 0.01, 0.3, 1} {
			force := float64(c.Force(units.Speed(math.Abs(v) * part)))
			finite(t, "force and coefficient", force, float64(c.Coefficient(units.Speed(v*part))))
			if force < last-1e-6*math.Abs(last) {
				t.Errorf("force falls from %v to %v at %v of %v m/s", last, force, part, v)
			}
			last = force
		}
	})
}

func FuzzTable(f *testing.F) {
	f.Add(-1.0, -300.0, 0.1, 90.0, 0.5, 190.0, 0.3)
	f.Add(0.0, 0.0, 1e-6, 1e5, 20.0, 1e5, 1e-7)
	f.Add(math.NaN(), 0.0, math.Inf(1), 1.0, 2.0, math.NaN(), 1.0)
	f.Fuzz(func(t *testing.T, v1, f1, v2, f2, v3, f3, v float64) {
		d, err := NewTable(TableSpec{Points: []TablePoint{
			{units.Speed(v1), units.Force(f1)}, {units.Speed(v2), units.Force(f2)}, {units.Speed(v3),
				units.Force(f3)}}})
		if err != nil {
			_ = err.Error()
			return
		}
		if !(math.Abs(v) <= 20) {
			v = 1
		}
		last := math.Inf(-1)
		for i := range 21 {
			x := units.Speed(math.Abs(v) * (float64(i)/10 - 1))
			force := float64(d.Force(x))
			finite(t, "force and coefficient", force, float64(d.Coefficient(x)))
			if force < last-1e-9*1e5 || force*float64(x) < -1e-9*1e5 {
				t.Errorf("force %v after %v at %v", force, last, x)
			}
			last = force
		}
	})
}

func FuzzFriction(f *testing.F) {
	f.Add(60.0, 40.0, 0.005, 20.0, 0.0002, 0.03, 0.001, 0.15, 1e6, 0.01)
	f.Add(0.0, 0.0, 0.1, 0.0, 1e-5, 0.002, 0.0001, 0.5, -1e9, -20.0)
	f.Add(math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(),
		math.NaN())
	f.Fuzz(func(t *testing.T, breakaway, kinetic, stribeck, viscous, creep, d, w, mu, p, v float64) {
		if seal, err := NewSeal(SealSpec{units.Length(d), units.Length(w), mu, units.Force(breakaway)}); err == nil &&
			math.Abs(p) < 1e12 {
			finite(t, "seal", float64(seal.Force(units.Pressure(p))))
		}
		bushes, err := NewBushes(BushesSpec{units.Length(d), units.Length(w), mu, units.Angle(stribeck),
			units.Length(creep), units.Length(kinetic)})
		if err == nil && math.Abs(p) < 1e12 {
			finite(t, "bushes", float64(bushes.Force(units.Length(kinetic), units.Force(p), units.Force(-p))),
				float64(bushes.Lightest(1000)))
		}
		fr, err := NewFriction(FrictionSpec{units.Force(breakaway), units.Force(kinetic), units.Speed(stribeck),
			units.DampingRate(viscous), units.Speed(creep)})
		if err != nil {
			_ = err.Error()
			return
		}
		if math.Abs(v) <= 20 {
			force := float64(fr.Force(units.Speed(v)))
			finite(t, "friction", force, float64(fr.Coefficient(units.Speed(v))))
			if force*v < 0 {
				t.Errorf("friction %v drives at %v", force, v)
			}
		}
	})
}

func FuzzBody(f *testing.F) {
	f.Add(11e3, 62.0, 12e3, 1000.0, 1100.0, 0.03, 0.05, 2.0, 5)
	f.Add(10.0, 2000.0, 1e5, 10.0, 1e5, 0.002, 0.4, 0.0, 1)
	f.Add(math.NaN(), math.Inf(1), 0.0, math.NaN(), -1.0, math.NaN(), math.NaN(), -1.0, -1)
	f.Fuzz(func(t *testing.T, k, m, k2, f1, f2, click, amplitude, frequency float64, cycles int) {
		if o, err := NewOscillator(OscillatorSpec{units.Stiffness(k), units.Mass(m)}); err == nil {
			finite(t, "oscillator", float64(o.Critical()), float64(o.Frequency()), o.Ratio(Linear(100), 1),
				float64(o.StickBand(100)))
		}
		if r, err := NewRebound(ReboundSpec{OldRate: units.Stiffness(k), NewRate: units.Stiffness(k2),
			OldForce: units.Force(f1), NewForce: units.Force(f2), PerClick: click, OldFriction: units.Force(m),
			NewFriction: units.Force(m / 2), OldDamping: units.DampingRate(f1), Speed: units.Speed(frequency)}); err == nil {
			lo, hi := r.Clicks()
			finite(t, "clicks", lo, hi)
			if lo > hi || r.Advice() == "" {
				t.Errorf("clicks %v to %v", lo, hi)
			}
		}
		if p, err := MeanPower(Linear(500), units.Length(amplitude), units.Frequency(frequency)); err == nil {
			finite(t, "power", float64(p))
		}
		if z, err := DampingRatio(units.Length(amplitude), units.Length(amplitude*click), cycles); err == nil &&
			!(z >= 0 && z < 1) {
			t.Errorf("damping ratio %v", z)
		}
		if w, err := NewWarming(WarmingSpec{units.Mass(m), units.SpecificHeat(k), units.Mass(click),
			units.SpecificHeat(f1), units.ThermalConductance(frequency)}); err == nil {
			finite(t, "warming", float64(w.TimeConstant()), float64(w.Rise(100, 60)), float64(w.Steady(100)))
		}
	})
}
