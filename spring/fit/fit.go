package fit

import (
	"errors"
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// Result is a model with its free parameters at their best.
type Result struct {
	Model     Model
	StdErr    StdErr      // of the free parameters
	Held      []Parameter // free ones that ended on a bound, which then held them
	Sigma     units.Force // standard deviation s of one reading
	Residuals []Residual  // in the order of the readings, loading first
	Steps     int         // of the search that ended here

	covariance *covariance
}

// StdErr holds the standard errors of the free parameters; 0 stands for one
// that is known, or held by a bound.
type StdErr struct {
	Rate          units.Stiffness
	Preload       units.Length
	GapVolume     units.Volume
	ChamberVolume units.Volume
	Exponent      float64
	Friction      units.Force
}

// Residual is how far a reading lies above the model.
type Residual struct {
	Travel    units.Length
	Force     units.Force // measured − model
	Unloading bool        // taken while extending
}

// Curve is the fitted spring, without the friction.
func (r *Result) Curve() spring.Curve {
	c, _ := r.Model.Curve() // every value has been checked with its bounds
	return c
}

// Correlation of the errors of two free parameters, −1 to 1; near either end
// the readings tell mostly a combination of the two. It is 0 for a parameter
// that is known or held.
func (r *Result) Correlation(a, b Parameter) float64 { return r.covariance.correlation(a, b) }

// Fit finds the values of the free parameters that bring the model closest to
// the readings in the least-squares sense. Readings at x < 0 are left out; those
// that remain may be in any order and repeat.
//
// The model must hold over all readings for any value within the bounds, and
// there must be more readings than free parameters. The search starts from the
// model and from either side of it in every parameter. Parameters that the
// readings do not determine are an *UnidentifiableError.
func Fit(readings spring.MeasuredSpec, m Model, free ...Free) (*Result, error) {
	p, err := newProblem(readings, m, free)
	if err != nil {
		return nil, err
	}
	ends := p.search()
	best := ends[0]
	sigma := math.Sqrt(best.squares / float64(len(p.samples)-len(free)))
	r := &Result{Model: p.at(best.z), Sigma: units.Force(sigma), Steps: best.steps}
	r.Residuals = p.residuals(r.Model)
	r.covariance, r.Held, err = p.covariance(ends, sigma)
	switch {
	case err != nil: // which is also the usual reason not to settle
		return nil, err
	case !best.settled:
		return nil, fmt.Errorf("fit: the search does not settle in %d steps; narrow the bounds", best.steps)
	}
	r.StdErr = StdErr{
		Rate:          units.Stiffness(r.covariance.stdErr(Rate)),
		Preload:       units.Length(r.covariance.stdErr(Preload)),
		GapVolume:     units.Volume(r.covariance.stdErr(GapVolume)),
		ChamberVolume: units.Volume(r.covariance.stdErr(ChamberVolume)),
		Exponent:      r.covariance.stdErr(Exponent),
		Friction:      units.Force(r.covariance.stdErr(Friction)),
	}
	return r, nil
}

// problem is a checked fit.
type problem struct {
	model   Model
	free    []Free
	samples []sample
}

// sample is a reading in SI, less the known rest of the model.
type sample struct{ x, f, sign float64 }

func newProblem(readings spring.MeasuredSpec, m Model, free []Free) (*problem, error) {
	f := check.Of("Fit")
	p := &problem{model: m, free: free}
	reach := p.take(f, "Loading", readings.Loading, 1)
	reach = max(reach, p.take(f, "Unloading", readings.Unloading, -1))
	if len(p.samples) <= len(free) {
		f.Report("readings", fmt.Sprintf("%d at x ≥ 0", len(p.samples)), fmt.Sprintf("more than the %d free parameters", len(free)), "")
	}
	checkFree(f, m, free)
	if err := f.Err(); err != nil {
		return nil, err
	}
	// Every field has a range of its own, and the gas left at full travel depends
	// on one volume, so that checking each bound alone checks the whole box.
	start := p.at(p.start())
	for _, q := range free {
		for _, v := range []float64{q.low, q.high} {
			corner := start
			corner.set(q.parameter, v)
			c, err := corner.Curve()
			if err != nil {
				return nil, fmt.Errorf("fit: with %v at a bound: %w", q.parameter, err)
			}
			if c.Stroke() < reach {
				return nil, fmt.Errorf("fit: with %v at a bound: %w", q.parameter,
					&units.RangeError{Field: "readings", Value: reach, Want: fmt.Sprintf("within the model's stroke of %.6g", c.Stroke())})
			}
		}
	}
	if m.Rest != nil {
		for i := range p.samples {
			s := &p.samples[i]
			s.f -= float64(m.Rest.Force(units.Length(s.x)))
		}
	}
	return p, nil
}

// take adds the readings of a branch at x ≥ 0, and returns the greatest travel.
func (p *problem) take(f *check.Faults, branch string, readings []spring.Reading, sign float64) units.Length {
	var reach units.Length
	for i, r := range readings {
		field := fmt.Sprintf("%s[%d]", branch, i)
		x := check.Between(f, field+".Travel", r.Travel, -10*units.Millimeter, 500*units.Millimeter)
		y := check.Between(f, field+".Force", r.Force, -50*units.Kilonewton, 50*units.Kilonewton)
		if x && y && r.Travel >= 0 {
			p.samples = append(p.samples, sample{float64(r.Travel), float64(r.Force), sign})
			reach = max(reach, r.Travel)
		}
	}
	return reach
}

// at is the model at a point of the unit box that the bounds span.
func (p *problem) at(z []float64) Model {
	m := p.model
	for i, q := range p.free {
		m.set(q.parameter, min(q.high, q.low+z[i]*(q.high-q.low)))
	}
	return m
}

// start is where the search begins in the unit box.
func (p *problem) start() []float64 {
	z := make([]float64, len(p.free))
	for i, q := range p.free {
		z[i] = 0.5
		if v := p.model.get(q.parameter); v > q.low && v < q.high {
			z[i] = (v - q.low) / (q.high - q.low)
		}
	}
	return z
}

func (p *problem) residuals(m Model) []Residual {
	t := m.terms()
	var unused [parameters]float64
	all := make([]Residual, len(p.samples))
	for i, s := range p.samples {
		all[i] = Residual{units.Length(s.x), units.Force(s.f - t.force(s.x, s.sign, &unused)), s.sign < 0}
	}
	return all
}

// UnidentifiableError tells that the readings do not determine some of the free
// parameters.
type UnidentifiableError struct {
	Parameters []Parameter
	Reason     string
}

func (e *UnidentifiableError) Error() string {
	s := "fit: the readings do not determine "
	for i, p := range e.Parameters {
		switch {
		case i > 0 && i == len(e.Parameters)-1:
			s += " and "
		case i > 0:
			s += ", "
		}
		s += p.String()
	}
	return s + ": " + e.Reason
}

var errSingular = errors.New("fit: singular value decomposition failed")
