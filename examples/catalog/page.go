package main

import (
	"fmt"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	nameColumn = 24
	textColumn = 28
)

// page prints all there is to know of a fork.
type page struct {
	printer
	*catalog
	*model
}

func (c *catalog) page(m *model) string {
	p := &page{catalog: c, model: m}
	p.head()
	values := m.Values()
	p.values(values)
	p.behavior()
	p.sources(values)
	p.cautions()
	return p.String()
}

func (p *page) head() {
	p.line("FORK %s", p.ID)
	p.paragraph(p.Name)
	p.line("%s", strings.Repeat("=", width))
	n := p.count(p.Values())
	var parts []string
	for g, l := range legend {
		if n[g] > 0 {
			parts = append(parts, fmt.Sprintf("%.0f %% %s", n.percent(grade(g)), l.name))
		}
	}
	p.paragraph(fmt.Sprintf(`%d values with a source: %s. Typical of a kind of fork; what is measured on the fork at
hand outranks them.`, n.total(), strings.Join(parts, ", ")))
}

// values prints what the record says, by its tables.
func (p *page) values(values []data.Entry) {
	p.line("\n%-*s%-*ssource", 2+nameColumn, "RECORD", textColumn, "with standard uncertainty")
	table := ""
	for _, v := range values {
		name := v.Key
		if before, after, ok := strings.Cut(v.Key, "."); ok {
			if before != table {
				table = before
				p.line("%s", tableNames[table])
			}
			name = "  " + after
		}
		switch text := shown(v); {
		case v.Source == "":
			p.named(2+nameColumn, "  "+name, text)
		case typeset.Count(text) >= textColumn:
			p.named(2+nameColumn, "  "+name, text)
			p.line("%-*s%s", 2+nameColumn+textColumn, "", v.Source)
		default:
			p.line("  %-*s%-*s%s", nameColumn, name, textColumn, text, v.Source)
		}
		if v.Note != "" {
			p.named(2+nameColumn, "", v.Note)
		}
	}
}

var tableNames = map[string]string{
	"chassis": "  chassis", "rider": "  rider", "sag": "  sag aimed at",
	"left": "  left leg, as the rider sees it", "right": "  right leg",
	"gap": "  gas over the oil, of a leg", "kit": "  what a coil build can take",
}

// shown are the words with the standard uncertainty.
func shown(v data.Entry) string {
	if v.SD == "" {
		return typeset.Numbers(words(v))
	}
	n, _, _ := strings.Cut(strings.Trim(v.SD, `"`), " ")
	return typeset.Numbers(words(v) + " ± " + n)
}

// words is a value as people write it: a range without brackets, words without quotes.
func words(v data.Entry) string {
	text := strings.NewReplacer(`"`, "", "[", "", "]", "").Replace(v.Text)
	if v.Source != "" && strings.HasPrefix(v.Text, "[") {
		text = strings.Replace(text, ", ", " to ", 1)
	}
	switch text {
	case "true":
		return "yes"
	case "false":
		return "no"
	}
	return text
}

func (p *page) say(name, format string, args ...any) {
	p.named(27, "  "+name, fmt.Sprintf(format, args...))
}

// behavior prints what follows from the record.
func (p *page) behavior() {
	p.line("\nBY THE LIBRARY, at sea level in the standard atmosphere, 15 °C")
	travel := p.Travel.Value
	p.say("load with rider", "%.0f on the fork axis, from %.0f on the wheel less %.0f unsprung; rider %v, %s",
		p.load.Axial, p.load.Wheel, p.load.Unsprung, p.Rider.Mass.Value, p.Rider.Stance)
	p.say("sag with rider", "%s; aim %s %%", p.sagText(p.sag), percents(p.Sag.Rider))
	aim := ""
	if p.Sag.Machine.Given() {
		aim = fmt.Sprintf("; aim %s %%", percents(p.Sag.Machine))
	}
	switch {
	case p.rested:
		p.say("sag of the machine alone", "%s under %.0f%s", p.sagText(p.alone), p.alone.Load, aim)
	default:
		p.say("sag of the machine alone", "none under %.0f: the springs hold it up", p.MachineLoad())
	}
	rest, landing := p.setup.Curve(gas.Isothermal), p.setup.Curve(p.ride)
	p.say("force", "%.0f extended; compressed %.0f slowly, %.0f in a landing", rest.Force(0), rest.Force(travel),
		landing.Force(travel))
	p.say("energy to the stop", "%.0f in a landing", landing.Energy(travel))
	p.say("rate about the sag", "%.1f ridden (n = %.2f); body frequency %.1f", p.rate, p.ride, p.body)
	chassis := p.Chassis.Geometry()
	trail := chassis.Trail()
	p.say("trail", "%.1f from rake, offset and wheel radius; the record says %v", trail, p.Chassis.Trail.Value)
	dipped := chassis.Lowered(p.sag.Middle)
	p.say("  at the rider's sag", "%.1f, rake %.1f°, with the rear unchanged", dipped.Trail(),
		dipped.Rake.In(units.Degree))
	for side, leg := range p.legs() {
		if side == 1 && p.Left == p.Right {
			break
		}
		p.coil(setup.Side(side), leg)
		p.air(setup.Side(side), leg)
		p.gap(setup.Side(side))
	}
}

