package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/oil/bath"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/units"
)

// facts are what the sheet tells of a fork.
func (s *study) facts() (map[string]any, error) {
	now, err1 := s.At(0, s.cold)
	table, err2 := s.table()
	steps, err3 := s.stepTable()
	var r *refit
	var err4 error
	if s.fork.Spring() == data.AirLeg {
		r, err4 = s.refit()
	}
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		return nil, err
	}
	fill, gap := s.told(), s.Gap(s.main)
	limits := [][]string{{fmt.Sprintf("Ratio %.0f, good up to", conversion.GoodGapRatio)},
		{fmt.Sprintf("Ratio %.0f, the most", conversion.StopGapRatio)}, {"Hydraulic lock from"}}
	for i, ratio := range []float64{conversion.GoodGapRatio, conversion.StopGapRatio, oil.LockRatio} {
		limits[i] = append(limits[i], s.axis(s.x(s.Room(ratio, s.cold))), s.axis(s.x(s.Room(ratio, s.warm))))
	}
	return map[string]any{
		"Fork": s.fork, "Record": []data.Leg{s.fork.Left, s.fork.Right}[s.main], "ByLevel": s.byLevel, "Where": s.where(),
		"Fill": fill, "Other": s.fills[1-s.main], "PerMM": 1000 * float64(fill.Column()),
		"PerML": 1e-3 / float64(fill.Column()),
		"Below": fill.Level() - fill.Raised(), "Charge": gap.Pressure.Gauge(s.cold.Pressure), "Extended": gap.Extended(),
		"Ratio": now.Ratio, "Deep": s.deep(now), "End": s.end(now), "Exponent": s.exponent, "Warm": s.warm, "Cold": s.cold,
		"Table": table, "Limits": limits, "Steps": steps, "Refit": r,
	}, nil
}

// axis is a fill as the axis tells it.
func (s *study) axis(x float64) string { return fmt.Sprintf("%.0f %s", x, s.unit()) }

func (s *study) unit() string {
	if s.byLevel {
		return "mm"
	}
	return "mL"
}

// usual is the range of fills in use, from the least oil to the most, on the axis.
func (s *study) usual() (least, most float64) {
	o := []data.Leg{s.fork.Left, s.fork.Right}[s.main].Oil
	switch {
	case s.byLevel && o.Level.Given():
		return o.Level.Hi.In(mm), o.Level.Lo.In(mm)
	case s.byLevel:
		return s.x(0), s.x(0)
	}
	return max(o.Volume.Lo.In(ml), 1), o.Volume.Hi.In(ml)
}

// columns are round fills, from the least oil on to near the lock and once into it, on the axis.
func (s *study) columns() (list []float64) {
	const most = 9
	from, _ := s.usual()
	lock := s.Room(oil.LockRatio, s.cold)
	span, step := math.Abs(s.x(lock)-from)/(most-1), 1.0
	for _, s := range []float64{2, 5, 10, 20, 50} {
		if math.Abs(math.Log(s/span)) < math.Abs(math.Log(step/span)) {
			step = s
		}
	}
	if s.byLevel {
		from, step = step*math.Ceil(from/step+1), -step
	}
	for i := range most {
		x := from + step*float64(i)
		if s.told().Volume()+s.moreAt(x) >= s.fork.Kit.Interior.Value {
			break
		}
		list = append(list, x)
		if s.moreAt(x) > lock {
			break
		}
	}
	return list
}

