package main

import (
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/oil"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/units"
)

const (
	width  = typeset.Width
	label  = 26
	column = 6
)

// sheet is what the program prints.
type sheet struct{ typeset.Sheet }

func text(baths []*bath) (string, error) {
	var s sheet
	s.WriteString("OIL AT THE END OF THE STROKE\n" + strings.Repeat("=", width) + "\n")
	for _, b := range baths {
		if err := s.bath(b); err != nil {
			return "", fmt.Errorf("fork %s: %w", b.fork.ID, err)
		}
	}
	s.reading()
	s.cautions()
	return s.String(), nil
}

func (s *sheet) bath(b *bath) error {
	s.Section(b.fork.ID + ": " + b.fork.Name)
	if err := s.asSet(b); err != nil {
		return err
	}
	if err := s.table(b); err != nil {
		return err
	}
	s.lock(b)
	if err := s.sensitivity(b); err != nil {
		return err
	}
	s.levels(b)
	if b.fork.Spring() == data.AirLeg {
		return s.refit(b)
	}
	return nil
}

func (s *sheet) asSet(b *bath) error {
	p, err := b.at(0, b.cold)
	if err != nil {
		return err
	}
	l := b.told()
	fill := fmt.Sprintf("%.0f mL in %s", l.fill.Volume().In(ml), b.where())
	if b.byLevel {
		fill = fmt.Sprintf("level %.0f mm, %s", l.fill.Level().In(mm), fill)
	}
	if !b.alike() {
		other := b.legs[1-b.main]
		fill += fmt.Sprintf(" and %.0f mL in the other", other.fill.Volume().In(ml))
	}
	s.Line("As set", fill)
	s.Line("In the oil besides", fmt.Sprintf("%.0f mL of metal and what it encloses, in %s", l.spec.Metal.In(ml), b.where()))
	s.Line("Gas over the oil", fmt.Sprintf("%.0f mL at full travel, %.0f mL extended: ratio %.1f", l.fill.Residual().In(ml), (l.fill.Residual()+b.swept()).In(ml), p.ratio))
	if l.charge != (units.GaugePressure{}) {
		s.Line("", fmt.Sprintf("charged to %.2f bar", l.charge.In(units.Bar)))
	}
	s.Line("Whole fork, ridden", fmt.Sprintf("%.0f N at %.0f %% of travel, %.0f N at the end", p.deep.In(units.Newton), 100*deep, p.force.In(units.Newton)))
	s.Line("Ridden", fmt.Sprintf("gas compressed from full extension, n = %.1f; at rest 1", b.exponent))
	s.Line("Warm", fmt.Sprintf("the whole fork, oil and gas, at %.0f °C, filled and closed at %.0f °C", b.warm.Temperature.Celsius(), b.cold.Temperature.Celsius()))
	s.WriteByte('\n')
	return nil
}

// swept is the room that the told leg takes in on a full stroke.
func (b *bath) swept() units.Volume {
	return units.Volume(float64(b.told().area) * float64(b.fork.Travel.Value))
}

