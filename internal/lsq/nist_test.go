package lsq

import (
	"context"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/forkcurve/internal/register"
)

// certified is a data set of the Statistical Reference Datasets for nonlinear
// regression by the National Institute of Standards and Technology (NIST), a work of
// the United States government in the public domain. The files of testdata are as
// NIST gives them out; each names where its data came from.
type certified struct {
	starts         [2][]float64
	values, stdDev []float64
	squares        float64
	x, y           []float64
}

func readCertified(t testing.TB, name string) certified {
	t.Helper()
	text, err := os.ReadFile("testdata/" + name + ".dat")
	if err != nil {
		t.Fatal(err)
	}
	number := func(field string) float64 {
		v, err := strconv.ParseFloat(field, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	var c certified
	data := false
	for line := range strings.Lines(string(text)) {
		f := strings.Fields(line)
		switch {
		case len(f) == 6 && f[0][0] == 'b' && f[1] == "=":
			for i := range c.starts {
				c.starts[i] = append(c.starts[i], number(f[2+i]))
			}
			c.values, c.stdDev = append(c.values, number(f[4])), append(c.stdDev, number(f[5]))
		case strings.HasPrefix(line, "Residual Sum of Squares:"):
			c.squares = number(f[4])
		case len(f) > 1 && f[0] == "Data:" && f[1] == "y":
			data = true
		case data && len(f) == 2:
			c.y, c.x = append(c.y, number(f[0])), append(c.x, number(f[1]))
		}
	}
	return c
}

// nist are the models, with their derivatives.
var nist = map[string]func(x float64, b, d []float64) float64{
	"Misra1a": saturation,
	"BoxBOD":  saturation,
	"DanWood": func(x float64, b, d []float64) float64 {
		p := math.Pow(x, b[1])
		d[0], d[1] = p, b[0]*p*math.Log(x)
		return b[0] * p
	},
	"Eckerle4": func(x float64, b, d []float64) float64 {
		z := (x - b[2]) / b[1]
		y := b[0] / b[1] * math.Exp(-z*z/2)
		d[0], d[1], d[2] = y/b[0], y*(z*z-1)/b[1], y*z/b[1]
		return y
	},
	"Hahn1":   rational,
	"Thurber": rational,
	"MGH17": func(x float64, b, d []float64) float64 {
		p, q := math.Exp(-x*b[3]), math.Exp(-x*b[4])
		d[0], d[1], d[2], d[3], d[4] = 1, p, q, -x*b[1]*p, -x*b[2]*q
		return b[0] + b[1]*p + b[2]*q
	},
	"Rat43": func(x float64, b, d []float64) float64 {
		e := math.Exp(b[1] - b[2]*x)
		u := 1 + e
		y := b[0] * math.Pow(u, -1/b[3])
		d[0], d[1], d[2], d[3] = y/b[0], -y*e/(u*b[3]), y*e*x/(u*b[3]), y*math.Log(u)/(b[3]*b[3])
		return y
	},
}

func saturation(x float64, b, d []float64) float64 {
	e := math.Exp(-b[1] * x)
	d[0], d[1] = 1-e, b[0]*x*e
	return b[0] * (1 - e)
}

func rational(x float64, b, d []float64) float64 {
	over := b[0] + x*(b[1]+x*(b[2]+x*b[3]))
	under := 1 + x*(b[4]+x*(b[5]+x*b[6]))
	for j, p := 0, 1/under; j < 4; j++ {
		d[j] = p
		if p *= x; j < 3 {
			d[4+j] = -over / under * p
		}
	}
	return over / under
}

// certifiedProblem is the least-squares problem of a data set.
func certifiedProblem(c certified, model func(x float64, b, d []float64) float64) Problem {
	n := len(c.values)
	scratch := make([]float64, n)
	return Problem{
		Parameters: n, Residuals: len(c.x),
		Evaluate: func(b, r []float64) bool {
			for i, x := range c.x {
				r[i] = model(x, b, scratch) - c.y[i]
			}
			return true
		},
		Differentiate: func(b, _ []float64, jac [][]float64) bool {
			for i, x := range c.x {
				model(x, b, scratch)
				for j, d := range scratch {
					jac[j][i] = d
				}
			}
			return true
		},
	}
}

// TestNIST compares with the certified values, printed with 11 digits: parameters,
// their standard deviations and the residual sum of squares to 6 digits and more,
// from both starting points. Standard deviations hang on the value at first order,
// the squares at second.
func TestNIST(t *testing.T) {
	register.Cite(t, "X-54")
	for name, model := range nist {
		c := readCertified(t, name)
		p := certifiedProblem(c, model)
		for i, start := range c.starts {
			t.Run(name+" from start "+strconv.Itoa(i+1), func(t *testing.T) {
				s := NewSolver(p)
				x := slices.Clone(start)
				got := s.Minimize(context.Background(), x)
				if !got.Reason.Converged() {
					t.Fatalf("%v after %d steps at %v", got.Reason, got.Steps, x)
				}
				if off := math.Abs(got.Squares/c.squares - 1); off > 1e-9 {
					t.Errorf("sum of squares %v, certified %v", got.Squares, c.squares)
				}
				d, ok := s.Determined(x, all(len(x)))
				if !ok || d.Covariance == nil {
					t.Fatalf("%+v", d)
				}
				variance := got.Squares / float64(len(c.x)-len(x))
				for j, want := range c.values {
					if !(math.Abs(x[j]/want-1) <= 1e-7) {
						t.Errorf("b%d = %v, certified %v", j+1, x[j], want)
					}
					if sd := math.Sqrt(variance * d.Covariance.At(j, j)); !(math.Abs(sd/c.stdDev[j]-1) <= 5e-7) {
						t.Errorf("standard deviation of b%d %v, certified %v", j+1, sd, c.stdDev[j])
					}
				}
			})
		}
	}
}
