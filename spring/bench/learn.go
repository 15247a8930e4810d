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
		Lower: slices.Repeat([]float64{-far}, n), Upper: slices.Repeat([]float64{far}, n)})
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
	if k.predict(k.readings, z, r) != nil {
		return false
	}
	for i, reading := range k.readings {
		v, sd := reading.read()
		r[i] = (r[i] - v) / sd
	}
	return true
}

// predict what readings of the fork at z would be, into dst.
func (k *Known) predict(readings []Reading, z, dst []float64) error {
	b := &bench{fork: at(k.prior, k.scales, z), room: k.room}
	for i, r := range readings {
		var err error
		if dst[i], err = r.model(b); err != nil {
			return err
		}
		if math.IsNaN(dst[i]) {
			return &units.RangeError{Field: r.String(), Value: dst[i], Want: "what this fork can show"}
		}
	}
	return nil
}

// jacobian of the readings over their uncertainties in z, about the best fork.
func (k *Known) jacobian(steps []float64) (*mat.Dense, error) {
	jac, err := slopes(k.z, steps, len(k.readings), func(z, dst []float64) error { return k.predict(k.readings, z, dst) })
	if err != nil {
		return nil, err
	}
	for i, r := range k.readings {
		_, sd := r.read()
		for j := range k.z {
			jac.Set(i, j, jac.At(i, j)/sd)
		}
	}
	return jac, nil
}

// slope of a reading in z.
func (k *Known) slope(r Reading) ([]float64, error) {
	one := []Reading{r}
	return gradient(k.z, step, func(z, dst []float64) error { return k.predict(one, z, dst) })
}

// step of z for derivatives of readings: roots are found to a thousandth of what it moves.
const step = 1e-3