// table is what the fills do.
func (s *study) table() ([][]string, error) {
	rows := [][]string{{"Level, mm"}, {"Oil in " + s.where() + ", mL"}, {"Compression ratio"}, {"  warm"},
		{fmt.Sprintf("Force at %.0f %% travel, N",
			100*deep)}, {"Force at the end, N"}, {"  warm"}, {"Gas pressure there, bar"}, {"Verdict"}}
	for _, x := range s.columns() {
		cold, err1 := s.At(s.moreAt(x), s.cold)
		warm, err2 := s.At(s.moreAt(x), s.warm)
		if err1 != nil || err2 != nil {
			return nil, fmt.Errorf("%s: %w", s.axis(x), errors.Join(err1, err2))
		}
		deep := "-"
		if s.deep(cold) != 0 {
			deep = fmt.Sprintf("%.0f", float64(s.deep(cold)))
		}
		for i, cell := range []string{fmt.Sprintf("%.0f", x), fmt.Sprintf("%.0f", cold.Fills[s.main].Volume().In(ml)),
			cell(cold, "%.1f", cold.Ratio), cell(warm, "%.1f", warm.Ratio), deep, s.endCell(cold), s.endCell(warm),
			cell(cold, "%.1f", cold.Pressure.In(units.Bar)), verdict(cold, warm)} {
			rows[i] = append(rows[i], cell)
		}
	}
	if !s.byLevel {
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
	if kilo := s.end(p).In(units.Kilonewton); kilo >= 99.5 {
		return cell(p, "%.0f k", kilo)
	}
	return cell(p, "%.0f", float64(s.end(p)))
}

func verdict(cold, warm bath.End) string {
	switch {
	case cold.Locked:
		return "LOCK"
	case cold.Ratio > conversion.StopGapRatio || warm.Locked:
		return "NO"
	case cold.Ratio > conversion.GoodGapRatio || warm.Ratio > conversion.StopGapRatio:
		return "care"
	}
	return "good"
}

// stepTable is what a step of the fill does, as set and at the fullest usual fill.
func (s *study) stepTable() (lines []string, err error) {
	_, most := s.usual()
	for _, more := range []units.Volume{0, s.moreAt(most)} {
		p, err := s.At(more, s.cold)
		if err != nil {
			return nil, err
		}
		if p.Locked || more != 0 && more <= 1*ml {
			continue
		}
		lines = append(lines, "  from "+s.axis(s.x(more)))
		up := units.Volume(float64(s.told().Column()) * float64(5*mm))
		steps, names := []units.Volume{5 * ml}, []string{"5 mL more", fmt.Sprintf("5 mm higher (%.1f mL)", up.In(ml))}
		if s.byLevel {
			steps = append(steps, up)
		}
		for i, step := range steps {
			q, err := s.At(more+step, s.cold)
			if err != nil {
				return nil, err
			}
			change := func(of func(e bath.End) units.Force) string {
				return fmt.Sprintf("%+.0f N %+.1f %%", float64(of(q)-of(p)), 100*float64(of(q)/of(p)-1))
			}
			line := "    " + typeset.Pad(names[i], 28)
			if q.Locked {
				lines = append(lines, line+"LOCK")
				continue
			}
			lines = append(lines, line+typeset.Lead(change(s.deep), 15)+typeset.Lead(change(s.end), 18)+
				typeset.Lead(fmt.Sprintf("%.1f to %.1f", p.Ratio, q.Ratio), 13))
		}
	}
	return lines, nil
}

// Table is what the states of a converted leg come to.
func (r *refit) Table() [][]string {
	rows := [][]string{{"", "oil", "change", "gas", "ratio", "warm", "gas force"}, {"", "mL", "mL", "mL", "", "", "N"}}
	for _, at := range r.states {
		force := "LOCK"
		if _, locks := at.gap.Locks(); !locks {
			force = fmt.Sprintf("%.0f", float64(at.gap.Force(at.gap.Stroke())))
		}
		rows = append(rows, []string{at.name, fmt.Sprintf("%.0f", at.fill.Volume().In(ml)), r.change(at.fill.Volume()),
			fmt.Sprintf("%.0f", at.fill.Residual().In(ml)), ratio(at.gap.CompressionRatio()), ratio(at.warm), force})
	}
	return rows
}

// Left is how much more gas the leg has with the oil untouched, mL, Less its opposite, and Add what oil the kit asks
// for beyond the present.
func (r *refit) Left() float64 { return (r.states[1].fill.Residual() - r.Was.Residual()).In(ml) }
func (r *refit) Title() string { return strings.ToUpper(r.Where) }
func (r *refit) Less() float64 { return -r.Left() }
func (r *refit) Add() string   { return r.change(r.Aim) }

// change is oil beyond the present, in mL, without a sign where it is none.
func (r *refit) change(v units.Volume) string {
	if c := (v - r.Was.Volume()).In(ml); math.Abs(c) >= 0.5 {
		return fmt.Sprintf("%+.0f", c)
	}
	return "0"
}

func ratio(r float64) string {
	if r > oil.LockRatio {
		return "LOCK"
	}
	return fmt.Sprintf("%.1f", r)
}
