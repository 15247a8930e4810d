package main

import (
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/units"
)

const (
	width  = typeset.Width
	label  = 36
	column = 13
)

// sheet is what the program prints.
type sheet struct{ typeset.Sheet }

func text(jobs []job) string {
	var s sheet
	s.WriteString("WHAT SPRING FITS THIS LEG\n" + strings.Repeat("=", width) + "\n")
	for _, j := range jobs {
		s.job(j)
	}
	if len(jobs) > 1 {
		s.sideBySide(jobs)
	}
	s.doubling(jobs)
	s.cautions()
	return s.String()
}

func (s *sheet) job(j job) {
	kit := j.fork.Kit
	s.Section(j.fork.ID + ": " + j.fork.Name)
	inside := "nothing inside the spring"
	if kit.Guide.Value > 0 {
		inside = fmt.Sprintf("a rod of %.0f mm inside the spring", kit.Guide.Value.In(mm))
	}
	s.Line("Room in a leg", fmt.Sprintf("%.0f mm seat to seat, bore %.1f mm, %s", kit.Room.Value.In(mm), kit.Bore.Value.In(mm), inside))
	s.Line("Travel and preload", fmt.Sprintf("%.0f mm and %.0f to %.0f mm: designed for the most, where stress and bind are worst, and to go in at the least", j.fork.Travel.Value.In(mm), kit.Preload.Lo.In(mm), kit.Preload.Hi.In(mm)))
	s.Line("Rate, whole fork", fmt.Sprintf("%.2f N/mm: %s", j.rate.In(npm), j.why))
	s.Line("Wire", j.material.ID()+", "+j.material.Name())
	s.WriteByte('\n')
	s.table(j)
	s.WriteByte('\n')
	s.verdict(j)
}

func (s *sheet) table(j job) {
	columns := []*build{&j.one, &j.two}
	heads := []string{"one spring", "two springs"}
	if j.now != nil {
		columns, heads = append(columns, j.now), append(heads, "now in it")
	}
	s.WriteString("  " + strings.Repeat(" ", label-2))
	for _, h := range heads {
		s.WriteString(typeset.Lead(h, column))
	}
	s.WriteByte('\n')
	row := func(name, format string, of func(b *build) float64) {
		s.WriteString("  " + typeset.Pad(name, label-2))
		for _, b := range columns {
			v := "-"
			if b.exists {
				v = fmt.Sprintf(format, of(b))
			}
			s.WriteString(typeset.Lead(v, column))
		}
		s.WriteByte('\n')
	}
	length := func(name, format string, of func(b *build) units.Length) {
		row(name, format, func(b *build) float64 { return of(b).In(mm) })
	}
	stress := func(name string, of func(b *build) units.Stress) {
		row(name, "%.0f", func(b *build) float64 { return of(b).In(units.Megapascal) })
	}
	row("Rate of a spring, N/mm", "%.2f", func(b *build) float64 { return b.spec.Rate.In(npm) })
	length("Preload, mm", "%.0f", func(b *build) units.Length { return b.spec.Preload })
	length("Wire, mm", "%.1f", func(b *build) units.Length { return b.spring.Wire() })
	length("Outer diameter, mm", "%.1f", func(b *build) units.Length { return b.spring.OuterDiameter() })
	length("  with the coils closed, mm", "%.1f", func(b *build) units.Length { return b.spring.OuterDiameterAtSolid() })
	length("Inner diameter, mm", "%.1f", func(b *build) units.Length { return b.spring.InnerDiameter() })
	row("Active coils", "%.1f", func(b *build) float64 { return b.spring.ActiveCoils() })
	length("Solid length, mm", "%.0f", func(b *build) units.Length { return b.spring.SolidLength() })
	length("Free length, mm", "%.0f", func(b *build) units.Length { return b.spring.FreeLength() })
	length("  room for it, mm", "%.0f", func(b *build) units.Length { return b.spec.FreeLength })
	length("  room left over, mm", "%+.0f", func(b *build) units.Length { return b.spec.FreeLength - b.spring.FreeLength() })
	row("Force at full travel, N", "%.0f", func(b *build) float64 { return b.force().In(units.Newton) })
	stress("Stress there, MPa", func(b *build) units.Stress { return b.spring.ShearStress(b.force()) })
	stress("  limit, 0.56 of the strength, MPa", func(b *build) units.Stress { return b.spring.StaticLimit() })
	length("Left to solid there, mm", "%.0f", func(b *build) units.Length { return b.spring.BindMargin(b.stroke()) })
	length("  asked for by 1.5·S_a, mm", "%.0f", func(b *build) units.Length { return b.spring.DynamicMinimumGap() })
	s.WriteString("  " + typeset.Pad("  by the habit of fork builders, mm", label-2))
	for range columns {
		s.WriteString(typeset.Lead(fmt.Sprintf("%.0f to %.0f", habitLeast.In(mm), habitMost.In(mm)), column))
	}
	s.WriteByte('\n')
	length("Free length by that habit, mm", "%.0f", (*build).byHabit)
	row("Mass of a spring, kg", "%.2f", func(b *build) float64 { return float64(b.spring.Mass()) })
	row("Mass in the fork, kg", "%.2f", func(b *build) float64 { return float64(b.spring.Mass()) * float64(b.legs) })
	s.WriteString("  " + typeset.Pad("Verdict", label-2))
	for _, b := range columns {
		s.WriteString(typeset.Lead(j.word(b), column))
	}
	s.WriteByte('\n')
}

