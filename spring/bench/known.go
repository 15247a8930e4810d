package bench

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"example.org/forkcurve/spring/gas"
)

// Known is a fork as it is known after its readings.
type Known struct {
	Values   []Value       // of the unknowns, in their order
	Residual []Residual    // of every reading, in their order
	Together []Combination // what is known better together than its parts, the best known first
	Surprise float64       // probability of readings that fit no better, by chi-square; below 0.01 something is wrong

	prior      Fork
	room       gas.Ambient
	scales     []scale
	readings   []Reading
	z          []float64     // of the best fork
	covariance *mat.SymDense // of z
	factor     mat.TriDense  // its Cholesky factor
	sample     [][]float64   // of z in the posterior; nil: normal about the best fork
}

// Value is one unknown before and after, as text with its unit.
type Value struct {
	Name          string  // of the unknown
	Before, After string  // with ± one standard uncertainty
	Low, High     string  // after: 95 % between them
	Learned       float64 // 0 to 1: the part of the uncertainty that the readings took away
	Moved         float64 // standard uncertainties by which it moved from before
}

// Known tells whether the readings pinned it down: at least half of what was not known.
func (v Value) Known() bool { return v.Learned >= 0.5 }

// Residual is how a reading fits the fork.
type Residual struct {
	Reading      Reading  // as it was given
	Read, Fits   string   // as it was read, and as the fork shows it
	Standardized float64  // misfit over its own standard uncertainty
	Leverage     float64  // 0 to 1: how much of the fit hangs on it
	Slips        []string // what may be wrong, where it contradicts the rest
}

// Contradicts tells whether the reading is off by more than chance does, once in 400.
func (r Residual) Contradicts() bool { return math.Abs(r.Standardized) > 3 }

// Fork is the best one.
func (k *Known) Fork() Fork { return at(k.prior, k.scales, k.z) }

// Of is an unknown as it is known now, with its standard uncertainty, in SI; false where it
// was none.
func (k *Known) Of(name string) (value, sd float64, ok bool) {
	for i, s := range k.scales {
		if s.name == name {
			value, sd = k.of(i)
			return value, sd, true
		}
	}
	return 0, 0, false
}

func (k *Known) of(i int) (value, sd float64) {
	s := k.scales[i]
	if k.sample == nil {
		return s.value(k.z[i]), s.deviation(k.z[i], math.Sqrt(k.covariance.At(i, i)))
	}
	values := make([]float64, len(k.sample))
	for j, z := range k.sample {
		values[j] = s.value(z[i])
	}
	return stat.MeanStdDev(values, nil)
}

// finish works out what follows from the minimum.
func (k *Known) finish() error {
	// First by slopes, then over the width that they tell: where a reading bends, as at a port
	// or where a piston lifts off, its mean slope there counts.
	steps := slices.Repeat([]float64{step}, len(k.z))
	var jac *mat.Dense
	for range 2 {
		var err error
		if jac, err = k.jacobian(steps); err != nil {
			return err
		}
		if err := k.spread(jac); err != nil {
			return err
		}
		steps = k.widths()
	}
	k.told()
	return k.residualsOf(jac)
}

// widths are the standard uncertainties of z.
func (k *Known) widths() []float64 {
	w := make([]float64, len(k.z))
	for i := range w {
		w[i] = math.Sqrt(k.covariance.At(i, i))
	}
	return w
}

// told puts the unknowns into words.
func (k *Known) told() {
	for i, s := range k.scales {
		value, sd := k.of(i)
		low, high := k.interval(i)
		k.Values = append(k.Values, Value{Name: s.name, Learned: 1 - math.Sqrt(k.covariance.At(i, i)), Moved: k.z[i],
			Before: s.text(s.center) + " ± " + unsigned(s.text, s.deviation(0, 1)),
			After:  s.text(value) + " ± " + unsigned(s.text, sd), Low: s.text(low), High: s.text(high)})
	}
	k.together()
}

// unsigned is how far a number may be off, as text: without the sign that a change has.
func unsigned(text func(float64) string, sd float64) string { return strings.TrimPrefix(text(sd), "+") }

// spread is the covariance of z by the slopes of the readings.
func (k *Known) spread(jac *mat.Dense) error {
	n := len(k.z)
	precision := mat.NewSymDense(n, nil)
	precision.SymOuterK(1, jac.T())
	for i := range n {
		precision.SetSym(i, i, 1+precision.At(i, i))
	}
	var c mat.Cholesky
	c.Factorize(precision) // one and more on its diagonal
	k.covariance = mat.NewSymDense(n, nil)
	if err := c.InverseTo(k.covariance); err != nil {
		return err
	}
	c.Factorize(k.covariance)
	c.LTo(&k.factor)
	return nil
}

func (k *Known) residualsOf(jac *mat.Dense) error {
	fits := make([]float64, len(k.readings))
	if err := k.predict(k.readings, k.z, fits); err != nil {
		return err
	}
	var squares float64
	for i, r := range k.readings {
		v, sd := r.read()
		h := min(k.variance(jac.RawRowView(i)), 1-1e-9)
		raw := (v - fits[i]) / sd
		squares += raw * raw
		out := Residual{Reading: r, Read: r.text(v), Fits: r.text(fits[i]), Leverage: h, Standardized: raw / math.Sqrt(1-h)}
		if out.Contradicts() {
			out.Slips = r.slips()
		}
		k.Residual = append(k.Residual, out)
	}
	for _, z := range k.z {
		squares += z * z
	}
	// The readings and the prior together are as many squares as there are readings freer
	// than unknowns.
	k.Surprise = distuv.ChiSquared{K: float64(len(k.readings))}.Survival(squares)
	return nil
}

// Correlation of two unknowns by their numbers in Values.
func (k *Known) Correlation(i, j int) float64 {
	return k.covariance.At(i, j) / math.Sqrt(k.covariance.At(i, i)*k.covariance.At(j, j))
}
