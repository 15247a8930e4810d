package main

import (
	"fmt"
	"math"
	"slices"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Which fork a line is of is told by its color and weight, in what state by its dashes.
const (
	airColor  = chart.Orange
	coilColor = chart.Navy
)

// figure is one plot and the name of its files.
type figure struct {
	name string
	draw func() *chart.Figure
}

func (s *study) figures() []figure {
	return []figure{
		{"force-travel", s.forceFigure}, {"rate-travel", s.rateFigure}, {"energy-travel", s.energyFigure},
		{"pv-loop", s.loopFigure}, {"exponent", s.exponentFigure}, {"loss-factor", s.lossFigure},
		{"sag-temperature", s.temperatureFigure}, {"sag-altitude", s.altitudeFigure}, {"sag-leak", s.leakFigure},
	}
}

func (s *study) pair() string { return s.air.ID + " on air and " + s.coil.ID + " on a coil" }

func (s *study) conditions() string {
	return fmt.Sprintf("Rest: moved slowly, n = 1. Ridden: settled at its sag (%.1f mm and %.1f mm), moved fast "+
		"from there, gas at n = %s. Whole fork, along its axis, %.0f °C, sea level.",
		s.air.settled.In(mm), s.coil.settled.In(mm), num(s.ride), s.here.Temperature.Celsius())
}

// curves are both forks at rest and ridden; y picks what is drawn of a point.
func (s *study) curves(y func(spring.Point) float64) []chart.Line {
	var lines []chart.Line
	for _, f := range []*fork{&s.air, &s.coil} {
		for _, c := range []struct {
			name string
			spring.Curve
			chart.Dash
			chart.Marker
		}{{"rest", f.rest(), chart.Dashed, chart.OpenDisk}, {"ridden", f.ridden(s.ride), chart.Solid, chart.Disk}} {
			l := chart.Line{Label: f.ID + ", " + c.name, Color: airColor, Dash: c.Dash, Marker: c.Marker}
			if f == &s.coil {
				l.Color, l.Marker, l.Bold = coilColor, chart.NoMarker, true
			}
			for _, pt := range spring.Sample(c, 201) {
				l.X = append(l.X, pt.Travel.In(mm))
				l.Y = append(l.Y, y(pt))
			}
			lines = append(lines, l)
		}
	}
	return lines
}

// worked marks what the text works out by hand.
func worked(points ...[2]float64) chart.Line {
	l := chart.Line{Name: "worked out by hand in the text", Color: chart.Wine, Dash: chart.NoLine,
		Marker: chart.OpenSquare}
	for _, p := range points {
		l.X, l.Y = append(l.X, p[0]), append(l.Y, p[1])
	}
	return l
}

// sagMarks are the sags of both forks, as one where they agree.
func (s *study) sagMarks() []chart.Mark {
	a, c := s.air.settled.In(mm), s.coil.settled.In(mm)
	if math.Abs(a-c) < 0.05 {
		return []chart.Mark{{At: a, Label: fmt.Sprintf("sag of both, %.1f mm", a)}}
	}
	return []chart.Mark{
		{At: a, Label: fmt.Sprintf("sag of %s, %.1f mm", s.air.ID, a), Color: airColor},
		{At: c, Label: fmt.Sprintf("sag of %s, %.1f mm", s.coil.ID, c), Color: coilColor},
	}
}

// travelFigure draws the curves; at gives the worked points, of the air fork at rest at the sag, ridden deep, and
// of the coil fork at rest at its sag.
func (s *study) travelFigure(what string, axis chart.Axis, y func(spring.Point) float64,
	points ...[2]float64) *chart.Figure {
	lines := append(s.curves(y), worked(points...))
	axis.Min, axis.Max = limits(lines)
	return &chart.Figure{
		Title: what + ": " + s.pair(),
		Note:  s.conditions(),
		X:     chart.Axis{Label: "Travel", Unit: "mm"},
		Y:     axis,
		Lines: lines,
		Marks: s.sagMarks(),
	}
}

// limits include zero and all of the lines, with a little room.
func limits(lines []chart.Line) (lo, hi float64) {
	for _, l := range lines {
		lo, hi = min(lo, slices.Min(l.Y)), max(hi, slices.Max(l.Y))
	}
	const room = 0.03
	if lo < 0 {
		lo -= room * (hi - lo)
	}
	return lo, hi + room*(hi-lo)
}

func (s *study) forceFigure() *chart.Figure {
	y := func(pt spring.Point) float64 { return pt.Force.In(units.Newton) }
	return s.travelFigure("Force against travel", chart.Axis{Label: "Force on the axis", Unit: "N"}, y,
		at(s.air.rest(), s.air.settled, y), at(s.air.ridden(s.ride), s.air.deep(), y),
		at(s.coil.rest(), s.coil.settled, y))
}

func (s *study) rateFigure() *chart.Figure {
	y := func(pt spring.Point) float64 { return pt.Rate.In(npm) }
	return s.travelFigure("Rate against travel", chart.Axis{Label: "Rate dF/dx", Unit: "N/mm"}, y,
		at(s.air.rest(), s.air.settled, y), at(s.air.ridden(s.ride), s.air.settled, y),
		at(s.coil.rest(), s.coil.settled, y))
}

func (s *study) energyFigure() *chart.Figure {
	y := func(pt spring.Point) float64 { return pt.Energy.In(units.Joule) }
	return s.travelFigure("Energy against travel", chart.Axis{Label: "Energy from full extension", Unit: "J"}, y,
		at(s.air.rest(), s.air.deep(), y), at(s.coil.rest(), s.coil.deep(), y))
}

// at is a point of a curve as drawn.
func at(c spring.Curve, x units.Length, y func(spring.Point) float64) [2]float64 {
	return [2]float64{x.In(mm), y(spring.At(c, x))}
}

func (s *study) loopFigure() *chart.Figure {
	m := s.loop.main
	swing := swept(m.Area, s.loop.amplitude)
	f := &chart.Figure{
		Title: "p–V loop of the main chamber of " + s.air.ID,
		Note: fmt.Sprintf("±%s mm about the sag of %.1f mm, one leg. τ = %s s, an estimate of ±50 %%. The area of a "+
			"loop is the heat left in the wall each cycle; the gas goes round counterclockwise.",
			num(s.loop.amplitude.In(mm)), s.air.settled.In(mm), num(float64(m.exchange.TimeConstant))),
		X: chart.Axis{Label: "Volume of the gas", Unit: "mL", Min: (m.State.Volume - 1.05*swing).In(mL),
			Max: (m.State.Volume + 1.05*swing).In(mL)},
		Y: chart.Axis{Label: "Absolute pressure", Unit: "bar"},
	}
	looks := []struct {
		chart.Color
		chart.Dash
		bold bool
	}{{chart.Sky, chart.Dashed, false}, {chart.Navy, chart.Solid, true}, {chart.Orange, chart.DashDot, false}}
	for i, c := range s.loop.cycles {
		l := chart.Line{Color: looks[i].Color, Dash: looks[i].Dash, Bold: looks[i].bold,
			Name: fmt.Sprintf("%s Hz: n = %.2f, %.2f J a cycle", num(float64(c.frequency)), c.Exponent(),
				c.Loss().In(units.Joule))}
		for state := range c.Loop() {
			l.X = append(l.X, state.Volume.In(mL))
			l.Y = append(l.Y, state.Pressure.In(units.Bar))
		}
		l.X, l.Y = append(l.X, l.X[0]), append(l.Y, l.Y[0])
		f.Lines = append(f.Lines, l)
	}
	f.Lines = append(f.Lines, chart.Line{Name: "at rest at the sag", X: []float64{m.State.Volume.In(mL)},
		Y: []float64{m.State.Pressure.In(units.Bar)}, Color: chart.Wine, Dash: chart.NoLine, Marker: chart.Disk})
	return f
}

// frequencies are even steps of the logarithm, lg of the frequency in hertz.
func frequencies() []float64 {
	const lo, hi, steps = -3, 1, 160
	var list []float64
	for i := range steps + 1 {
		list = append(list, lo+(hi-lo)*float64(i)/steps)
	}
	return list
}

func hertz(lg float64) units.Frequency { return units.Frequency(math.Pow(10, lg)) }

// frequencyFigure has the logarithm of the frequency across, and says so.
func (s *study) frequencyFigure(title, note string, y chart.Axis) *chart.Figure {
	f := &chart.Figure{
		Title: title,
		Note:  note + fmt.Sprintf(" Band: τ of %s s, ±50 %%.", num(float64(s.loop.main.exchange.TimeConstant))),
		X:     chart.Axis{Label: "Frequency as lg(f/Hz): −2 is 0.01 Hz, 0 is 1 Hz", Min: -3, Max: 1},
		Y:     y,
	}
	for _, m := range []struct {
		hz   float64
		name string
	}{{0.01, "0.01 Hz"}, {0.1, "0.1 Hz: long\nbraking"}, {2, "2 Hz: body"}, {10, "10 Hz: wheel"}} {
		f.Marks = append(f.Marks, chart.Mark{At: math.Log10(m.hz), Label: m.name})
	}
	return f
}

// band is the least and the most of a value of the main chamber as far as τ is known.
func (s *study) band(name string, of func(gas.Exchange, units.Frequency) float64) chart.Band {
	b := chart.Band{Name: name, Color: chart.Sky}
	for _, lg := range frequencies() {
		low, high := math.Inf(1), math.Inf(-1)
		for share := 0.5; share < 1.51; share += 0.05 {
			v := of(gas.Exchange{TimeConstant: units.Time(share) * s.loop.main.exchange.TimeConstant}, hertz(lg))
			low, high = min(low, v), max(high, v)
		}
		b.X, b.Low, b.High = append(b.X, lg), append(b.Low, low), append(b.High, high)
	}
	return b
}

// over draws a value against frequency.
func over(l chart.Line, of func(units.Frequency) float64) chart.Line {
	for _, lg := range frequencies() {
		l.X, l.Y = append(l.X, lg), append(l.Y, of(hertz(lg)))
	}
	return l
}

func (s *study) exponentFigure() *chart.Figure {
	e := s.loop.main.exchange
	f := s.frequencyFigure("Effective exponent of the main chamber of "+s.air.ID+" against frequency",
		"Small movements about the sag. n = (1 + 1.4·ω²τ²)/(1 + ω²τ²): 1 is isothermal, 1.4 adiabatic.",
		chart.Axis{Label: "Exponent n", Min: 0.95, Max: 1.45})
	f.Bands = []chart.Band{s.band("as far as τ is known", gas.Exchange.Exponent)}
	f.Lines = []chart.Line{over(chart.Line{Label: "main chamber", Color: coilColor, Dash: chart.Solid, Bold: true},
		e.Exponent),
		worked([2]float64{-1, e.Exponent(0.1)})}
	f.Marks = append(f.Marks, chart.Mark{On: chart.OnY, At: s.ride,
		Label: "n = " + num(s.ride) + " of\nthe ridden curves", Color: airColor})
	return f
}

func (s *study) lossFigure() *chart.Figure {
	e := s.loop.main.exchange
	f := s.frequencyFigure("Loss factor of the gas against frequency: "+s.pair(),
		"Small movements about the sag, heat exchange alone: friction and damper left out. Largest at ωτ = 0.845.",
		chart.Axis{Label: "Loss factor tan δ", Zero: true})
	f.Bands = []chart.Band{s.band("main chamber, as far as τ is known", gas.Exchange.LossFactor)}
	whole := func(k *fork) func(units.Frequency) float64 {
		return func(at units.Frequency) float64 {
			inPhase, ahead := k.dynamic(at)
			return ahead / inPhase
		}
	}
	f.Lines = []chart.Line{
		over(chart.Line{Name: "main chamber alone", Color: chart.Blue, Dash: chart.Dashed}, e.LossFactor),
		over(chart.Line{Name: s.air.ID + ", whole fork", Color: airColor, Dash: chart.Solid, Marker: chart.Disk},
			whole(&s.air)),
		over(chart.Line{Name: s.coil.ID + ", whole fork", Color: coilColor, Dash: chart.Solid, Bold: true},
			whole(&s.coil)),
		worked([2]float64{-1, e.LossFactor(0.1)}),
	}
	return f
}

// drift draws the sag of every treatment over what changes.
func (s *study) drift(what, note string, x chart.Axis, lo, hi float64,
	air func(float64) (gas.Ambient, error)) *chart.Figure {
	f := &chart.Figure{
		Title: "Sag against " + what + ": " + s.pair(),
		Note: fmt.Sprintf("With the rider, at rest, without friction. Set up at %.0f °C at sea level. %s",
			s.here.Temperature.Celsius(), note),
		X: x,
		Y: chart.Axis{Label: "Sag", Unit: "mm"},
	}
	for _, t := range s.treatments() {
		l := chart.Line{Label: t.fork.ID + ", " + t.short, Color: airColor, Dash: chart.Dotted, Marker: chart.Square}
		switch t.short {
		case "untouched":
			l.Dash, l.Marker = chart.Solid, chart.Disk
		case "vented":
			l.Dash, l.Marker = chart.Dashed, chart.OpenDisk
		}
		if t.fork == &s.coil {
			l.Color, l.Marker, l.Bold = coilColor, chart.NoMarker, true
		}
		const steps = 64
		for i := range steps + 1 {
			at := lo + (hi-lo)*float64(i)/steps
			a, err := air(at)
			if err != nil {
				continue
			}
			if sag := t.sag(a); !math.IsNaN(sag) {
				l.X, l.Y = append(l.X, at), append(l.Y, sag)
			}
		}
		f.Lines = append(f.Lines, l)
	}
	return f
}

func (s *study) temperatureFigure() *chart.Figure {
	f := s.drift("temperature", "Pressure outside as at sea level.",
		chart.Axis{Label: "Temperature of air and fork", Unit: "°C"}, -20, 45,
		func(t float64) (gas.Ambient, error) { return s.warmed(units.Celsius(t)), nil })
	f.Marks = []chart.Mark{{At: s.here.Temperature.Celsius(), Label: "set up here"},
		{At: hotDay.Celsius(), Label: "worked out\nin the text"}}
	return f
}

func (s *study) altitudeFigure() *chart.Figure {
	f := s.drift("altitude", "As warm as at sea level, standard pressure.", chart.Axis{Label: "Altitude", Unit: "m"}, 0,
		4000,
		func(z float64) (gas.Ambient, error) { return s.lifted(units.Length(z) * units.Meter) })
	f.Marks = []chart.Mark{{At: mountain.In(units.Meter), Label: "worked out in the text"}}
	return f
}

func (s *study) leakFigure() *chart.Figure {
	f := &chart.Figure{
		Title: "Sag against leak-down: " + s.pair(),
		Note: "With the rider, at rest, without friction. Gas is lost from every chamber of the air spring " +
			"alike, to the air outside. A coil has none to lose.",
		X:     chart.Axis{Label: "Gas lost from the air spring", Unit: "%"},
		Y:     chart.Axis{Label: "Sag", Unit: "mm"},
		Marks: []chart.Mark{{At: 10, Label: "worked out in the text"}},
	}
	dashes := []chart.Dash{chart.Solid, chart.Dotted, chart.Solid, chart.Dashed}
	markers := []chart.Marker{chart.Disk, chart.Square, chart.NoMarker, chart.NoMarker}
	for i, r := range s.leaks() {
		l := chart.Line{Label: r.fork.ID + ", " + r.name, Color: airColor, Dash: dashes[i], Marker: markers[i]}
		if r.fork == &s.coil {
			l.Color, l.Bold = coilColor, true
		}
		for lost := 0; lost <= 40; lost++ {
			if x, ok := r.sag(1 - float64(lost)/100); ok {
				l.X, l.Y = append(l.X, float64(lost)), append(l.Y, x.In(mm))
			}
		}
		f.Lines = append(f.Lines, l)
	}
	if a, _ := s.air.airSpring(); a.NegativeVolume > 0 {
		if first, _, _ := s.across(); first > 0 {
			f.Marks = append(f.Marks, chart.Mark{On: chart.OnY, At: first.In(mm), Color: airColor,
				Label: s.air.ID + ", none lost: main\nleaked into negative\nwhile held at its sag"})
		}
	}
	return f
}
