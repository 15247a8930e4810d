package explore

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// State is all that a reader of the page can set. Its text form is the address of the page: keys with
// quantities that carry their units, as "fork=M07&pressure=9bar&temperature=4C".
type State struct {
	Forks [2]Choice
	Rider units.Mass

	// Where the legs were closed and filled, and where the fork is now.
	HomeTemperature, Temperature units.Temperature
	HomeAltitude, Altitude       units.Length
	HomeWeather, Weather         units.Pressure // above the standard atmosphere at sea level

	Leak     units.Share // of the gas of the air springs, lost
	Past     bool        // gas went past the pistons of the air springs, with the rider at the sag
	Vent     Vent
	Again    Again
	Exponent float64 // of a ridden fork
	Travel   units.Length
	Imperial bool
}

// Choice is one of the two forks and how it is set.
type Choice struct {
	ID       string // of the dataset, Planned or None
	Pressure units.GaugePressure
	Rate     units.Stiffness // of each coil spring
	Preload  units.Length
	Oil      units.Volume // in each leg, more than the record has
}

// Choices of the second fork beside those of the dataset.
const (
	Planned = "planned" // the first one on the coil that a plan picks for its typical rider
	None    = "none"
)

// Vent is whether and how the gas trapped over the oil was let out.
type Vent string

// Ways to vent.
const (
	Closed   Vent = "no"
	Extended Vent = "extended" // wheel off the ground
	Loaded   Vent = "loaded"   // with the weight on the wheel
)

// Again is which chamber was set to its gauge reading again, here and now.
type Again string

// What may be set again: nothing, everything with a valve, or one chamber by its name in [setup.Chamber].
const (
	Nothing    Again = "no"
	Everything Again = "yes"
)

func again(c setup.Chamber) Again { return Again(c.String()) }

// Parse reads an address. What is wrong with it is told with its key, all at once; the state then has the
// usual value there.
func Parse(address string) (State, error) {
	keys, faults := pairs(address)
	s := State{Forks: [2]Choice{{ID: "M07"}, {ID: Planned}}, Vent: Closed, Again: Nothing}
	take := func(key string, set func(text string) error) {
		if text, given := keys[key]; given {
			if err := set(text); err != nil {
				faults = append(faults, fmt.Errorf("%s in the address: %w", key, err))
			}
			delete(keys, key)
		}
	}
	for _, e := range s.choices() {
		take(e.key, e.choose)
	}
	s.usual()
	for _, d := range s.dials() {
		take(d.Key, d.set)
	}
	for _, key := range slices.Sorted(maps.Keys(keys)) {
		faults = append(faults, fmt.Errorf("%.40q in the address: no such setting for these forks", key))
	}
	return s, errors.Join(faults...)
}

// pairs takes an address apart, of a key given twice the last. (Package net/url would bring addresses of hosts and the
// metrics of the runtime into the wasm.)
func pairs(address string) (keys map[string]string, faults []error) {
	keys = map[string]string{}
	for pair := range strings.SplitSeq(address, "&") {
		key, value, _ := strings.Cut(pair, "=")
		k, err := unescaped(key)
		v, err2 := unescaped(value)
		switch err := cmp.Or(err, err2); {
		case err != nil:
			faults = append(faults, fmt.Errorf("address: %w", err))
		case pair != "":
			keys[k] = v
		}
	}
	return keys, faults
}

// unescaped is a part of an address as it was before it was put into one.
func unescaped(text string) (string, error) {
	var b strings.Builder
	for i := 0; i < len(text); i++ {
		c := text[i]
		switch c {
		case '+':
			c = ' '
		case '%':
			code, err := strconv.ParseUint(text[i+1:min(i+3, len(text))], 16, 8)
			if err != nil || i+3 > len(text) {
				return "", fmt.Errorf("%q: want two hexadecimal digits after %%", shortened(text))
			}
			c, i = byte(code), i+2
		}
		b.WriteByte(c)
	}
	return b.String(), nil
}

