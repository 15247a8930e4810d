package main

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// input is one number of a job and the values it takes.
type input struct {
	name, key string
	values    []float64 // in the unit of the key
	set       func(j *conversion.Job, v float64) error
}

// inputs are those that can be swept.
var inputs = []struct {
	input
	lo, hi float64
	parse  func(string) (float64, error)
}{
	{input{"rider", "rider_kg", nil, func(j *conversion.Job, v float64) error {
		j.Rider = units.Mass(v) * units.Kilogram
		return nil
	}}, 15, 200, in(units.Kilogram)},
	{input{"pressure", "pressure_bar", nil, func(j *conversion.Job, v float64) error {
		fill, onAir := j.Fill()
		if !onAir {
			return errors.New("no air spring to fill")
		}
		fill.Gauge = units.Gauge(units.Pressure(v) * units.Bar)
		var err error
		j.Present, err = j.Present.Filled(fill)
		return err
	}}, 0.1, 40, in(units.Bar)},
	{input{"sag", "target_sag_mm", nil, func(j *conversion.Job, v float64) error {
		j.TargetSag = units.Length(v) * mm
		return nil
	}}, 1, 200, in(mm)},
	{input{"friction", "friction_N", nil, func(j *conversion.Job, v float64) error {
		j.ConvertedFriction = units.Force(v)
		return nil
	}}, 0, 1000, in(units.Newton)},
	{input{"exponent", "ride_exponent", nil, func(j *conversion.Job, v float64) error {
		j.RideExponent = v
		return nil
	}}, conversion.LeastRideExponent, gas.Adiabatic, func(s string) (float64, error) { return strconv.ParseFloat(s, 64) }},
	{input{"temperature", "temperature_degC", nil, func(j *conversion.Job, v float64) error {
		j.Event.Temperature = units.Celsius(v)
		return nil
	}}, -40, 60, celsius},
	{input{"altitude", "altitude_m", nil, func(j *conversion.Job, v float64) error {
		z := units.Length(v) * units.Meter
		air, err := gas.StandardAt(z, j.Event.Temperature)
		j.Event, j.Heading.Event.Altitude = air, &z
		return err
	}}, -500, 9000, meters},
}

func in[Q interface {
	units.Quantity
	~float64
}](unit Q) func(string) (float64, error) {
	return func(text string) (float64, error) {
		q, err := units.Parse[Q](text)
		return float64(q / unit), err
	}
}

// readInput reads a name and its values, as "rider = 60 kg to 100 kg by 5": so many, evenly.
func readInput(text string) (input, error) {
	name, rest, ok := strings.Cut(text, "=")
	from, rest, ok2 := strings.Cut(rest, " to ")
	to, by, ok3 := strings.Cut(rest, " by ")
	if !ok || !ok2 || !ok3 {
		return input{}, errors.New(`want a name, two values and how many, as "rider = 60 kg to 100 kg by 5"`)
	}
	name = strings.TrimSpace(name)
	var known []string
	for _, i := range inputs {
		known = append(known, i.name)
		if i.name != name {
			continue
		}
		lo, err1 := i.parse(strings.TrimSpace(from))
		hi, err2 := i.parse(strings.TrimSpace(to))
		n, err3 := program.Number(2, 1000)(by)
		if err := errors.Join(err1, err2, err3); err != nil {
			return input{}, err
		}
		if !(lo >= i.lo && lo < hi && hi <= i.hi) {
			return input{}, &units.RangeError{Value: text, Want: fmt.Sprintf("two rising values, %g to %g of %s", i.lo, i.hi,
				i.key)}
		}
		for k := range n {
			i.values = append(i.values, lo+(hi-lo)*float64(k)/float64(n-1))
		}
		return i.input, nil
	}
	return input{}, fmt.Errorf("%q is no input; want one of %s", name, strings.Join(known, ", "))
}

// sweep is what every plan comes to for every value of one input or two.
type sweep struct {
	items  []item
	swept  []input
	values [][]float64 // of each input for each setting
}

func newSweep(items []item, first, second input) (table, error) {
	s := &sweep{items: items, swept: []input{first}}
	for _, v := range first.values {
		s.values = append(s.values, []float64{v})
	}
	if second.name != "" {
		s.swept = append(s.swept, second)
		single := s.values
		s.values = nil
		for _, v := range single {
			for _, w := range second.values {
				s.values = append(s.values, []float64{v[0], w})
			}
		}
	}
	if n := s.len(); n > most {
		return nil, fmt.Errorf("%d rows; want %d or fewer", n, most)
	}
	return s, nil
}

func (s *sweep) what() string { return "plans" }
func (s *sweep) len() int     { return len(s.items) * len(s.values) }

