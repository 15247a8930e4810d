package fit

import (
	"cmp"
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"

	"example.org/forkcurve/internal/lsq"
)

const (
	same     = 1e-2  // of the box, within which a search is on its way to where one has been
	rounding = 1e-18 // of the squares of the readings, what is left of exact ones
)

// end is where a search came to.
type end struct {
	z []float64
	lsq.Result
}

// rank puts the ends of searches that converged before others.
func (e end) rank() int {
	if e.Reason.Converged() {
		return 0
	}
	return 1
}

// search minimizes from the start and, for every parameter that the force is not
// linear in, from either side of it; it returns where these searches ended, the best
// first.
func (p *problem) search() []end {
	var ends []end
	from := func(z []float64) {
		z = slices.Clone(z)
		ends = append(ends, end{z, p.solver.Minimize(context.Background(), z)})
	}
	from(p.start)
	p.solver.Quit = func(z []float64) bool {
		return slices.ContainsFunc(ends, func(e end) bool {
			return e.Reason.Converged() && floats.Distance(e.z, z, math.Inf(1)) < same
		})
	}
	z := slices.Clone(p.start)
	for i, q := range p.free {
		if !q.linear {
			for _, z[i] = range []float64{0.1, 0.9} {
				from(z)
			}
			z[i] = p.start[i]
		}
	}
	slices.SortStableFunc(ends, func(a, b end) int {
		return cmp.Or(cmp.Compare(a.rank(), b.rank()), cmp.Compare(a.Squares, b.Squares))
	})
	return ends
}

// determined is the covariance at the best end for residuals of standard deviation
// sigma, and the parameters on a bound there. Whether the readings determine the
// parameters is judged with all of them free: a bound must not settle what the
// readings leave open.
func (p *problem) determined(ends []end, sigma float64) (covariance, []string, error) {
	z := ends[0].z
	everything := make([]int, len(p.free))
	for i := range everything {
		everything[i] = i
	}
	all, err := p.covariance(everything, z, sigma)
	if err != nil {
		return covariance{}, nil, err
	}
	var vague, held []string
	var open []int
	for i, q := range p.free {
		if all.stdErr(q.name) > q.high-q.low {
			vague = append(vague, q.name)
		}
		if z[i] <= 0 || z[i] >= 1 {
			held = append(held, q.name)
		} else {
			open = append(open, i)
		}
	}
	if vague != nil {
		return covariance{}, nil, &UnidentifiableError{vague,
			"the standard error is wider than the bounds; hold some, or measure deeper into the stroke"}
	}
	if others := p.asGood(ends, all, sigma); others != nil {
		return covariance{}, nil, &UnidentifiableError{others,
			"other values within the bounds fit as well; narrow the bounds to what is possible, or hold some"}
	}
	if held == nil {
		return all, nil, nil
	}
	c, err := p.covariance(open, z, sigma)
	return c, held, err
}

// asGood lists the parameters that differ, by more than their errors, at another
// end of the search that the scatter of the readings can not tell from the best.
func (p *problem) asGood(ends []end, c covariance, sigma float64) []string {
	slack := sigma * sigma
	for _, s := range p.samples {
		slack += rounding * s.f * s.f
	}
	best := ends[0]
	for _, e := range ends[1:] {
		if !e.Reason.Converged() || e.Squares > best.Squares+slack {
			continue
		}
		var differ []string
		for i, q := range p.free {
			width := q.high - q.low
			if d := math.Abs(e.z[i]-best.z[i]) * width; d > 0.01*width+3*c.stdErr(q.name) {
				differ = append(differ, q.name)
			}
		}
		if differ != nil {
			return differ
		}
	}
	return nil
}

// covariance of some of the free parameters, the others known.
func (p *problem) covariance(list []int, z []float64, sigma float64) (covariance, error) {
	d, ok := p.solver.Determined(z, list)
	c := covariance{matrix: d.Covariance}
	for _, i := range list {
		c.names, c.units = append(c.names, p.free[i].name), append(c.units, sigma*(p.free[i].high-p.free[i].low))
	}
	switch {
	case !ok:
		return c, errSingular
	case len(d.Vague) == 0:
		return c, nil
	}
	var names []string
	for _, i := range d.Vague {
		names = append(names, c.names[i])
	}
	if len(names) == 1 {
		return c, &UnidentifiableError{names, "it changes no reading"}
	}
	return c, &UnidentifiableError{names,
		"a change of one is made up by the others; hold all but one, or add readings that tell them apart"}
}
