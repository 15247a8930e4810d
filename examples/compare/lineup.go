package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"example.org/forkcurve/examples/internal/chart"
	"example.org/forkcurve/examples/internal/program"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const mm = units.Millimeter

// entry is a fork to be compared: a present one, or one with its coil.
type entry struct {
	name    string
	verdict string // of a plan or a build; empty: of none
	conversion.Behavior
	event setup.Drift
	job   conversion.Job
}

// entries are the forks of every job: the present one, and the coil planned or built.
func entries(items []item) ([]entry, error) {
	var list []entry
	var faults []error
	for _, it := range items {
		r, err := it.file.Report()
		if err != nil {
			faults = append(faults, fmt.Errorf("%s: %w", it.name, err))
			continue
		}
		name := typeset.Plain(it.name, 12)
		if r.Build == nil && r.Job.From == conversion.PresentFork {
			list = append(list, entry{name + " present", "", r.Present, r.Event, r.Job})
		}
		if c := r.Candidates[0]; c.Behavior.Sag.Load != 0 {
			list = append(list, entry{name + " coil " + typeset.Plain(c.Coil, 10), c.Verdict.String(), c.Behavior, c.Event,
				r.Job})
		}
	}
	if err := errors.Join(faults...); err != nil {
		return nil, err
	}
	if len(list) == 0 {
		return nil, errors.New("no fork of these jobs carries its rider")
	}
	return list, nil
}

// lineup sets forks side by side.
type lineup []entry

func newLineup(items []item) (table, error) {
	list, err := entries(items)
	return lineup(list), err
}

func (b lineup) what() string { return "forks" }
func (b lineup) len() int     { return len(b) }

func (b lineup) row(i int) []cell {
	e := b[i]
	cells := []cell{{"fork", e.name}, {"sag_mm", e.Sag.Middle.In(mm)}, {"sag_high_mm", e.Sag.High.In(mm)},
		{"sag_low_mm", e.Sag.Low.In(mm)}, {"machine_sag_mm", e.MachineSag.Middle.In(mm)},
		{"rate_N_per_mm", e.Rate.In(units.NewtonPerMillimeter)}, {"frequency_Hz", e.Frequency.In(units.Hertz)},
		{"energy_90_J", float64(e.Energy90)}, {"energy_full_J", float64(e.EnergyFull)},
		{"force_full_N", float64(e.ForceFull)},
		{"dive_mm", e.Dive.In(mm)}, {"event_change_mm", e.event.Change(e.event.There).In(mm)}, {"warm_sag_mm", nil},
		{"verdict", e.verdict}}
	if w := e.Running; w != nil {
		cells[12].value = w.Sag.Middle.In(mm)
	}
	return cells
}

// columns prints rows as columns, some at a time.
type columns struct {
	w    io.Writer
	rows [][]cell
}

func (b lineup) text(w io.Writer) writer { return &columns{w: w} }

func (c *columns) row(cells []cell) error {
	c.rows = append(c.rows, cells)
	return nil
}

func (c *columns) end() error {
	const at = 3
	var s typeset.Sheet
	s.Section("SIDE BY SIDE, each with its own rider")
	for i := 0; i < len(c.rows); i += at {
		if i > 0 {
			s.Paragraph("", "")
		}
		block := c.rows[i:min(i+at, len(c.rows))]
		for k := range block[0] {
			var cells []string
			for _, row := range block {
				cells = append(cells, short(row[k].value))
			}
			s.Row(block[0][k].key, 18, cells, 20)
		}
	}
	_, err := io.WriteString(c.w, typeset.Numbers(strings.TrimPrefix(s.String(), "\n")))
	return err
}

// short is a value with the digits a workshop can use.
func short(v any) string {
	switch v := v.(type) {
	case float64:
		if math.Abs(v) >= 20 || v == math.Trunc(v) {
			return strconv.FormatFloat(v, 'f', 0, 64)
		}
		return strconv.FormatFloat(v, 'f', 1, 64)
	case string:
		if v != "" {
			return typeset.Plain(v, 19)
		}
	}
	return "-"
}

func (b lineup) draw(folder program.Folder) error {
	figure := func(title, label, unit string, y func(spring.Point) float64) *chart.Figure {
		f := &chart.Figure{Title: title, Note: "In a landing, from full extension: gas compressed fast. " +
			"Each fork as a whole, along its axis.", X: chart.Axis{Label: "Travel", Unit: "mm"},
			Y: chart.Axis{Label: label, Unit: unit, Zero: true}}
		for _, e := range b {
			l := chart.Line{Label: e.name}
			for _, pt := range spring.Sample(e.Setup.Curve(e.job.RideExponent), 301) {
				l.X, l.Y = append(l.X, pt.Travel.In(mm)), append(l.Y, y(pt))
			}
			if len(l.X) > 1 {
				f.Lines = append(f.Lines, l)
			}
		}
		return f
	}
	force := figure("Force against travel", "Force on the fork axis", "N",
		func(pt spring.Point) float64 { return pt.Force.In(units.Newton) })
	energy := figure("Energy against travel", "Energy from full extension", "J",
		func(pt spring.Point) float64 { return pt.Energy.In(units.Joule) })
	if len(force.Lines) == 0 {
		return nil
	}
	return errors.Join(folder.Draw("force", force), folder.Draw("energy", energy))
}