// word is the verdict on a build in one word.
func (j *job) word(b *build) string {
	switch {
	case b == j.now && b.spring.ShearStress(b.force()) > b.spring.StaticLimit():
		return "over the limit"
	case b == j.now && b.spring.OuterDiameterAtSolid() > b.spec.Bore:
		return "too wide"
	case b == j.now && b.spring.BindMargin(b.stroke()) < b.spring.DynamicMinimumGap():
		return "tight"
	case b == j.now:
		return "good"
	case b.reason != nil && !b.exists:
		return "none exists"
	case b.reason != nil:
		return "too long"
	case !b.offered:
		return "not this fork"
	}
	return "FITS"
}

// verdict says what to build, or why nothing can be and what is left to do.
func (s *sheet) verdict(j job) {
	b, ok := j.answer()
	if ok {
		s.Paragraph("  ", fmt.Sprintf("Answer: %s, wire %.1f mm, %.1f mm outside, %.1f active coils, %.0f mm long. At full travel it bears %.0f N at %.0f %% of the stress limit and keeps %.0f mm to solid, where 1.5·S_a asks for %.0f mm.",
			b.described(), b.spring.Wire().In(mm), b.spring.OuterDiameter().In(mm), b.spring.ActiveCoils(), b.spring.FreeLength().In(mm),
			b.force().In(units.Newton), 100*float64(b.spring.ShearStress(b.force())/b.spring.StaticLimit()), b.spring.BindMargin(b.stroke()).In(mm), b.spring.DynamicMinimumGap().In(mm)))
		if most := j.fork.Kit.Preload.Hi; b.spec.Preload < most {
			s.Paragraph("  ", fmt.Sprintf("Nothing fits over the whole range of preload, up to %.0f mm: this one is for %.0f mm and no other.", most.In(mm), b.spec.Preload.In(mm)))
		}
	} else {
		s.Paragraph("  ", "Answer: no spring of this wire fits, not even at the preload aimed at.")
	}
	for _, b := range []*build{&j.one, &j.two} {
		switch {
		case b.reason != nil && b.offered:
			s.advice(j, b)
		case b.reason != nil:
			s.Paragraph("  ", fmt.Sprintf("%s does not fit (and this fork does not take it): %s.", capital(count(b.legs)), b.why()))
		case !b.offered && b.legs == 1:
			s.Paragraph("  ", "One spring would fit, but this fork is made for one in each leg: loads on axle and clamps, and the damper, would have to be looked at.")
		case !b.offered:
			s.Paragraph("  ", "Two springs would be shorter, but the other leg of this fork is the damper's.")
		}
	}
	if k, ok := stiffest(b.spec); ok {
		s.Paragraph("  ", fmt.Sprintf("The stiffest spring of this wire that the leg has room for is %.1f N/mm, so the fork can have up to %.1f N/mm %s.",
			k.In(npm), k.In(npm)*float64(b.legs), on(b.legs)))
	}
	if b.exists && !ok && b.byHabit() <= b.spec.FreeLength {
		s.Paragraph("  ", fmt.Sprintf("With no more than %.0f mm left to solid, as the habit is, the same coils would fit at %.0f mm. Uneven coils then touch before full travel, and a fork meets full travel at speed: do not count on it.",
			habitMost.In(mm), b.byHabit().In(mm)))
	}
}

// described is the build in words.
func (b *build) described() string {
	if b.legs == 1 {
		return fmt.Sprintf("one spring of %.2f N/mm carries the whole fork", b.spec.Rate.In(npm))
	}
	return fmt.Sprintf("a spring of %.2f N/mm in each leg", b.spec.Rate.In(npm))
}

func count(legs int) string {
	if legs == 1 {
		return "one spring with the whole rate"
	}
	return "a spring in each leg"
}

func on(legs int) string {
	if legs == 1 {
		return "on one spring"
	}
	return "on two"
}