func (s *sheet) table(b *bath) error {
	var cold, warm []point
	steps := b.steps()
	for _, x := range steps {
		more := b.moreAt(x)
		c, err := b.at(more, b.cold)
		if err != nil {
			return err
		}
		w, err := b.at(more, b.warm)
		if err != nil {
			return err
		}
		cold, warm = append(cold, c), append(warm, w)
	}
	row := func(name string, of func(i int) string) {
		s.WriteString("  " + typeset.Pad(name, label-2))
		for i := range steps {
			s.WriteString(typeset.Lead(of(i), column))
		}
		s.WriteByte('\n')
	}
	number := func(points []point, format string, of func(p point) float64) func(i int) string {
		return func(i int) string {
			if points[i].locked {
				return "LOCK"
			}
			return fmt.Sprintf(format, of(points[i]))
		}
	}
	if b.byLevel {
		row("Level, mm", func(i int) string { return fmt.Sprintf("%.0f", steps[i]) })
	}
	row("Oil in "+b.where()+", mL", func(i int) string { return fmt.Sprintf("%.0f", cold[i].oil) })
	row("Compression ratio", number(cold, "%.1f", func(p point) float64 { return p.ratio }))
	row("  warm", number(warm, "%.1f", func(p point) float64 { return p.ratio }))
	row(fmt.Sprintf("Force at %.0f %% travel, N", 100*deep), func(i int) string {
		if cold[i].deep == 0 {
			return "-"
		}
		return fmt.Sprintf("%.0f", cold[i].deep.In(units.Newton))
	})
	atEnd := func(points []point) func(i int) string {
		plain := number(points, "%.0f", func(p point) float64 { return p.force.In(units.Newton) })
		return func(i int) string {
			if f := points[i].force.In(units.Kilonewton); f >= 99.5 && !points[i].locked {
				return fmt.Sprintf("%.0f k", f) // the column is narrow
			}
			return plain(i)
		}
	}
	row("Force at the end, N", atEnd(cold))
	row("  warm", atEnd(warm))
	row("Gas pressure there, bar", number(cold, "%.1f", func(p point) float64 { return p.pressure }))
	row("Verdict", func(i int) string { return verdict(cold[i], warm[i]) })
	return nil
}

func verdict(cold, warm point) string {
	switch {
	case cold.locked:
		return "LOCK"
	case cold.ratio > conversion.StopGapRatio || warm.locked:
		return "NO"
	case cold.ratio > conversion.GoodGapRatio || warm.ratio > conversion.StopGapRatio:
		return "care"
	}
	return "good"
}

// lock says at which fills the limits lie.
func (s *sheet) lock(b *bath) {
	s.WriteByte('\n')
	at := func(ratio float64) string {
		text := func(more units.Volume) string {
			if b.byLevel {
				return fmt.Sprintf("%.0f mm", b.levelOf(more))
			}
			return fmt.Sprintf("%.0f mL", b.x(more))
		}
		return fmt.Sprintf("%s as filled, %s to keep to it when warm", text(b.moreFor(ratio, b.cold)), text(b.moreFor(ratio, b.warm)))
	}
	s.Line(fmt.Sprintf("Ratio %.0f, good up to", conversion.GoodGapRatio), at(conversion.GoodGapRatio))
	s.Line(fmt.Sprintf("Ratio %.0f, the most", conversion.StopGapRatio), at(conversion.StopGapRatio))
	s.Line("Hydraulic lock from", at(oil.LockRatio))
}

// sensitivity prints what a step of the fill does, as set and at the fullest usual fill.
func (s *sheet) sensitivity(b *bath) error {
	s.WriteString("\n  A STEP OF THE FILL, both legs       at 66 %          at the end       ratio\n")
	_, most := b.usual()
	fills := []units.Volume{0}
	if more := b.moreAt(most); more > 1*ml {
		fills = append(fills, more)
	}
	for _, more := range fills {
		p, err := b.at(more, b.cold)
		if err != nil {
			return err
		}
		if p.locked {
			continue
		}
		fmt.Fprintf(s, "  from %.0f %s\n", b.x(more), b.unit())
		steps := []struct {
			name string
			more units.Volume
		}{{"5 mL more", 5 * ml}}
		if b.byLevel {
			up := units.Volume(float64(b.told().spec.Column) * (5 * mm).In(units.Meter))
			steps = append(steps, struct {
				name string
				more units.Volume
			}{fmt.Sprintf("5 mm higher (%.1f mL)", up.In(ml)), up})
		}
		for _, step := range steps {
			q, err := b.at(more+step.more, b.cold)
			if err != nil {
				return err
			}
			if q.locked {
				fmt.Fprintf(s, "    %sLOCK\n", typeset.Pad(step.name, 28))
				continue
			}
			change := func(from, to units.Force) string {
				return fmt.Sprintf("%+.0f N %+.1f %%", (to - from).In(units.Newton), 100*float64(to/from-1))
			}
			fmt.Fprintf(s, "    %s%s%s%s\n", typeset.Pad(step.name, 28), typeset.Lead(change(p.deep, q.deep), 15), typeset.Lead(change(p.force, q.force), 18), typeset.Lead(fmt.Sprintf("%.1f to %.1f", p.ratio, q.ratio), 13))
		}
	}
	return nil
}

