package bench

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// scale takes an unknown to a number of which the prior is normal, 0 in its middle and 1 a
// standard uncertainty up, and back. Values above 0 are straight in it, as most readings are
// in them, and bend near 0 so that they stay above; those between limits go by the normal
// distribution, which makes them even.
type scale struct {
	field
	name       string
	center, sd float64
	bend, at0  float64 // of values above 0: width of the bend, and where they are without it at z = 0
	low, width float64 // of what is between limits
}

func newScale(f *Fork, u Unknown) scale {
	d := fields()[u.Name]
	s := scale{field: d, name: u.Name, center: d.get(f), sd: u.sd, low: u.low, width: u.high - u.low}
	switch {
	case s.width > 0:
		s.center = u.low + s.width/2
	case d.positive:
		s.bend = max(s.center/10, s.sd/3)
		s.at0 = s.straight(s.center)
	}
	return s
}

// straight is a value above 0 without its bend: ln(eᵛ − 1), in widths of it.
func (s scale) straight(v float64) float64 { return v + s.bend*math.Log(-math.Expm1(-v/s.bend)) }

// value at z.
func (s scale) value(z float64) float64 {
	switch {
	case s.width > 0:
		return s.low + s.width*distuv.UnitNormal.CDF(z)
	case s.positive:
		x := (s.at0 + s.sd*z) / s.bend
		return s.bend * (max(x, 0) + math.Log1p(math.Exp(-math.Abs(x))))
	}
	return s.center + s.sd*z
}

// z of a value.
func (s scale) z(v float64) float64 {
	switch {
	case s.width > 0:
		return distuv.UnitNormal.Quantile(min(max((v-s.low)/s.width, 0), 1))
	case s.positive:
		return (s.straight(v) - s.at0) / s.sd
	}
	return (v - s.center) / s.sd
}

// deviation of the value where z is normal with that mean and deviation: for limits that of
// Φ, by Gauss–Hermite quadrature, as it bends too much for its slope.
func (s scale) deviation(z, sd float64) float64 {
	switch {
	case s.width > 0:
		var mean, square float64
		x, w := make([]float64, 24), make([]float64, 24)
		quad.Hermite{}.FixedLocations(x, w, math.Inf(-1), math.Inf(1))
		for i := range x {
			v := distuv.UnitNormal.CDF(z + math.Sqrt2*sd*x[i])
			weight := w[i] / math.SqrtPi
			mean, square = mean+weight*v, square+weight*v*v
		}
		return s.width * math.Sqrt(square-mean*mean)
	case s.positive:
		return s.sd * sd / (1 + math.Exp(-(s.at0+s.sd*z)/s.bend))
	}
	return s.sd * sd
}

// at is the fork with its unknowns at z.
func at(f Fork, scales []scale, z []float64) Fork {
	for i, s := range scales {
		s.set(&f, s.value(z[i]))
	}
	return f.filled()
}