// row plans one job with one setting. A job that cannot be planned so is a row that says why.
func (s *sweep) row(i int) []cell {
	it, values := s.items[i/len(s.values)], s.values[i%len(s.values)]
	cells := []cell{{"job", it.name}}
	file := jobfile.File{Job: it.file.Job, Build: it.file.Build}
	var problem error
	for k, in := range s.swept {
		cells = append(cells, cell{in.key, values[k]})
		if problem == nil {
			problem = in.set(&file.Job, values[k])
		}
	}
	var r *conversion.Report
	if problem == nil {
		r, problem = file.Report()
	}
	rest := []cell{{"coil", nil}, {"verdict", nil}, {"asked_N_per_mm", nil}, {"preload_mm", nil}, {"oil_mL", nil},
		{"present_sag_mm", nil}, {"sag_mm", nil}, {"energy_full_J", nil}, {"event_change_mm", nil}, {"problem", ""}}
	if problem != nil {
		rest[9].value = strings.Join(strings.Fields(problem.Error()), " ")
		return append(cells, rest...)
	}
	c := r.Candidates[0]
	rest[0].value, rest[1].value = c.Coil, c.Verdict.String()
	rest[2].value = r.Band.Asked.In(units.NewtonPerMillimeter)
	rest[3].value, rest[4].value = c.Preload.In(mm), c.OilVolume.In(units.Milliliter)
	rest[5].value = r.Present.Sag.Middle.In(mm)
	if c.Behavior.Sag.Load != 0 {
		rest[6].value, rest[7].value = c.Behavior.Sag.Middle.In(mm), float64(c.Behavior.EnergyFull)
		rest[8].value = c.Event.Change(c.Event.There).In(mm)
	}
	return append(cells, rest...)
}

// heads are the keys that their first word does not tell.
var heads = map[string]string{"asked_N_per_mm": "N/mm", "oil_mL": "oil mL", "present_sag_mm": "sag was",
	"event_change_mm": "event", "energy_full_J": "J"}

// lines prints each row as soon as it is there.
type lines struct {
	w     io.Writer
	width func(key string) int
	begun bool
}

func (s *sweep) text(w io.Writer) writer {
	return &lines{w: w, width: func(key string) int {
		switch key {
		case "job", "coil":
			return 12
		}
		return 8
	}}
}

func (l *lines) row(cells []cell) error {
	head, line := "", ""
	for _, c := range cells {
		name, _, _ := strings.Cut(c.key, "_")
		if long, ok := heads[c.key]; ok {
			name = long
		}
		if c.key == "problem" {
			if c.value != "" {
				line += " " + c.value.(string)
			}
			continue
		}
		n := l.width(c.key)
		text := typeset.Plain(short(c.value), n-1)
		if _, isText := c.value.(string); isText && c.key == "job" {
			head, line = head+typeset.Pad(name, n), line+typeset.Pad(text, n)
			continue
		}
		head, line = head+typeset.Lead(typeset.Plain(name, n-1), n), line+typeset.Lead(text, n)
	}
	if !l.begun {
		l.begun = true
		if _, err := fmt.Fprintln(l.w, strings.TrimRight(head, " ")); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintln(l.w, typeset.Numbers(strings.TrimRight(typeset.Plain(line, 160), " ")))
	return err
}

func (l *lines) end() error { return nil }

func (s *sweep) draw(folder program.Folder) error {
	if !folder.Given() {
		return nil
	}
	x := s.swept[0]
	name, unit, _ := strings.Cut(x.key, "_")
	f := &chart.Figure{Title: "Sag by " + x.name, Note: "Of the best coil of each plan, at rest.",
		X: chart.Axis{Label: strings.ToUpper(name[:1]) + name[1:], Unit: strings.ReplaceAll(unit, "deg", "°")},
		Y: chart.Axis{Label: "Sag", Unit: "mm"}}
	per := len(s.values) / len(x.values)
	for i, it := range s.items {
		for k := range min(per, 3) {
			l := chart.Line{Label: typeset.Plain(it.name, 12)}
			if len(s.swept) == 2 {
				k = k * (per - 1) / max(1, min(per, 3)-1)
				l.Label += fmt.Sprintf(", %s %.4g", s.swept[1].name, s.swept[1].values[k])
			}
			for n := range x.values {
				cells := s.row(i*len(s.values) + n*per + k)
				if sag, ok := cells[len(cells)-4].value.(float64); ok {
					l.X, l.Y = append(l.X, x.values[n]), append(l.Y, sag)
				}
			}
			if len(l.X) > 1 {
				f.Lines = append(f.Lines, l)
			}
		}
	}
	if len(f.Lines) == 0 {
		return nil
	}
	return folder.Draw("sweep", f)
}
