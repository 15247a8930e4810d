package main

import (
	"fmt"
	"strings"

	"example.org/forkcurve/oil"
	"example.org/forkcurve/oil/bath"
	"example.org/forkcurve/units"
)

// PerMM is the oil of a millimeter of level, mL.
func (s *study) PerMM() float64 { return 1000 * float64(s.Fill.Column()) }

// Below is how far below the mouth the oil stands with the spring in.
func (s *study) Below() units.Length { return s.Fill.Level() - s.Fill.Raised() }

// Limit is the fill with a compression ratio as filled, and the one that keeps to it when warm.
func (s *study) Limit(ratio float64) string {
	return fmt.Sprintf("%s as filled, %s to keep to it when warm", s.Axis(s.Room(ratio, s.Cold)),
		s.Axis(s.Room(ratio, s.Warm)))
}

// Table is what the fills do.
func (s *study) Table() ([][]string, error) {
	rows := [][]string{{"Level, mm"}, {"Oil in " + s.Where + ", mL"}, {"Compression ratio"}, {"  warm"},
		{"Force at 66 % travel, N"}, {"Force at the end, N"}, {"  warm"}, {"Gas pressure there, bar"}, {"Verdict"}}
	for _, x := range s.columns() {
		cold, err := s.At(s.moreAt(x), s.Cold)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", s.Axis(s.moreAt(x)), err)
		}
		warm, err := s.At(s.moreAt(x), s.Warm)
		if err != nil {
			return nil, fmt.Errorf("%s, warm: %w", s.Axis(s.moreAt(x)), err)
		}
		deep := "-"
		if s.Deep(cold) != 0 {
			deep = fmt.Sprintf("%.0f", float64(s.Deep(cold)))
		}
		more := s.moreAt(x)
		for i, cell := range []string{fmt.Sprintf("%.0f", x), fmt.Sprintf("%.0f", (s.Fill.Volume() + more).In(ml)),
			cell(cold, "%.1f", cold.Ratio), cell(warm, "%.1f", warm.Ratio), deep, s.endCell(cold), s.endCell(warm),
			cell(cold, "%.1f", cold.Pressure.In(units.Bar)), string(bath.Judge(cold, warm))} {
			rows[i] = append(rows[i], cell)
		}
	}
	if !s.ByLevel {
		rows = rows[1:]
	}
	return rows, nil
}

// cell is a number of a fork that does not lock.
func cell(p bath.End, format string, v float64) string {
	if p.Locked {
		return "LOCK"
	}
	return fmt.Sprintf(format, v)
}

// endCell is the force at the end, in kN where the column is too narrow.
func (s *study) endCell(p bath.End) string {
	if kilo := s.End(p).In(units.Kilonewton); kilo >= 99.5 {
		return cell(p, "%.0f k", kilo)
	}
	return cell(p, "%.0f", float64(s.End(p)))
}

// Steps are what a step of the fill does, as set and at the fullest usual fill.
func (s *study) Steps() (rows [][]string, err error) {
	_, most := s.usual()
	for _, from := range []units.Volume{0, s.moreAt(most)} {
		if from != 0 && from <= 1*ml {
			continue
		}
		for _, step := range []struct {
			name string
			more units.Volume
		}{{"5 mL more", 5 * ml}, {"5 mm higher", units.Volume(float64(s.Fill.Column()) * float64(5*mm))}} {
			p, err := s.Step(from, step.more, s.Cold)
			if err != nil {
				return nil, err
			}
			if p.From.Locked || step.name == "5 mm higher" && !s.ByLevel {
				continue
			}
			row := []string{fmt.Sprintf("  from %s, %s", s.Axis(from), step.name), "", "", "LOCK"}
			if !p.To.Locked {
				row[1], row[2] = change(p.Change(s.Fork.Travel.Value*deep)), change(p.Change(s.Fork.Travel.Value))
				row[3] = fmt.Sprintf("%.1f to %.1f", p.From.Ratio, p.To.Ratio)
			}
			rows = append(rows, row)
		}
	}
	return rows, nil
}

func change(by units.Force, share units.Share) string { return fmt.Sprintf("%+.0f %+.1f", by, share) }

// Table is what the states of a converted leg come to.
func (r *refit) Table() ([][]string, error) {
	rows := [][]string{{"", "oil", "change", "gas", "ratio", "warm", "gas force"}, {"", "mL", "mL", "mL", "", "", "N"}}
	for _, state := range []struct {
		name string
		make func() (oil.Refitted, error)
	}{{"as it is", r.Before},
		{"kit in, oil untouched", func() (oil.Refitted, error) { return r.With(r.Was.Volume()) }},
		{"kit in, oil as the kit asks", func() (oil.Refitted, error) { return r.With(r.Aim) }},
		{"kit in, gas room as before", r.SameGas},
		{"kit in, at ratio 5", func() (oil.Refitted, error) { return r.AtRatio(oil.GoodRatio) }}} {
		at, err := state.make()
		if err != nil {
			return nil, err
		}
		force := "LOCK"
		if _, locks := at.Cold.Locks(); !locks {
			force = fmt.Sprintf("%.0f", float64(at.Cold.Force(at.Cold.Stroke())))
		}
		rows = append(rows, []string{state.name, fmt.Sprintf("%.0f", at.Fill.Volume().In(ml)), r.change(at.Fill.Volume()),
			fmt.Sprintf("%.0f", at.Fill.Residual().In(ml)), ratio(at.Cold), ratio(at.Warm), force})
	}
	if !r.InOil { // it only lubricates
		rows = rows[:len(rows)-1]
	}
	return rows, nil
}

// Left is how much more gas the leg has with the oil untouched, mL, Less its opposite, and Add what oil the kit asks
// for beyond the present.
func (r *refit) Left() float64 { return (r.Was.Metal() - r.Metal).In(ml) }
func (r *refit) Less() float64 { return -r.Left() }
func (r *refit) Title() string { return strings.ToUpper(r.Where) }
func (r *refit) Add() string   { return r.change(r.Aim) }

// change is oil beyond the present, in mL.
func (r *refit) change(v units.Volume) string {
	return fmt.Sprintf("%+.0f", (v - r.Was.Volume()).In(ml))
}

func ratio(g oil.AirGap) string {
	if r := g.CompressionRatio(); !(r > oil.LockRatio) {
		return fmt.Sprintf("%.1f", r)
	}
	return "LOCK"
}
