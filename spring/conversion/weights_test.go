package conversion_test

import (
	"math"
	"testing"

	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/units"
)

// Each weight alone puts the safe coil first that is best by it, told by numbers of the report;
// what is not safe comes last whatever it is good at.
func TestWeights(t *testing.T) {
	job := func() conversion.Job {
		j := motocross(t)
		for _, k := range []units.Stiffness{7.4, 7.8, 9.8} {
			j.Shelf = append(j.Shelf, coil(k*nmm))
		}
		binds := coil(8.7 * nmm) // the nearest, and too short
		binds.Wire.FreeLength = 560 * mm
		j.Shelf = append(j.Shelf, binds)
		return j
	}
	r := plan(t, job())
	target := r.Targets[conversion.Energy].Rate
	cautions := func(c conversion.Candidate) (n float64) {
		for _, f := range c.Findings {
			if f.Severity == conversion.Caution {
				n++
			}
		}
		return n
	}
	missed := func(c conversion.Candidate) float64 {
		return float64(max(1-c.Chances.SagInWindow, c.Chances.Bind, c.Chances.Lock, c.Chances.OverPressure))
	}
	first := map[string]bool{}
	for name, c := range map[string]struct {
		weights conversion.Weights
		cost    func(conversion.Candidate) float64
	}{
		"support": {conversion.Weights{Support: 1}, func(c conversion.Candidate) float64 {
			return math.Abs(math.Log(float64(c.Rate / target)))
		}},
		"comfort": {conversion.Weights{Comfort: 2}, func(c conversion.Candidate) float64 {
			return float64(c.Behavior.Rate)
		}},
		"bottoming": {conversion.Weights{Bottoming: 1}, func(c conversion.Candidate) float64 {
			return -float64(c.Behavior.EnergyFull)
		}},
		"robustness": {conversion.Weights{Robustness: 1}, missed},
		"cautions":   {conversion.Weights{Cautions: 3}, cautions},
	} {
		j := job()
		j.Weights = c.weights
		got := plan(t, j)
		for i, after := range got.Candidates[1:] {
			before := got.Candidates[i]
			if !before.Safe() && after.Safe() {
				t.Errorf("%s: unsafe %s before safe %s", name, before.Coil, after.Coil)
			}
			if before.Safe() && after.Safe() && c.cost(before) > c.cost(after)+1e-9 {
				t.Errorf("%s: %s costs %v, after it %s %v", name, before.Coil, c.cost(before), after.Coil, c.cost(after))
			}
		}
		first[got.Candidates[0].Coil] = true
		// Off the front is what another safe one betters in everything.
		for _, a := range got.Candidates {
			better := false
			for _, b := range got.Candidates {
				x, y := a.Scores, b.Scores
				if b.Safe() && y.Support <= x.Support && y.Comfort <= x.Comfort && y.Bottoming <= x.Bottoming &&
					y.Robustness <= x.Robustness && y.Cautions <= x.Cautions && b.Coil != a.Coil {
					better = true
				}
			}
			if a.Scores.Pareto == (better || !a.Safe()) {
				t.Errorf("%s: %s on the front %v, bettered %v", name, a.Coil, a.Scores.Pareto, better)
			}
		}
	}
	if len(first) < 3 {
		t.Errorf("the weights choose among %v only: the test tells little", first)
	}
	j := job()
	j.Weights.Comfort = 11
	if _, err := conversion.Plan(j); err == nil {
		t.Error("a weight of 11")
	}
}
