package sheet

import (
	_ "embed"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/prose"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

//go:embed sheet.tmpl
var words string

// WriteText prints the bench sheet of a plan, 80 columns wide, with the cautions: what is done,
// step by step, with boxes to tick and to write readings into.
func WriteText(w io.Writer, r *conversion.Report) error { return writeText(w, r, false) }

// WriteFullText prints the bench sheet with everything behind it: loads, forces, the rates asked
// for, all coils, where the uncertainty comes from.
func WriteFullText(w io.Writer, r *conversion.Report) error { return writeText(w, r, true) }

func writeText(w io.Writer, r *conversion.Report, full bool) error {
	if err := whole(r); err != nil {
		return err
	}
	f := facts{Report: plain(r), Full: full, steps: new(int)}
	if _, ok := r.Chosen(); ok || r.Build != nil && r.Candidates[0].Behavior.Sag.Load != 0 {
		f.Best = &f.Candidates[0]
	}
	text, err := prose.SetAt(28, words, f)
	if err != nil {
		return fmt.Errorf("sheet: %w", err)
	}
	_, err = io.WriteString(w, text)
	return err
}

// plain is the report with what a user wrote in it made harmless: such a text can
// neither forge a line nor push a column aside.
func plain(r *conversion.Report) *conversion.Report {
	const sentence, name = 160, 25
	p := *r
	h := &p.Job.Heading
	for _, text := range []*string{&h.Title, &h.Stance, &h.Discipline, &h.ForkName, &h.Workshop.Name, &h.Event.Name} {
		*text = typeset.Plain(*text, sentence)
	}
	h.Fork = typeset.Plain(h.Fork, name)
	p.Job.Torques = slices.Clone(p.Job.Torques)
	for i := range p.Job.Torques {
		p.Job.Torques[i].Name = typeset.Plain(p.Job.Torques[i].Name, name)
	}
	p.Candidates, p.Job.Shelf = slices.Clone(p.Candidates), slices.Clone(p.Job.Shelf)
	for i := range p.Candidates {
		p.Candidates[i].Coil = typeset.Plain(p.Candidates[i].Coil, sentence)
	}
	for i := range p.Job.Shelf {
		p.Job.Shelf[i].Name = typeset.Plain(p.Job.Shelf[i].Name, sentence)
	}
	return &p
}

// facts are what the words of the sheet ask for.
type facts struct {
	*conversion.Report
	Best *conversion.Candidate // the one to build, or that is built; nil: none is safe
	Full bool

	steps *int // written so far
}

// Shown is a quantity in the unit of the job.
func (f facts) Shown(v any) any { return f.Job.Heading.Units.Shown(v) }

// sprintf prints quantities in the units of the job.
func (f facts) sprintf(format string, args ...any) string {
	for i := range args {
		args[i] = f.Shown(args[i])
	}
	return fmt.Sprintf(format, args...)
}

// number is one in the unit of the job, which a heading names.
func (f facts) number(v any, decimals int) string { return f.Job.Heading.Units.Number(v, decimals) }

// Length, Pressure and Volume are the units that readings are written down in.
func (f facts) Length() string { return f.Job.Heading.Units.Symbol(units.Length(0)) }

// Pressure is the unit of a gauge.
func (f facts) Pressure() string { return f.Job.Heading.Units.Symbol(units.Pressure(0)) }

// Volume is the unit of a measuring cylinder.
func (f facts) Volume() string { return f.Job.Heading.Units.Symbol(units.Volume(0)) }

// Step is the number of the next step and the box to tick.
func (f facts) Step() string {
	*f.steps++
	return fmt.Sprintf("%3d [ ] ", *f.steps)
}

// First is the caution to be heeded before anything is done.
func (f facts) First() string {
	if len(f.Cautions) == 0 {
		return ""
	}
	return f.Cautions[0]
}

// joined are the texts that are not empty.
func joined(separator string, texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(t string) bool { return t == "" }), separator)
}

// RiderInKit says who rides.
func (f facts) RiderInKit() string {
	return joined(", ", f.sprintf("%.0f", f.Job.Rider), f.Job.Heading.Stance, f.Job.Heading.Discipline)
}

// Named begins what is told of the fork.
func (f facts) Named() string {
	name := joined(": ", f.Job.Heading.Fork, f.Job.Heading.ForkName)
	if name == "" {
		return ""
	}
	return name + "; "
}

