package bench

import "math"

// scale takes an unknown to a number that is 0 where it was and 1 a standard uncertainty
// up, and back. Values above 0 go by their logarithm, so that they stay there.
type scale struct {
	field
	name       string
	center, sd float64
}

func newScale(f *Fork, u Unknown) scale {
	d := fields()[u.Name]
	s := scale{field: d, name: u.Name, center: d.get(f), sd: u.sd}
	if d.positive {
		s.sd = u.sd / s.center
	}
	return s
}

// value at z.
func (s scale) value(z float64) float64 {
	if s.positive {
		return s.center * math.Exp(s.sd*z)
	}
	return s.center + s.sd*z
}

// z of a value.
func (s scale) z(v float64) float64 {
	if s.positive {
		return math.Log(v/s.center) / s.sd
	}
	return (v - s.center) / s.sd
}

// deviation of the value for one of z.
func (s scale) deviation(z, sd float64) float64 {
	if s.positive {
		return s.value(z) * s.sd * sd
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