func (p *page) sagText(s setup.Sag) string {
	return fmt.Sprintf("%.0f, %.0f %% of travel; %.0f to %.0f with friction of %.0f", s.Middle, p.share(s.Middle),
		s.High, s.Low, s.Friction)
}

// of names the leg a line is about.
func (p *page) of(side setup.Side) string {
	if p.Left == p.Right {
		return "each leg"
	}
	return side.String() + " leg"
}

func (p *page) coil(side setup.Side, leg data.Leg) {
	if !leg.Role.HasCoil() {
		return
	}
	c := p.coils[leg.Coil]
	at, _ := leg.Working(p.Travel.Value, p.Travel.Value) // sound by now, as the table is
	p.say(p.of(side)+": coil", "%.2f from wire, diameter and %.1f active coils; mass %.2f", c.Rate(), c.ActiveCoils(),
		c.Mass())
	if leg.Compound.Kind != "" {
		main, _ := leg.Compound.Spec(leg.Coil)
		p.say("  part of", "%s; the curves are of the whole", spring.Kind(main))
	}
	p.say("  bind", "%.1f left above solid at full travel, at least %.1f advised", c.BindMargin(at.Compression),
		c.DynamicMinimumGap()*units.Length(at.Open))
	p.say("  stress at full travel", "%.0f nominal, limit %.0f; factor %.2f", c.ShearStress(at.Force),
		c.StaticLimit(), c.StaticFactor(at.Force))
}

func (p *page) air(side setup.Side, leg data.Leg) {
	travel := p.Travel.Value
	top, ok := p.chambers(side, 0, gas.Isothermal)
	slow, ok2 := p.chambers(side, travel, gas.Isothermal)
	fast, ok3 := p.chambers(side, travel, p.ride)
	if !ok || !ok2 || !ok3 {
		return
	}
	p.say(p.of(side)+": air", "%.1f in %.0f extended; compressed %.1f slowly, %.1f in a landing in %.0f; ratio %.2f",
		top.positiveGauge, top.positive, slow.positiveGauge, fast.positiveGauge, slow.positive,
		float64(top.positive/slow.positive))
	if top.negative > 0 {
		p.say("  negative chamber", "%.1f in %.0f extended; compressed %.1f in %.0f",
			top.negativeGauge, top.negative, slow.negativeGauge, slow.negative)
	}
	if top.second > 0 {
		p.say("  behind floating piston", "%.1f in %.0f extended; compressed %.1f in %.0f",
			top.secondGauge, top.second, slow.secondGauge, slow.second)
	}
	if leg.Air.BalanceRate.Given() {
		p.say("  balance coil", "%v over the first %v, pulls the fork down by %.0f extended", leg.Air.BalanceRate.Value,
			leg.Air.BalanceLength.Value,
			units.Force(float64(leg.Air.BalanceRate.Value)*float64(leg.Air.BalanceLength.Value)))
	}
}

func (p *page) gap(side setup.Side) {
	slow, err := p.setup.Gap(side, gas.Isothermal)
	fast, err2 := p.setup.Gap(side, p.ride)
	if err != nil || err2 != nil {
		return
	}
	travel := p.Travel.Value
	p.say(p.of(side)+": gas gap", "compression ratio %.1f; compressed %.1f slowly, %.1f in a landing",
		slow.CompressionRatio(),
		p.gauge(slow.Pressure(travel)), p.gauge(fast.Pressure(travel)))
}

// sources spells out those the values name, in the order they first do.
func (p *page) sources(values []data.Entry) {
	p.line("\nSOURCES")
	seen := map[string]bool{"": true}
	for _, v := range values {
		if seen[v.Source] {
			continue
		}
		seen[v.Source] = true
		s, err := p.Source(v.Source)
		if err != nil {
			continue
		}
		text := string(s.Kind) + ": " + s.Document
		for _, more := range []string{s.Edition, s.Table} {
			if more != "" {
				text += ", " + more
			}
		}
		if s.Formula != "" {
			text += ". " + s.Formula
		}
		p.named(2+nameColumn, "  "+s.ID, text)
	}
}

// pressurized reports whether the fork holds gas above that of the air around when extended: in an air spring, a
// damper or over the oil.
func (p *page) pressurized() bool {
	held := p.Gap.Precharge.Given()
	for _, l := range p.legs() {
		held = held || l.Role.HasAir() || l.Reservoir.Pressure.Given()
	}
	return held
}

func (p *page) cautions() {
	p.line("\nCAUTIONS")
	text := `Cap and collar are under spring preload: wheel off the ground, hold the cap, lower slowly, wear eye
protection.`
	if p.pressurized() {
		text = `Stored pressure: wheel off the ground and every chamber released at its valve before any cap is
loosened. Air or nitrogen only, never oxygen, never above the maximum marked on the fork. ` + text
	}
	p.named(2, "", text)
	p.named(2, "", "Typical values and what follows from them are starting points. The maker's manual prevails.")
}