// levels is how a level becomes a volume.
func (s *sheet) levels(b *bath) {
	l := b.told()
	s.WriteByte('\n')
	if !b.byLevel {
		reason := "its record has no level"
		if b.record().Oil.Cartridge.Given() {
			reason = "a closed cartridge rises with the mouth of the leg and keeps its own oil"
		}
		if !b.fork.Kit.SpringInOil {
			reason = "the few milliliters in the lower legs only lubricate; the table shows what far too much would do"
		}
		s.Line("Filled by volume", reason)
		return
	}
	s.Line("Level to volume", fmt.Sprintf("oil = %.0f mL - %.2f mL/mm × level; %.2f mm of level for 1 mL; section %.1f cm²",
		l.spec.Interior.In(ml), 1000*l.spec.Column.In(units.SquareMeter), 1e-3/l.spec.Column.In(units.SquareMeter), l.spec.Column.In(units.SquareCentimeter)))
	s.Line("Spring goes in", fmt.Sprintf("the oil then stands %.0f mm higher: %.0f mm below the mouth", l.fill.Raised().In(mm), (l.fill.Level()-l.fill.Raised()).In(mm)))
}

func (s *sheet) refit(b *bath) error {
	r, err := newRefit(b)
	if err != nil {
		return err
	}
	states, err := r.states()
	if err != nil {
		return err
	}
	what := "the spring stands above the oil"
	if r.inOil {
		what = fmt.Sprintf("%.0f mL of it spring", r.spring.Volume().In(ml))
	}
	s.WriteString("\n  AIR SPRING OUT, COIL KIT IN: " + strings.ToUpper(r.where) + "\n")
	out := fmt.Sprintf("%.0f mL, the cartridge with all it encloses", r.out.In(ml))
	switch {
	case b.wholeLeg():
		out = fmt.Sprintf("the charge of the air, and %.0f mL of metal", r.out.In(ml))
	case r.out < 1*ml:
		out = "nothing that stood in the oil"
	}
	s.Line("Comes out", out)
	s.Line("Goes in", fmt.Sprintf("%.0f mL of metal, %s (wire %.1f mm, %.1f coils)", r.metal.In(ml), what, r.spring.Wire().In(mm), r.spring.ActiveCoils()))
	fmt.Fprintf(s, "\n  %s%8s%8s%8s%7s%7s%10s\n", typeset.Pad("", 28), "oil", "change", "gas", "ratio", "warm", "gas force")
	fmt.Fprintf(s, "  %s%8s%8s%8s%7s%7s%10s\n", typeset.Pad("", 28), "mL", "mL", "mL", "", "", "N")
	for _, st := range states {
		gap, err := r.gap(st)
		if err != nil {
			return err
		}
		warm, err := r.ratio(st, st.warm)
		if err != nil {
			return err
		}
		force := "LOCK"
		if _, locks := gap.Locks(); !locks {
			force = fmt.Sprintf("%.0f", gap.Force(gap.Stroke()).In(units.Newton))
		}
		fmt.Fprintf(s, "  %s%8.0f%8s%8.0f%7s%7s%10s\n", typeset.Pad(st.name, 28), st.fill.Volume().In(ml), signed((st.fill.Volume() - r.was.fill.Volume()).In(ml)),
			st.fill.Residual().In(ml), ratioText(gap.CompressionRatio()), ratioText(warm), force)
	}
	s.Paragraph("  ", "Gas: what is left over the oil at full travel. Gas force: of that gas in this leg at the end of a ridden stroke.")
	s.Paragraph("  ", r.advice(states))
	return nil
}

