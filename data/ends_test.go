package data_test

import (
	"math"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// set is the fork, and its legs set up, with each spring at a share of its ranges: 0 is the
// softest rate, the least preload and the lowest pressure of the record, 1 the stiffest, most
// and highest.
func set(t *testing.T, f data.Fork, rate, preload, pressure float64) *setup.Setup {
	t.Helper()
	for _, l := range []*data.Leg{&f.Left, &f.Right} {
		if l.Role.HasAir() {
			lo, hi := l.Air.Pressures.Lo.In(units.Bar), l.Air.Pressures.Hi.In(units.Bar)
			l.Air.Pressure.Value = units.Gauge(units.Pressure(lo+pressure*(hi-lo)) * units.Bar)
		}
	}
	sea, err := gas.Standard(0)
	if err != nil {
		t.Fatal(err)
	}
	spec := f.Spec(sea)
	for side, c := range []data.Coil{f.Left.Coil, f.Right.Coil} {
		leg := []*setup.Leg{&spec.Left, &spec.Right}[side]
		if !c.Rate.Given() {
			continue
		}
		stiff := c.Rates.Lo + units.Stiffness(rate)*(c.Rates.Hi-c.Rates.Lo)
		more := c.Preloads.Lo + units.Length(preload)*(c.Preloads.Hi-c.Preloads.Lo) - c.Preload.Value
		leg.Springs[0] = leg.Springs[0].(spring.Adjustable).Adjusted(float64(stiff/c.Rate.Value), more)
	}
	s, err := setup.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	return s
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
				s := set(t, f, stiff, typicalPreload(f), stiff)
				return units.Share(sag(t, s, f.Load(rider)).Middle / f.Travel.Value)
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
				if ratio := gapRatio(t, f, metal, volume); !in(ratio, 1.3, 9, 0) {
					t.Errorf("%v of oil: gap compression ratio %.1f", volume, ratio)
				}
				at := filled(t, f, metal, volume).Level()
				if level := f.Left.Oil.Level; level.Given() && !in(at, level.Lo, level.Hi, 0.5*mm) {
					t.Errorf("%v of oil stand at %.0f mm, outside %v to %v", volume, at.In(mm), level.Lo, level.Hi)
				}
			}
		})
	}
}

// corner is one end of every range of a record: bits of a number, clear for the lower end.
type corner uint

func (c corner) at(bit int) float64 { return float64(c >> bit & 1) }

// The ranges of a corner, by bit.
const (
	ofRate = iota
	ofPreload
	ofPressure
	ofPrecharge
	ofOil
	ofRider
	corners = 1 << iota
)

// of is the fork with everything at its end, and the rider.
func (c corner) of(t *testing.T, f data.Fork) (*setup.Setup, units.Mass) {
	if p := &f.Gap.Precharge; p.Spread.Means == data.Adjuster {
		p.Value = p.Spread.Low
		if c.at(ofPrecharge) == 1 {
			p.Value = p.Spread.High
		}
	}
	half := max(f.Left.Oil.Volume.Hi-f.Left.Oil.Volume.Lo, f.Right.Oil.Volume.Hi-f.Right.Oil.Volume.Lo) / 2
	if f.Gap.Residual.Given() {
		f.Gap.Residual.Value += half * units.Volume(1-2*c.at(ofOil)) // it stands for the middle of the range
	}
	rider := f.Rider.Range.Lo
	if c.at(ofRider) == 1 {
		rider = f.Rider.Range.Hi
	}
	return set(t, f, c.at(ofRate), c.at(ofPreload), c.at(ofPressure)), rider
}

// TestCorners: at every combination of both ends of rate, preload, pressure, precharge, oil and
// rider the fork assembles, keeps its travel and a gas gap that is none too small, does not pull
// itself together at full extension, and carries the rider. The springs and pressures for a
// rider, with the preload that helps, put him inside the sag window.
func TestCorners(t *testing.T) {
	for f := range data.Reference().Forks() {
		t.Run(f.ID, func(t *testing.T) {
			for c := range corner(corners) {
				s, rider := c.of(t, f)
				load := f.Load(rider)
				for _, n := range []float64{gas.Isothermal, gas.Adiabatic} {
					curve := s.Curve(n)
					if !(curve.Stroke() >= f.Travel.Value) {
						t.Errorf("corner %06b: only %v of travel", c, curve.Stroke())
					}
					if top := curve.Force(0); !(top >= -0.1*f.Friction.Value) {
						t.Errorf("corner %06b: %.1f N at full extension", c, float64(top))
					}
					if end := curve.Force(f.Travel.Value); !(end > load && !math.IsInf(float64(end), 1)) {
						t.Errorf("corner %06b: %v at full travel under %v", c, end, load)
					}
				}
				for side := setup.Left; side <= setup.Right; side++ {
					if gap, err := s.Gap(side, gas.Isothermal); err == nil && !(gap.CompressionRatio() <= 9) {
						t.Errorf("corner %06b: gap compression ratio %.1f in the %v leg", c, gap.CompressionRatio(), side)
					}
				}
				all := c &^ (1 << ofOil)
				share := units.Share(sag(t, s, load).Middle / f.Travel.Value)
				if all == 0 && !(share >= f.Sag.Rider.Lo) {
					t.Errorf("corner %06b: the lightest rider sags %v, want %v or more", c, share, f.Sag.Rider.Lo)
				}
				if all == (corners-1)&^(1<<ofOil) && !(share <= f.Sag.Rider.Hi) {
					t.Errorf("corner %06b: the heaviest rider sags %v, want %v or less", c, share, f.Sag.Rider.Hi)
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
				if tau := s.ShearStress(closed(t, l)); !(tau <= s.StaticLimit()) {
					t.Errorf("closed, %.2f of the tensile strength", float64(tau/s.TensileStrength()))
				}
				l.Coil.Preload.Value = l.Coil.Preloads.Hi
				at, err := l.Working(f.Travel.Value, f.Travel.Value)
				if err != nil {
					t.Fatal(err)
				}
				left := s.BindMargin(at.Compression) - s.DynamicMinimumGap()*units.Length(at.Open)
				if !in(left, 0, 15*mm, 0) {
					t.Errorf("%.0f mm left beside the dynamic gap at full travel and the most preload", left.In(mm))
				}
			}
		})
	}
}

// closed is the force that closes the coil of a leg.
func closed(t *testing.T, l data.Leg) units.Force {
	spec, err := l.Compound.Spec(l.Coil)
	if err != nil {
		t.Fatal(err)
	}
	switch whole := spec.(type) {
	case spring.ProgressiveSpec, spring.RateTableSpec:
		curve, err := whole.(spring.Adjustable).Adjusted(1, -l.Coil.Preload.Value).Curve(400 * mm)
		if err != nil {
			t.Fatal(err)
		}
		return curve.Force(curve.Stroke())
	}
	return wound(t, l.Coil).SolidForce()
}
