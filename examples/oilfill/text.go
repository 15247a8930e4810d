package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/units"
)

// facts are what the sheet tells of a fork.
func (b *bath) facts() (map[string]any, error) {
	now, err1 := b.at(0, b.cold)
	table, err2 := b.table()
	steps, err3 := b.stepTable()
	refit, err4 := b.refitFacts()
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		return nil, err
	}
	l, charge := b.told(), ""
	set := fmt.Sprintf("%.0f in %s", l.fill.Volume(), b.where())
	if b.byLevel {
		set = fmt.Sprintf("level %.0f, %s", l.fill.Level(), set)
	}
	if other := b.legs[1-b.main]; other != l {
		set += fmt.Sprintf(" and %.0f in the other", other.fill.Volume())
	}
	if p := l.gap.Pressure.Gauge(b.cold.Pressure); p.In(units.Pascal) > 1 {
		charge = fmt.Sprintf("charged to %.2f", p)
	}
	limits := [][]string{{fmt.Sprintf("Ratio %.0f, good up to", conversion.GoodGapRatio)},
		{fmt.Sprintf("Ratio %.0f, the most", conversion.StopGapRatio)}, {"Hydraulic lock from"}}
	for i, ratio := range []float64{conversion.GoodGapRatio, conversion.StopGapRatio, oil.LockRatio} {
		limits[i] = append(limits[i], b.axis(b.x(b.moreFor(ratio, b.cold))), b.axis(b.x(b.moreFor(ratio, b.warm))))
	}
	return map[string]any{
		"Fork": b.fork, "AsSet": set, "Where": b.where(), "Fill": l.fill, "Charge": charge, "Now": now,
		"Extended": l.fill.Residual() + units.Volume(float64(l.gap.Area)*float64(l.gap.Travel)), "Exponent": l.gap.Exponent,
		"WarmAt": b.warm.Temperature.Celsius(), "ColdAt": b.cold.Temperature.Celsius(), "Table": table, "Limits": limits,
		"Steps": steps, "Levels": b.levels(), "Refit": refit,
	}, nil
}

// axis is a fill as the axis tells it.
func (b *bath) axis(x float64) string { return fmt.Sprintf("%.0f %s", x, b.unit()) }

func (b *bath) unit() string {
	if b.byLevel {
		return "mm"
	}
	return "mL"
}

// usual is the range of fills in use, from the least oil to the most, on the axis.
func (b *bath) usual() (least, most float64) {
	o := []data.Leg{b.fork.Left, b.fork.Right}[b.main].Oil
	switch {
	case b.byLevel && o.Level.Given():
		return o.Level.Hi.In(mm), o.Level.Lo.In(mm)
	case b.byLevel:
		return b.x(0), b.x(0)
	}
	return max(o.Volume.Lo.In(ml), 1), o.Volume.Hi.In(ml)
}

// fills are round ones, from the least oil on to near the lock and once into it, on the axis.
func (b *bath) fills() (list []float64) {
	const columns = 9
	from, _ := b.usual()
	lock := b.moreFor(oil.LockRatio, b.cold)
	span, step := math.Abs(b.x(lock)-from)/(columns-1), 1.0
	for _, s := range []float64{2, 5, 10, 20, 50} {
		if math.Abs(math.Log(s/span)) < math.Abs(math.Log(step/span)) {
			step = s
		}
	}
	if b.byLevel {
		from, step = step*math.Ceil(from/step+1), -step
	}
	for i := range columns {
		x := from + step*float64(i)
		if b.told().fill.Volume()+b.moreAt(x) >= b.fork.Kit.Interior.Value {
			break
		}
		list = append(list, x)
		if b.moreAt(x) > lock {
			break
		}
	}
	return list
}

// table is what the fills do.
func (b *bath) table() ([][]string, error) {
	rows := [][]string{{"Level, mm"}, {"Oil in " + b.where() + ", mL"}, {"Compression ratio"}, {"  warm"},
		{fmt.Sprintf("Force at %.0f %% travel, N", 100*deep)}, {"Force at the end, N"}, {"  warm"}, {"Gas pressure there, bar"}, {"Verdict"}}
	for _, x := range b.fills() {
		cold, err1 := b.at(b.moreAt(x), b.cold)
		warm, err2 := b.at(b.moreAt(x), b.warm)
		if err1 != nil || err2 != nil {
			return nil, fmt.Errorf("%s: %w", b.axis(x), errors.Join(err1, err2))
		}
		deep := "-"
		if cold.Deep != 0 {
			deep = fmt.Sprintf("%.0f", float64(cold.Deep))
		}
		for i, cell := range []string{fmt.Sprintf("%.0f", x), fmt.Sprintf("%.0f", cold.Oil.In(ml)),
			cold.cell("%.1f", cold.Ratio), warm.cell("%.1f", warm.Ratio), deep, cold.end(), warm.end(),
			cold.cell("%.1f", cold.pressure.In(units.Bar)), verdict(cold, warm)} {
			rows[i] = append(rows[i], cell)
		}
	}
	if !b.byLevel {
		rows = rows[1:]
	}
	return rows, nil
}

// cell is a number of a fork that does not lock.
func (p point) cell(format string, v float64) string {
	if p.locked {
		return "LOCK"
	}
	return fmt.Sprintf(format, v)
}

// end is the force at the end, in kN where the column is too narrow.
func (p point) end() string {
	if kilo := p.Force.In(units.Kilonewton); kilo >= 99.5 {
		return p.cell("%.0f k", kilo)
	}
	return p.cell("%.0f", float64(p.Force))
}