// advice says what the exchange does to the fill.
func (r *refit) advice(states []state) string {
	left := states[1].fill.Residual() - states[0].fill.Residual()
	if math.Abs(left.In(ml)) < 5 {
		return "The fill stays as it was: change the oil, but not its amount. What stiffens the end of the stroke is the air in the leg, which a coil does not replace; the air spring's own ramp is gone."
	}
	text := fmt.Sprintf("With the oil untouched the leg has %.0f mL more gas: the end of the stroke is soft and the fork bottoms.", left.In(ml))
	if left < 0 {
		text = fmt.Sprintf("With the oil untouched the leg has %.0f mL less gas: the end of the stroke is harder.", -left.In(ml))
	}
	add := (states[2].fill.Volume() - states[0].fill.Volume()).In(ml)
	kit := r.bath.fork.Kit.Oil
	text += fmt.Sprintf(" The kit asks for %.0f mL (%.0f to %.0f mL): %s mL.", r.aim.In(ml), kit.Lo.In(ml), kit.Hi.In(ml), signed(add))
	return text + " Check against the drained volume: interiors of generic forks are estimates."
}

// signed is a change, without a sign where it is none.
func signed(v float64) string {
	if math.Abs(v) < 0.5 {
		return "0"
	}
	return fmt.Sprintf("%+.0f", v)
}

func ratioText(r float64) string {
	if r > oil.LockRatio {
		return "LOCK"
	}
	return fmt.Sprintf("%.1f", r)
}

func (s *sheet) reading() {
	s.Section("HOW TO READ IT")
	for _, p := range []string{
		"Level: air over the oil, fork fully compressed, spring out, damper bled. Less level is more oil. Read extended, it is another number.",
		fmt.Sprintf("Ratio: gas at full extension over gas at full travel. Up to %.0f is good, over %.0f refused (common practice, no source). Care: over %.0f, or over %.0f once warm. NO: over %.0f, or locked once warm.",
			conversion.GoodGapRatio, conversion.StopGapRatio, conversion.GoodGapRatio, conversion.StopGapRatio, conversion.StopGapRatio),
		fmt.Sprintf("Lock: the gas is squeezed to 1/%d before full travel and the leg stands on its oil. Ratios of some tens are as good as that: seals and tubes take the load.", int(oil.LockRatio)),
		"Oil is a tool for the last third: a step moves the end of the stroke several times as much as two-thirds travel, and sag hardly at all.",
		fmt.Sprintf("Warm: %.0f K more swell the oil by 3 %% and raise the pressure of the gas over it; both are in the warm numbers. An air spring beside it is as warm, and firmer for it.", float64(conversion.OilWarming)),
	} {
		s.Paragraph("  - ", p)
	}
}

func (s *sheet) cautions() {
	s.Section("CAUTIONS")
	for _, c := range []string{
		"Let all gas out before a leg is opened: wheel off the ground, fork extended, every chamber released at its valve. A cap under pressure or preload is a projectile; keep face and hands off its axis.",
		"Support the machine so that it cannot fall.",
		"Never run a leg without oil, nor fill beyond the level that locks: a locked leg stops short under braking and bursts seals.",
		"Before closing, move the fork through its whole travel, springs out; after closing and warm, check that full travel is still there.",
		"Both legs of a fork with a spring in each get the same level. Air or nitrogen only; never oxygen, which oil mist burns in.",
		"Oil on disk or pads takes the brake away; on skin it harms. Collect and dispose of it as the law asks.",
		"Computed fills are starting points for generic forks. The manual of the fork and licensed practice prevail.",
	} {
		s.Paragraph("  - ", c)
	}
}