// usual sets what follows from the forks chosen: the records' own settings and typical rider.
func (s *State) usual() {
	s.HomeTemperature, s.Temperature = units.Celsius(20), units.Celsius(20)
	s.Exponent = gas.Ridden
	for i := range s.Forks {
		spec, f, err := s.recorded(i)
		if err != nil {
			continue
		}
		c := &s.Forks[i]
		if air := airOf(spec); air != nil {
			c.Pressure = air.Fill.Gauge
		}
		if coil, ok := coilOf(spec); ok {
			c.Rate, c.Preload = coil.Rate, coil.Preload
		}
		if i == 0 {
			s.Rider = f.Rider.Mass.Value
			sag, err := f.Setup(spec.Closed)
			if err == nil {
				if x, err := sag.Sag(f.Load(s.Rider)); err == nil {
					s.Travel = x.Middle
				}
			}
		}
	}
}

// option is a setting with a few named values.
type option struct {
	key, label string
	group      string
	values     func() []Named
	value      func() string
	choose     func(string) error
}

// Named is a value of an option in words.
type Named struct{ Value, Name string }

func (s *State) choices() []option {
	words := func(key, label, group string, at func() string, put func(string), values func() []Named) option {
		return option{key, label, group, values, at, func(text string) error {
			names := values()
			if !slices.ContainsFunc(names, func(n Named) bool { return n.Value == text }) {
				return &units.RangeError{Field: key, Value: shortened(text), Want: wanted(names)}
			}
			put(text)
			return nil
		}}
	}
	fork := func(i int, key, label string, extra ...Named) option {
		return words(key, label, forkGroups[i], func() string { return s.Forks[i].ID },
			func(id string) { s.Forks[i].ID = id },
			func() []Named { return append(extra, forks()...) })
	}
	yes := func(is bool) string { return map[bool]string{true: "yes", false: "no"}[is] }
	return []option{
		fork(0, "fork", "Fork 1"),
		fork(1, "second", "Fork 2", Named{Planned, "fork 1 on the coil a plan picks"}, Named{None, "none"}),
		words("vent", "Trapped gas let out", today, func() string { return string(s.Vent) },
			func(v string) { s.Vent = Vent(v) },
			func() []Named {
				return []Named{{string(Closed), "no"}, {string(Extended), "yes, wheel off the ground"},
					{string(Loaded), "yes, weight on the wheel"}}
			}),
		words("past", "Gas went past the piston, at the sag", today, func() string { return yes(s.Past) },
			func(v string) { s.Past = v == "yes" }, func() []Named {
				return []Named{{"no", "no"}, {"yes", "yes: positive and negative at one pressure"}}
			}),
		words("set", "Set to its reading again, here and now", today, func() string { return string(s.Again) },
			func(v string) { s.Again = Again(v) }, func() []Named {
				return []Named{{string(Nothing), "nothing"}, {string(Everything), "every chamber with a valve"},
					{string(again(setup.Positive)), "positive chamber"}, {string(again(setup.Negative)), "negative chamber"},
					{string(again(setup.Second)), "second chamber"}, {string(again(setup.OverOil)), "precharge over the oil"}}
			}),
		words("units", "Units", shown, func() string {
			return map[bool]string{true: "imperial", false: "metric"}[s.Imperial]
		},
			func(v string) { s.Imperial = v == "imperial" },
			func() []Named { return []Named{{"metric", "metric"}, {"imperial", "imperial"}} }),
	}
}

func shortened(text string) string {
	if r := []rune(text); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return text
}

func wanted(names []Named) string {
	var list []string
	for _, n := range names {
		list = append(list, n.Value)
	}
	return "one of " + strings.Join(list, ", ")
}

func forks() []Named {
	var list []Named
	for f := range data.Reference().Forks() {
		list = append(list, Named{f.ID, f.ID + ": " + f.Name})
	}
	return list
}
