package conversion

import (
	"cmp"
	"math"
	"slices"

	"example.org/forkcurve/internal/check"
)

// Weights say what the shelf is ranked by, each against one step of the usual racks, RateShare: 0
// leaves it out, 10 is the most. What is not safe is ranked last whatever they are.
type Weights struct {
	Support    float64 `json:"support"`    // how near the rate is to the one asked for
	Comfort    float64 `json:"comfort"`    // how soft the fork is about its sag, as ridden
	Bottoming  float64 `json:"bottoming"`  // energy to full travel, in reserve
	Robustness float64 `json:"robustness"` // odds that the sag stays in its window and nothing binds or locks
	Cautions   float64 `json:"cautions"`   // how few cautions
}

// UsualWeights rank by the rate asked for, two cautions counting as a step of it.
func UsualWeights() Weights { return Weights{Support: 1, Cautions: 1} }

// MostWeight is the largest of the weights.
const MostWeight = 10

func (w Weights) validate() error {
	f := check.Of("Weights")
	check.Between(f, "Support", w.Support, 0, MostWeight)
	check.Between(f, "Comfort", w.Comfort, 0, MostWeight)
	check.Between(f, "Bottoming", w.Bottoming, 0, MostWeight)
	check.Between(f, "Robustness", w.Robustness, 0, MostWeight)
	check.Between(f, "Cautions", w.Cautions, 0, MostWeight)
	return f.Err()
}

// Scores are what a candidate costs by each weight, in steps of the shelf, the less the better.
type Scores struct {
	Support   float64 `json:"support"`   // |ln(rate/asked)| over RateShare
	Comfort   float64 `json:"comfort"`   // ln(rate about the sag/the present one) over RateShare
	Bottoming float64 `json:"bottoming"` // ln(the present energy to full travel/energy) over RateShare

	// Robustness is the odds of the worst, OddsStep a step: that the sag misses its window, or that
	// the spring binds, a leg locks or passes a limit.
	Robustness float64 `json:"robustness"`

	Cautions float64 `json:"cautions"` // CautionShare over RateShare each
	Total    float64 `json:"total"`    // weighted

	// Pareto: no other safe coil is as good in everything and better in something.
	Pareto bool `json:"pareto"`
}

// OddsStep are odds that count as much as a step of the shelf. Common practice, no source.
const OddsStep = 0.1

// scores of a candidate; of a fork that does not carry the rider rate and cautions alone.
func (p *planner) scores(c Candidate) Scores {
	s := Scores{Support: distance(c.RateDeviation) / RateShare}
	for _, f := range c.Findings {
		if f.Severity == Caution {
			s.Cautions += CautionShare / RateShare
		}
	}
	if c.Behavior.Sag.Load != 0 {
		s.Comfort = math.Log(float64(c.Behavior.Rate/p.now.Rate)) / RateShare
		s.Bottoming = math.Log(float64(p.now.EnergyFull/c.Behavior.EnergyFull)) / RateShare
		odds := float64(max(c.Chances.Bind, c.Chances.Lock, c.Chances.OverPressure))
		if c.Behavior.Uncertainty != nil {
			odds = max(odds, 1-float64(c.Chances.SagInWindow))
		}
		s.Robustness = odds / OddsStep
	}
	w := p.weights()
	s.Total = w.Support*s.Support + w.Comfort*s.Comfort + w.Bottoming*s.Bottoming + w.Robustness*s.Robustness +
		w.Cautions*s.Cautions
	return s
}

// weights of the job.
func (j Job) weights() Weights {
	if j.Weights == (Weights{}) {
		return UsualWeights()
	}
	return j.Weights
}

// rank puts safe candidates first, then those that cost less by the weights of the job.
func rank(a, b Candidate) int {
	if a.Safe() != b.Safe() {
		if a.Safe() {
			return -1
		}
		return 1
	}
	return cmp.Compare(a.Scores.Total, b.Scores.Total)
}

// pareto marks the safe candidates that no other safe one dominates.
func pareto(list []Candidate) {
	for i := range list {
		dominated := func(by Candidate) bool { return by.Safe() && by.Scores.dominate(list[i].Scores) }
		list[i].Scores.Pareto = list[i].Safe() && !slices.ContainsFunc(list, dominated)
	}
}

// dominate reports scores as good in everything and better in something.
func (s Scores) dominate(other Scores) bool {
	better := false
	for _, pair := range [...][2]float64{{s.Support, other.Support}, {s.Comfort, other.Comfort},
		{s.Bottoming, other.Bottoming}, {s.Robustness, other.Robustness}, {s.Cautions, other.Cautions}} {
		if pair[0] > pair[1] {
			return false
		}
		better = better || pair[0] < pair[1]
	}
	return better
}
