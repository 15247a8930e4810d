package sheet

import (
	_ "embed"
	"errors"
	"fmt"
	"io"
	"strings"

	"example.org/forkcurve/internal/prose"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

//go:embed air.tmpl
var airWords string

// airFacts are what the words of an air sheet ask for: those of a plan, and the fill.
type airFacts struct {
	facts
	Air *conversion.AirReport
}

// WriteAirText prints the bench sheet of a fill, 80 columns wide, with the cautions, the steps, and the table of the
// places it will be ridden.
func WriteAirText(w io.Writer, r *conversion.AirReport) error {
	if err := wholeAir(r); err != nil {
		return err
	}
	j := r.Job
	shared := &conversion.Report{Job: conversion.Job{Heading: j.Heading, Rider: j.Rider, Chassis: j.Chassis, Fork: j.Fork,
		SagWindow: j.SagWindow, Workshop: j.Workshop, Event: j.Event, Torques: j.Torques, Present: j.Air},
		TargetSag: r.TargetSag, Findings: r.Findings, Cautions: r.Cautions}
	best := &conversion.Candidate{Behavior: r.Behavior, Event: r.Event}
	f := airFacts{facts{Report: plain(shared), Best: best, steps: new(int)}, r}
	if r.Match != nil && f.Carries() {
		best.SagChange = r.Behavior.Sag.Middle - r.Match.Sag.Middle
		low := j.Chassis.Lowered(best.SagChange)
		best.RakeChange, best.TrailChange = low.Rake-j.Chassis.Rake, low.Trail()-j.Chassis.Trail()
	}
	text, err := prose.SetAt(28, airWords, f)
	if err != nil {
		return fmt.Errorf("sheet: %w", err)
	}
	_, err = io.WriteString(w, text)
	return err
}

// airDocument is the JSON of a fill.
type airDocument struct {
	Version int                   `json:"version"`
	Report  *conversion.AirReport `json:"air_report"`
	Curves  []curve               `json:"curves"`
}

// WriteAirJSON writes how to fill a fork, and the curves of that fork and of the one it matches, in the units and
// with the version of [WriteJSON].
func WriteAirJSON(w io.Writer, r *conversion.AirReport) error {
	if err := wholeAir(r); err != nil {
		return err
	}
	return write(w, airDocument{Version, r, airCurves(r)})
}

// AirKeys lists every key of that JSON, as [Keys] does those of a plan.
func AirKeys() []string {
	keys := []string{"version"}
	for _, key := range conversion.AirKeys() {
		keys = append(keys, "air_report."+key)
	}
	return append(keys, curveKeys...)
}

// WriteAirCSV writes the curves of the fork as filled and of the one it matches, as [WriteCSV] does.
func WriteAirCSV(w io.Writer, r *conversion.AirReport) error {
	if err := wholeAir(r); err != nil {
		return err
	}
	return writeCurves(w, airCurves(r))
}

func airCurves(r *conversion.AirReport) []curve {
	list := newCurves("air", r.Behavior.Setup, r.Job.RideExponent)
	if r.Match != nil {
		list = append(list, newCurves("matched", r.Match.Setup, r.Job.RideExponent)...)
	}
	return list
}

func wholeAir(r *conversion.AirReport) error {
	if r == nil || r.Behavior.Setup == nil || r.Match != nil && r.Match.Setup == nil {
		return errors.New("sheet: the report lacks its forks; conversion.PlanAir makes one with them")
	}
	return nil
}

// Kind heads the sheet.
func (f airFacts) Kind() string {
	if f.Air.Match != nil {
		return "FROM COIL SPRINGS BACK TO AIR"
	}
	return "AIR FORK SET UP"
}

// Carries reports that the fork as filled carries its rider.
func (f airFacts) Carries() bool { return f.Air.Behavior.Sag.Load != 0 }

// Before is what the fork to match holds.
func (f airFacts) Before() [][2]string {
	if f.Air.Match == nil {
		return [][2]string{{"Sag wanted", f.sprintf("%.0f, %.0f of travel", f.TargetSag,
			units.Share(f.TargetSag/f.Job.Fork.Travel))}}
	}
	var lines [][2]string
	for side, l := range []setup.Leg{f.Air.Job.Match.Left, f.Air.Job.Match.Right} {
		if h := f.held(l); h != "" {
			lines = append(lines, [2]string{f.sprintf("Takes after, %v", setup.Side(side)), h})
		}
	}
	return append(lines, [2]string{"", f.sprintf("which sags %s, by %v", f.Sag(f.Air.Match.Sag), f.Air.Job.Criterion)})
}

// gauge is a reading in both units of the pumps, that of the job first.
func (f airFacts) gauge(p units.GaugePressure) string {
	bar, psi := fmt.Sprintf("%.1f bar", p.In(units.Bar)), fmt.Sprintf("%.0f psi", p.In(units.PSI))
	if f.Pressure() == "psi" {
		bar, psi = psi, bar
	}
	return fmt.Sprintf("%s (%s)", bar, psi)
}

// Marked is the maximum on the fork.
func (f airFacts) Marked() string {
	if f.Air.Job.MaxGauge == (units.GaugePressure{}) {
		return "not told; look at the fork and its manual, and keep below"
	}
	return f.gauge(f.Air.Job.MaxGauge) + " by the record; what stands on the fork prevails"
}

// Fills heads the pressures.
func (f airFacts) Fills() string {
	if !f.Air.Safe() {
		return "FILL, NOT AS WANTED"
	}
	return "FILL: gauge readings, fork extended, in the workshop"
}

// Chambers are the readings of each.
func (f airFacts) Chambers() [][2]string {
	var lines [][2]string
	for _, g := range f.Air.Gauges {
		lines = append(lines, [2]string{fmt.Sprintf("Positive chamber, %v", g.Side), f.gauge(g.Positive)})
		switch {
		case g.Negative == nil:
		case g.Valve:
			lines = append(lines, [2]string{"  negative, own valve", f.gauge(*g.Negative)})
		default:
			lines = append(lines, [2]string{"  negative", f.gauge(*g.Negative) + " through the port, not to be set"})
		}
		if g.Second != nil {
			lines = append(lines, [2]string{"  second, own valve", f.gauge(*g.Second)})
		}
	}
	if f.Air.Asked != f.Air.Gauges[0].Positive && !f.Air.Safe() {
		lines = append(lines, [2]string{"", "the sag wanted asks for " + f.gauge(f.Air.Asked)})
	}
	return lines
}

// ReducersText is how much stands in each positive chamber, and why.
func (f airFacts) ReducersText() string {
	r := f.Air.Job.Reducers
	text := f.ReducersShort()
	if f.Air.Match != nil && r != [2]units.Volume{} {
		text += f.sprintf("; may be %.0f to %.0f", r[0], r[1])
	}
	return text
}

// ReducersShort is it alone.
func (f airFacts) ReducersShort() string {
	if f.Air.Reducers < 0.05*units.Milliliter {
		return "none"
	}
	return f.sprintf("%.1f of reducers", f.Air.Reducers)
}

// ReducersIn is it in a sentence.
func (f airFacts) ReducersIn() string {
	if short := f.ReducersShort(); short != "none" {
		return short
	}
	return "no reducers"
}

// StepText is what a tenth of a bar does.
func (f airFacts) StepText() string {
	return f.sprintf("0.1 bar (1.5 psi) lifts the front by %.1f", -f.Air.SagStep)
}

// Energies as ridden, beside those matched.
func (f airFacts) Energies() string {
	b := f.Air.Behavior
	text := f.sprintf("%.0f to 90 %% of travel, %.0f to the end", b.Energy90, b.EnergyFull)
	if m := f.Air.Match; m != nil {
		text += f.sprintf("; were %.0f and %.0f", m.Energy90, m.EnergyFull)
	}
	return text
}

// Front is how the stance changes, if there was another fork.
func (f airFacts) Front() string {
	if f.Air.Match == nil {
		return ""
	}
	return f.facts.Front()
}

// PumpText says what to set, in order.
func (f airFacts) PumpText() string {
	var parts []string
	for _, g := range f.Air.Gauges {
		text := fmt.Sprintf("%v leg, positive chamber to %s", g.Side, f.gauge(g.Positive))
		if g.Valve {
			text += fmt.Sprintf(", negative to %s, in the maker's order", f.gauge(*g.Negative))
		}
		if g.Second != nil {
			text += fmt.Sprintf(", second to %s", f.gauge(*g.Second))
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// ReboundText is what the damper wants after the fork to match.
func (f airFacts) ReboundText() string {
	if f.Air.Rebound == nil {
		return ""
	}
	return strings.TrimPrefix(f.Air.Rebound.Advice, "rebound ")
}

// Ratio tells of chambers with valves of their own.
func (f airFacts) Ratio() string {
	text := ""
	for _, g := range f.Air.Gauges {
		if p := g.Positive.In(units.Pascal); g.Valve && p > 0 {
			text = fmt.Sprintf(" The negative chamber is set to %.2f of the positive one everywhere.",
				g.Negative.In(units.Pascal)/p)
		}
	}
	return text
}

// Warnings are the findings from a caution up.
func (f airFacts) Warnings() []finding { return f.found("fill", f.Findings, conversion.Caution) }

// PlaceRows is the table of the places.
func (f airFacts) PlaceRows() [][]string {
	altitude := f.Job.Heading.Units.Altitude
	if altitude == "" {
		altitude = "m"
	}
	pressure := f.Pressure()
	rows := [][]string{{"", f.Job.Heading.Units.Symbol(units.Temperature{}), altitude, "shows, " + pressure,
		"set, " + pressure, "sag as is, " + f.Length()}}
	for i, p := range f.Air.Places {
		name := typeset.Plain(p.Place.Name, 22)
		if i == 0 {
			name = "the event"
		}
		row := []string{name, f.number(p.Ambient.Temperature, 0), "", "-", "-", "-"}
		if z := p.Place.Altitude; z != nil {
			row[2] = fmt.Sprintf("%.0f", z.In(units.Meter))
			if altitude == "ft" {
				row[2] = fmt.Sprintf("%.0f", z.In(units.Foot))
			}
		}
		if len(p.Shows) > 0 {
			row[3] = f.number(p.Shows[0].Positive, 1)
		}
		if len(p.Set) > 0 {
			row[4] = f.number(p.Set[0].Positive, 1)
		}
		if p.Sag != nil {
			row[5] = f.number(p.Sag.Middle, 0)
		}
		rows = append(rows, row)
	}
	return rows
}
