package fit

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// covariance of the parameters that are free and not held, in SI.
type covariance struct {
	index  [parameters]int // 1-based row; 0: known or held
	matrix *mat.SymDense
}

func (c *covariance) at(a, b Parameter) float64 {
	if a < 0 || a >= parameters || b < 0 || b >= parameters || c.index[a] == 0 || c.index[b] == 0 {
		return 0
	}
	return c.matrix.At(c.index[a]-1, c.index[b]-1)
}

func (c *covariance) stdErr(p Parameter) float64 { return math.Sqrt(c.at(p, p)) }

func (c *covariance) correlation(a, b Parameter) float64 {
	if both := c.stdErr(a) * c.stdErr(b); both > 0 {
		return min(1, max(-1, c.at(a, b)/both))
	}
	return 0
}

const (
	collinear = 1e-8  // least to greatest singular value below which columns of J are one
	rounding  = 1e-18 // of the squares of the readings, what is left of exact ones
	involved  = 0.1   // part of the least singular direction that names a parameter
)

// covariance at the best end for residuals of standard deviation sigma, and the
// parameters on a bound there. Whether the readings determine the parameters is
// judged with all of them free: a bound must not settle what the readings leave
// open.
func (p *problem) covariance(ends []end, sigma float64) (*covariance, []Parameter, error) {
	z := ends[0].z
	all, err := p.covarianceOf(p.free, z, sigma)
	if err != nil {
		return nil, nil, err
	}
	var vague, held []Parameter
	var open []Free
	for i, q := range p.free {
		if all.stdErr(q.parameter) > q.high-q.low {
			vague = append(vague, q.parameter)
		}
		if z[i] <= 0 || z[i] >= 1 {
			held = append(held, q.parameter)
		} else {
			open = append(open, q)
		}
	}
	if vague != nil {
		return nil, nil, &UnidentifiableError{vague, "the standard error is wider than the bounds; hold some, or measure deeper into the stroke"}
	}
	if others := p.asGood(ends, all, sigma); others != nil {
		return nil, nil, &UnidentifiableError{others, "other values within the bounds fit as well; narrow the bounds to what is possible, or hold some"}
	}
	if held == nil {
		return all, nil, nil
	}
	c, err := p.covarianceOf(open, z, sigma)
	return c, held, err
}

// asGood lists the parameters that differ, by more than their errors, at another
// end of the search that the scatter of the readings can not tell from the best.
func (p *problem) asGood(ends []end, c *covariance, sigma float64) []Parameter {
	slack := sigma * sigma
	for _, s := range p.samples {
		slack += rounding * s.f * s.f
	}
	best := ends[0]
	for _, e := range ends[1:] {
		if !e.settled || e.squares > best.squares+slack {
			continue
		}
		var differ []Parameter
		for i, q := range p.free {
			width := q.high - q.low
			if d := math.Abs(e.z[i]-best.z[i]) * width; d > 0.01*width+3*c.stdErr(q.parameter) {
				differ = append(differ, q.parameter)
			}
		}
		if differ != nil {
			return differ
		}
	}
	return nil
}

// covarianceOf some of the free parameters, the others known.
func (p *problem) covarianceOf(free []Free, z []float64, sigma float64) (*covariance, error) {
	c := &covariance{}
	n := len(free)
	if n == 0 {
		return c, nil
	}
	// Columns of J in SI, each brought to length 1, so that only directions count.
	model := p.at(z)
	t := model.terms()
	columns, lengths := mat.NewDense(len(p.samples), n, nil), make([]float64, n)
	var d [parameters]float64
	for i, s := range p.samples {
		t.force(s.x, s.sign, &d)
		for j, q := range free {
			columns.Set(i, j, d[q.parameter])
			lengths[j] = math.Hypot(lengths[j], d[q.parameter])
		}
	}
	for j, q := range free {
		if lengths[j] == 0 {
			return nil, &UnidentifiableError{[]Parameter{q.parameter}, "it changes no reading"}
		}
	}
	columns.Apply(func(_, j int, v float64) float64 { return v / lengths[j] }, columns)
	var svd mat.SVD
	if !svd.Factorize(columns, mat.SVDThin) {
		return nil, errSingular
	}
	values := svd.Values(nil)
	var v mat.Dense
	svd.VTo(&v)
	if values[n-1] < collinear*values[0] {
		var together []Parameter
		for j, q := range free {
			if math.Abs(v.At(j, n-1)) > involved {
				together = append(together, q.parameter)
			}
		}
		return nil, &UnidentifiableError{together, "a change of one is made up by the others; hold all but one, or add readings that tell them apart"}
	}
	c.matrix = mat.NewSymDense(n, nil)
	for i, q := range free {
		c.index[q.parameter] = i + 1
		for j := range i + 1 {
			var sum float64
			for k, s := range values {
				sum += v.At(i, k) * v.At(j, k) / (s * s)
			}
			c.matrix.SetSym(j, i, sigma*sigma*sum/(lengths[i]*lengths[j]))
		}
	}
	return c, nil
}
