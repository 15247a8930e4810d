package bench

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"
)

// Combination is unknowns of which the readings tell a weighted sum better than any of them.
type Combination struct {
	Parts   []Part  // the heaviest first
	Learned float64 // as that of a Value, of the sum
	Better  float64 // times that it is better known than the best known of its parts
	said    string
}

// Part is an unknown in a combination.
type Part struct {
	Name   string  // of the unknown
	Weight float64 // of the unknown in standard uncertainties before the readings; squares add up to about 1
}

// String is what it means at the bench, as "if gauge is higher by 0.10 bar, left air volume is lower by 5 mL".
func (c Combination) String() string { return c.said }

const (
	leastBetter = 1.5 // of a combination that is worth telling
	leastPart   = 0.2 // of its heaviest part
	settled     = 0.1 // uncertainty left of what is known by itself
)

// together finds the directions of the unknowns, each over its uncertainty before, that the readings tell best: the
// eigenvectors of their covariance, what is known by itself left out.
func (k *Known) together() {
	var open []int
	for i := range k.z {
		if k.covariance.At(i, i) > settled*settled {
			open = append(open, i)
		}
	}
	if len(open) < 2 {
		return
	}
	c := mat.NewSymDense(len(open), nil)
	for a, i := range open {
		for b, j := range open[:a+1] {
			c.SetSym(a, b, k.covariance.At(i, j))
		}
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(c, true) {
		return // of a covariance: never
	}
	var directions mat.Dense
	eigen.VectorsTo(&directions)
	for d, variance := range eigen.Values(nil) {
		column := mat.Col(nil, d, &directions)
		heaviest := max(slices.Max(column), -slices.Min(column))
		var parts []int
		best := math.Inf(1)
		for a, w := range column {
			if math.Abs(w) >= leastPart*heaviest {
				parts = append(parts, a)
				best = min(best, math.Sqrt(c.At(a, a)))
			}
		}
		left := math.Sqrt(max(variance, 0))
		if len(parts) < 2 || left*leastBetter > best {
			continue
		}
		slices.SortFunc(parts, func(a, b int) int { return cmp.Compare(math.Abs(column[b]), math.Abs(column[a])) })
		sum := Combination{Learned: 1 - left, Better: best / left}
		for _, a := range parts {
			sum.Parts = append(sum.Parts, Part{k.scales[open[a]].name, column[a]})
			parts[len(sum.Parts)-1] = open[a]
		}
		sum.said = k.trade(sum, parts)
		k.Together = append(k.Together, sum)
	}
}

// trade says what a combination of those unknowns leaves open: by how much one is off if the other is.
func (k *Known) trade(sum Combination, parts []int) string {
	if len(parts) > 2 {
		names := make([]string, len(parts))
		for i, p := range sum.Parts {
			names[i] = spoken(p.Name)
		}
		last := len(names) - 1
		return fmt.Sprintf("%s and %s are known %.1f times better together than the best of them: "+
			"one known would tell more of the others", strings.Join(names[:last], ", "), names[last], sum.Better)
	}
	of, with := parts[0], parts[1] // what hangs on what: on the one that is known least
	if k.covariance.At(of, of) > k.covariance.At(with, with) {
		of, with = with, of
	}
	both, own := k.covariance.At(of, with), k.covariance.At(with, with)
	a, b := k.scales[with], k.scales[of]
	way := "higher"
	if both < 0 {
		way = "lower"
	}
	return fmt.Sprintf("if %s is higher by %s, %s is %s by %s", spoken(a.name),
		unsigned(a.text, a.deviation(k.z[with], math.Sqrt(own))), spoken(b.name), way,
		unsigned(b.text, b.deviation(k.z[of], math.Abs(both)/math.Sqrt(own))))
}

// spoken is a name in a sentence.
func spoken(name string) string { return strings.NewReplacer(".", " ", "-", " ").Replace(name) }
