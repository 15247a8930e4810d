package explore

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Sure is how well the answers are known with what a workshop reaches.
type Sure struct {
	Forks []SureFork
	Means string // what was taken as known how well
}

// SureFork is the band of one fork, ridden, that nine of ten random forks lie in.
type SureFork struct {
	Name           string
	X, Low, High   []float64
	Drawn, Refused int
	Lines          []string
}

const draws, bandSamples = 100, 41

// Sure draws forks within the usual tolerances and reads their curves.
func (s State) Sure() (Sure, error) {
	t := setup.Usual()
	out := Sure{Means: fmt.Sprintf("One standard deviation each: spring rate %.0f, preload %.1f, gauge %.1f, gas over "+
		"the oil %.1f a leg, "+
		"temperature %.0f, load %.0f. Common practice, no source: what a careful workshop "+
		"reaches.", t.Rate, t.Preload, t.Gauge, t.Residual,
		t.Temperature, t.Load)}
	_, now, err := s.Air()
	if err != nil {
		return out, err
	}
	for i := range s.Forks {
		f, there, err := s.Fork(i)
		if err != nil {
			return out, err
		}
		if !there {
			continue
		}
		sf := SureFork{Name: f.Name}
		known, err := f.Spec.Spread(setup.Question{Load: f.Load, Exponent: s.Exponent, There: now}, t)
		if err != nil {
			return out, err
		}
		sf.Lines = []string{"sag ± " + show(millimeters, s, known.Sag, 1), "energy to the end ± " + show(joules, s,
			known.Energy, 0),
			"change from there to here ± " + show(millimeters, s, known.Drift, 1) + ", nothing touched"}
		xs := make([]units.Length, bandSamples)
		for i := range xs {
			xs[i] = f.Spec.Travel * units.Length(i) / bandSamples // short of the end, where a leg may lock
			sf.X = append(sf.X, millimeters[s.system()].of(xs[i]))
		}
		forces := make([][]float64, bandSamples)
		r := rand.New(rand.NewPCG(14, uint64(i)))
		for range draws {
			curve, err := s.drawn(f, t, r)
			if err != nil {
				sf.Refused++
				continue
			}
			sf.Drawn++
			for i, force := range spring.AppendForces(nil, curve, xs) {
				if xs[i] <= curve.Stroke() {
					forces[i] = append(forces[i], newtons[s.system()].of(force))
				}
			}
		}
		for i, list := range forces {
			if len(list) < draws/2 {
				sf.X = sf.X[:i]
				break
			}
			slices.Sort(list)
			sf.Low = append(sf.Low, list[len(list)/20])
			sf.High = append(sf.High, list[len(list)-1-len(list)/20])
		}
		out.Forks = append(out.Forks, sf)
	}
	return out, nil
}

// drawn is the ridden curve of a random fork within the tolerances, after the same events.
func (s State) drawn(f Fork, t setup.Tolerance, r *rand.Rand) (spring.Curve, error) {
	fork, err := setup.New(f.Spec.Draw(t, r))
	if err != nil {
		return nil, err
	}
	if fork, err = s.since(fork, f.Load); err != nil {
		return nil, err
	}
	sag, err := fork.Sag(f.Load)
	if err != nil {
		return nil, err
	}
	return fork.CurveAbout(sag.Middle, s.Exponent), nil
}