func verdict(cold, warm point) string {
	switch {
	case cold.locked:
		return "LOCK"
	case cold.Ratio > conversion.StopGapRatio || warm.locked:
		return "NO"
	case cold.Ratio > conversion.GoodGapRatio || warm.Ratio > conversion.StopGapRatio:
		return "care"
	}
	return "good"
}

// stepTable is what a step of the fill does, as set and at the fullest usual fill.
func (b *bath) stepTable() (lines []string, err error) {
	_, most := b.usual()
	for _, more := range []units.Volume{0, b.moreAt(most)} {
		p, err := b.at(more, b.cold)
		if err != nil {
			return nil, err
		}
		if p.locked || more != 0 && more <= 1*ml {
			continue
		}
		lines = append(lines, "  from "+b.axis(b.x(more)))
		up := units.Volume(float64(b.told().fill.Column()) * float64(5*mm))
		for i, step := range []units.Volume{5 * ml, up}[:map[bool]int{true: 2, false: 1}[b.byLevel]] {
			q, err := b.at(more+step, b.cold)
			if err != nil {
				return nil, err
			}
			change := func(from, to units.Force) string {
				return fmt.Sprintf("%+.0f N %+.1f %%", float64(to-from), 100*float64(to/from-1))
			}
			line := "    " + typeset.Pad([]string{"5 mL more", fmt.Sprintf("5 mm higher (%.1f mL)", up.In(ml))}[i], 28)
			if q.locked {
				lines = append(lines, line+"LOCK")
				continue
			}
			lines = append(lines, line+typeset.Lead(change(p.Deep, q.Deep), 15)+typeset.Lead(change(p.Force, q.Force), 18)+
				typeset.Lead(fmt.Sprintf("%.1f to %.1f", p.Ratio, q.Ratio), 13))
		}
	}
	return lines, nil
}

// levels is how a level becomes a volume, or why the leg is filled by volume.
func (b *bath) levels() [][]string {
	fill, column := b.told().fill, b.told().fill.Column()
	switch {
	case b.byLevel:
		return [][]string{{"Level to volume", fmt.Sprintf("oil = %.0f - %.2f mL/mm × level; %.2f mm of level for 1 mL; section %.1f",
			b.fork.Kit.Interior.Value, 1000*float64(column), 1e-3/float64(column), column)},
			{"Spring goes in", fmt.Sprintf("the oil then stands %.0f higher: %.0f below the mouth", fill.Raised(), fill.Level()-fill.Raised())}}
	case !b.fork.Kit.SpringInOil:
		return [][]string{{"Filled by volume", "the few milliliters in the lower legs only lubricate; the table shows what far too much would do"}}
	case []data.Leg{b.fork.Left, b.fork.Right}[b.main].Oil.Cartridge.Given():
		return [][]string{{"Filled by volume", "a closed cartridge rises with the mouth of the leg and keeps its own oil"}}
	}
	return [][]string{{"Filled by volume", "its record has no level"}}
}

// refitFacts are what the exchange of the air spring for a kit does; nil of a fork on coils.
func (b *bath) refitFacts() (map[string]any, error) {
	if b.fork.Spring() != data.AirLeg {
		return nil, nil
	}
	r, err := b.refit()
	if err != nil {
		return nil, err
	}
	was := r.was.fill
	what, out := "the spring stands above the oil", fmt.Sprintf("%.0f, the cartridge with all it encloses", was.Metal())
	if r.inOil {
		what = fmt.Sprintf("%.0f of it spring", r.spring.Volume())
	}
	switch {
	case b.wholeLeg:
		out = fmt.Sprintf("the charge of the air, and %.0f of metal", was.Metal())
	case was.Metal() < 1*ml:
		out = "nothing that stood in the oil"
	}
	rows := [][]string{{"", "oil", "change", "gas", "ratio", "warm", "gas force"}, {"", "mL", "mL", "mL", "", "", "N"}}
	for _, s := range r.states {
		force := "LOCK"
		if _, locks := s.gap.Locks(); !locks {
			force = fmt.Sprintf("%.0f", float64(s.gap.Force(s.gap.Stroke())))
		}
		rows = append(rows, []string{s.name, fmt.Sprintf("%.0f", s.fill.Volume().In(ml)), signed(s.fill.Volume() - was.Volume()),
			fmt.Sprintf("%.0f", s.fill.Residual().In(ml)), ratio(s.gap.CompressionRatio()), ratio(s.warm), force})
	}
	return map[string]any{"Where": strings.ToUpper(r.where), "Out": out, "Metal": r.metal, "What": what, "Spring": r.spring,
		"Table": rows, "Advice": r.advice(b.fork.Kit.Oil)}, nil
}

// advice says what the exchange does to the fill.
func (r *refit) advice(kit data.Range[units.Volume]) string {
	left := r.states[1].fill.Residual() - r.was.fill.Residual()
	text := fmt.Sprintf("With the oil untouched the leg has %.0f more gas: the end of the stroke is soft and the fork bottoms.", left)
	switch {
	case math.Abs(left.In(ml)) < 5:
		return "The fill stays as it was: change the oil, but not its amount. What stiffens the end of the stroke is the air " +
			"in the leg, which a coil does not replace; the air spring's own ramp is gone."
	case left < 0:
		text = fmt.Sprintf("With the oil untouched the leg has %.0f less gas: the end of the stroke is harder.", -left)
	}
	return text + fmt.Sprintf(" The kit asks for %.0f (%.0f to %.0f): %s mL. Check against the drained volume: interiors of "+
		"generic forks are estimates.", r.aim, kit.Lo.In(ml), kit.Hi, signed(r.aim-r.was.fill.Volume()))
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
