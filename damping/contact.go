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
// shim passes through the next (Signorini's conditions).
type contact struct {
	places []place
	gaps   []float64   // at the places, by the oil alone, m
	widens [][]float64 // by how much 1 N at one place opens the gap at another, of the places from near on
	near   [][2]int    // range of the places that a place knows of
}

// place is a circle of that radius between shims k and k+1; clampLaplacian is how both bend at the clamp by 1 N along
// it.
type place struct {
	k              int
	r              float64
	clampLaplacian [2]float64
}

func newContact(shims []Plate, oil Load, also ...units.Length) *contact {
	c := &contact{}
	for k := range len(shims) - 1 {
		for _, r := range circles(shims, k, also) {
			gap := 0.0
			if k == 0 {
				gap = -float64(shims[0].Deflection(oil, units.Length(2*r)))
			}
			c.gaps = append(c.gaps, gap)
			c.places = append(c.places, place{k, r, [2]float64{shims[k].clampLaplacian(r), shims[k+1].clampLaplacian(r)}})
		}
		also = nil
	}
	c.widens, c.near = make([][]float64, len(c.places)), make([][2]int, len(c.places))
	for i, p := range c.places {
		from, _ := slices.BinarySearchFunc(c.places, p.k-1, func(q place, k int) int { return q.k - k })
		to, _ := slices.BinarySearchFunc(c.places, p.k+2, func(q place, k int) int { return q.k - k })
		c.near[i], c.widens[i] = [2]int{from, to}, make([]float64, to-from)
		for j := from; j <= i; j++ {
			q := c.places[j]
			w := -shims[p.k].bends(p.r, q.r, p.clampLaplacian[0], q.clampLaplacian[p.k-q.k])
			if q.k == p.k {
				w = shims[p.k+1].bends(p.r, q.r, p.clampLaplacian[1], q.clampLaplacian[1]) - w
			}
			c.widens[i][j-from] = w
			c.widens[j][i-c.near[j][0]] = w
		}
	}
	return c
}

// circles are the radii at which shims k and k+1 may press on one another: the edges of these and their neighbors,
// where most do, and the given ones, with some evenly between.
func circles(shims []Plate, k int, also []units.Length) []float64 {
	const between = 16
	inner, outer := shims[k].inner, min(shims[k].outer, shims[k+1].outer)
	radii := []float64{outer}
	for _, shim := range shims[max(k-1, 0):min(k+3, len(shims))] {
		radii = append(radii, shim.outer)
	}
	for _, d := range also {
		radii = append(radii, float64(d)/2)
	}
	step := (outer - inner) / between
	for i := range between {
		radii = append(radii, inner+step*(float64(i)+0.5))
	}
	slices.Sort(radii)
	last := inner
	return slices.DeleteFunc(radii, func(r float64) bool { // nearer ones float64 hardly tells apart
		if r-last < step/100 || r > outer {
			return true
		}
		last = r
		return false
	})
}

// clampLaplacian is ∇²w at the clamp of a plate clamped inside and free outside, by 1 N along a circle: it leaves no
// moment at the rim.
func (p Plate) clampLaplacian(circle float64) float64 {
	pushed := section{shear: p.unitShear()}.advance(p.inner, circle, 0)
	pushed.shear = 0
	leaning := section{laplacian: 1}.advance(p.inner, p.outer, 0)
	return -pushed.advance(circle, p.outer, 0).moment(p.outer, p.poisson) / leaning.moment(p.outer, p.poisson)
}

// bends is the deflection at one radius by 1 N along a circle of another, with ∇²w at the clamp by each. Either bends
// the plate at the other alike (Maxwell), so that it is read within the circle.
func (p Plate) bends(r, s, laplacianR, laplacianS float64) float64 {
	if r > s {
		r, laplacianS = s, laplacianR
	}
	return section{laplacian: laplacianS, shear: p.unitShear()}.advance(p.inner, r, 0).w
}

// unitShear is 1 N along a circle as the transverse force of a section.
func (p Plate) unitShear() float64 { return 1 / (2 * math.Pi * p.rigidity) }

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
	band, first := 0, 0 // shims that do not touch do not know of each other
	for i, p := range places {
		for places[first] < c.near[p][0] {
			first++
		}
		band = max(band, i-first)
	}
	compliance, closing := mat.NewSymBandDense(len(places), band, nil), make([]float64, len(places))
	for i, p := range places {
		closing[i] = -c.gaps[p]
		for j := max(0, i-band); j <= i; j++ {
			if q := places[j]; q >= c.near[p][0] {
				compliance.SetSymBand(j, i, c.widens[p][q-c.near[p][0]])
			}
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
	gaps, scale := slices.Clone(c.gaps), 0.0
	for p, f := range forces {
		for j, w := range c.widens[p] {
			gaps[c.near[p][0]+j] += f * w
		}
		scale = max(scale, math.Abs(c.gaps[p]))
	}
	for p, gap := range gaps {
		switch n := len(places); {
		case presses[p] || gap >= -1e-12*scale:
		case n > 0 && c.places[places[n-1]].k == c.places[p].k:
			if gap < gaps[places[n-1]] {
				places[n-1] = p
			}
		default:
			places = append(places, p)
		}
	}
	return places
}
