package damping

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// contact is the pressing of stacked plates on one another: at each interface a
// force along each of some circles, none of them a pull, such that no plate
// passes through the next (Signorini's conditions).
type contact struct {
	plates  []Plate
	circles [][]float64                    // diameters, by interface
	free    func(diameter float64) float64 // deflection of the face by the oil alone
	forces  [][]float64                    // by interface and circle, N
}

// Contact circles: enough for each interface, within a bound for all together,
// since the cost grows with its third power.
const (
	circlesAtInterface = 16
	circlesInAll       = 96
)

func newContact(plates []Plate, free func(diameter float64) float64) *contact {
	c := &contact{plates: plates, free: free}
	interfaces := len(plates) - 1
	if interfaces < 1 {
		return c
	}
	n := min(circlesAtInterface, circlesInAll/interfaces)
	for k := range interfaces {
		inner, outer := plates[k].inner, min(plates[k].outer, plates[k+1].outer)
		circles := make([]float64, n)
		for j := range circles {
			circles[j] = 2 * (inner + (outer-inner)*float64(j+1)/float64(n))
		}
		c.circles = append(c.circles, circles)
	}
	c.solve(n)
	return c
}

// solve finds the forces: compliance·forces + gaps ≥ 0, forces ≥ 0, one of both 0.
func (c *contact) solve(n int) {
	total := n * len(c.circles)
	compliance := mat.NewSymDense(total, nil)
	gap := make([]float64, total)
	for k, circles := range c.circles {
		for i, at := range circles {
			if k == 0 {
				gap[i] = -c.free(at)
			}
			for j, by := range circles[:i+1] {
				compliance.SetSym(k*n+i, k*n+j, c.plates[k].influence(at, by)+c.plates[k+1].influence(at, by))
			}
			if k > 0 {
				for j, by := range c.circles[k-1] {
					compliance.SetSym(k*n+i, (k-1)*n+j, -c.plates[k].influence(at, by))
				}
			}
		}
	}
	forces := pressing(compliance, gap)
	for k := range c.circles {
		c.forces = append(c.forces, forces[k*n:(k+1)*n])
	}
}

// face is the deflection of the first plate.
func (c *contact) face(diameter float64) float64 {
	w := c.free(diameter)
	if len(c.circles) > 0 {
		for j, by := range c.circles[0] {
			w -= c.forces[0][j] * c.plates[0].influence(diameter, by)
		}
	}
	return w
}

// influence is the deflection at one diameter by a unit force along another.
func (p Plate) influence(at, by float64) float64 {
	r := min(at/2, p.outer)
	b := bending{from: p.outer, to: p.outer, force: 1 / (2 * math.Pi * p.rigidity), circle: min(by/2, p.outer)}
	return p.bend(b, r).w
}

// pressing minimizes x·A·x/2 + g·x over x ≥ 0 for a positive definite A: the
// active-set method of Lawson and Hanson, Solving Least Squares Problems (1974),
// chapter 23.
func pressing(a *mat.SymDense, g []float64) []float64 {
	n := len(g)
	x := make([]float64, n)
	active := make([]bool, n)
	var scale float64
	for _, v := range g {
		scale = max(scale, math.Abs(v))
	}
	for range 3 * n {
		worst, next := -1e-12*scale, -1
		for i := range n {
			if active[i] {
				continue
			}
			gap := g[i]
			for j := range n {
				gap += a.At(i, j) * x[j]
			}
			if gap < worst {
				worst, next = gap, i
			}
		}
		if next < 0 {
			break
		}
		active[next] = true
		for restrict(a, g, x, active) {
		}
	}
	return x
}

// restrict moves x to the minimum over its active entries, or as far that way as
// no entry turns negative; entries that become 0 leave, and it reports true.
func restrict(a *mat.SymDense, g, x []float64, active []bool) bool {
	var index []int
	for i, in := range active {
		if in {
			index = append(index, i)
		}
	}
	if len(index) == 0 {
		return false
	}
	sub := mat.NewSymDense(len(index), nil)
	right := mat.NewVecDense(len(index), nil)
	for r, i := range index {
		right.SetVec(r, -g[i])
		for c, j := range index[:r+1] {
			sub.SetSym(r, c, a.At(i, j))
		}
	}
	var factor mat.Cholesky
	var z mat.VecDense
	if !factor.Factorize(sub) || factor.SolveVecTo(&z, right) != nil {
		return false // as close as float64 gets
	}
	step, leaving := 1.0, -1
	for r, i := range index {
		if z.AtVec(r) > 0 {
			continue
		}
		if s := x[i] / (x[i] - z.AtVec(r)); leaving < 0 || s < step {
			step, leaving = s, i
		}
	}
	for r, i := range index {
		x[i] += step * (z.AtVec(r) - x[i])
	}
	if leaving < 0 {
		return false
	}
	x[leaving] = 0
	active[leaving] = false
	return true
}
