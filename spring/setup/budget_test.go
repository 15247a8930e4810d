package setup_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// What every input adds is what it would leave alone, together they make the whole, and the
// effects have their signs.
func TestBudget(t *testing.T) {
	known := setup.Tolerance{Rate: 0.02, Preload: 0.5 * mm, Gauge: 0.1 * units.Bar, Residual: 3 * units.Milliliter,
		Temperature: 2, Load: 5, Rider: 4, Stance: 31, Chambers: 0.06, Exponent: 0.05, Weather: 750}
	alone := map[string]setup.Tolerance{"load": {Load: 5}, "rider": {Rider: 4}, "share of the front wheel": {Stance: 31},
		"exponent of the ridden gas": {Exponent: 0.05}, "weather there": {Weather: 750},
		"temperature there": {Temperature: 2},
		"pump gauge":        {Gauge: 0.1 * units.Bar}}
	q := question(t, 700)
	b, err := motocrossAir.Budget(q, known)
	if err != nil {
		t.Fatal(err)
	}
	var sag, energy, drift float64
	met := 0
	for _, p := range b.Parts {
		sag, energy = math.Hypot(sag, float64(p.Sag)), math.Hypot(energy, float64(p.Energy))
		drift = math.Hypot(drift, float64(p.Drift))
		if only, ok := alone[p.Input]; ok {
			met++
			u, err := motocrossAir.Uncertainty(q, only)
			if err != nil || math.Abs(math.Abs(float64(p.Sag))-float64(u.Sag)) > 1e-12 ||
				math.Abs(math.Abs(float64(p.Energy))-float64(u.Energy)) > 1e-9 {
				t.Errorf("%s: %+v, alone %+v, %v", p.Input, p, u, err)
			}
		}
		switch {
		case p.Input == "exponent of the ridden gas" && !(p.Sag == 0 && p.Energy > 0),
			p.Input == "share of the front wheel" && p.Sag <= 0, p.Input == "pump gauge" && p.Sag >= 0,
			p.Input == "weather there" && (p.Sag != 0 || p.Drift == 0):
			t.Errorf("%s: %+v", p.Input, p)
		}
	}
	if met != len(alone) {
		t.Errorf("%d of %d inputs: %+v", met, len(alone), b.Parts)
	}
	for name, pair := range map[string][2]float64{"sag": {sag, float64(b.Total.Sag)},
		"energy": {energy, float64(b.Total.Energy)}, "drift": {drift, float64(b.Total.Drift)}} {
		if !(math.Abs(pair[0]-pair[1]) <= 1e-9*pair[1]) {
			t.Errorf("%s: parts %v, whole %v", name, pair[0], pair[1])
		}
	}
	// First order agrees with samples of all of them.
	d, err := motocrossAir.Sample(t.Context(), q, known, 4000, 3)
	if err != nil {
		t.Fatal(err)
	}
	for name, pair := range map[string][2]float64{"sag": {float64(b.Total.Sag), float64(d.StdDev.Sag)},
		"energy": {float64(b.Total.Energy), float64(d.StdDev.Energy)},
		"drift":  {float64(b.Total.Drift), float64(d.StdDev.Drift)}} {
		if !(math.Abs(pair[0]/pair[1]-1) <= 0.08) {
			t.Errorf("%s: first order %v, samples %v", name, pair[0], pair[1])
		}
	}
}

// Every chamber of an air spring may be off, a linked one too: by what each adds to the sag of a fork that has it.
func TestEveryChamberMayBeOff(t *testing.T) {
	for name, s := range layouts() {
		a := s.Left.Air
		if a == nil {
			continue
		}
		q := question(t, must(t, s).Curve(1).Force(s.Travel/5))
		b, err := s.Budget(q, setup.Tolerance{Chambers: 0.05})
		if err != nil {
			t.Fatal(name, err)
		}
		told := map[string]float64{}
		for _, p := range b.Parts {
			told[p.Input] = float64(p.Sag)
		}
		for chamber, of := range map[setup.Chamber]func(a *setup.Air) *units.Volume{
			setup.Positive: func(a *setup.Air) *units.Volume { return &a.Volume },
			setup.Negative: func(a *setup.Air) *units.Volume { return &a.NegativeVolume },
			setup.Second:   func(a *setup.Air) *units.Volume { return &a.SecondVolume },
			setup.Linked:   func(a *setup.Air) *units.Volume { return &a.Linked },
		} {
			input := chamber.String() + " chamber, left"
			if got, ok := told[input]; ok != (*of(a) != 0) {
				t.Errorf("%s: the %s is told: %v, %v", name, input, ok, got)
			} else if !ok {
				continue
			}
			var ends [2]float64
			for i, e := range [2]units.Volume{0.95, 1.05} {
				c := s.Clone()
				*of(c.Left.Air) *= e
				sag, err := must(t, c).Sag(q.Load)
				if err != nil {
					t.Fatal(name, err)
				}
				ends[i] = float64(sag.Middle)
			}
			if want := (ends[1] - ends[0]) / 2; !(math.Abs(told[input]-want) <= 0.02*math.Abs(want)+1e-6) {
				t.Errorf("%s: %s adds %.3g m of sag, want %.3g m", name, input, told[input], want)
			}
		}
	}
}
