package sheet

import (
	"encoding/csv"
	"io"
	"strconv"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// samples of a curve, evenly over its stroke.
const samples = 101

// curve is what a fork does along its axis, moving from full extension.
type curve struct {
	Fork     string    `json:"fork"`     // "present", or "coil " and the name of the candidate
	Exponent float64   `json:"exponent"` // polytropic, of its gas: 1 at rest, else a landing
	Travel   []float64 `json:"travel_mm"`
	Force    []float64 `json:"force_N"`
	Rate     []float64 `json:"rate_N_per_mm"`
	Energy   []float64 `json:"energy_J"`
}

// newCurves reads a fork at rest and in a landing.
func newCurves(fork string, s *setup.Setup, ride float64) []curve {
	var list []curve
	for _, n := range []float64{gas.Isothermal, ride} {
		points := spring.Sample(s.Curve(n), samples)
		read := func(of func(p spring.Point) float64) []float64 {
			values := make([]float64, len(points))
			for i, p := range points {
				values[i] = of(p)
			}
			return values
		}
		list = append(list, curve{fork, n,
			read(func(p spring.Point) float64 { return p.Travel.In(units.Millimeter) }),
			read(func(p spring.Point) float64 { return p.Force.In(units.Newton) }),
			read(func(p spring.Point) float64 { return p.Rate.In(units.NewtonPerMillimeter) }),
			read(func(p spring.Point) float64 { return p.Energy.In(units.Joule) })})
	}
	return list
}

// curves of the present fork and of every candidate.
func curves(r *conversion.Report) []curve {
	list := newCurves("present", r.Present.Setup, r.Job.RideExponent)
	for _, c := range r.Candidates {
		list = append(list, newCurves("coil "+c.Coil, c.Behavior.Setup, r.Job.RideExponent)...)
	}
	return list
}

// Columns are those of the CSV.
func Columns() []string {
	return []string{"fork", "exponent", "travel_mm", "force_N", "rate_N_per_mm", "energy_J"}
}

// WriteCSV writes the curves of the present fork and of every candidate, at rest and
// in a landing, a line for each sample.
func WriteCSV(w io.Writer, r *conversion.Report) error {
	if err := whole(r); err != nil {
		return err
	}
	return writeCurves(w, curves(r))
}

func writeCurves(w io.Writer, list []curve) error {
	out := csv.NewWriter(w)
	if err := out.Write(Columns()); err != nil {
		return err
	}
	number := func(x float64) string { return strconv.FormatFloat(x, 'g', 10, 64) }
	for _, c := range list {
		for i, x := range c.Travel {
			if err := out.Write([]string{c.Fork, number(c.Exponent), number(x), number(c.Force[i]), number(c.Rate[i]),
				number(c.Energy[i])}); err != nil {
				return err
			}
		}
	}
	out.Flush()
	return out.Error()
}
