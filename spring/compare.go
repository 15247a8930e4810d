package spring

import (
	"math"

	"example.org/forkcurve/units"
)

// Difference is how one curve departs from another over the stroke they share.
type Difference struct {
	Stroke  units.Length // that both share
	Points  []Point      // second minus first, at equal steps of travel
	Largest Point        // where the forces differ most
	RMS     units.Force  // root mean square of the force differences
}

// Compare reads b − a at n ≥ 2 travels over the shared stroke. For n below 2 or
// curves that share no stroke it is the zero Difference.
func Compare(a, b Curve, n int) Difference {
	if Err(a) != nil || Err(b) != nil {
		return Difference{}
	}
	d := Difference{Stroke: min(a.Stroke(), b.Stroke())}
	if n < 2 || !(d.Stroke > 0) {
		return Difference{}
	}
	xs := steps(d.Stroke, n)
	d.Points = AppendPoints(nil, b, xs)
	var squares float64
	for i, p := range AppendPoints(nil, a, xs) {
		diff := &d.Points[i]
		diff.Force -= p.Force
		diff.Rate -= p.Rate
		diff.Energy -= p.Energy
		if i == 0 || math.Abs(float64(diff.Force)) > math.Abs(float64(d.Largest.Force)) {
			d.Largest = *diff
		}
		squares += float64(diff.Force) * float64(diff.Force)
	}
	d.RMS = units.Force(math.Sqrt(squares / float64(n)))
	return d
}
