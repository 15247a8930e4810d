package damping

import (
	"math"
	"testing"

	"example.org/forkcurve/internal/register"
	"example.org/forkcurve/units"
)

const (
	water = 998.2 // kg/m³
	inch  = float64(units.Inch)
	psi   = units.PSI
	gpm   = units.Flow(231 * inch * inch * inch / 60) // US gallon per minute
	foot  = float64(units.Foot)
	pound = float64(units.PoundForce)
)

func TestFlowPublished(t *testing.T) {
	t.Run("laminar pipe", func(t *testing.T) {
		register.Cite(t, "F-03")
		// B. S. Massey, Mechanics of Fluids, example 6.1: Re and pressure gradient.
		p := newPipe(PipeSpec{Diameter: 12 * mm, Length: 1})
		o := Oil{Density: 830, Viscosity: 0.08}
		q := units.Flow(2.3 * math.Pi / 4 * 0.012 * 0.012)
		near(t, "Re", p.Reynolds(q, o), 286.3, 0.1) // 286.35, cut off in the source
		near(t, "Δp in 1 m", float64(p.Drop(q, o)), 40888.9, 0.05)
	})
	t.Run("radial flow between plates", func(t *testing.T) {
		register.Cite(t, "F-04")
		// Massey, example 6.2.
		g := must(NewRadialGap(RadialGapSpec{Inner: 20 * mm, Outer: 120 * mm, Gap: 1 * mm}))
		near(t, "Q", float64(g.Flow(15*units.Kilopascal, Oil{Density: 850, Viscosity: 0.6})), 7.31e-6, 0.5e-8)
	})
	t.Run("duct", func(t *testing.T) {
		register.Cite(t, "F-06")
		// OpenStax, University Physics, volume 1, chapter 14: air in a duct. The source rounds with π = 3.14.
		air := Oil{Density: 1.2, Viscosity: 1.81e-5}
		q := newPipe(PipeSpec{Diameter: 180 * mm, Length: 20}).Flow(0.054, air)
		near(t, "Q", float64(q), 3.84e-3, 0.5e-5)
		near(t, "Q at half the radius", float64(newPipe(PipeSpec{Diameter: 90 * mm, Length: 20}).Flow(0.054, air)),
			2.40e-4, 0.5e-6)
	})
	t.Run("radius for half the flow", func(t *testing.T) {
		register.Cite(t, "F-07")
		// OpenStax, College Physics, chapter 12: r₂/r₁ = 0.841.
		o := Oil{Density: 850, Viscosity: 0.02}
		wide, narrow := newPipe(PipeSpec{Diameter: 2 * mm, Length: 0.1}), newPipe(PipeSpec{Diameter: 2 * 0.841 * mm,
			Length: 0.1})
		near(t, "flow ratio", float64(narrow.Flow(1e5, o)/wide.Flow(1e5, o)), 0.5, 4*0.5*0.0005/0.841)
	})
	t.Run("sharp-edged orifice", func(t *testing.T) {
		register.Cite(t, "F-09")
		// A. Esposito, Fluid Power with Applications, chapter 8: 1 in, 100 psi, SG 0.9, C = 0.80.
		area := math.Pi / 4 * inch * inch
		o := Oil{Density: 0.9 * water, Viscosity: 15 * units.MillipascalSecond}
		near(t, "Q, gpm", newOrifice(area, 0.8).Flow(100*psi, o).In(gpm), 252, 0.5)
		// Without the creeping term it is C·A·√(2Δp/ρ), evaluated apart.
		bare := passage{inertial: newOrifice(area, 0.8).inertial}
		near(t, "bare Q, gpm", bare.Flow(100*psi, o).In(gpm), 251.7270428712844, 1e-9*251.7)
	})
	t.Run("valve capacity", func(t *testing.T) {
		register.Cite(t, "F-10", "F-11")
		// Esposito, chapter 8: Cv = Q·√(SG/Δp), the flow of water at 1 psi or 1 kPa.
		capacity := func(q units.Flow, p units.Pressure, sg float64, unit units.Pressure) units.Flow {
			v := passage{inertial: float64(p) / (sg * water * float64(q) * float64(q))}
			return v.Flow(unit, Oil{Density: water, Viscosity: 1 * units.MillipascalSecond})
		}
		near(t, "Cv", capacity(25*gpm, 100*psi, 0.9, psi).In(gpm), 2.37, 0.005)
		near(t, "metric", capacity(94.8*units.LiterPerMinute, 687*units.Kilopascal, 0.9,
			units.Kilopascal).In(units.LiterPerMinute), 3.43, 0.005)
		// Meter-out: piston 3.14 in², rod 0.79 in², 500 psi against a load of 1000 lb at 10 in/s.
		behind := (500*3.14 - 1000) / (3.14 - 0.79) * psi
		out := units.Flow((3.14 - 0.79) * inch * inch * 10 * inch)
		near(t, "meter-out Cv", capacity(out, behind, 0.9, psi).In(gpm), 0.37, 0.005)
	})
	t.Run("capillary viscometer", func(t *testing.T) {
		register.Cite(t, "F-13")
		// R. W. Fox and A. T. McDonald, Introduction to Fluid Mechanics, example 8.4.
		p := newPipe(PipeSpec{Diameter: 0.5 * mm, Length: 1})
		trial := Oil{Density: 900, Viscosity: 1 * units.MillipascalSecond}
		near(t, "μ", 1e-3*float64(p.Flow(1e6, trial))/880e-9, 0.0017, 0.5e-4)
	})
	t.Run("oil heated by a restriction", func(t *testing.T) {
		register.Cite(t, "F-14")
		// J. A. Sullivan, Fluid Power, example 12.2: 1000 psi, SG 0.85, 0.42 Btu/(lb·°F).
		rise := ThrottlingRise(1000*psi, Oil{Density: 850, Viscosity: 0.02}, 0.42*4186.8)
		near(t, "ΔT, °F", float64(rise)*1.8, 8.31, 0.01)
	})
}

