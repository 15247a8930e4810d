package bench

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Question is something asked of a fork whose answer is a number, in SI.
type Question struct {
	Name string                      // in words
	Of   func(Fork) (float64, error) // the answer of a fork, in SI
	Text func(v float64) string      // of an answer, with its unit
}

// SagOf is the sag with a rider, or of the machine alone, in other air.
func SagOf(rider units.Mass, there gas.Ambient) Question {
	return Question{"sag there", func(f Fork) (float64, error) {
		set, err := setup.New(f.Spec)
		if err != nil {
			return 0, err
		}
		if set, err = set.At(there); err != nil {
			return 0, err
		}
		b := bench{fork: f}
		x, err := spring.Equilibrium(set.Curve(gas.Isothermal), b.load(rider))
		return float64(x), err
	}, as[units.Length]("%.1f")}
}

// DriftOf is by how much more the fork sags in other air than in that of the room, closed in
// the same.
func DriftOf(rider units.Mass, room, there gas.Ambient) Question {
	here, away := SagOf(rider, room), SagOf(rider, there)
	return Question{"change of sag there", func(f Fork) (float64, error) {
		x, err := here.Of(f)
		if err != nil {
			return 0, err
		}
		y, err := away.Of(f)
		return y - x, err
	}, as[units.Length]("%+.1f")}
}

// EnergyTo is what the fork takes up to a travel, ridden from full extension.
func EnergyTo(travel units.Length) Question {
	return Question{fmt.Sprintf("energy to %.0f", travel), func(f Fork) (float64, error) {
		set, err := setup.New(f.Spec)
		if err != nil {
			return 0, err
		}
		c := set.Curve(f.Exponent)
		if err := spring.Err(c); err != nil {
			return 0, err
		}
		if travel > c.Stroke() {
			return 0, &units.RangeError{Field: "EnergyTo", Value: travel,
				Want: fmt.Sprintf("up to %.0f, where this fork ends", c.Stroke())}
		}
		return float64(c.Energy(travel)), nil
	}, as[units.Energy]("%.0f")}
}

// OilFor is the oil volume in one leg that gives its gas a compression ratio, with the
// metal as it is known: what the technician pours.
func OilFor(side setup.Side, ratio float64) Question {
	return Question{fmt.Sprintf("oil in the %v leg for a ratio of %.1f", side, ratio), func(f Fork) (float64, error) {
		leg := [...]setup.Leg{f.Spec.Left, f.Spec.Right}[side&1]
		o := f.Oil[side&1]
		if leg.Gap == nil || o.Interior == 0 || !(ratio > 1 && ratio < oil.LockRatio) {
			return 0, &units.RangeError{Field: "OilFor", Value: ratio,
				Want: "a leg with gas over its oil whose interior is known, and a ratio of 1 to 100"}
		}
		swept := float64(leg.Gap.Area) * float64(f.Spec.Travel)
		return float64(o.Interior-o.Metal) - swept/(ratio-1), nil
	}, as[units.Volume]("%.0f")}
}

// LockMargin is the gas left in one leg at full travel with the oil it has; below 0 it locks.
func LockMargin(side setup.Side) Question {
	return Question{fmt.Sprintf("gas left in the %v leg", side), func(f Fork) (float64, error) {
		leg := [...]setup.Leg{f.Spec.Left, f.Spec.Right}[side&1]
		if leg.Gap == nil {
			return 0, &units.RangeError{Field: "LockMargin", Value: side, Want: "a leg with gas over its oil"}
		}
		return float64(f.filled().leg(side).Gap.Residual), nil
	}, as[units.Volume]("%.0f")}
}

func (f Fork) leg(side setup.Side) setup.Leg {
	return [...]setup.Leg{f.Spec.Left, f.Spec.Right}[side&1]
}

// RateFor is the rate of the whole fork that holds as much energy to 90 % of the travel as
// this one, ridden from full extension, with a preload: what a coil must have that
// stands in for it by itself.
func RateFor(preload units.Length) Question {
	return Question{"rate of a coil of the same energy", func(f Fork) (float64, error) {
		set, err := setup.New(f.Spec)
		if err != nil {
			return 0, err
		}
		c := set.Curve(f.Exponent)
		if err := spring.Err(c); err != nil {
			return 0, err
		}
		end := min(f.Spec.Travel*9/10, c.Stroke())
		return 2 * float64(c.Energy(end)) / (float64(end+preload)*float64(end+preload) - float64(preload)*float64(preload)),
			nil
	}, as[units.Stiffness]("%.2f")}
}

