package units

import (
	"errors"
	"fmt"
	"math"
	"reflect"
)

// Style is the units that people are shown quantities in, each by its symbol in the table of the package comment; ""
// is the one that the quantity prints in. Its zero value shows every quantity as it prints.
type Style struct {
	Length      string // of parts and travel
	Altitude    string // "": m
	Volume      string // of oil and chambers
	Mass        string // of rider, machine and parts
	Force       string // of springs and friction
	Stiffness   string // rates of springs
	Energy      string // that a stroke takes
	Torque      string // of fasteners
	Stress      string // of the wire
	Pressure    string // absolute, gauge and differences
	Temperature string // and differences
}

// Validate reports every symbol that is none of its quantity, each as a *[RangeError].
func (s Style) Validate() error {
	var faults []error
	for _, f := range []struct {
		field, symbol string
		kind          *kind
	}{
		{"Length", s.Length, &lengthKind}, {"Altitude", s.Altitude, &lengthKind}, {"Volume", s.Volume, &volumeKind},
		{"Mass", s.Mass, &massKind}, {"Force", s.Force, &forceKind}, {"Stiffness", s.Stiffness, &stiffnessKind},
		{"Energy", s.Energy, &energyKind}, {"Torque", s.Torque, &torqueKind}, {"Stress", s.Stress, &stressKind},
		{"Pressure", s.Pressure, &pressureKind}, {"Temperature", s.Temperature, &temperatureKind},
	} {
		if _, ok := f.kind.find(f.symbol); f.symbol != "" && !ok {
			faults = append(faults, &RangeError{Field: "Style." + f.field, Value: fmt.Sprintf("%q", f.symbol),
				Want: "a unit of " + f.kind.noun[len("a "):]})
		}
	}
	return errors.Join(faults...)
}

// Shown is a quantity to be printed in the unit of the style with about the resolution that the verb has in its own
// unit: "%.1f" of 25.4 mm in inches is "1.000 in". What is no quantity of the style comes back as it is.
func (s Style) Shown(v any) any {
	k, symbol, q := s.look(v)
	if k == nil || symbol == "" || symbol == k.units[0].symbol {
		return v
	}
	u, ok := k.find(symbol)
	if !ok {
		return v
	}
	return shown{k, u, q}
}

// Number is the quantity's number in the unit of the style, without the unit, with so many decimals in its own.
func (s Style) Number(v any, decimals int) string {
	k, symbol, q := s.look(v)
	if k == nil {
		return fmt.Sprint(v)
	}
	u, ok := k.find(symbol)
	if !ok || symbol == "" {
		u = &k.units[0]
	}
	x := shown{k, u, q}
	n := x.number()
	if decimals = x.decimals(decimals); math.Abs(n) < 0.5*math.Pow10(-decimals) {
		n = 0 // no negative zero
	}
	return fmt.Sprintf("%.*f", decimals, untied(n, decimals))
}

// Symbol is that of the unit that the quantity is shown in.
func (s Style) Symbol(v any) string {
	switch k, symbol, _ := s.look(v); {
	case k == nil:
		return ""
	case symbol == "":
		return k.units[0].symbol
	default:
		return symbol
	}
}

// look is what the style knows about a quantity: nil where it is none.
func (s Style) look(v any) (k *kind, symbol string, q float64) {
	switch q := v.(type) {
	case Length:
		return &lengthKind, s.Length, float64(q)
	case Volume:
		return &volumeKind, s.Volume, float64(q)
	case Mass:
		return &massKind, s.Mass, float64(q)
	case Force:
		return &forceKind, s.Force, float64(q)
	case Stiffness:
		return &stiffnessKind, s.Stiffness, float64(q)
	case Energy:
		return &energyKind, s.Energy, float64(q)
	case Torque:
		return &torqueKind, s.Torque, float64(q)
	case Stress:
		return &stressKind, s.Stress, float64(q)
	case Pressure:
		return &pressureKind, s.Pressure, float64(q)
	case GaugePressure:
		return &pressureKind, s.Pressure, q.gauge
	case AbsolutePressure:
		return &pressureKind, s.Pressure, q.absolute
	case Temperature:
		return &temperatureKind, s.Temperature, q.Kelvin()
	case TemperatureDifference:
		return &temperatureDifferenceKind, s.Temperature, float64(q)
	}
	return nil, "", 0
}

// shown is a quantity in a unit.
type shown struct {
	kind *kind
	unit *unit
	q    float64
}

func (x shown) number() float64 {
	if x.kind.point == nil {
		return x.q / x.unit.size
	}
	zero := x.kind.point(0, x.unit) // 0 °F in kelvin
	return (x.q - zero) / (x.kind.point(1, x.unit) - zero)
}

// decimals in the unit that resolve at least two thirds of so many in the quantity's own.
func (x shown) decimals(own int) int {
	const enough = 0.2 // of a decimal
	return max(0, own+int(math.Ceil(math.Log10(x.unit.size/x.kind.units[0].size)-enough)))
}

// Format prints number and unit.
func (x shown) Format(s fmt.State, verb rune) {
	precision, ok := s.Precision()
	if verb != 'f' || !ok {
		fmt.Fprintf(s, "%.6g %s", x.number(), x.unit.symbol)
		return
	}
	sign := ""
	if s.Flag('+') {
		sign = "+"
	}
	decimals := x.decimals(precision)
	fmt.Fprintf(s, "%"+sign+".*f %s", decimals, untied(x.number(), decimals), x.unit.symbol)
}

// Written is the symbol of the unit that a text gives a quantity in, as "lbf/in"; "" where it is no text of one.
func Written[Q Quantity](text string) string {
	name := reflect.TypeFor[Q]().Name()
	for _, k := range kinds {
		if k.name == name {
			if _, u, err := k.split(text); err == nil {
				return u.symbol
			}
		}
	}
	return ""
}
