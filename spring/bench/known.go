package bench

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring/gas"
)

// Known is a fork as it is known after its readings.
type Known struct {
	Values   []Value
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
}

// Value is one unknown before and after, as text with its unit.
type Value struct {
	Name          string
	Before, After string  // with ± one standard uncertainty
	Learned       float64 // 0 to 1: the part of the uncertainty that the readings took away
	Moved         float64 // standard uncertainties by which it moved from before
}

// Known tells whether the readings pinned it down: at least half of what was not known.
func (v Value) Known() bool { return v.Learned >= 0.5 }

// Residual is how a reading fits the fork.
type Residual struct {
	Reading      Reading
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
			return s.value(k.z[i]), s.deviation(k.z[i], math.Sqrt(k.covariance.At(i, i))), true
		}
	}
	return 0, 0, false
}

// finish works out what follows from the minimum.
func (k *Known) finish() error {
	// First by slopes, then over the width that they tell: where a reading bends, as at a port
	// or where a piston lifts off, its mean slope there counts.
	n := len(k.z)
	steps := make([]float64, n)
	for i := range steps {
		steps[i] = step
	}
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
	return k.told(jac)
}

// widths are the standard uncertainties of z.
func (k *Known) widths() []float64 {
	w := make([]float64, len(k.z))
	for i := range w {
		w[i] = math.Sqrt(k.covariance.At(i, i))
	}
	return w
}

// told puts what follows into words, with the slopes of the readings.
func (k *Known) told(jac *mat.Dense) error {
	for i, s := range k.scales {
		sd := math.Sqrt(k.covariance.At(i, i))
		k.Values = append(k.Values, Value{Name: s.name, Learned: 1 - sd, Moved: k.z[i],
			Before: s.text(s.center) + " ± " + trimmed(s, s.deviation(0, 1)),
			After:  s.text(s.value(k.z[i])) + " ± " + trimmed(s, s.deviation(k.z[i], sd))})
	}
	k.together()
	return k.residualsOf(jac)
}

// trimmed is a deviation without the sign that a length added has.
func trimmed(s scale, sd float64) string {
	text := s.text(sd)
	if len(text) > 0 && text[0] == '+' {
		return text[1:]
	}
	return text
}

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
	fits, err := k.predict(k.z, make([]float64, len(k.readings)))
	if err != nil {
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

// Draw is one of the forks that fit, by its number: the same for the same seed.
func (k *Known) Draw(seed, i uint64) Fork {
	r := rand.New(rand.NewPCG(seed, i))
	return at(k.prior, k.scales, k.draw(r, 1))
}

// draw is a z about the best one, spread by a factor.
func (k *Known) draw(r *rand.Rand, wide float64) []float64 {
	n := len(k.z)
	e := make([]float64, n)
	for i := range e {
		e[i] = wide * r.NormFloat64()
	}
	z := slices.Clone(k.z)
	for i := range n {
		for j := range i + 1 {
			z[i] += k.factor.At(i, j) * e[j]
		}
	}
	return z
}

// Samples are what n forks that fit answer to a question, 10 to 10 million, the same for any
// number of processors; those that can not answer are left out and counted.
func (k *Known) Samples(ctx context.Context, q Question, n int, seed uint64) (Sampled, error) {
	f := check.Of("Samples")
	if !check.Between(f, "n", float64(n), 10, 1e7) {
		return Sampled{}, f.Err()
	}
	answers := make([]float64, n)
	var next atomic.Int64
	var workers sync.WaitGroup
	const chunk = 256
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for {
				from := int(next.Add(chunk)) - chunk
				if from >= n || ctx.Err() != nil {
					return
				}
				for i := from; i < min(from+chunk, n); i++ {
					v, err := q.Of(k.Draw(seed, uint64(i)))
					if err != nil {
						v = math.NaN()
					}
					answers[i] = v
				}
			}
		})
	}
	workers.Wait()
	if err := ctx.Err(); err != nil {
		return Sampled{}, err
	}
	good := slices.DeleteFunc(answers, math.IsNaN)
	s := Sampled{Failed: n - len(good)}
	if len(good) < 2 {
		return s, nil
	}
	slices.Sort(good)
	s.Mean, s.StdDev = stat.MeanStdDev(good, nil)
	s.Low, s.High = stat.Quantile(0.025, stat.Empirical, good, nil), stat.Quantile(0.975, stat.Empirical, good, nil)
	return s, nil
}

// Sampled is what samples of an answer say, in SI.
type Sampled struct {
	Mean, StdDev, Low, High float64 // 95 % between Low and High
	Failed                  int
}

// Check compares the normal approximation with the posterior by n importance samples, 100 to
// 1 million: the share of them that count, near 1 where the approximation is good and
// below 0.3 where it is not to be trusted.
func (k *Known) Check(n int, seed uint64) (share float64, err error) {
	f := check.Of("Check")
	if !check.Between(f, "n", float64(n), 100, 1e6) {
		return 0, f.Err()
	}
	_, weights := k.importance(n, seed)
	return effective(weights), nil
}