// advice passes on why a build the fork takes does not fit, and what may help.
func (s *sheet) advice(j job, b *build) {
	s.Paragraph("  ", fmt.Sprintf("%s does not fit: %s.", capital(count(b.legs)), b.why()))
	var ways []string
	if b.legs == 1 && j.two.fits() {
		ways = append(ways, "a spring in each leg, which fits")
	}
	if ids := b.otherWires(); len(ids) > 0 {
		ways = append(ways, "another wire: "+strings.Join(ids[:min(3, len(ids))], ", "))
	}
	ways = append(ways, "a lower rate, as far as the rider's sag allows", "more room, if the maker of the kit provides it")
	s.Paragraph("  ", "What is left: "+strings.Join(ways, "; ")+". A spring is never cut, ground or pressed shorter to fit.")
}

// sideBySide has a row for each fork's answer.
func (s *sheet) sideBySide(jobs []job) {
	s.Section("SIDE BY SIDE")
	fmt.Fprintf(s, "  %s%6s%7s%7s%8s%7s%7s%9s%9s\n", typeset.Pad("fork", 15), "rate", "wire", "coils", "solid", "free", "room", "stress", "in all")
	fmt.Fprintf(s, "  %s%6s%7s%7s%8s%7s%7s%9s%9s\n", typeset.Pad("", 15), "N/mm", "mm", "", "mm", "mm", "mm", "of limit", "kg")
	for _, j := range jobs {
		b, ok := j.answer()
		name := fmt.Sprintf("%s, %d spring%s", j.fork.ID, b.legs, strings.Repeat("s", b.legs-1))
		if !b.exists {
			fmt.Fprintf(s, "  %s no such spring\n", typeset.Pad(name, 15))
			continue
		}
		if !ok {
			name += " !"
		}
		fmt.Fprintf(s, "  %s%6.2f%7.1f%7.1f%8.0f%7.0f%7.0f%7.0f %%%9.2f\n", typeset.Pad(name, 15), b.spec.Rate.In(npm), b.spring.Wire().In(mm), b.spring.ActiveCoils(),
			b.spring.SolidLength().In(mm), b.spring.FreeLength().In(mm), b.spec.FreeLength.In(mm),
			100*float64(b.spring.ShearStress(b.force())/b.spring.StaticLimit()), float64(b.spring.Mass())*float64(b.legs))
	}
	for _, j := range jobs {
		if _, ok := j.answer(); !ok {
			s.Paragraph("  ", "! does not fit")
			break
		}
	}
	s.apart(jobs)
}

// apart explains one spring in one fork against two in another.
func (s *sheet) apart(jobs []job) {
	var single, pair *job
	for i := range jobs {
		b, ok := jobs[i].answer()
		switch {
		case ok && b.legs == 1 && single == nil:
			single = &jobs[i]
		case ok && b.legs == 2 && pair == nil:
			pair = &jobs[i]
		}
	}
	if single == nil || pair == nil {
		return
	}
	a, b := &single.one, &pair.two
	more := a.spring.SolidLength() - b.spring.SolidLength()
	s.Paragraph("  ", fmt.Sprintf("%s stands on one spring of %.2f N/mm, %s on two of %.2f N/mm. At full travel the one bears %.0f N, each of the two %.0f N. That takes %.1f mm wire against %.1f mm, and %.1f coils against %.1f: closed, the one is %.0f mm long and the other %.0f mm.",
		single.fork.ID, a.spec.Rate.In(npm), pair.fork.ID, b.spec.Rate.In(npm), a.force().In(units.Newton), b.force().In(units.Newton),
		a.spring.Wire().In(mm), b.spring.Wire().In(mm), a.spring.ActiveCoils(), b.spring.ActiveCoils(), a.spring.SolidLength().In(mm), b.spring.SolidLength().In(mm)))
	if more > 0 {
		s.Paragraph("  ", fmt.Sprintf("These %.0f mm have to come from the leg. %s has %.0f mm of room, %s has %.0f mm; in the latter one spring with its whole %.2f N/mm would be %s.",
			more.In(mm), single.fork.ID, a.spec.FreeLength.In(mm), pair.fork.ID, b.spec.FreeLength.In(mm), pair.rate.In(npm), pair.oneInPair()))
	}
	s.Paragraph("  ", fmt.Sprintf("One spring pushes on one leg only: %.0f N at one end of an axle, with the legs 200 mm apart say, is a moment of %.0f N·m about its middle (force times half the distance), which axle and clamps must hold. Two alike springs make none. An air fork with one air leg lives with it already.",
		a.force().In(units.Newton), a.force().In(units.Newton)*0.1))
}

