package spring

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/interp"

	"example.org/forkcurve/internal/chamber"
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Reading is one sample of a force–travel measurement.
type Reading struct {
	Travel units.Length // from full extension; before it below 0
	Force  units.Force  // that resists compression
}

// MeasuredSpec is a force–travel measurement, each branch by rising travel. The
// first reading of a branch is at full extension or before it, x ≤ 0.
type MeasuredSpec struct {
	Loading   []Reading // taken while compressing, 2 to 100 000
	Unloading []Reading // taken while extending; nil: not measured

	// Preload is the compression of the spring at full extension beyond that of the
	// measurement, −50 mm to 100 mm; negative: loose by that much.
	Preload units.Length
}

// Measured is a curve through readings, by the monotone piecewise cubic
// interpolation of Fritsch and Butland: it overshoots no reading, and between
// readings that rise it rises. With both branches the curve is their mean, and
// half their distance is friction.
//
// The mean is the spring only as far as friction is the same both ways. Measured
// while compressing alone, the curve is the spring plus friction.
//
// Source: F. N. Fritsch and J. Butland, A method for constructing local
// monotone piecewise cubic interpolants, SIAM J. Sci. Stat. Comput. 5 (1984).
type Measured struct {
	flat
	loading, unloading flat // equal where only one branch is known
}

var _ Curve = Measured{}

// NewMeasured checks the readings. The stroke is the travel both branches reach.
func NewMeasured(s MeasuredSpec) (Measured, error) {
	f := check.Of("MeasuredSpec")
	checkBranch(f, "Loading", s.Loading)
	if s.Unloading != nil {
		checkBranch(f, "Unloading", s.Unloading)
	}
	check.Between(f, "Preload", s.Preload, -50*units.Millimeter, 100*units.Millimeter)
	if err := f.Err(); err != nil {
		return Measured{}, err
	}
	loading := interpolate(s.Loading).preloaded(float64(s.Preload))
	unloading := loading
	if s.Unloading != nil {
		unloading = interpolate(s.Unloading).preloaded(float64(s.Preload))
	}
	end := min(loading.stroke, unloading.stroke)
	if !(end > 0) {
		f.Report("Preload", s.Preload,
			fmt.Sprintf("below the last travel measured, %.6g", units.Length(end)+s.Preload), "")
		return Measured{}, f.Err()
	}
	mean := chamber.NewSum(end)
	mean.AddPath(loading.pieces, 0.5)
	mean.AddPath(unloading.pieces, 0.5)
	m := Measured{flat{mean}, loading.spring(end).flat, unloading.spring(end).flat}
	// Noise may close a loop that has no friction to the wrong side, by little.
	if loss, stored := float64(m.Loss()), float64(m.Energy(m.Stroke())); loss < -noise*math.Abs(stored) {
		f.Report("Unloading", units.Energy(loss), "a loop that loses energy, 0 J or more",
			"are loading and unloading swapped?")
		return Measured{}, f.Err()
	}
	return m, nil
}

// noise of the loss of a loop, as a share of the energy stored.
const noise = 0.001

func checkBranch(f *check.Faults, branch string, readings []Reading) {
	const most = 100_000
	n := len(readings)
	if n < 2 || n > most {
		f.Report(branch, fmt.Sprintf("%d readings", n), fmt.Sprintf("2 to %d readings", most), "")
		return
	}
	faults := f.Count()
	before := -units.Meter // the last travel within the limits
	for i, r := range readings {
		field := fmt.Sprintf("%s[%d]", branch, i)
		check.Between(f, field+".Force", r.Force, -50*units.Kilonewton, 50*units.Kilonewton)
		last := 500 * units.Millimeter
		if i == 0 {
			last = 0
		}
		if !check.Between(f, field+".Travel", r.Travel, -10*units.Millimeter, last) {
			continue
		}
		if r.Travel-before < closest {
			f.Report(field+".Travel", r.Travel, "at least 1 µm above the reading before it, "+before.String(),
				"sort the readings; take the mean of those at one travel")
		}
		before = r.Travel
	}
	if f.Count() == faults && before < closest {
		f.Report(branch, before, "readings up to a travel above 0", "")
	}
}

// interpolate is the interpolant of checked readings from x = 0 on.
func interpolate(readings []Reading) path {
	xs, fs := make([]float64, len(readings)), make([]float64, len(readings))
	for i, r := range readings {
		xs[i], fs[i] = float64(r.Travel), float64(r.Force)
	}
	var slopes interp.FritschButland
	_ = slopes.Fit(xs, fs) // always nil, and the readings are sorted
	last := len(xs) - 1
	p := path{pieces: make(chamber.Path, last), stroke: xs[last] - xs[0]}
	for i := range p.pieces {
		h, rise := xs[i+1]-xs[i], fs[i+1]-fs[i]
		k, next := slopes.PredictDerivative(xs[i]), slopes.PredictDerivative(xs[i+1])
		p.pieces[i] = piece{X: xs[i] - xs[0], F: fs[i], K: k,
			B: (3*rise/h - 2*k - next) / h,
			C: (k + next - 2*rise/h) / (h * h)}
	}
	return p.integrated().preloaded(-xs[0])
}

// Friction at x is half the distance of the branches: the fork moves in at
// Force + Friction and out at Force − Friction. It is 0 where only one
// branch is known, and NaN outside the stroke.
func (m Measured) Friction(x units.Length) units.Force {
	return (m.loading.Force(x) - m.unloading.Force(x)) / 2
}

// Loss is the energy that one full cycle turns into heat, the area between the
// branches.
func (m Measured) Loss() units.Energy {
	end := m.Stroke()
	return m.loading.Energy(end) - m.unloading.Energy(end)
}
