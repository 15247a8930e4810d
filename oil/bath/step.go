package bath

import (
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Verdict is what is to be said of a fill.
type Verdict string

const (
	Good    Verdict = "good" // up to [oil.GoodRatio], and up to [oil.MostRatio] once warm
	Care    Verdict = "care" // beyond that, up to MostRatio
	Refused Verdict = "NO"   // beyond MostRatio, or locked once warm
	Locked  Verdict = "LOCK" // as filled
)

// Judge holds a fill, cold and warm, against the compression ratios of common practice.
func Judge(cold, warm End) Verdict {
	switch {
	case cold.Locked:
		return Locked
	case cold.Ratio > oil.MostRatio || warm.Locked:
		return Refused
	case cold.Ratio > oil.GoodRatio || warm.Ratio > oil.MostRatio:
		return Care
	}
	return Good
}

// Step is what more oil in each leg does.
type Step struct{ From, To End }

// Step goes from one fill to another with more oil in each leg, or less.
func (b Bath) Step(from, more units.Volume, air gas.Ambient) (Step, error) {
	before, err := b.End(from, air)
	if err != nil {
		return Step{}, err
	}
	after, err := b.End(from+more, air)
	return Step{before, after}, err
}

// Change of the force of the whole fork at a travel, and as a share of what it was.
func (s Step) Change(x units.Length) (units.Force, units.Share) {
	before, after := s.From.Force(x), s.To.Force(x)
	return after - before, units.Share(after/before - 1)
}
