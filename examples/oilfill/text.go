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
	refit, err4 := s.refitFacts()
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		return nil, err
	}
	fill, gap, charge := s.told(), s.Gap(s.main), ""
	set := fmt.Sprintf("%.0f in %s", fill.Volume(), s.where())
	if s.byLevel {
		set = fmt.Sprintf("level %.0f, %s", fill.Level(), set)
	}
	if other := s.fills[1-s.main]; other != fill {
		set += fmt.Sprintf(" and %.0f in the other", other.Volume())
	}
	if p := gap.Pressure.Gauge(s.cold.Pressure); p.In(units.Pascal) > 1 {
		charge = fmt.Sprintf("charged to %.2f", p)
	}
	limits := [][]string{{fmt.Sprintf("Ratio %.0f, good up to", conversion.GoodGapRatio)},
		{fmt.Sprintf("Ratio %.0f, the most", conversion.StopGapRatio)}, {"Hydraulic lock from"}}
	for i, ratio := range []float64{conversion.GoodGapRatio, conversion.StopGapRatio, oil.LockRatio} {
		limits[i] = append(limits[i], s.axis(s.x(s.Room(ratio, s.cold))), s.axis(s.x(s.Room(ratio, s.warm))))
	}
	return map[string]any{
		"Fork": s.fork, "AsSet": set, "Where": s.where(), "Fill": fill, "Charge": charge, "Ratio": now.Ratio,
		"Deep": s.deep(now), "End": s.end(now),
		"Extended": gap.Extended(), "Exponent": s.exponent,
		"WarmAt": s.warm.Temperature.Celsius(), "ColdAt": s.cold.Temperature.Celsius(), "Table": table, "Limits": limits,
		"Steps": steps, "Levels": s.levels(), "Refit": refit,
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
		for i, step := range []units.Volume{5 * ml, up}[:map[bool]int{true: 2, false: 1}[s.byLevel]] {
			q, err := s.At(more+step, s.cold)
			if err != nil {
				return nil, err
			}
			change := func(from, to units.Force) string {
				return fmt.Sprintf("%+.0f N %+.1f %%", float64(to-from), 100*float64(to/from-1))
			}
			line := "    " + typeset.Pad([]string{"5 mL more", fmt.Sprintf("5 mm higher (%.1f mL)", up.In(ml))}[i], 28)
			if q.Locked {
				lines = append(lines, line+"LOCK")
				continue
			}
			lines = append(lines, line+typeset.Lead(change(s.deep(p), s.deep(q)),
				15)+typeset.Lead(change(s.end(p), s.end(q)), 18)+
				typeset.Lead(fmt.Sprintf("%.1f to %.1f", p.Ratio, q.Ratio), 13))
		}
	}
	return lines, nil
}

// levels is how a level becomes a volume, or why the leg is filled by volume.
func (s *study) levels() [][]string {
	fill, column := s.told(), s.told().Column()
	switch {
	case s.byLevel:
		return [][]string{{"Level to volume",
			fmt.Sprintf("oil = %.0f - %.2f mL/mm × level; %.2f mm of level for 1 mL; section %.1f",
				s.fork.Kit.Interior.Value, 1000*float64(column), 1e-3/float64(column), column)},
			{"Spring goes in", fmt.Sprintf("the oil then stands %.0f higher: %.0f below the mouth", fill.Raised(),
				fill.Level()-fill.Raised())}}
	case !s.fork.Kit.SpringInOil:
		return [][]string{{"Filled by volume",
			"the few milliliters in the lower legs only lubricate; the table shows what far too much would do"}}
	case []data.Leg{s.fork.Left, s.fork.Right}[s.main].Oil.Cartridge.Given():
		return [][]string{{"Filled by volume",
			"a closed cartridge rises with the mouth of the leg and keeps its own oil"}}
	}
	return [][]string{{"Filled by volume", "its record has no level"}}
}

// refitFacts are what the exchange of the air spring for a kit does; nil of a fork on coils.
func (s *study) refitFacts() (map[string]any, error) {
	if s.fork.Spring() != data.AirLeg {
		return nil, nil
	}
	r, err := s.refit()
	if err != nil {
		return nil, err
	}
	was := r.was
	what, out := "the spring stands above the oil", fmt.Sprintf("%.0f, the cartridge with all it encloses", was.Metal())
	if r.inOil {
		what = fmt.Sprintf("%.0f of it spring", r.spring.Volume())
	}
	switch {
	case !s.fork.Gap.Residual.Given():
		out = fmt.Sprintf("the charge of the air, and %.0f of metal", was.Metal())
	case was.Metal() < 1*ml:
		out = "nothing that stood in the oil"
	}
	rows := [][]string{{"", "oil", "change", "gas", "ratio", "warm", "gas force"}, {"", "mL", "mL", "mL", "", "", "N"}}
	for _, at := range r.states {
		force := "LOCK"
		if _, locks := at.gap.Locks(); !locks {
			force = fmt.Sprintf("%.0f", float64(at.gap.Force(at.gap.Stroke())))
		}
		rows = append(rows, []string{at.name, fmt.Sprintf("%.0f", at.fill.Volume().In(ml)),
			signed(at.fill.Volume() - was.Volume()),
			fmt.Sprintf("%.0f", at.fill.Residual().In(ml)), ratio(at.gap.CompressionRatio()), ratio(at.warm), force})
	}
	return map[string]any{"Where": strings.ToUpper(r.where), "Out": out, "Metal": r.metal, "What": what,
		"Spring": r.spring,
		"Table":  rows, "Advice": r.advice(s.fork.Kit.Oil)}, nil
}

// advice says what the exchange does to the fill.
func (r *refit) advice(kit data.Range[units.Volume]) string {
	left := r.states[1].fill.Residual() - r.was.Residual()
	text := fmt.Sprintf("With the oil untouched the leg has %.0f more gas: the end of the stroke is soft and the "+
		"fork bottoms.", left)
	switch {
	case math.Abs(left.In(ml)) < 5:
		return "The fill stays as it was: change the oil, but not its amount. What stiffens the end of the stroke is " +
			"the air " +
			"in the leg, which a coil does not replace; the air spring's own ramp is gone."
	case left < 0:
		text = fmt.Sprintf("With the oil untouched the leg has %.0f less gas: the end of the stroke is harder.", -left)
	}
	return text + fmt.Sprintf(" The kit asks for %.0f (%.0f to %.0f): %s mL. Check against the drained volume: "+
		"interiors of "+
		"generic forks are estimates.", r.aim, kit.Lo.In(ml), kit.Hi, signed(r.aim-r.was.Volume()))
}

// signed is a change in mL, without a sign where it is none.
func signed(v units.Volume) string {
	if math.Abs(v.In(ml)) < 0.5 {
		return "0"
	}
	return fmt.Sprintf("%+.0f", v.In(ml))
}

func ratio(r float64) string {
	if r > oil.LockRatio {
		return "LOCK"
	}
	return fmt.Sprintf("%.1f", r)
}
