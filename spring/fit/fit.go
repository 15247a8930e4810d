package fit

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/lsq"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/units"
)

// Result is a model with its free parameters at their best.
type Result struct {
	Model     Model       // the best
	Held      []string    // free parameters that ended on a bound, which then held them
	Sigma     units.Force // standard deviation s of one reading
	Residuals []Residual  // in the order of the readings, loading first
	Steps     int         // of the search that ended here

	covariance covariance
}

// Residual is how far a reading lies above the model.
type Residual struct {
	Travel    units.Length // of the reading
	Measured  units.Force  // as read
	Force     units.Force  // measured − model
	Unloading bool         // taken while extending
}

// Curve is the fitted fork as the bench moves it, without the friction.
func (r *Result) Curve() spring.Curve { return r.Model.Curve() }

// Correlation of the errors of two free parameters by their names, −1 to 1; near
// either end the readings tell mostly a combination of the two. It is 0 for a
// parameter that is known or held.
func (r *Result) Correlation(a, b fmt.Stringer) float64 {
	return r.covariance.correlation(a.String(), b.String())
}

// Fit finds the values of the free parameters that bring the model closest to
// the readings in the least-squares sense. Readings at x < 0 are left out; those
// that remain may be in any order and repeat.
//
// The model must hold over all readings with each parameter at either bound, and
// there must be more readings than free parameters. The search starts from the
// model and, for each parameter that the force is not linear in, from either side of
// it. Parameters that the readings do not determine are an *UnidentifiableError.
func Fit(readings spring.MeasuredSpec, m Model, free ...Free) (*Result, error) {
	p, err := newProblem(readings, m, free)
	if err != nil {
		return nil, err
	}
	ends := p.search()
	best := ends[0]
	sigma := math.Sqrt(best.Squares / float64(len(p.samples)-len(free)))
	r := &Result{Sigma: units.Force(sigma), Steps: best.Steps, Residuals: make([]Residual, 0, len(p.samples))}
	r.covariance, r.Held, err = p.determined(ends, sigma)
	switch {
	case err != nil: // which is also the usual reason not to settle
		return nil, err
	case !best.Reason.Converged():
		return nil, fmt.Errorf("fit: the search ends after %d steps (%v); narrow the bounds", best.Steps, best.Reason)
	}
	off := make([]float64, len(p.samples))
	p.evaluate(best.z, off)
	r.Model = p.model
	for i, s := range p.samples {
		r.Residuals = append(r.Residuals, Residual{units.Length(s.x), units.Force(s.f), units.Force(-off[i]), s.way < 0})
	}
	return r, nil
}

// problem is a checked fit, in the unit box that the bounds span.
type problem struct {
	model   Model // a copy, at whatever point was looked at last
	free    []Free
	set     []func(v float64) // each of them in the model
	samples []sample
	travels []units.Length
	forces  []units.Force // room for them
	rates   []units.Stiffness
	reach   units.Length // of the readings
	start   []float64    // where the search begins
	box     lsq.Problem
	solver  *lsq.Solver
}

// sample is a reading in SI; way is −1 while extending.
type sample struct{ x, f, way float64 }

func newProblem(readings spring.MeasuredSpec, m Model, free []Free) (*problem, error) {
	f := check.Of("Fit")
	all := len(readings.Loading) + len(readings.Unloading)
	p := &problem{model: m.clone(), free: free, samples: make([]sample, 0, all), travels: make([]units.Length, 0, all)}
	p.take(f, "Loading", readings.Loading, 1)
	p.take(f, "Unloading", readings.Unloading, -1)
	if len(p.samples) <= len(free) {
		f.Report("readings", fmt.Sprintf("%d at x ≥ 0", len(p.samples)),
			fmt.Sprintf("more than the %d free parameters", len(free)), "")
	}
	checkFree(f, &p.model, free)
	if err := f.Err(); err != nil {
		return nil, err
	}
	n := len(free)
	p.start = make([]float64, n)
	lower, upper := make([]float64, n), make([]float64, n)
	for i, q := range free {
		p.set = append(p.set, q.bind(&p.model))
		p.start[i], upper[i] = 0.5, 1
		if v, _ := q.get(&p.model); v > q.low && v < q.high {
			p.start[i] = (v - q.low) / (q.high - q.low)
		}
	}
	p.box = lsq.Problem{Parameters: n, Residuals: len(p.samples), Lower: lower, Upper: upper,
		Evaluate: p.evaluate, Differentiate: p.differentiate}
	p.solver = lsq.NewSolver(p.box)
	p.solver.Tolerance = 1e-6
	return p, p.checkBounds()
}

// take adds the readings of a branch at x ≥ 0.
func (p *problem) take(f *check.Faults, branch string, readings []spring.Reading, way float64) {
	for i, r := range readings {
		if !(r.Travel >= shallow && r.Travel <= deep && r.Force >= -strong && r.Force <= strong) {
			field := fmt.Sprintf("%s[%d]", branch, i)
			check.Between(f, field+".Travel", r.Travel, shallow, deep)
			check.Between(f, field+".Force", r.Force, -strong, strong)
		} else if r.Travel >= 0 {
			p.samples = append(p.samples, sample{float64(r.Travel), float64(r.Force), way})
			p.travels, p.reach = append(p.travels, r.Travel), max(p.reach, r.Travel)
		}
	}
}

// checkBounds tries the model with one parameter at a bound and the others where the
// search starts.
func (p *problem) checkBounds() error {
	z := slices.Clone(p.start)
	for i, q := range p.free {
		for _, z[i] = range []float64{0, 1} {
			if _, err := p.at(z); err != nil {
				return fmt.Errorf("fit: with %s at a bound: %w", q.name, err)
			}
		}
		z[i] = p.start[i]
	}
	return nil
}

// move sets the model to a point of the box.
func (p *problem) move(z []float64) {
	for i, q := range p.free {
		p.set[i](min(q.high, q.low+z[i]*(q.high-q.low)))
	}
}

// at is the model's curve at a point of the box.
func (p *problem) at(z []float64) (spring.Curve, error) {
	p.move(z)
	c := p.model.Curve()
	if err := spring.Err(c); err != nil {
		return nil, err
	}
	if c.Stroke() < p.reach {
		return nil, &units.RangeError{Field: "readings", Value: p.reach,
			Want: fmt.Sprintf("within the model's stroke of %.6g", c.Stroke())}
	}
	return c, nil
}

// evaluate fills in model − measured.
func (p *problem) evaluate(z, r []float64) bool {
	c, err := p.at(z)
	if err != nil {
		return false
	}
	friction := float64(p.model.Fork.Friction)
	p.forces = spring.AppendForces(p.forces[:0], c, p.travels)
	for i, s := range p.samples {
		r[i] = float64(p.forces[i]) + s.way*friction - s.f
	}
	return true
}

func (p *problem) differentiate(z, r []float64, jac [][]float64) bool {
	p.move(z)
	for j, q := range p.free {
		if q.slope != nil {
			clear(jac[j])
			q.slope(p, jac[j])
			floats.Scale(q.high-q.low, jac[j])
		}
	}
	for j, q := range p.free {
		if q.slope == nil && !p.box.Forward(j, z, r, jac[j]) {
			return false
		}
	}
	return true
}
