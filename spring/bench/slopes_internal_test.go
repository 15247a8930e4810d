package bench

import (
	"errors"
	"math"
	"testing"

	"example.org/forkcurve/units"
)

// The slope of something straight is the same from either side, so that a best fork at the edge of what a fork can be
// has its uncertainty; what has nothing beside it has none.
func TestSlopesAtAnEdge(t *testing.T) {
	edge := errors.New("no such fork")
	for _, c := range []struct {
		name     string
		from, to float64
		fails    bool
	}{
		{"within", -9, 9, false}, {"at the lower edge", 2, 9, false}, {"at the upper edge", -9, 2, false},
		{"alone", 2, 2, true},
	} {
		jac, err := slopes([]float64{2, 5}, []float64{0.5, 0.25}, 2, func(z, dst []float64) error {
			if z[0] < c.from || z[0] > c.to {
				return edge
			}
			dst[0], dst[1] = 3*z[0]+7*z[1], z[0]*z[1]
			return nil
		})
		if (err != nil) != c.fails || err != nil && !errors.Is(err, edge) {
			t.Errorf("%s: error %v", c.name, err)
		}
		for i, row := range [][]float64{{3, 7}, {5, 2}} { // the product is straight in each of its factors
			for j, want := range row {
				if err == nil {
					near(t, c.name, jac.At(i, j), want, 1e-12)
				}
			}
		}
	}
}

// silent reads what no fork shows.
type silent struct{ such }

func (silent) model(*bench) (float64, error) { return math.NaN(), nil }

// A reading that comes out as no number is an error that names it, not a covariance of none.
func TestPredictsNumbers(t *testing.T) {
	k := known(t, 1)
	fault := (*units.RangeError)(nil)
	read := silent{such{name: "offset", sd: 1}}
	err := k.predict([]Reading{read}, k.z, make([]float64, 1))
	if !errors.As(err, &fault) || fault.Field != read.String() {
		t.Errorf("error %v, want one that names %v", err, read)
	}
}