func TestOscillatorPublished(t *testing.T) {
	spring := func(k, m float64) Oscillator {
		return must(NewOscillator(OscillatorSpec{Stiffness: units.Stiffness(k), Mass: units.Mass(m)}))
	}
	const slug = 1 / 0.06852 // kg
	t.Run("static deflection", func(t *testing.T) {
		register.Cite(t, "V-01")
		// J. L. Meriam and L. G. Kraige, Dynamics, sample problem 8/1: 25 lb on 160 lb/ft.
		// The answers are from memory.
		o := spring(160*pound/foot, 25/32.2*slug)
		near(t, "δ, in", float64(o.StickBand(units.Force(25*pound)))/inch, 1.875, 1e-6)
		near(t, "ω, rad/s", 2*math.Pi*float64(o.Frequency()), 14.36, 0.005)
		near(t, "f, Hz", float64(o.Frequency()), 2.28, 0.005)
	})
	t.Run("damped free response", func(t *testing.T) {
		register.Cite(t, "V-02")
		// Meriam and Kraige, sample problem 8/2: m = 8 kg, c = 20 N·s/m, k = 32 N/m. x(2) is from memory.
		o := spring(32, 8)
		zeta := o.Ratio(Linear(20), 1)
		near(t, "ζ", zeta, 0.625, 1e-9)
		near(t, "ω_d", 2*math.Pi*float64(o.Damped(zeta)), 1.561, 0.0005)
		x := decay(o, Linear(20), 0.2, 2, 2000, nil)
		near(t, "x(2 s)", x, -0.01616, 1e-5)
	})
	t.Run("inch-pound", func(t *testing.T) {
		register.Cite(t, "V-05")
		// W. G. McLean, Schaum's Engineering Mechanics, example 19-19: 12 lb, 20 lb/in, 10 lb
		// at 20 in/s, g = 386 in/s².
		o := spring(20*pound/inch, 12*pound/(386*inch))
		near(t, "ω_d", 2*math.Pi*float64(o.Damped(o.Ratio(Linear(0.5*pound/inch), 1))), 24.0, 0.1)
	})
	t.Run("logarithmic decrement", func(t *testing.T) {
		register.Cite(t, "V-06")
		// McLean, example 19-20: ζ = 0.316 gives 2.095; half a unit of ζ's last digit is 0.0037 of δ.
		near(t, "δ", LogDecrement(0.316), 2.095, 0.0037)
		near(t, "short form, %", 100*(2*math.Pi*0.3/LogDecrement(0.3)-1), -4.6, 0.05)
		near(t, "short form, %", 100*(2*math.Pi*0.8/LogDecrement(0.8)-1), -40, 0.05)
	})
	t.Run("damped over undamped", func(t *testing.T) {
		register.Cite(t, "V-10")
		// T. Bevan, The Theory of Machines, chapter 15, example 4: 50 lb on 100 lb/in, with a²/b =
		// 1/20.79 in x″ + a·x′ + b·x = 0, hence ζ² = a²/4b; g = 32.2 ft/s² fits the print.
		o := spring(100*pound/inch, 50*pound/(32.2*foot))
		zeta := math.Sqrt(1/20.79) / 2
		near(t, "f", float64(o.Frequency()), 4.424, 0.0005)
		near(t, "f_d", float64(o.Damped(zeta)), 4.398, 0.0005)
		near(t, "ratio", float64(o.Damped(zeta)/o.Frequency()), 0.994, 0.0005)
	})
	t.Run("seismic damper", func(t *testing.T) {
		register.Cite(t, "S-28")
		// E. O. Doebelin and D. N. Manik, Measurement Systems, chapter 4: 10 Hz, 0.15 kg, ζ = 0.6.
		o := spring(592.176, 0.15)
		near(t, "f", float64(o.Frequency()), 10, 0.0005)
		near(t, "c", 0.6*float64(o.Critical()), 11.31, 0.005)
	})
	t.Run("Coulomb friction", func(t *testing.T) {
		register.Cite(t, "V-18")
		// OpenStax, College Physics, chapter 16: 0.200 kg, 50 N/m, μ = 0.08, from 0.100 m: friction takes up ½·k·X², so the
		// way is X²/2 over the band. That a motion does go that way, package ride has.
		held := float64(spring(50, 0.2).StickBand(0.08 * 0.2 * 9.80665))
		near(t, "distance", 0.1*0.1/(2*held), 1.59, 0.005)
	})
}