// Fill is the gauge reading of the present fork; nil without air.
func (f facts) Fill() *gas.Fill {
	if fill, onAir := f.Job.Fill(); onAir {
		return &fill
	}
	return nil
}

// Place names a place and its air.
func (f facts) Place(p conversion.Place, a gas.Ambient) string {
	altitude := ""
	if p.Altitude != nil {
		altitude = fmt.Sprintf("%.0f m", p.Altitude.In(units.Meter))
		if f.Job.Heading.Units.Altitude == "ft" {
			altitude = fmt.Sprintf("%.0f ft", p.Altitude.In(units.Foot))
		}
	}
	return joined(": ", p.Name, joined(", ", altitude, f.Air(a)))
}

// Air in words.
func (f facts) Air(a gas.Ambient) string {
	return f.sprintf("%.0f, %.3f", a.Temperature, units.Pressure(a.Pressure.In(units.Pascal)))
}

// PresentSprings is what each leg of the present fork holds; two legs alike once.
func (f facts) PresentSprings() [][2]string {
	if f.Job.From == conversion.RiderAlone {
		return [][2]string{{"Planned from", f.sprintf("rider and machine alone: a sag of %.0f; springs and fill of the "+
			"fork as it was are not looked at", f.TargetSag)}}
	}
	words := func(l setup.Leg) string {
		if shown(l) {
			return f.held(l) + ", as a sweep has shown it"
		}
		return f.held(l)
	}
	left, right := words(f.Job.Present.Left), words(f.Job.Present.Right)
	if left == right {
		return [][2]string{{"Present springs", left + " in each leg"}}
	}
	lines := [][2]string{{"Present springs, left", left}, {"Present springs, right", right}}
	return slices.DeleteFunc(lines, func(l [2]string) bool { return l[1] == "" })
}

// held are the springs and the charges of a leg.
func (f facts) held(l setup.Leg) string {
	var parts, topOut []string
	add := func(format string, args ...any) { parts = append(parts, f.sprintf(format, args...)) }
	for _, s := range l.Springs {
		switch s := s.(type) {
		case spring.CoilSpec:
			add("coil %.2f with %.1f of preload", s.Rate, s.Preload)
		case spring.MeasuredSpec:
			if !shown(l) {
				add("%s", spring.Kind(s))
			}
		case spring.TopOutSpec:
			topOut = append(topOut, f.sprintf("top-out spring %.1f over %.0f", s.Rate, s.Length))
		default:
			add("%s", spring.Kind(s))
		}
	}
	if a := l.Air; a != nil {
		add("air %.1f", a.Fill.Gauge)
		switch {
		case a.NegativeGauge != (units.GaugePressure{}):
			add("negative chamber %.1f", a.NegativeGauge)
		case a.NegativeVolume != 0:
			add("negative chamber through the port")
		}
		if a.SecondVolume != 0 {
			add("second chamber %.1f", a.SecondGauge)
		}
	}
	parts = append(parts, topOut...)
	if g := l.Gap; g != nil && g.Gauge != (units.GaugePressure{}) {
		add("precharge over the oil %.2f", g.Gauge)
	}
	if d := l.Damper; d != nil {
		add("damper gas %.1f", d.Fill.Gauge)
	}
	return strings.Join(parts, ", ")
}

// Sag is a band in millimeters and its share of the travel.
func (f facts) Sag(g setup.Sag) string {
	return f.sprintf("%.0f, %.0f; band %s to %.0f at %.0f friction", g.Middle, units.Share(g.Middle/f.Job.Fork.Travel),
		f.number(g.High, 0), g.Low, g.Friction)
}

// IdealGas says how wrong the ideal law is for the present air spring, if it has one within
// the range of the real-gas data.
func (f facts) IdealGas() string {
	for _, leg := range []setup.Leg{f.Job.Present.Left, f.Job.Present.Right} {
		if leg.Air == nil {
			continue
		}
		volume := leg.Air.Volume - leg.Air.Reducers
		swept := units.Volume(float64(geometry.Circle(leg.Air.Bore)) * float64(f.Job.Fork.Travel))
		state, err := leg.Air.Fill.State(volume)
		if err != nil {
			return ""
		}
		d, err := gas.DryAir.Departure(state, volume-swept)
		if err != nil {
			return ""
		}
		return f.sprintf("off at full travel by %+.1f %% of the pressure slow, %+.1f %% without heat exchange",
			100*d.Slow, 100*d.Fast)
	}
	return ""
}