// effective is the share of samples of those weights that count.
func effective(weights []float64) float64 {
	sum := floats.Sum(weights)
	return sum * sum / sumSquares(weights) / float64(len(weights))
}

// importance is n samples about the best fork, and their weights in the posterior.
func (k *Known) importance(n int, seed uint64) (samples [][]float64, weights []float64) {
	const wide = 1.1 // tails of the proposal that cover those of the posterior
	r := rand.New(rand.NewPCG(seed, 0))
	residuals := make([]float64, len(k.readings))
	for range n {
		z, log := k.draw(r, wide), math.Inf(-1)
		if k.residuals(z, residuals) {
			log = -0.5*sumSquares(residuals) - 0.5*sumSquares(z) + 0.5*k.distance(z)/(wide*wide)
		}
		samples, weights = append(samples, z), append(weights, log)
	}
	top := slices.Max(weights)
	for i, log := range weights {
		weights[i] = math.Exp(log - top)
	}
	return samples, weights
}

// Refined is the fork by mean and covariance of n importance samples, 100 to 1 million, in
// place of the best one and the normal approximation about it: for a Known of which [Known.Check]
// says that these do not go together, as where readings leave open whether a floating piston
// lifts off. Fewer than 50 samples that count are too little to go by, which is an error.
func (k *Known) Refined(n int, seed uint64) (*Known, error) {
	f := check.Of("Refined")
	if !check.Between(f, "n", float64(n), 100, 1e6) {
		return nil, f.Err()
	}
	samples, weights := k.importance(n, seed)
	if count := effective(weights) * float64(n); !(count >= 50) {
		f.Report("n", n, fmt.Sprintf("more samples: %.0f of these count, and 50 must", count), "")
		return nil, f.Err()
	}
	better := &Known{prior: k.prior, room: k.room, scales: k.scales, readings: k.readings, Surprise: k.Surprise}
	d := len(k.z)
	at := mat.NewDense(n, d, nil)
	for i, z := range samples {
		at.SetRow(i, z)
	}
	floats.Scale(float64(n)/floats.Sum(weights), weights)
	better.covariance = mat.NewSymDense(d, nil)
	stat.CovarianceMatrix(better.covariance, at, weights)
	for j := range d {
		better.z = append(better.z, stat.Mean(mat.Col(nil, j, at), weights))
	}
	var c mat.Cholesky
	if !c.Factorize(better.covariance) {
		f.Report("samples", n, "more of them", "")
		return nil, f.Err()
	}
	c.LTo(&better.factor)
	jac, err := better.jacobian(better.widths())
	if err != nil {
		return nil, err
	}
	return better, better.told(jac)
}

// Predictive compares the readings with those that n forks that fit would give, 100 to 1 million
// (posterior predictive check: A. Gelman et al., Bayesian Data Analysis, 3rd edition, chapter 6).
func (k *Known) Predictive(n int, seed uint64) (Predictive, error) {
	f := check.Of("Predictive")
	if !check.Between(f, "n", float64(n), 100, 1e6) {
		return Predictive{}, f.Err()
	}
	r := rand.New(rand.NewPCG(seed, 1))
	misses := make([]float64, len(k.readings))
	var p Predictive
	for range n {
		z := k.draw(r, 1)
		if !k.residuals(z, misses) {
			p.Failed++
			continue
		}
		all, most := sumSquares(misses), 0.0
		for _, m := range misses {
			most = max(most, math.Abs(m))
		}
		for i := range misses {
			misses[i] = r.NormFloat64()
		}
		if sumSquares(misses) >= all {
			p.All++
		}
		for _, m := range misses {
			if math.Abs(m) >= most {
				p.Worst++
				break
			}
		}
	}
	if told := float64(n - p.Failed); told > 0 {
		p.All, p.Worst = p.All/told, p.Worst/told
	}
	return p, nil
}

// Predictive is how often readings of the forks that fit miss them by as much as those that were read: below 0.01 the
// fork, as it is described, does not explain its readings.
type Predictive struct {
	All    float64 // by the sum of their squares
	Worst  float64 // by the one that misses most
	Failed int     // forks that can not be read
}

// distance of z from the best one, squared, in standard uncertainties.
func (k *Known) distance(z []float64) float64 {
	d := make([]float64, len(z))
	for i := range z {
		d[i] = z[i] - k.z[i]
		for j := range i {
			d[i] -= k.factor.At(i, j) * d[j]
		}
		d[i] /= k.factor.At(i, i)
	}
	return sumSquares(d)
}

func sumSquares(v []float64) (sum float64) {
	for _, x := range v {
		sum += x * x
	}
	return sum
}
