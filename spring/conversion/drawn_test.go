package conversion_test

import (
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"example.org/forkcurve/data"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// No build that is advised binds, locks or passes a limit once warm in any of a thousand forks
// drawn from what is known of it: of the level read or the volume poured and the inside of the
// leg, of the spring's free length and the preload set. FORKCURVE_LONG=1 draws a thousand of every fork
// of the dataset.
func TestDrawnForks(t *testing.T) {
	draws := 15 // of some eighty forks
	if os.Getenv("FORKCURVE_LONG") != "" {
		draws = 1000
	}
	total := 0
	for fork := range data.Reference().Forks() {
		f, err := jobfile.Typical(fork.ID, data.Reference())
		if err != nil {
			t.Fatal(err)
		}
		j := f.Job
		c, ok := plan(t, j).Chosen()
		if !ok {
			continue
		}
		s, err := helical.New(shelfWire(t, j, c))
		if err != nil {
			t.Fatal(err)
		}
		r := rand.New(rand.NewPCG(1000, uint64(len(fork.ID))))
		for range draws {
			total++
			free := s.FreeLength() * units.Length(1+conversion.LengthSpread*r.NormFloat64())
			preload := c.Preload + j.Known.Preload*units.Length(r.NormFloat64())
			if left := free - s.SolidLength() - preload - j.Fork.Travel; left < 0 {
				t.Errorf("%s: binds, short of %v", fork.ID, -left)
			}
			for i, b := range c.Builds {
				l := j.Legs[i]
				swept := float64(l.Bath.Area) * float64(j.Fork.Travel)
				left := swept / (b.Cold.Ratio - 1)
				if b.OilLevel != nil {
					left += r.NormFloat64() * float64(conversion.LevelSpread) * float64(l.Bath.Column)
				} else {
					left += r.NormFloat64()*float64(l.Bath.Spread) +
						r.NormFloat64()*float64(min(conversion.LeastFillSpread, l.Bath.Interior/50))
				}
				closed := left + swept
				left -= float64(j.Oil.Expand(b.OilVolume, j.Workshop.Temperature, b.Warm.Temperature) - b.OilVolume)
				gap, err := oil.NewAirGap(oil.AirGapSpec{Area: l.Bath.Area, Travel: j.Fork.Travel,
					Residual: units.Volume(left), Ambient: j.Workshop.Pressure, Exponent: j.RideExponent,
					Pressure: units.Absolute(units.Pressure(j.Workshop.Pressure.In(units.Pascal) * closed / (left + swept) *
						b.Warm.Temperature.Kelvin() / j.Workshop.Temperature.Kelvin()))})
				if err != nil || gap.Stroke() < j.Fork.Travel {
					t.Errorf("%s, %v leg: locks", fork.ID, l.Side)
					continue
				}
				if ratio := 1 + swept/left; !(ratio <= conversion.StopGapRatio) {
					t.Errorf("%s, %v leg: gas compressed %.2f times", fork.ID, l.Side, ratio)
				}
				peak := gap.Pressure(gap.Stroke()).Gauge(j.Workshop.Pressure)
				if !(peak.In(units.Pascal) <= float64(conversion.StopGapPressure)) {
					t.Errorf("%s, %v leg: %.1f", fork.ID, l.Side, peak)
				}
			}
		}
	}
	if total < 1000 {
		t.Errorf("%d forks drawn", total)
	}
}

func shelfWire(t *testing.T, j conversion.Job, c conversion.Candidate) helical.Spec {
	t.Helper()
	for _, s := range j.Shelf {
		if s.Name == c.Coil {
			return s.Wire
		}
	}
	t.Fatalf("no %s on the shelf", c.Coil)
	return helical.Spec{}
}

// Hardly any candidate goes to an end of the preload range, away from its aim, for a sag that is
// nearer to its target by less than the sag is known to: of all coils for all air forks of the
// dataset none does.
func TestPreloadEnds(t *testing.T) {
	forks, moved := 0, 0
	for fork := range data.Reference().Forks() {
		if !fork.Left.Role.HasAir() && !fork.Right.Role.HasAir() {
			continue
		}
		f, err := jobfile.Typical(fork.ID, data.Reference())
		if err != nil {
			t.Fatal(err)
		}
		j := f.Job
		r := plan(t, j)
		forks++
		for _, c := range r.Candidates {
			p := j.Preload
			if c.Behavior.Sag.Load == 0 || c.Preload == p.Aim || p.Aim < conversion.LeastPreload {
				continue
			}
			moved++
			spec := c.Behavior.Setup.Spec()
			at, err := setup.New(withPreload(spec, p.Aim))
			if err != nil {
				t.Fatal(err)
			}
			sag, err := at.Sag(c.Behavior.Sag.Load)
			if err != nil {
				continue // the aim does not carry the rider
			}
			gain := math.Abs(float64(sag.Middle-r.TargetSag)) - math.Abs(float64(c.Behavior.Sag.Middle-r.TargetSag))
			if u := r.Present.Uncertainty; u != nil && gain <= 0.8*float64(u.Sag) {
				t.Errorf("%s, coil %s: preload %.1f for %.1f mm of sag that is known to %.1f", fork.ID, c.Coil, c.Preload,
					1000*gain, u.Sag)
			}
		}
	}
	if forks < 16 {
		t.Errorf("%d air forks", forks)
	}
	t.Logf("%d air forks, %d candidates off their aim", forks, moved)
}

// withPreload is the fork with another preload of its coils.
func withPreload(s setup.Spec, preload units.Length) setup.Spec {
	for _, l := range []*setup.Leg{&s.Left, &s.Right} {
		springs := make([]spring.Spec, len(l.Springs))
		for i, one := range l.Springs {
			springs[i] = one
			if coil, ok := one.(spring.CoilSpec); ok {
				coil.Preload = preload
				springs[i] = coil
			}
		}
		l.Springs = springs
	}
	return s
}
