package damping

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"

	"example.org/forkcurve/units"
)

// contact is the pressing of stacked shims on one another: forces along circles, none of them a pull, such that no
// shim passes through the next (Signorini's conditions). Place k·len(radii) + i is circle i between shims k and k+1.
type contact struct {
	shims []Plate
	radii []float64     // of the circles
	gaps  []float64     // by place, by the oil alone, m; +Inf beyond the edge of a shim
	bends [][][]float64 // of each shim: deflection at one circle by 1 N along another
}

func newContact(shims []Plate, radii []float64, oil Load) *contact {
	c := &contact{shims: shims, radii: radii}
	for k, shim := range shims {
		within, _ := slices.BinarySearch(radii, shim.outer*(1+1e-9))
		bends := make([][]float64, len(radii))
		for i := range bends {
			bends[i] = make([]float64, len(radii))
		}
		for j, by := range radii[:within] {
			load := shim.normal(Load{Force: 1, Circle: units.Length(2 * by)})
			for i, at := range radii[:j+1] {
				w := shim.bend(load, at).w
				bends[i][j], bends[j][i] = w, w
			}
		}
		c.bends = append(c.bends, bends)
		if k == 0 {
			continue
		}
		for i, r := range radii {
			gap := 0.0
			switch {
			case i >= within || r > shims[k-1].outer*(1+1e-9):
				gap = math.Inf(1)
			case k == 1:
				gap = -float64(shims[0].Deflection(oil, units.Length(2*r)))
			}
			c.gaps = append(c.gaps, gap)
		}
	}
	return c
}

// widens is by how much 1 N at one place opens the gap at another.
func (c *contact) widens(p, q int) float64 {
	n := len(c.radii)
	i, j, k := p%n, q%n, max(p/n, q/n)
	switch p/n - q/n {
	case 0:
		return c.bends[k][i][j] + c.bends[k+1][i][j]
	case 1, -1:
		return -c.bends[k][i][j]
	}
	return 0
}

// solve finds the force at each place, N, by the active-set method of Lawson and Hanson, Solving Least Squares
// Problems (1974), chapter 23, with the deepest overlap of each interface put to press at once.
func (c *contact) solve() []float64 {
	forces, presses := make([]float64, len(c.gaps)), make([]bool, len(c.gaps))
	for range 3 * len(c.gaps) {
		overlaps := c.overlaps(forces, presses)
		if len(overlaps) == 0 {
			break
		}
		for _, p := range overlaps {
			presses[p] = true
		}
		for c.relax(forces, presses) {
		}
	}
	return forces
}

// relax moves the forces to those that close every gap where shims press, or as far that way as none turns into a
// pull: the place of the first that would no longer presses, and it reports true.
func (c *contact) relax(forces []float64, presses []bool) bool {
	closing, ok := c.closing(presses)
	if !ok {
		return false
	}
	step, leaves := 1.0, -1
	for p, f := range forces {
		if presses[p] && closing[p] <= 0 && (leaves < 0 || f/(f-closing[p]) < step) {
			step, leaves = f/(f-closing[p]), p
		}
	}
	for p := range forces {
		forces[p] += step * (closing[p] - forces[p])
	}
	if leaves >= 0 {
		forces[leaves], presses[leaves] = 0, false
	}
	return leaves >= 0
}

// closing is the forces that close the gaps where shims press; false where float64 does not tell these places apart.
func (c *contact) closing(presses []bool) (forces []float64, ok bool) {
	forces = make([]float64, len(c.gaps))
	var places []int
	for p, in := range presses {
		if in {
			places = append(places, p)
		}
	}
	if len(places) == 0 {
		return forces, true
	}
	band := 0 // shims that do not touch do not know of each other
	for i, first := 0, 0; i < len(places); i++ {
		for places[i]/len(c.radii)-places[first]/len(c.radii) > 1 {
			first++
		}
		band = max(band, i-first)
	}
	compliance, closing := mat.NewSymBandDense(len(places), band, nil), make([]float64, len(places))
	for i, p := range places {
		closing[i] = -c.gaps[p]
		for j := max(0, i-band); j <= i; j++ {
			compliance.SetSymBand(j, i, c.widens(p, places[j]))
		}
	}
	factor, ok := lapack64.Pbtrf(compliance.RawSymBand())
	if !ok {
		return forces, false
	}
	lapack64.Pbtrs(factor, blas64.General{Rows: len(closing), Cols: 1, Stride: 1, Data: closing})
	for i, p := range places {
		forces[p] = closing[i]
	}
	return forces, true
}

// overlaps is the place at each interface where shims pass through each other most.
func (c *contact) overlaps(forces []float64, presses []bool) (places []int) {
	n, scale := len(c.radii), 0.0
	gaps := slices.Clone(c.gaps)
	for q, f := range forces {
		for p := max(0, (q/n-1)*n); f != 0 && p < min(len(gaps), (q/n+2)*n); p++ {
			gaps[p] += f * c.widens(p, q)
		}
	}
	for _, gap := range c.gaps[:n] {
		if !math.IsInf(gap, 1) {
			scale = max(scale, math.Abs(gap))
		}
	}
	for first := 0; first < len(gaps); first += n {
		deepest, place := -1e-12*scale, -1
		for p := first; p < first+n; p++ {
			if !presses[p] && gaps[p] < deepest {
				deepest, place = gaps[p], p
			}
		}
		if place >= 0 {
			places = append(places, place)
		}
	}
	return places
}