// decay integrates m·x″ = −k·x − F(x′) from rest at x0 by the classical Runge–Kutta method and reports every state.
func decay(o Oscillator, d Damper, x0, seconds float64, steps int, each func(time, x, v float64)) float64 {
	h := seconds / float64(steps)
	a := func(x, v float64) float64 { return -(o.stiffness*x + float64(d.Force(units.Speed(v)))) / o.mass }
	x, v := x0, 0.0
	for i := range steps {
		k1, l1 := v, a(x, v)
		k2, l2 := v+h/2*l1, a(x+h/2*k1, v+h/2*l1)
		k3, l3 := v+h/2*l2, a(x+h/2*k2, v+h/2*l2)
		k4, l4 := v+h*l3, a(x+h*k3, v+h*l3)
		x += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
		v += h / 6 * (l1 + 2*l2 + 2*l3 + l4)
		if each != nil {
			each(float64(i+1)*h, x, v)
		}
	}
	return x
}

// The ratio comes back from the peaks of a simulated decay, here with the oil
// damper that is linear: a long pipe as the only way past the piston.
func TestFreeDecay(t *testing.T) {
	d := must(NewCartridge(CartridgeSpec{Bore: 25 * mm, Rod: 12 * mm, Reservoir: units.Absolute(30 * units.Bar),
		Piston: must(NewPipe(PipeSpec{Diameter: 3 * mm, Length: 60 * mm})),
		Oil:    Oil{Density: 850, Viscosity: 100 * units.MillipascalSecond}}))
	o := must(NewOscillator(OscillatorSpec{Stiffness: 11 * units.NewtonPerMillimeter, Mass: 62 * units.Kilogram}))
	zeta := o.Ratio(d, 0.3)
	if zeta < 0.1 || zeta > 0.5 || !(math.Abs(o.Ratio(d, -0.01)-zeta) <= 1e-9) {
		t.Fatalf("ζ = %v and %v, want one between 0.1 and 0.5", zeta, o.Ratio(d, -0.01))
	}
	const x0 = 0.05
	peaks, last := []float64{x0}, -1.0
	decay(o, d, x0, 3, 60000, func(_, x, v float64) {
		if last > 0 && v <= 0 {
			peaks = append(peaks, x)
		}
		last = v
	})
	got, err := DampingRatio(x0, units.Length(peaks[2]), 2)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ζ from the peaks", got, zeta, 1e-6)
	near(t, "δ from the peaks", math.Log(x0/peaks[1]), LogDecrement(zeta), 1e-5)
}
