package explore

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Control is one setting as the page shows it: a slider over a range, or a list of values in words.
type Control struct {
	Key, Label, Group string
	Choices           []Named
	Chosen            string

	Unit                  string // as an address writes it
	Value, Min, Max, Step float64
	Text                  string // the value for people and screen readers
}

// Groups of controls.
const (
	home  = "Closed and filled"
	today = "Today"
	shown = "Show"
	body  = "Rider"
)

var forkGroups = [2]string{"Fork 1", "Fork 2"}

// Controls are all settings that these forks have, in the order of the page.
func (s State) Controls() []Control {
	var list []Control
	for _, o := range s.choices() {
		c := Control{Key: o.key, Label: o.label, Group: o.group, Choices: o.values(), Chosen: o.value()}
		if o.key == "set" {
			c.Choices = slices.DeleteFunc(c.Choices, func(n Named) bool {
				return n.Value != c.Chosen && !s.hasValve(Again(n.Value))
			})
		}
		list = append(list, c)
	}
	for _, d := range s.dials() {
		list = append(list, d.Control)
	}
	return list
}

// hasValve reports whether one of the forks has a chamber that can be set again alone.
func (s State) hasValve(a Again) bool {
	if a == Nothing || a == Everything {
		return true
	}
	for i := range s.Forks {
		spec, _, err := s.recorded(i)
		if err != nil {
			continue
		}
		for _, l := range []setup.Leg{spec.Left, spec.Right} {
			none := units.GaugePressure{}
			if air := l.Air; air != nil && (a == again(setup.Positive) ||
				a == again(setup.Negative) && air.NegativeGauge != none || a == again(setup.Second) && air.SecondVolume > 0) ||
				a == again(setup.OverOil) && l.Gap != nil && l.Gap.Gauge != none {
				return true
			}
		}
	}
	return false
}

// Texts are the settings of all sliders in words, by their keys.
func (s State) Texts() []Named {
	var list []Named
	for _, d := range s.dials() {
		list = append(list, Named{d.Key, d.Text})
	}
	return list
}

// scale shows a quantity as a number of some unit.
type scale[Q any] struct {
	unit string
	of   func(Q) float64
	to   func(float64) Q
}

func linear[Q ~float64](unit string, one Q) scale[Q] {
	return scale[Q]{unit, func(q Q) float64 { return float64(q) / float64(one) }, func(v float64) Q { return Q(v) * one }}
}

func gauge(unit string, one units.Pressure) scale[units.GaugePressure] {
	return scale[units.GaugePressure]{unit, func(g units.GaugePressure) float64 { return g.In(one) },
		func(v float64) units.GaugePressure { return units.Gauge(units.Pressure(v) * one) }}
}

// Scales, metric and imperial.
var (
	kilograms = [2]scale[units.Mass]{linear("kg", units.Kilogram), linear("lb", units.PoundMass)}
	gauges    = [2]scale[units.GaugePressure]{gauge("bar", units.Bar), gauge("psi", units.PSI)}
	rates     = [2]scale[units.Stiffness]{linear("N/mm", units.NewtonPerMillimeter), linear("lbf/in",
		units.PoundForcePerInch)}
	millimeters  = [2]scale[units.Length]{linear("mm", units.Millimeter), linear("in", units.Inch)}
	heights      = [2]scale[units.Length]{linear("m", units.Meter), linear("ft", units.Foot)}
	milliliters  = [2]scale[units.Volume]{linear("mL", units.Milliliter), linear("in3", units.CubicInch)}
	barometers   = [2]scale[units.Pressure]{linear("hPa", 100*units.Pascal), linear("inHg", units.InchOfMercury)}
	newtons      = [2]scale[units.Force]{linear("N", units.Newton), linear("lbf", units.PoundForce)}
	joules       = [2]scale[units.Energy]{linear("J", units.Joule), linear("ft·lbf", units.FootPoundForce)}
	shares       = [2]scale[units.Share]{linear("%", units.Percent), linear("%", units.Percent)}
	thermometers = [2]scale[units.Temperature]{{"C", units.Temperature.Celsius, units.Celsius},
		{"F", units.Temperature.Fahrenheit, units.Fahrenheit}}
)

// dial is a setting that can be turned.
type dial struct {
	Control
	set func(text string) error
}

// of is a dial for a quantity. All that does not hang on its type is in newDial, which keeps the wasm small.
func of[Q units.Quantity](key, label, group string, scales [2]scale[Q], s *State, at *Q, lo, hi Q, metric,
	imperial float64) dial {
	c := scales[s.system()]
	d := newDial(key, label, group, c.unit, c.of(*at), c.of(lo), c.of(hi), [2]float64{metric, imperial}[s.system()])
	d.set = func(text string) error {
		q, err := units.Parse[Q](text)
		if err == nil {
			err = d.within(c.of(q), q)
		}
		if err == nil {
			*at = q
		}
		return err
	}
	return d
}

