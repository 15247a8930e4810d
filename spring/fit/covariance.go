package fit

import (
	"errors"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"
)

// covariance of the parameters that are free and not held: matrix times the units of
// row and column.
type covariance struct {
	names  []string
	units  []float64
	matrix *mat.SymDense
}

func (c *covariance) at(a, b string) float64 {
	i, j := slices.Index(c.names, a), slices.Index(c.names, b)
	if i < 0 || j < 0 {
		return 0
	}
	return c.matrix.At(i, j) * (c.units[i] * c.units[j])
}

func (c *covariance) stdErr(name string) float64 { return math.Sqrt(c.at(name, name)) }

func (c *covariance) correlation(a, b string) float64 {
	if both := c.stdErr(a) * c.stdErr(b); both > 0 {
		return min(1, max(-1, c.at(a, b)/both))
	}
	return 0
}

// UnidentifiableError tells that the readings do not determine some of the free
// parameters.
type UnidentifiableError struct {
	Parameters []string // by name, in the order of the fit
	Reason     string   // in words
}

func (e *UnidentifiableError) Error() string {
	names, last := e.Parameters[:len(e.Parameters)-1], e.Parameters[len(e.Parameters)-1]
	list := strings.Join(names, ", ")
	if list != "" {
		list += " and "
	}
	return "fit: the readings do not determine " + list + last + ": " + e.Reason
}

var errSingular = errors.New("fit: singular value decomposition failed")