// Answer is what the best fork says, with its standard uncertainty and the 95 % between Low and High: to first
// order, or by the samples of a refined fork. Before is the uncertainty before the readings, to first order.
type Answer struct {
	Value, SD, Before, Low, High float64 // SI
	text                         func(float64) string
}

func (a Answer) String() string {
	return fmt.Sprintf("%s ± %s (± %s before)", a.text(a.Value), unsigned(a.text, a.SD), unsigned(a.text, a.Before))
}

// Answer asks the fork.
func (k *Known) Answer(q Question) (Answer, error) {
	v, err := q.Of(k.Fork())
	if err != nil {
		return Answer{}, err
	}
	g, err := k.gradient(q, k.z)
	if err != nil {
		return Answer{}, err
	}
	first, err := k.gradient(q, make([]float64, len(k.z)))
	if err != nil {
		return Answer{}, err
	}
	a := Answer{Value: v, SD: math.Sqrt(k.variance(g)), Before: math.Sqrt(sumSquares(first)), text: q.Text}
	a.Low, a.High = v-percentile97*a.SD, v+percentile97*a.SD
	if s := sampled(k.answers(q)); s.StdDev > 0 {
		a.Value, a.SD, a.Low, a.High = s.Mean, s.StdDev, s.Low, s.High
	}
	return a, nil
}

// mostAsked is of how many of its samples a refined fork asks a question: enough to know a quantile
// at 2.5 % within 0.4 %.
const mostAsked = 2000

// answers of the samples of a refined fork; nil where there are none.
func (k *Known) answers(q Question) []float64 {
	if k.sample == nil {
		return nil
	}
	n := min(len(k.sample), mostAsked)
	list := make([]float64, n)
	_ = every(context.Background(), n, func() func(i int) { // ends with its last sample
		return func(i int) { list[i] = q.or(math.NaN(), at(k.prior, k.scales, k.sample[i*len(k.sample)/n])) }
	})
	return slices.DeleteFunc(list, math.IsNaN)
}

func (k *Known) variance(g []float64) float64 { return variance(g, k.covariance) }

// variance gᵀCg of an answer (JCGM 102:2011, 6.2).
func variance(g []float64, c mat.Symmetric) float64 {
	v := mat.NewVecDense(len(g), g)
	return mat.Inner(v, c, v)
}

// gradient of an answer in z.
func (k *Known) gradient(q Question, z []float64) ([]float64, error) {
	return gradient(z, 1e-2, func(z, dst []float64) (err error) {
		dst[0], err = q.Of(at(k.prior, k.scales, z))
		return err
	})
}

// Candidate is a reading that might be taken: what it would read does not matter.
type Candidate struct {
	Reading Reading // with what it would read left open
	Minutes float64 // of work
}

// Worth is what a candidate would do for an answer.
type Worth struct {
	Candidate
	SD        float64 // of the answer after it, SI
	PerMinute float64 // part of the present uncertainty that it takes away, for a minute of work
	text      func(float64) string
}

func (w Worth) String() string {
	return fmt.Sprintf("%v: ± %s after %.0f min", w.Reading, w.text(w.SD), w.Minutes)
}

// Next ranks readings by what they are expected to take off the uncertainty of an answer for
// a minute of work. Candidates that this fork can not show are left out.
func (k *Known) Next(q Question, candidates []Candidate) ([]Worth, error) {
	g, err := k.gradient(q, k.z)
	if err != nil {
		return nil, err
	}
	now := k.variance(g)
	var list []Worth
	for _, c := range candidates {
		if c.Reading == nil || !(c.Minutes > 0) {
			continue
		}
		row, err := k.slope(c.Reading)
		if err != nil {
			continue
		}
		_, sd := c.Reading.read()
		shared := mat.Inner(mat.NewVecDense(len(g), g), k.covariance, mat.NewVecDense(len(row), row))
		own := k.variance(row)
		left := max(0, now-shared*shared/(sd*sd+own))
		list = append(list, Worth{c, math.Sqrt(left), (1 - math.Sqrt(left/now)) / c.Minutes, q.Text})
	}
	slices.SortStableFunc(list, func(a, b Worth) int { return cmp.Compare(b.PerMinute, a.PerMinute) })
	return list, nil
}
