package data_test

import (
	"math"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// set is the fork with each spring at a share of its ranges: 0 is the softest rate, the
// least preload and the lowest pressure of the record, 1 the stiffest, most and highest.
func set(f data.Fork, rate, preload, pressure float64) data.Fork {
	for _, l := range []*data.Leg{&f.Left, &f.Right} {
		if l.Role.HasCoil() {
			l.Coil.Rate.Value = l.Coil.Rates.Lo + units.Stiffness(rate)*(l.Coil.Rates.Hi-l.Coil.Rates.Lo)
			l.Coil.Preload.Value = l.Coil.Preloads.Lo + units.Length(preload)*(l.Coil.Preloads.Hi-l.Coil.Preloads.Lo)
		}
		if l.Role.HasAir() {
			lo, hi := l.Air.Pressures.Lo.In(units.Bar), l.Air.Pressures.Hi.In(units.Bar)
			l.Air.Pressure.Value = units.Gauge(units.Pressure(lo+pressure*(hi-lo)) * units.Bar)
		}
	}
	return f
}

// typicalPreload is where the usual preload stands in its range.
func typicalPreload(f data.Fork) float64 {
	c := f.Left.Coil
	if !f.Left.Role.HasCoil() {
		c = f.Right.Coil
	}
	if c.Preloads.Hi == c.Preloads.Lo {
		return 0
	}
	return float64((c.Preload.Value - c.Preloads.Lo) / (c.Preloads.Hi - c.Preloads.Lo))
}

// TestEndsRiders: the lightest and the heaviest rider of the record find a spring or a
// pressure inside its range that puts them into the sag window, at the usual preload.
func TestEndsRiders(t *testing.T) {
	for f := range data.Reference().Forks() {
		t.Run(f.ID, func(t *testing.T) {
			share := func(stiff float64, rider units.Mass) units.Share {
				g := set(f, stiff, typicalPreload(f), stiff)
				return units.Share(sag(t, assemble(t, g), f.Load(rider)).Middle / f.Travel.Value)
			}
			if got := share(0, f.Rider.Range.Lo); got < f.Sag.Rider.Lo {
				t.Errorf("the lightest rider on the softest spring: sag %v, want %v or more", got, f.Sag.Rider.Lo)
			}
			if got := share(1, f.Rider.Range.Hi); got > f.Sag.Rider.Hi {
				t.Errorf("the heaviest rider on the stiffest spring: sag %v, want %v or less", got, f.Sag.Rider.Hi)
			}
		})
	}
}

// TestEndsSag: the windows of a record lie inside those of its discipline, in share and
// in length.
func TestEndsSag(t *testing.T) {
	for f := range data.Reference().Forks() {
		t.Run(f.ID, func(t *testing.T) {
			d, err := data.Reference().Discipline(f.Use)
			if err != nil {
				t.Fatal(err)
			}
			w := f.Sag.Rider
			if !in(w.Lo, d.Sag.Lo, d.Sag.Hi, 1e-9) || !in(w.Hi, d.Sag.Lo, d.Sag.Hi, 1e-9) {
				t.Errorf("sag window %v to %v outside %v to %v", w.Lo, w.Hi, d.Sag.Lo, d.Sag.Hi)
			}
			if d.SagLength.Given() {
				got := sag(t, assemble(t, f), f.Load(f.Rider.Mass.Value)).Middle
				if !in(got, d.SagLength.Lo, d.SagLength.Hi, 0) {
					t.Errorf("sag %.0f mm outside %v to %v", got.In(mm), d.SagLength.Lo, d.SagLength.Hi)
				}
			}
		})
	}
}

// TestEndsOil: neither the least nor the most oil of a record locks its leg with its own
// spring in it, and both stand inside its range of levels.
func TestEndsOil(t *testing.T) {
	for f := range data.Reference().Forks() {
		t.Run(f.ID, func(t *testing.T) {
			k := f.Kit
			metal := k.Metal.Value
			if k.SpringInOil && f.Left.Role.HasCoil() {
				metal += wound(t, f.Left.Coil).Volume()
			}
			for _, volume := range []units.Volume{k.Oil.Lo, k.OilAim.Value, k.Oil.Hi} {
				fill, err := oil.NewFill(oil.FillSpec{
					Interior: k.Interior.Value, Column: f.Geometry().OilColumn(), Metal: metal,
					Volume: max(volume, 1*units.Milliliter),
				})
				if err != nil {
					t.Errorf("%v: %v", volume, err)
					continue
				}
				swept := units.Volume(float64(f.Gap.Area(f)) * float64(f.Travel.Value))
				if ratio := float64((fill.Residual() + swept) / fill.Residual()); !in(ratio, 1.3, 9, 0) {
					t.Errorf("%v of oil leave %.0f mL, gap compression ratio %.1f", volume, fill.Residual().In(units.Milliliter),
						ratio)
				}
				if level := f.Left.Oil.Level; level.Given() && !in(fill.Level(), level.Lo, level.Hi, 0.5*mm) {
					t.Errorf("%v of oil stand at %.0f mm, outside %v to %v", volume, fill.Level().In(mm), level.Lo, level.Hi)
				}
			}
		})
	}
}

// TestEndsAdjusters: at every corner of rate, preload and pressure the fork assembles,
// keeps its travel, does not pull itself together at full extension, and stays finite.
func TestEndsAdjusters(t *testing.T) {
	for f := range data.Reference().Forks() {
		t.Run(f.ID, func(t *testing.T) {
			for corner := range 8 {
				rate, preload, pressure := float64(corner&1), float64(corner>>1&1), float64(corner>>2&1)
				s := assemble(t, set(f, rate, preload, pressure))
				for _, n := range []float64{gas.Isothermal, gas.Adiabatic} {
					c := s.Curve(n)
					if c.Stroke() < f.Travel.Value {
						t.Errorf("corner %d: only %v of travel", corner, c.Stroke())
					}
					if top := c.Force(0); top < -0.1*f.Friction.Value {
						t.Errorf("corner %d: %.1f N at full extension", corner, float64(top))
					}
					if end := float64(c.Force(f.Travel.Value)); math.IsNaN(end) || math.IsInf(end, 0) {
						t.Errorf("corner %d: %v at full travel", corner, end)
					}
				}
			}
		})
	}
}

// TestEndsSprings: a spring maker would wind each coil: closed, it stays inside the
// static limit; with the most preload it keeps the dynamic gap at full travel, and it is
// not longer than that by more than a spacer's worth.
func TestEndsSprings(t *testing.T) {
	for f := range data.Reference().Forks() {
		t.Run(f.ID, func(t *testing.T) {
			for _, l := range []data.Leg{f.Left, f.Right} {
				if !l.Role.HasCoil() {
					continue
				}
				s := wound(t, l.Coil)
				if tau := s.ShearStress(s.SolidForce()); tau > s.StaticLimit() {
					t.Errorf("closed, %.2f of the tensile strength", float64(tau/s.TensileStrength()))
				}
				left := s.BindMargin(f.Travel.Value+l.Coil.Preloads.Hi) - s.DynamicMinimumGap()
				if !in(left, 0, 15*mm, 0) {
					t.Errorf("%.0f mm left beside the dynamic gap at full travel and the most preload", left.In(mm))
				}
			}
		})
	}
}
