package bench

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/internal/lsq"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Learn takes what is known of a fork, its unknowns and what was read in the air of a room to
// the fork as it is known then. Every fault of the input is reported at once. Readings
// that say nothing of the unknowns, or contradict each other, are told by the result, not
// refused.
func Learn(ctx context.Context, f Fork, room gas.Ambient, unknowns []Unknown, readings []Reading) (*Known, error) {
	var errs []error
	for _, fault := range Check(f, room, unknowns, readings) {
		errs = append(errs, fault.Err)
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	k := &Known{prior: f, room: room, readings: readings}
	for _, u := range unknowns {
		k.scales = append(k.scales, newScale(&f, u))
	}
	n := len(k.scales)
	solver := lsq.NewSolver(lsq.Problem{Parameters: n, Residuals: len(readings), Evaluate: k.residuals,
		Prior: &lsq.Prior{Mean: make([]float64, n), Weight: identity(n)},
		Lower: repeat(-far, n), Upper: repeat(far, n)})
	k.z = make([]float64, n)
	end := solver.Minimize(ctx, k.z)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if !end.Reason.Converged() && end.Reason != lsq.OutOfDomain || math.IsNaN(end.Squares) {
		return nil, fmt.Errorf("bench: the search for the fork ended early: %v", end.Reason)
	}
	return k, k.finish()
}

// far is the most standard uncertainties that an unknown may move: beyond them it is
// another fork.
const far = 6

func identity(n int) *mat.Dense {
	m := mat.NewDense(n, n, nil)
	for i := range n {
		m.Set(i, i, 1)
	}
	return m
}

func repeat(v float64, n int) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = v
	}
	return s
}

// Fault is what is wrong with what Learn is to be given.
type Fault struct {
	Reading int   // its number, or −1 where it is none of a reading
	Err     error // what is wrong with it
}

// Check reports every fault of a fork, its unknowns and its readings: readings that are none,
// or name what the fork has not.
func Check(f Fork, room gas.Ambient, unknowns []Unknown, readings []Reading) []Fault {
	var list []Fault
	faults := check.Of("Learn")
	faults.Nest("room", room.Validate())
	switch n := len(readings); {
	case n == 0:
		faults.Report("readings", "none", "one reading at least", "")
	case n > mostReadings:
		faults.Report("readings", n, fmt.Sprintf("%d at most", mostReadings), "")
	}
	for _, err := range check.Split(errors.Join(validate(f, unknowns), faults.Err())) {
		list = append(list, Fault{-1, err})
	}
	if len(readings) > mostReadings {
		return list
	}
	whole := list == nil
	seen := map[string]int{}
	b := &bench{fork: f.filled(), room: room}
	for i, r := range readings {
		name := fmt.Sprintf("readings[%d]", i)
		faults := check.Of("Learn")
		if r == nil {
			faults.Report(name, "none", "a reading", "")
		} else {
			name += " (" + r.String() + ")"
			v, sd := r.read()
			if math.IsNaN(v) || math.IsInf(v, 0) {
				faults.Report(name, v, "a number that was read", "")
			}
			if !(sd > 0) || math.IsInf(sd, 0) {
				faults.Report(name+".SD", r.text(sd), "a standard uncertainty above 0", "")
			}
			same := fmt.Sprintf("%#v", r)
			if first, ok := seen[same]; ok {
				faults.Report(name, r.text(v), fmt.Sprintf("another reading than readings[%d]", first),
					"one reading counts once; read it again to know it better")
			}
			seen[same] = i
			if faults.Err() == nil && whole {
				m, err := r.model(b)
				if err == nil {
					err = sensible(r, m, float64(f.Spec.Travel))
				}
				faults.Nest(name, err)
			}
		}
		for _, err := range check.Split(faults.Err()) {
			list = append(list, Fault{i, err})
		}
	}
	return list
}

const mostReadings = 1000

// sensible tells of a reading that no fork of that travel gives, where this one shows m.
func sensible(r Reading, m, travel float64) error {
	at := func(x units.Length) error {
		if !(x >= 0 && float64(x) <= travel) {
			return &units.RangeError{Field: "Travel", Value: x, Want: fmt.Sprintf("0 to the travel of the fork, %.0f",
				units.Length(travel))}
		}
		return nil
	}
	rest := func(x units.Length) error {
		if m > 1.1*travel { // by its last rate, which its uncertainties do not reach
			return &units.RangeError{Field: "load", Value: r.String(), Want: "a load that the fork carries",
				Hint: "as it is known it lies on its stop; is the pressure that of the reading?"}
		}
		return at(x)
	}
	switch r := r.(type) {
	case Sag:
		return rest(r.Travel)
	case Pressed:
		return rest(r.Travel)
	case Force:
		return at(r.Travel)
	case Shown:
		return at(r.Travel)
	}
	return nil
}

// residuals of the readings at z, over their uncertainties.
func (k *Known) residuals(z, r []float64) bool {
	m, err := k.predict(z, r)
	if err != nil {
		return false
	}
	for i, reading := range k.readings {
		v, sd := reading.read()
		r[i] = (m[i] - v) / sd
		if math.IsNaN(r[i]) {
			return false
		}
	}
	return true
}

// predict what the readings would be, into dst.
func (k *Known) predict(z, dst []float64) ([]float64, error) {
	b := &bench{fork: at(k.prior, k.scales, z), room: k.room}
	for i, r := range k.readings {
		var err error
		if dst[i], err = r.model(b); err != nil {
			return nil, err
		}
	}
	return dst, nil
}

// jacobian of the readings over their uncertainties in z, about the best fork.
func (k *Known) jacobian(steps []float64) (*mat.Dense, error) {
	n, m := len(k.z), len(k.readings)
	jac := mat.NewDense(m, n, nil)
	low, high := make([]float64, m), make([]float64, m)
	for j := range n {
		width, err := k.about(j, steps[j], low, high)
		if err != nil {
			return nil, err
		}
		for i, r := range k.readings {
			_, sd := r.read()
			jac.Set(i, j, (high[i]-low[i])/width/sd)
		}
	}
	return jac, nil
}

// about predicts the readings a step of unknown j below and above the best fork; where no
// fork is on one side, from the best fork on.
func (k *Known) about(j int, step float64, low, high []float64) (width float64, err error) {
	z := slices.Clone(k.z)
	side := func(by float64, dst []float64) error {
		z[j] = k.z[j] + by
		_, err := k.predict(z, dst)
		return err
	}
	below, above := side(-step, low), side(step, high)
	switch {
	case below == nil && above == nil:
		return 2 * step, nil
	case above == nil:
		return step, side(0, low)
	case below == nil:
		return step, side(0, high)
	}
	return 0, below
}

// step of z for derivatives: roots are found to a thousandth of what it moves.
const step = 1e-3

// slope of a reading in z, over a step that the reading feels.
func (k *Known) slope(r Reading, z []float64) ([]float64, error) {
	g := make([]float64, len(z))
	moved := slices.Clone(z)
	for j := range z {
		var ends [2]float64
		for i, d := range [2]float64{-step, step} {
			moved[j] = z[j] + d
			v, err := r.model(&bench{fork: at(k.prior, k.scales, moved), room: k.room})
			if err != nil {
				return nil, err
			}
			ends[i] = v
		}
		moved[j] = z[j]
		g[j] = (ends[1] - ends[0]) / (2 * step)
	}
	return g, nil
}