// finding is one as it is printed: a head, and what hangs beside it.
type finding struct{ Head, Text string }

// found are the findings about something from a severity up.
func (f facts) found(about string, list []conversion.Finding, least conversion.Severity) []finding {
	marks := [...]string{conversion.Note: "note", conversion.Caution: "CAUTION", conversion.Stop: "STOP"}
	var out []finding
	for _, one := range list {
		if one.Severity >= least {
			out = append(out, finding{"  " + typeset.Pad(marks[one.Severity], 9),
				f.sprintf("%s: %s, %s against %s: %s", typeset.Plain(about, 10), one.Code, f.show(one.Value),
					f.show(one.Limit), one.Reason)})
		}
	}
	return out
}

// show is a finding's number with the digits a workshop can use.
func (f facts) show(a conversion.Amount) string {
	switch a.(type) {
	case units.Length, units.GaugePressure:
		return f.sprintf("%.1f", a)
	case conversion.Number:
		return f.sprintf("%.3g", a)
	case units.Stiffness:
		return f.sprintf("%.2f", a)
	case units.Mass:
		return f.sprintf("%.1f", a)
	}
	return f.sprintf("%.0f", a)
}

// Rest are the other cautions.
func (f facts) Rest() []string { return f.Cautions[min(1, len(f.Cautions)):] }

// Warnings are what was found on the job and on the coil to build, notes only in full, or on all
// where none is safe.
func (f facts) Warnings() []finding {
	least := conversion.Caution
	if f.Full || f.Best == nil {
		least = conversion.Note
	}
	job := f.found("job", f.Findings, least)
	if f.Best != nil {
		return append(job, f.found(f.Best.Coil, f.Best.Findings, least)...)
	}
	var out []finding
	for _, c := range f.Candidates {
		out = append(out, f.found(c.Coil, c.Findings, conversion.Stop)...)
	}
	return append(out, job...)
}

// OthersTitle heads the findings on the coils that were not chosen.
func (f facts) OthersTitle() string {
	if f.Best == nil {
		return "FOUND ON ALL COILS"
	}
	return "FOUND ON THE OTHER COILS"
}

// Others are the cautions and stops on them.
func (f facts) Others() []finding {
	others := f.Candidates
	if f.Best != nil {
		others = others[1:]
	}
	var out []finding
	for _, c := range others {
		out = append(out, f.found(c.Coil, c.Findings, conversion.Caution)...)
	}
	return out
}

// Springs says how many there are to be.
func (f facts) Springs() string {
	if len(f.Job.Legs) == 1 {
		return f.sprintf("one spring, %v leg", f.Job.Legs[0].Side)
	}
	return "a spring in each leg"
}

// InLegs says which legs are converted.
func (f facts) InLegs() string {
	if len(f.Job.Legs) == 1 {
		return f.sprintf("the %v leg", f.Job.Legs[0].Side)
	}
	return "each leg"
}

// Spring names the coil by what is printed on it and what a caliper finds.
func (f facts) Spring() string {
	text := f.sprintf("%.2f (%.3f kgf/mm)", f.Best.Each, f.Best.Each.In(units.KilogramForcePerMillimeter))
	if f.Job.Heading.Units.Stiffness == "kgf/mm" {
		text = fmt.Sprintf("%.3f kgf/mm (%.2f)", f.Best.Each.In(units.KilogramForcePerMillimeter), f.Best.Each)
	}
	for _, coil := range f.Job.Shelf {
		if coil.Name != f.Best.Coil {
			continue
		}
		if s := coil.Size; coil.Spring != nil {
			text += f.sprintf(" as a linear coil would, %s, outside %.1f, free length %.0f",
				spring.Kind(coil.Spring), s.OuterDiameter, s.FreeLength)
		} else if part, err := helical.New(coil.Wire); err == nil {
			text += f.sprintf(", wire %.1f, outside %.1f, free length %.0f", part.Wire(), part.OuterDiameter(),
				part.FreeLength())
		}
	}
	return text
}

// OilSteps says what the usual steps of the fill do.
func (f facts) OilSteps() string {
	switch c := f.Best; {
	case c.GapRatio == 0:
		return "the leg locks; no step helps"
	case c.OilVolume == 0:
		return "none: the leg runs on grease"
	case c.OilSteps.Volume == 0:
		return f.sprintf("%.0f more and the leg locks", 5*units.Milliliter)
	case c.OilLevel == nil:
		return f.sprintf("%.0f more in %s add %.0f at full travel", 5*units.Milliliter, f.InLegs(), c.OilSteps.Volume)
	default:
		return f.sprintf("%.0f more add %.0f at full travel, %.0f less air %.0f", 5*units.Milliliter, c.OilSteps.Volume,
			5*units.Millimeter, c.OilSteps.Level)
	}
}

