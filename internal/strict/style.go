package strict

import (
	"cmp"
	"slices"

	"example.org/forkcurve/units"
)

// wrote counts the unit that a text gives a quantity in.
func wrote[Q units.Quantity](d *Doc, v any) {
	text, _ := v.(string)
	symbol := units.Written[Q](text)
	if symbol == "" {
		return
	}
	if d.written == nil {
		d.written = map[string]int{}
	}
	name, _ := describe[Q]()
	d.written[name+" "+symbol]++
}

// Style is the units that the file was written in, of each quantity the one written most often.
// Lengths in m, km and ft are altitudes. Of what is not written energy and stress follow the force,
// and that the rate, where it is in pounds.
func (d *Doc) Style() units.Style {
	most := func(usual string, symbols []string, names ...string) string {
		count := func(symbol string) (n int) {
			for _, name := range names {
				n += d.written[name+" "+symbol]
			}
			return n
		}
		// Of as many the one listed first.
		best := slices.MaxFunc(symbols, func(a, b string) int { return cmp.Compare(count(a), count(b)) })
		if best == usual || count(best) == 0 {
			return ""
		}
		return best
	}
	s := units.Style{
		Length:      most("mm", []string{"mm", "in", "cm"}, "length"),
		Altitude:    most("m", []string{"m", "ft"}, "length"),
		Volume:      most("mL", []string{"mL", "in³", "US fl oz", "imp fl oz"}, "volume"),
		Mass:        most("kg", []string{"kg", "lb"}, "mass"),
		Force:       most("N", []string{"N", "lbf", "kgf"}, "force"),
		Stiffness:   most("N/mm", []string{"N/mm", "lbf/in", "kgf/mm", "lbf/ft"}, "stiffness"),
		Torque:      most("N·m", []string{"N·m", "lbf·ft", "lbf·in", "kgf·m"}, "torque"),
		Pressure:    most("bar", []string{"bar", "psi", "kPa", "kgf/cm²"}, "gauge pressure", "absolute pressure", "pressure"),
		Temperature: most("°C", []string{"°C", "°F", "K"}, "temperature", "temperature difference"),
	}
	if s.Force == "" && s.Stiffness == "lbf/in" && d.written["force N"] == 0 {
		s.Force = "lbf"
	}
	if s.Force == "lbf" {
		s.Energy, s.Stress = "ft·lbf", "ksi"
		if s.Torque == "" && d.written["torque N·m"] == 0 {
			s.Torque = "lbf·ft"
		}
	}
	return s
}

// Written is the unit that the text under the key gives a quantity in; "" where it gives none.
func Written[Q units.Quantity](t *Table, key string) string {
	text, _ := t.values[key].(string)
	return units.Written[Q](text)
}