// oneInPair says how a single spring would do in a fork on two.
func (j *job) oneInPair() string {
	switch {
	case !j.one.exists:
		return "over its stress limit in any length"
	case j.one.reason != nil:
		return fmt.Sprintf("%.0f mm long, %.0f mm too long", j.one.spring.FreeLength().In(mm), (j.one.spring.FreeLength() - j.one.spec.FreeLength).In(mm))
	}
	return fmt.Sprintf("%.0f mm long and fit", j.one.spring.FreeLength().In(mm))
}

// doubling explains by the first fork for which both builds exist what twice the
// rate costs.
func (s *sheet) doubling(jobs []job) {
	for _, j := range jobs {
		one, two, ok := j.alike()
		if !ok {
			continue
		}
		cube := math.Cbrt(2)
		ratio := func(of func(b *build) float64) float64 { return of(&one) / of(&two) }
		s.Section(fmt.Sprintf("WHY TWICE THE RATE IN ONE SPRING COSTS LENGTH (%s, preload %.0f mm)", j.fork.ID, one.spec.Preload.In(mm)))
		s.Paragraph("  ", fmt.Sprintf("Twice the rate is twice the force at full travel. Stress goes with force × diameter / wire³, so in the same tube at the same stress the wire must be ∛2 = %.2f times as thick (here %.2f). Rate goes with wire⁴ / (diameter³ × coils): the thicker wire would be %.2f times as stiff, twice is wanted, so it takes %.2f times the coils (here %.2f).",
			cube, ratio(func(b *build) float64 { return b.spring.Wire().In(mm) }), math.Pow(cube, 4), cube, ratio(func(b *build) float64 { return b.spring.ActiveCoils() })))
		s.Paragraph("  ", fmt.Sprintf("Thicker wire times more coils is solid length: %.2f times (here %.2f, from %.0f to %.0f mm). The gap asked for at full travel grows as well, from %.0f to %.0f mm, and the travel is what it was. So the free length goes from %.0f to %.0f mm.",
			cube*cube, ratio(func(b *build) float64 { return b.spring.SolidLength().In(mm) }), two.spring.SolidLength().In(mm), one.spring.SolidLength().In(mm),
			two.spring.DynamicMinimumGap().In(mm), one.spring.DynamicMinimumGap().In(mm), two.spring.FreeLength().In(mm), one.spring.FreeLength().In(mm)))
		s.Paragraph("  ", fmt.Sprintf("Where the numbers here are larger, tube and wire are why: thicker wire leaves a smaller mean diameter in the same bore (%.1f against %.1f mm), which makes each coil stiffer and asks for more of them, and it bears a little less stress (%.0f against %.0f MPa).",
			one.spring.MeanDiameter().In(mm), two.spring.MeanDiameter().In(mm), one.spring.StaticLimit().In(units.Megapascal), two.spring.StaticLimit().In(units.Megapascal)))
		s.Paragraph("  ", fmt.Sprintf("Steel is hardly saved by either: %.2f kg in one spring, %.2f kg in two. The energy at full travel is the same, %.0f J, and wire at its stress limit stores only so much per kilogram.",
			float64(one.spring.Mass()), 2*float64(two.spring.Mass()), one.spring.Energy(one.stroke()).In(units.Joule)))
		s.Paragraph("  ", fmt.Sprintf("The gap: S_a = coils × (0.0015·D²/wire + 0.1·wire) allows for coils that are not even; 1.5 times that is the rule for springs that move, %.0f mm for the one spring. Fork builders often leave %.0f to %.0f mm, which would make it %.0f mm long. Both are shown above; this program designs by the rule.",
			one.spring.DynamicMinimumGap().In(mm), habitLeast.In(mm), habitMost.In(mm), one.byHabit().In(mm)))
		return
	}
}

func (s *sheet) cautions() {
	s.Section("CAUTIONS")
	for _, c := range []string{
		"A spring under preload is stored energy, and the cap sits on it: 50 to 500 N. Hold the cap, lower it slowly, use a spring compressor or holding plate, wear eye protection, keep face and hands off the axis.",
		"Air fork: wheel off the ground, release every chamber at its valve, then take the cores out, before any cap is loosened. A fork that stays down may still hold pressure.",
		"Support the machine so that it cannot fall before the fork is unloaded.",
		"Never cut, grind, heat, stretch or press a spring to change its rate or length; never reuse one that has set, cracked or scored.",
		"Before riding, move the fork through its whole travel without springs and measure: the travel must be metal to metal as specified, and the coils must not touch at its end.",
		"Computed springs are starting points for generic forks: rates of made springs differ by 4 % and more, wire strength is the least of its class. Measure the spring. The manual of the fork and licensed practice prevail.",
	} {
		s.Paragraph("  - ", c)
	}
}

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }
