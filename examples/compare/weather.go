package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// weather maps the change of sag of sealed forks over temperature and altitude.
type weather struct {
	forks        []entry
	temperatures []float64 // °C
	altitudes    []float64 // m
}

// mapped points each way.
const mapped = 21

func newMap(items []item, warmth, height [2]float64) (table, error) {
	list, err := entries(items)
	m := &weather{forks: list}
	for i := range mapped {
		share := float64(i) / (mapped - 1)
		m.temperatures = append(m.temperatures, warmth[0]+(warmth[1]-warmth[0])*share)
		m.altitudes = append(m.altitudes, height[0]+(height[1]-height[0])*share)
	}
	return m, err
}

func (m *weather) what() string { return "points" }
func (m *weather) len() int     { return len(m.forks) * mapped * mapped }

func (m *weather) row(i int) []cell {
	e, at := m.forks[i/(mapped*mapped)], i%(mapped*mapped)
	t, z := m.temperatures[at/mapped], m.altitudes[at%mapped]
	cells := []cell{{"fork", e.name}, {"temperature_degC", t}, {"altitude_m", z}, {"change_mm", nil}}
	if d := m.change(e, t, z); !math.IsNaN(d) {
		cells[3].value = d
	}
	return cells
}

// change is by how much a fork sits lower than as set up, nothing touched; NaN where it does not carry its rider.
func (m *weather) change(e entry, t, z float64) float64 {
	air, err := gas.StandardAt(units.Length(z)*units.Meter, units.Celsius(t))
	if err != nil {
		return math.NaN()
	}
	moved, err := e.Setup.At(air)
	if err != nil {
		return math.NaN()
	}
	sag, err := moved.Sag(e.Sag.Load)
	if err != nil {
		return math.NaN()
	}
	return (sag.Middle - e.Sag.Middle).In(mm)
}

// worst gathers the map and prints the worst of it, and every fifth row and column.
type worst struct {
	*weather
	w    io.Writer
	seen []float64
}

func (m *weather) text(w io.Writer) writer { return &worst{weather: m, w: w} }

func (o *worst) row(cells []cell) error {
	d, ok := cells[3].value.(float64)
	if !ok {
		d = math.NaN()
	}
	o.seen = append(o.seen, d)
	return nil
}

func (o *worst) end() error {
	var s typeset.Sheet
	for f, e := range o.forks {
		if len(o.seen) < (f+1)*mapped*mapped {
			break // stopped
		}
		field := o.seen[f*mapped*mapped : (f+1)*mapped*mapped]
		s.Section(fmt.Sprintf("%s: change of sag in mm, + is lower, nothing touched; %.0f mm as set", e.name,
			e.Sag.Middle.In(mm)))
		low, high, lost := 0, 0, 0
		for i, d := range field {
			switch {
			case math.IsNaN(d):
				lost++
			case math.IsNaN(field[low]) || d > field[low]:
				low = i
			}
			if !math.IsNaN(d) && (math.IsNaN(field[high]) || d < field[high]) {
				high = i
			}
		}
		place := func(i int) string {
			return fmt.Sprintf("%+.1f at %.0f °C, %.0f m", field[i], o.temperatures[i/mapped], o.altitudes[i%mapped])
		}
		s.Line("Worst, lower", place(low))
		s.Line("Worst, higher", place(high))
		if lost > 0 {
			s.Line("Does not carry", fmt.Sprintf("its rider at %d of %d places", lost, len(field)))
		}
		s.Line("At the event", fmt.Sprintf("%+.1f", e.event.Change(e.event.There).In(mm)))
		var cells []string
		for j := 0; j < mapped; j += 5 {
			cells = append(cells, fmt.Sprintf("%.0f m", o.altitudes[j]))
		}
		s.Row("", 10, cells, 10)
		for i := 0; i < mapped; i += 5 {
			cells = cells[:0]
			for j := 0; j < mapped; j += 5 {
				cells = append(cells, fmt.Sprintf("%+.1f", field[i*mapped+j]))
				if math.IsNaN(field[i*mapped+j]) {
					cells[len(cells)-1] = "-"
				}
			}
			s.Row(typeset.Numbers(fmt.Sprintf("%.0f °C", o.temperatures[i])), 10, cells, 10)
		}
	}
	_, err := io.WriteString(o.w, typeset.Numbers(strings.TrimPrefix(s.String(), "\n")))
	return err
}

// draw maps each fork, a line for every fifth altitude.
func (m *weather) draw(folder program.Folder) error {
	if !folder.Given() {
		return nil
	}
	for i, e := range m.forks {
		f := m.figure(e)
		if len(f.Lines) == 0 {
			continue
		}
		if err := folder.Draw(fmt.Sprintf("map-%d", i+1), f); err != nil {
			return err
		}
	}
	return nil
}

func (m *weather) figure(e entry) *chart.Figure {
	at, step := e.Setup.Ambient(), conversion.DriftStep.In(mm)
	f := &chart.Figure{Title: "Change of sag over temperature and altitude: " + e.name,
		Note: fmt.Sprintf("Nothing touched since the fork was set up at %.0f and %.0f mbar; + is lower.", at.Temperature,
			at.Pressure.In(units.Millibar)),
		X: chart.Axis{Label: "Temperature of air and fork", Unit: "°C"}, Y: chart.Axis{Label: "Change of sag", Unit: "mm"},
		Regions: []chart.Region{{On: chart.OnY, From: -step, To: step,
			Name: fmt.Sprintf("less than ±%.0f mm: hardly noticed by the rider", step)}},
		Marks: []chart.Mark{{On: chart.OnY, At: 0, Dash: chart.Solid}}}
	for j := 0; j < mapped; j += 5 {
		l := chart.Line{Label: fmt.Sprintf("%.0f m", m.altitudes[j])}
		for _, t := range m.temperatures {
			if d := m.change(e, t, m.altitudes[j]); !math.IsNaN(d) {
				l.X, l.Y = append(l.X, t), append(l.Y, d)
			}
		}
		if len(l.X) > 1 {
			f.Lines = append(f.Lines, l)
		}
	}
	return f
}
