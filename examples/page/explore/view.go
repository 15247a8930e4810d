package explore

import (
	"fmt"
	"strconv"
	"strings"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// samples of a curve from full extension to the end of the stroke, and of a gas space.
const samples, gasSamples = 101, 41

// View is a state as the page draws it. The numbers are in the units named beside them.
type View struct {
	LengthUnit, ForceUnit, RateUnit, EnergyUnit, PressureUnit, VolumeUnit string

	Travel, Most float64 // under the cursor, and the longest of both forks
	Then, Now    string  // where the legs were closed and where the fork is, in words
	Forks        []ForkView
	Readings     []Reading
	Notes        []string // what a reader should know of this state
}

// ForkView is one fork as drawn.
type ForkView struct {
	Name, About, Kind string
	Load              float64
	X                 []float64
	Rest, Ridden      Curves
	At                struct{ Force, Rate, Energy, X float64 } // ridden, under the cursor
	Sag               SagView
	Spaces            []SpaceView
	Legs              []LegView
}

// Curves are those of a fork over X.
type Curves struct{ Force, Rate, Energy []float64 }

// SagView is a sag on its scale: now, as set up, and the window of the discipline.
type SagView struct{ Travel, High, Middle, Low, Then, From, To float64 }

// Reading is a number of both forks as text, and bare in that unit.
type Reading struct {
	Key, Label, Unit string
	Texts            []string
	Values           []float64
}

// View computes everything that a move of a slider changes.
func (s State) View() (View, error) {
	v := View{LengthUnit: millimeters[s.system()].unit, ForceUnit: newtons[s.system()].unit,
		RateUnit:   rates[s.system()].unit,
		EnergyUnit: joules[s.system()].unit, PressureUnit: gauges[s.system()].unit,
		VolumeUnit: printed(milliliters[s.system()].unit)}
	home, now, err := s.Air()
	if err != nil {
		return v, err
	}
	v.Then, v.Now = s.place(home, s.HomeAltitude), s.place(now, s.Altitude)
	var list []Fork
	for i := range s.Forks {
		f, there, err := s.Fork(i)
		if err != nil {
			return v, fmt.Errorf("%s: %w", strings.ToLower(forkGroups[i]), err)
		}
		if there {
			list = append(list, f)
			v.Most = max(v.Most, millimeters[s.system()].of(f.Now.Travel()))
		}
	}
	v.Travel = millimeters[s.system()].of(s.Travel)
	readings := []Reading{
		{Key: "sag", Label: "Sag with rider, middle"}, {Key: "sag-high", Label: "let down from above"}, {Key: "sag-low",
			Label: "let up from below"},
		{Key: "change", Label: "Sag against as filled"}, {Key: "force", Label: "Force at this travel, ridden"},
		{Key: "force-rest", Label: "Force at this travel, at rest"}, {Key: "rate", Label: "Rate at this travel, ridden"},
		{Key: "energy", Label: "Energy to this travel, ridden"}, {Key: "energy-full", Label: "Energy to the end, ridden"},
		{Key: "load", Label: "Load on the fork's axis"},
	}
	for _, f := range list {
		fv, values, err := s.fork(f)
		if err != nil {
			return v, fmt.Errorf("%s: %w", f.Name, err)
		}
		v.Forks = append(v.Forks, fv)
		for i := range readings {
			r, n := &readings[i], values[i]
			r.Unit = n.unit
			r.Values, r.Texts = append(r.Values, n.value), append(r.Texts, n.text)
		}
		if f.Now.Curve(gas.Isothermal).Stroke() < f.Now.Travel() {
			v.Notes = append(v.Notes, fmt.Sprintf("%s locks on its oil or binds at %s, before the end of its travel.", f.Name,
				show(millimeters, s, f.Now.Curve(gas.Isothermal).Stroke(), 0)))
		}
	}
	v.Readings = readings
	if len(list) == 2 && list[0].Record.ID == list[1].Record.ID {
		align(v.Forks[0].Legs, v.Forks[1].Legs)
	}
	return v, nil
}

// place is a place's air in words.
func (s State) place(a gas.Ambient, altitude units.Length) string {
	return fmt.Sprintf("%s, %s, air pressure %s", show(thermometers, s, a.Temperature, 0), show(heights, s, altitude, 0),
		show(gauges, s, a.Pressure.Gauge(units.Absolute(0)), 3-2*s.system()))
}

func (s State) system() int {
	if s.Imperial {
		return 1
	}
	return 0
}

// number is a quantity as a reading.
type number struct {
	value      float64
	text, unit string
}

// num is a quantity as a reading, with as many digits as in the metric unit it has.
func num[Q any](scales [2]scale[Q], s State, q Q, digits int, sign bool) number {
	c := scales[s.system()]
	return written(c.of(q), c.unit, digits, sign)
}

func written(value float64, unit string, digits int, sign bool) number {
	digits += map[string]int{"in": 2, "in3": 1, "N/mm": 1}[unit] // finer than an inch, a cubic inch
	text := strconv.FormatFloat(value, 'f', digits, 64)
	switch bare := strings.TrimLeft(text, "-"); {
	case strings.Trim(bare, "0.") == "":
		text = bare // neither more nor less
	case bare != text:
		text = "−" + bare
	case sign:
		text = "+" + text
	}
	return number{value, text, printed(unit)}
}

// show is a quantity in words.
func show[Q any](scales [2]scale[Q], s State, q Q, digits int) string {
	n := num(scales, s, q, digits, false)
	return n.text + " " + n.unit
}

func (s State) fork(f Fork) (ForkView, [10]number, error) {
	var none [10]number
	rest := f.Now.Curve(gas.Isothermal)
	sag, err := f.Now.Sag(f.Load)
	if err != nil {
		return ForkView{}, none, err
	}
	before, err := f.Home.Sag(f.Load)
	if err != nil {
		return ForkView{}, none, err
	}
	ridden := f.Now.CurveAbout(sag.Middle, s.Exponent)
	if err := spring.Err(ridden); err != nil {
		return ForkView{}, none, err
	}
	mm, n, j, k := millimeters[s.system()], newtons[s.system()], joules[s.system()], rates[s.system()]
	end := min(ridden.Stroke(), rest.Stroke())
	at := min(s.Travel, end)
	fv := ForkView{Name: f.Name, About: f.Record.Name, Kind: f.Kind, Load: n.of(f.Load)}
	xs := make([]units.Length, samples)
	for i := range xs {
		xs[i] = end * units.Length(i) / (samples - 1)
		fv.X = append(fv.X, mm.of(xs[i]))
	}
	for _, c := range []struct {
		out *Curves
		in  spring.Curve
	}{{&fv.Rest, rest}, {&fv.Ridden, ridden}} {
		c.out.Force = shownIn(n, spring.AppendForces(nil, c.in, xs))
		c.out.Rate = shownIn(k, spring.AppendRates(nil, c.in, xs))
		c.out.Energy = shownIn(j, spring.AppendEnergies(nil, c.in, xs))
	}
	fv.At.X, fv.At.Force = mm.of(at), n.of(ridden.Force(at))
	fv.At.Rate, fv.At.Energy = k.of(ridden.Rate(at)), j.of(ridden.Energy(at))
	window := f.Record.Sag.Rider
	fv.Sag = SagView{mm.of(f.Now.Travel()), mm.of(sag.High), mm.of(sag.Middle), mm.of(sag.Low), mm.of(before.Middle),
		mm.of(f.Now.Travel() * units.Length(window.Lo)), mm.of(f.Now.Travel() * units.Length(window.Hi))}
	if fv.Spaces, err = s.spaces(f, sag, at); err != nil {
		return fv, none, err
	}
	if fv.Legs, err = s.legs(f, at); err != nil {
		return fv, none, err
	}
	return fv, [10]number{num(millimeters, s, sag.Middle, 0, false), num(millimeters, s, sag.High, 0, false),
		num(millimeters, s, sag.Low, 0, false), num(millimeters, s, sag.Middle-before.Middle, 1, true),
		num(newtons, s, ridden.Force(at), 0, false), num(newtons, s, rest.Force(at), 0, false),
		num(rates, s, ridden.Rate(at), 1, false), num(joules, s, ridden.Energy(at), 0, false),
		num(joules, s, ridden.Energy(end), 0, false), num(newtons, s, f.Load, 0, false)}, nil
}

func shownIn[Q any](c scale[Q], list []Q) []float64 {
	out := make([]float64, len(list))
	for i, q := range list {
		out[i] = c.of(q)
	}
	return out
}

// SpaceView is a gas space of a fork: its pressure over its volume, at rest and moved fast from the sag, and
// the state under the cursor. Pressures are absolute.
type SpaceView struct {
	Name                 string
	Rest, Ridden         Path
	AtVolume, AtPressure float64 // ridden
	AtCelsius            float64
	Gauge                string // of the state, in words
}

// Path is a line in a p–V diagram.
type Path struct{ V, P []float64 }

var chamberNames = map[setup.Chamber]string{setup.Positive: "positive chamber", setup.Linked: "linked volume",
	setup.Second: "second chamber", setup.Negative: "negative chamber", setup.OverOil: "gas over the " +
		"oil", setup.Reservoir: "damper gas"}

func (s State) spaces(f Fork, sag setup.Sag, at units.Length) ([]SpaceView, error) {
	here, err := f.Now.SpacesAbout(sag.Middle, at, s.Exponent)
	if err != nil {
		return nil, err
	}
	list := make([]SpaceView, len(here))
	bar, ml := gauges[s.system()], milliliters[s.system()]
	pressure := func(p units.AbsolutePressure) float64 { return bar.of(units.Gauge(units.Pressure(p.In(units.Pascal)))) }
	ambient := f.Now.Ambient().Pressure
	for i, c := range here {
		list[i].Name = c.Side.String() + " leg, " + chamberNames[c.Chamber]
		list[i].AtVolume, list[i].AtPressure = ml.of(c.Gas.Volume), pressure(c.Gas.Pressure)
		list[i].AtCelsius = c.Gas.Temperature.Celsius()
		list[i].Gauge = show(gauges, s, c.Gas.Pressure.Gauge(ambient), 2)
	}
	end := f.Now.Curve(gas.Isothermal).Stroke() * 0.999
	for j := range gasSamples {
		x := end * units.Length(j) / (gasSamples - 1)
		for _, fast := range []bool{false, true} {
			n := gas.Isothermal
			if fast {
				n = s.Exponent
			}
			at, err := f.Now.SpacesAbout(sag.Middle, x, n)
			if err != nil {
				return nil, err
			}
			for i, c := range at {
				path := &list[i].Rest
				if fast {
					path = &list[i].Ridden
				}
				path.V, path.P = append(path.V, ml.of(c.Gas.Volume)), append(path.P, pressure(c.Gas.Pressure))
			}
		}
	}
	return list, nil
}
