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
	Fork     string  // "present", or "coil " and the name of the candidate
	Exponent float64 // polytropic, of its gas: 1 at rest, else ridden
	Travel   []units.Length
	Force    []units.Force
	Rate     []units.Stiffness
	Energy   []units.Energy
}

// newCurves are those of one fork, at rest and ridden.
func newCurves(fork string, s *setup.Setup, rideExponent float64) []curve {
	var list []curve
	for _, n := range []float64{gas.Isothermal, rideExponent} {
		c := curve{Fork: fork, Exponent: n}
		for _, p := range spring.Sample(s.Curve(n), samples) {
			c.Travel, c.Force = append(c.Travel, p.Travel), append(c.Force, p.Force)
			c.Rate, c.Energy = append(c.Rate, p.Rate), append(c.Energy, p.Energy)
		}
		list = append(list, c)
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
// ridden, a line for each sample.
func WriteCSV(w io.Writer, r *conversion.Report) error {
	out := csv.NewWriter(w)
	if err := out.Write(Columns()); err != nil {
		return err
	}
	number := func(x float64) string { return strconv.FormatFloat(x, 'g', 10, 64) }
	for _, c := range curves(r) {
		for i, x := range c.Travel {
			if err := out.Write([]string{c.Fork, number(c.Exponent), number(x.In(units.Millimeter)),
				number(c.Force[i].In(units.Newton)),
				number(c.Rate[i].In(units.NewtonPerMillimeter)), number(c.Energy[i].In(units.Joule))}); err != nil {
				return err
			}
		}
	}
	out.Flush()
	return out.Error()
}