// Precharge says where the gas over the oil is no longer pumped up, and where it stays so.
func (f facts) Precharge() string {
	if !f.Job.Precharged() {
		return ""
	}
	text := ": no precharge in " + f.InLegs()
	if g := f.stays(); g != (units.GaugePressure{}) {
		text += f.sprintf("; %.2f in the other leg as before", g)
	}
	return text
}

// stays is the precharge of a leg without a coil.
func (f facts) stays() units.GaugePressure {
	for side, leg := range []setup.Leg{f.Job.Present.Left, f.Job.Present.Right} {
		converted := func(l conversion.ConvertedLeg) bool { return l.Side == setup.Side(side) }
		if leg.Gap != nil && !slices.ContainsFunc(f.Job.Legs, converted) {
			return leg.Gap.Gauge
		}
	}
	return units.GaugePressure{}
}

// Rebound is the advice, or that no adjuster can follow it.
func (f facts) Rebound() string {
	r := f.Best.Rebound
	if slices.ContainsFunc(f.Best.Findings,
		func(f conversion.Finding) bool { return f.Code == conversion.DamperRange }) {
		return f.sprintf("some %+.0f clicks asked for, more than an adjuster in its middle has: have the damper "+
			"revalved for this spring",
			(r.FewClicks+r.MostClicks)/2)
	}
	text := strings.TrimPrefix(r.Advice, "rebound ")
	if c := f.Best.Start; c != nil {
		text = fmt.Sprintf("start at %d clicks from closed (%d now), compression at %d (%d now); %s", c.Rebound,
			f.Job.Clicks.Rebound, c.Compression, f.Job.Clicks.Compression, text)
	}
	return text
}

// ReboundFactors are what the advice comes from, in full.
func (f facts) ReboundFactors() string {
	if !f.Full {
		return ""
	}
	return f.sprintf(" (%.2f times the damping about the sag, %.2f for the return from %.0f of travel, less friction "+
		"counted)", f.Best.Rebound.Ratio, f.Best.Rebound.Return, units.Share(conversion.ReboundDepth))
}

// Oil is what goes into the legs, by its grade.
func (f facts) Oil() string {
	o := f.Job.Oil
	if !o.HasViscosity() {
		return ""
	}
	text := f.sprintf("%.0f at %.0f", o.Viscosity(units.Celsius(40)), units.Celsius(40))
	if grade, ok := o.Grade(); ok {
		return fmt.Sprintf("ISO VG %d, ", grade.Number) + text
	}
	return text + ", between the grades of ISO VG"
}

// Weight is what the fork gains before what comes out.
func (f facts) Weight() string {
	m, of := f.Best.MassChange, "spring"
	if m.Oil != 0 {
		of = "spring and oil"
	}
	return f.sprintf("%.2f %s: %s sprung, %s unsprung", m.Springs+m.Oil, of, f.number(m.Sprung, 2),
		f.number(m.Unsprung, 2))
}

// Front is how the stance of the machine changes.
func (f facts) Front() string {
	if f.Job.From == conversion.RiderAlone {
		return ""
	}
	c, way := f.Best, "lower"
	if c.SagChange < 0 {
		way = "higher"
	}
	if math.Abs(c.SagChange.In(units.Millimeter)) < 0.5 {
		return "as high as before"
	}
	return f.sprintf("%.1f %s: rake %+.2f°, trail %+.1f",
		units.Length(math.Abs(float64(c.SagChange))), way, c.RakeChange.In(units.Degree), c.TrailChange)
}

// LargestDifference is the largest difference to the present fork.
func (f facts) LargestDifference() string {
	d := spring.Compare(f.Present.Setup.Curve(f.Job.RideExponent), f.Best.Behavior.Setup.Curve(f.Job.RideExponent),
		samples)
	if math.Abs(float64(d.Largest.Force)) < 0.5 {
		return "the same force all the way"
	}
	return f.sprintf("%+.0f at %.0f of travel, where they differ most", d.Largest.Force, d.Largest.Travel)
}

// symbol is the unit in which the job shows a quantity.
func (f facts) symbol(v any) string { return f.Job.Heading.Units.Symbol(v) }
