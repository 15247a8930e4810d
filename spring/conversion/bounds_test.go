package conversion_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// A coil that closes before the sag asked for carries no more by more preload than by less: it gets what comes nearest,
// all there may be.
func TestPreloadOfACoilThatCloses(t *testing.T) {
	for free, ends := range map[units.Length]bool{320 * mm: true, 605 * mm: false} {
		j := motocross(t)
		j.Shelf = j.Shelf[:1]
		j.Shelf[0].Wire.FreeLength = free
		j.Preload = conversion.Setting[units.Length]{Min: 2 * mm, Aim: 4 * mm, Max: 30 * mm}
		j.TargetSag = 66 * mm
		c := plan(t, j).Candidates[0]
		if got := c.Preload == j.Preload.Max; got != ends {
			t.Errorf("a spring of %v: preload %v", free, c.Preload)
		}
	}
}

// The same leg pushes as it did: to either side that is nothing new.
func TestSameSideMoment(t *testing.T) {
	for _, side := range []setup.Side{setup.Left, setup.Right} {
		_, r, c := first(t, func(j *conversion.Job) {
			j.Usual.LegSpacing = 210 * mm
			j.Legs[0].Side = side
			if side == setup.Right {
				j.Present.Left, j.Present.Right = j.Present.Right, j.Present.Left
			}
		})
		if now := r.Present.SideMoment; (now > 0) != (side == setup.Left) ||
			count(c.Findings, conversion.SideMoment) != 0 {
			t.Errorf("%v: %v before, %v after: %+v", side, now, c.Behavior.SideMoment, c.Findings)
		}
	}
}

// What is added counts springs and oil together, of which either may be little.
func TestAddedMassOfBoth(t *testing.T) {
	found := map[bool]int{}
	for _, mass := range []units.Mass{0.05, 0.3, 0.6, 1.2} {
		for _, out := range []units.Volume{50 * mL, 300 * mL, 540 * mL} {
			_, _, c := first(t, func(j *conversion.Job) {
				j.Shelf[0] = bySize("own", dualRate())
				j.Shelf[0].Size.Mass = mass
				j.Legs[0].Drained = [2]units.Volume{out, out}
			})
			want := c.MassChange.Springs+c.MassChange.Oil > conversion.MassStep
			if got := count(c.Findings, conversion.AddedMass) > 0; got != want {
				t.Errorf("%v of springs, %v of oil: told %v", c.MassChange.Springs, c.MassChange.Oil, got)
			}
			found[want]++
		}
	}
	if found[true] == 0 || found[false] == 0 {
		t.Errorf("told %v", found)
	}
}

// At the most that can be filled the step of sag is that of the half tenth below.
func TestSagStepAtTheTop(t *testing.T) {
	j, _ := filling(t, "M07")
	j.MaxGauge = units.GaugePressure{}
	j.Rider, j.TargetSag = 190, 16*mm
	r := planAir(t, j)
	sag := func(by units.Pressure) float64 {
		spec, err := j.Air.Filled(gas.Fill{Gauge: r.Asked.Add(by), Ambient: j.Workshop})
		if err != nil {
			t.Fatal(err)
		}
		spec.Closed = j.Workshop
		s, err := setupOf(t, spec).Sag(r.Rider.Axial)
		if err != nil {
			t.Fatal(err)
		}
		return float64(s.Middle)
	}
	near(t, "a tenth of a bar", float64(r.SagStep), 2*(sag(0)-sag(-0.05*units.Bar)), 1e-7)
}

// A fork that no longer carries its rider after a month is lower by all that was left of its travel.
func TestLeakToTheBottom(t *testing.T) {
	j, _ := filling(t, "M07")
	a := *j.Air.Left.Air
	// Nearly the same force all the way.
	a.Bore, a.Rod, a.Volume, a.Reducers, a.NegativeVolume = 20*mm, 10*mm, 3000*mL, 0, 0
	j.Air.Left.Air, j.Air.Left.Gap, j.Air.Right.Gap = &a, nil, nil
	j.MaxGauge, j.TargetSag = units.GaugePressure{}, 150*mm
	r := planAir(t, j)
	later, err := r.Behavior.Setup.Leaked(1 - conversion.LeakShare)
	if err != nil {
		t.Fatal(err)
	}
	if sag, err := later.Sag(r.Rider.Axial); err == nil {
		t.Fatalf("it still sags to %v", sag.Middle)
	}
	for _, f := range r.Findings {
		if f.Code == conversion.LeakDrift {
			near(t, "lower", scalar(f.Value), float64(r.Behavior.Stroke-r.Behavior.Sag.Middle), 1e-9)
			return
		}
	}
	t.Errorf("nothing told: %+v", r.Findings)
}

// Where nothing that is marked brings the sag back, the place that is farthest off is told, too high as well as too
// low.
func TestSagMissedWhereItIsHot(t *testing.T) {
	j, _ := filling(t, "M07")
	j.MaxGauge = units.GaugePressure{}
	asked := planAir(t, j).Asked
	j.Event = ambient(t, 200*units.Meter, 30)
	j.MaxGauge = asked.Add(-0.37 * units.Bar) // less than any of these places asks for
	j.Places = []conversion.AirPlace{at(t, "not so warm", 200*units.Meter, 28)}
	r := planAir(t, j)
	most, off := 0.0, 0.0
	for _, p := range r.Places {
		if p.Sag == nil || len(p.Set) != 0 {
			t.Fatalf("at %s %+v", p.Place.Name, p)
		}
		if by := math.Abs(float64(p.Sag.Middle - r.TargetSag)); by > off {
			most, off = float64(p.Sag.Middle), by
		}
	}
	if !(most < float64(r.TargetSag)) {
		t.Fatalf("the farthest sags to %v, lower than %v", units.Length(most), r.TargetSag)
	}
	for _, f := range r.Findings {
		if f.Code == conversion.SagMissed && math.Abs(scalar(f.Value)-most) <= 1e-9 {
			return
		}
	}
	t.Errorf("no place is told, the farthest %v off: %+v", units.Length(off), r.Findings)
}