func newDial(key, label, group, unit string, value, lo, hi, step float64) dial {
	digits := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	return dial{Control: Control{Key: key, Label: label, Group: group, Unit: unit, Step: step, Value: round(value),
		Min: round(step * math.Ceil(lo/step-1e-6)), Max: round(step * math.Floor(hi/step+1e-6)),
		Text: strings.TrimSpace(strconv.FormatFloat(round(value), 'f', digits, 64) + " " + printed(unit))}}
}

// within holds a value to the range, which ends on a step.
func (d dial) within(v float64, q any) error {
	if v >= d.Min-d.Step && v <= d.Max+d.Step {
		return nil
	}
	return &units.RangeError{Value: q, Want: strings.TrimSpace(fmt.Sprintf("%.4g to %.4g %s", d.Min, d.Max,
		printed(d.Unit)))}
}

// round drops what a conversion of units leaves beyond what a control can hold.
func round(v float64) float64 { return math.Round(v*1e6)/1e6 + 0 }

// printed is a unit as people read it.
func printed(unit string) string {
	switch unit {
	case "C", "F":
		return "°" + unit
	case "in3":
		return "in³"
	}
	return unit
}

// dials are the settings of these forks. Ranges are those in which a fork is still one.
func (s *State) dials() []dial {
	var list []dial
	for i := range s.Forks {
		list = append(list, s.forkDials(i)...)
	}
	number := newDial("exponent", "Exponent n of the ridden gas", shown, "", s.Exponent, 1, 1.4, 0.01)
	number.set = func(text string) error {
		n, err := strconv.ParseFloat(text, 64)
		if err != nil || !(n >= 1 && n <= 1.4) {
			return &units.RangeError{Value: shortened(text), Want: "1 to 1.4"}
		}
		s.Exponent = n
		return nil
	}
	return append(list,
		of("rider", "Rider in kit", body, kilograms, s, &s.Rider, geometry.LightestRider, 160*units.Kilogram, 1, 1),
		of("home-temperature", "Air then", home, thermometers, s, &s.HomeTemperature, units.Celsius(-20), units.Celsius(45),
			1, 1),
		of("home-altitude", "Altitude then", home, heights, s, &s.HomeAltitude, 0, 4000*units.Meter, 10, 50),
		of("home-weather", "Weather then, off the standard", home, barometers, s, &s.HomeWeather, -5000*units.Pascal,
			5000*units.Pascal, 1, 0.05),
		of("temperature", "Air and fork now", today, thermometers, s, &s.Temperature, units.Celsius(-20), units.Celsius(55),
			1, 1),
		of("altitude", "Altitude now", today, heights, s, &s.Altitude, 0, 4000*units.Meter, 10, 50),
		of("weather", "Weather now, off the standard", today, barometers, s, &s.Weather, -5000*units.Pascal,
			5000*units.Pascal, 1, 0.05),
		of("leak", "Leaked from the air spring", today, shares, s, &s.Leak, 0, 50*units.Percent, 1, 1),
		number,
		of("travel", "Travel", shown, millimeters, s, &s.Travel, 0, 400*units.Millimeter, 1, 0.05),
	)
}

// forkDials are those of one fork: an air spring has a pressure, a coil its rate and preload.
func (s *State) forkDials(i int) []dial {
	spec, f, err := s.recorded(i)
	if err != nil {
		return nil
	}
	suffix, c, group := [2]string{"", "2"}[i], &s.Forks[i], forkGroups[i]
	var list []dial
	if a := airOf(spec); a != nil {
		most := units.Gauge(25 * units.Bar)
		for _, l := range []units.GaugePressure{f.Left.Air.Maximum.Value, f.Right.Air.Maximum.Value} {
			if l.In(units.Bar) > 0 {
				most = l
			}
		}
		list = append(list, of("pressure"+suffix, "Pressure on the gauge", group, gauges, s, &c.Pressure,
			units.Gauge(0.5*units.Pressure(a.Fill.Gauge.In(units.Pascal))), most, 0.05, 0.5))
	}
	if coil, ok := coilOf(spec); ok {
		list = append(list,
			of("rate"+suffix, "Rate of each spring", group, rates, s, &c.Rate, 0.6*coil.Rate, 1.6*coil.Rate, 0.05, 0.25),
			of("preload"+suffix, "Preload", group, millimeters, s, &c.Preload, 0, coil.Preload+20*units.Millimeter, 0.5, 0.02))
	}
	if room := oilRoom(spec); room > 0 {
		list = append(list, of("oil"+suffix, "Oil in each leg, more or less", group, milliliters, s, &c.Oil, -room/2,
			room/2, 1, 0.05))
	}
	return list
}
