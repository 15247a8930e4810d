package sheet

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.org/forkcurve/geometry"
	"example.org/forkcurve/internal/typeset"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/conversion"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	width  = typeset.Width
	column = 10 // of a candidate
	most   = 5  // candidates side by side
	label  = width - most*column
)

// sheet prints the parts of a bench sheet.
type sheet struct {
	typeset.Sheet
	*conversion.Report
}

// WriteText prints the bench sheet of a plan, 80 columns wide, with the cautions.
func WriteText(out io.Writer, report *conversion.Report) error {
	s := &sheet{Report: plain(report)}
	s.head()
	s.given()
	s.build()
	s.eventDay()
	s.torques()
	s.load()
	s.presentFork()
	s.targets()
	s.candidates()
	s.otherFindings()
	s.cautions()
	_, err := io.WriteString(out, s.String())
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
	p.Candidates = slices.Clone(p.Candidates)
	for i := range p.Candidates {
		p.Candidates[i].Coil = typeset.Plain(p.Candidates[i].Coil, sentence)
	}
	p.Job.Shelf = slices.Clone(p.Job.Shelf)
	for i := range p.Job.Shelf {
		p.Job.Shelf[i].Name = typeset.Plain(p.Job.Shelf[i].Name, sentence)
	}
	return &p
}

// onAir reports whether the present fork is.
func (s *sheet) onAir() bool {
	_, onAir := s.Job.Fill()
	return onAir
}

func (s *sheet) head() {
	s.Paragraph("", "BENCH SHEET: SPRING CONVERSION")
	s.Paragraph("", s.Job.Heading.Title)
	fmt.Fprintln(s, strings.Repeat("=", width))
	s.Paragraph("", "Read the cautions at the end before anything is loosened.")
}

// line prints a name and what is to be said of it, wrapped.
func (s *sheet) line(name, format string, args ...any) {
	const indent = 28
	lines := typeset.Wrap(fmt.Sprintf(format, args...), width-indent)
	for i, text := range lines {
		if i > 0 {
			name = ""
		}
		fmt.Fprintf(s, "  %s%s\n", typeset.Pad(name, indent-2), text)
	}
}

func (s *sheet) given() {
	j, h := s.Job, s.Job.Heading
	s.Section("GIVEN")
	s.line("Rider in kit", "%s", joined(", ", fmt.Sprintf("%.0f", j.Rider), h.Stance, h.Discipline))
	s.line("Fork", "%s", joined(": ", h.Fork, h.ForkName))
	s.line("", "%v, stanchion %.0f, travel %.0f", j.Fork.Layout, j.Fork.Stanchion.Outer, j.Fork.Travel)
	s.presentSprings()
	s.line("Workshop", "%s", where(h.Workshop, j.Workshop))
	s.line("Event", "%s", where(h.Event, j.Event))
	s.line("Ridden gas", "polytropic exponent %.2f; at rest 1", j.RideExponent)
}

// presentSprings is what each leg of the present fork holds; two legs alike once.
func (s *sheet) presentSprings() {
	if fill, onAir := s.Job.Fill(); onAir {
		s.line("Present fill", "%.1f on the gauge, %s", fill.Gauge, air(fill.Ambient))
	}
	left, right := springs(s.Job.Present.Left), springs(s.Job.Present.Right)
	if left == right {
		s.line("Present springs", "%s in each leg", left)
		return
	}
	for _, leg := range []struct{ side, springs string }{{"left", left}, {"right", right}} {
		if leg.springs != "" {
			s.line("Present springs, "+leg.side, "%s", leg.springs)
		}
	}
}

func springs(l setup.Leg) string {
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, fmt.Sprintf(format, args...)) }
	if c, ok := setup.Find[spring.CoilSpec](l); ok {
		add("coil %.2f with %.1f of preload", c.Rate, c.Preload)
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
	if t, ok := setup.Find[spring.TopOutSpec](l); ok {
		add("top-out spring %.1f over %.0f", t.Rate, t.Length)
	}
	if g := l.Gap; g != nil && g.Gauge != (units.GaugePressure{}) {
		add("precharge over the oil %.2f", g.Gauge)
	}
	if d := l.Damper; d != nil {
		add("damper gas %.1f", d.Fill.Gauge)
	}
	return strings.Join(parts, ", ")
}

func where(p conversion.Place, a gas.Ambient) string {
	altitude := ""
	if p.Altitude != nil {
		altitude = fmt.Sprintf("%.0f m", p.Altitude.In(units.Meter))
	}
	return joined(": ", p.Name, joined(", ", altitude, air(a)))
}

// joined are the texts that are not empty.
func joined(separator string, texts ...string) string {
	return strings.Join(slices.DeleteFunc(texts, func(t string) bool { return t == "" }), separator)
}

func air(a gas.Ambient) string {
	return fmt.Sprintf("%.0f, %.3f bar ambient", a.Temperature, a.Pressure.In(units.Bar))
}

func (s *sheet) load() {
	s.Section("LOAD ON THE FORK AXIS         with rider   machine alone")
	c := s.Job.Chassis
	row := func(name, rider, machine string) {
		fmt.Fprintf(s, "  %s%12s%16s\n", typeset.Pad(name, 28), rider, machine)
	}
	row("Mass", fmt.Sprintf("%.1f", s.Rider.Mass), fmt.Sprintf("%.1f", s.Machine.Mass))
	row("Share on the front wheel", fmt.Sprintf("%.1f", c.FrontShareRidden), fmt.Sprintf("%.1f", c.FrontShare))
	row("Front wheel load", fmt.Sprintf("%.0f", s.Rider.Wheel), fmt.Sprintf("%.0f", s.Machine.Wheel))
	row(fmt.Sprintf("less %.1f unsprung", c.UnsprungMass), fmt.Sprintf("-%.0f", s.Rider.Unsprung), fmt.Sprintf("-%.0f", s.Machine.Unsprung))
	row(fmt.Sprintf("times cos %.1f°: axis", c.Rake.In(units.Degree)), fmt.Sprintf("%.0f", s.Rider.Axial), fmt.Sprintf("%.0f", s.Machine.Axial))
}

func (s *sheet) presentFork() {
	s.Section("PRESENT FORK")
	b := s.Present
	s.line("Sag with rider", "%s", s.sag(b.Sag))
	s.line("Sag of the machine alone", "%s", s.sag(b.MachineSag))
	s.line("Force at full extension", "%.0f", b.TopOut)
	s.line("Rate about the sag", "%.1f ridden, body frequency %.1f", b.Rate, b.Frequency)
	s.line("Energy as ridden", "%.0f to 90 %% of travel, %.0f to the end, %.0f there", b.Energy90, b.EnergyFull, b.ForceFull)
	if off, ok := s.idealGas(); ok {
		s.line("Ideal gas law", "%s", off)
	}
	rest, ridden := b.Setup.Curve(gas.Isothermal), b.Setup.Curve(s.Job.RideExponent)
	row := func(name string, text func(x units.Length) string) {
		fmt.Fprintf(s, "  %s", typeset.Pad(name, 20))
		for i := range 9 {
			fmt.Fprintf(s, "%6s", text(rest.Stroke()*units.Length(i)/8))
		}
		fmt.Fprintln(s)
	}
	row("Travel, mm", func(x units.Length) string { return fmt.Sprintf("%.0f", x.In(units.Millimeter)) })
	row("Force at rest, N", func(x units.Length) string { return fmt.Sprintf("%.0f", float64(rest.Force(x))) })
	row("Force ridden, N", func(x units.Length) string { return fmt.Sprintf("%.0f", float64(ridden.Force(x))) })
}

// idealGas says how wrong the ideal law is for the present air spring.
func (s *sheet) idealGas() (string, bool) {
	for _, leg := range []setup.Leg{s.Job.Present.Left, s.Job.Present.Right} {
		if leg.Air == nil {
			continue
		}
		volume := leg.Air.Volume - leg.Air.Reducers
		state, err := leg.Air.Fill.State(volume)
		if err != nil {
			return "", false
		}
		swept := units.Volume(float64(geometry.Circle(leg.Air.Bore)) * float64(s.Job.Fork.Travel))
		d, err := gas.DryAir.Departure(state, volume-swept)
		if err != nil {
			return "", false // beyond the range of the real-gas data
		}
		return fmt.Sprintf("off at full travel by %+.1f %% of the pressure slow, %+.1f %% without heat exchange", 100*d.Slow, 100*d.Fast), true
	}
	return "", false
}

// sag is a band in millimeters and its share of the travel.
func (s *sheet) sag(g setup.Sag) string {
	share := 100 * float64(g.Middle/s.Job.Fork.Travel)
	return fmt.Sprintf("%.0f, %.0f %% of travel; band %.0f to %.0f at %.0f friction",
		g.Middle, share, g.High, g.Low, g.Friction)
}

func (s *sheet) targets() {
	s.Section("COIL RATE ASKED FOR           whole fork     each spring")
	names := map[conversion.Criterion]string{
		conversion.SagForce:     "same force at the sag",
		conversion.Energy:       "same energy to 90 %",
		conversion.LeastSquares: "least squares, 10-85 %",
	}
	for _, t := range s.Targets {
		mark := " "
		if t.Criterion == s.Job.Criterion {
			mark = "*"
		}
		fmt.Fprintf(s, "%s %s%12s%16s\n", mark, typeset.Pad(names[t.Criterion], 28), fmt.Sprintf("%.2f", t.Rate), fmt.Sprintf("%.2f", t.Each))
	}
	fmt.Fprintf(s, "  * picks; at the aimed preload of %.1f and %.0f of oil\n", s.Job.Preload.Aim, s.Job.OilVolume.Aim)
}

func (s *sheet) candidates() {
	legs := s.Report.Candidates[0].Legs
	s.Section(fmt.Sprintf("COILS ON THE SHELF, best first (%s)", sprung(legs)))
	shown := s.Report.Candidates[:min(most, len(s.Report.Candidates))]
	row := func(name string, text func(c conversion.Candidate) string) {
		fmt.Fprintf(s, "  %s", typeset.Pad(name, label-2))
		for _, c := range shown {
			fmt.Fprint(s, typeset.Lead(text(c), column))
		}
		fmt.Fprintln(s)
	}
	value := func(name, format string, of func(c conversion.Candidate) float64) {
		row(name, func(c conversion.Candidate) string { return fmt.Sprintf(format, of(c)) })
	}
	mm := func(l units.Length) float64 { return l.In(units.Millimeter) }
	row("", func(c conversion.Candidate) string { return typeset.Plain(c.Coil, column-1) })
	value("Rate of a spring, N/mm", "%.2f", func(c conversion.Candidate) float64 { return c.Each.In(units.NewtonPerMillimeter) })
	value("Fork rate against target, %", "%+.0f", func(c conversion.Candidate) float64 { return 100 * c.RateDeviation })
	value("Preload, mm", "%.1f", func(c conversion.Candidate) float64 { return mm(c.Preload) })
	value("Spacer, mm", "%.1f", func(c conversion.Candidate) float64 { return mm(c.Spacer) })
	value("Oil a leg, mL", "%.0f", func(c conversion.Candidate) float64 { return c.OilVolume.In(units.Milliliter) })
	if s.Report.Candidates[0].OilLevel != nil {
		value("Oil level, mm", "%.0f", func(c conversion.Candidate) float64 { return mm(*c.OilLevel) })
	}
	// A fork that does not carry the rider has no sag to tell.
	ride := func(name, format string, of func(c conversion.Candidate) float64) {
		row(name, func(c conversion.Candidate) string {
			if c.Behavior.Sag.Load == 0 {
				return "-"
			}
			return fmt.Sprintf(format, of(c))
		})
	}
	ride(now("Sag with rider", "%.0f", mm(s.Present.Sag.Middle), "mm"), "%.0f", func(c conversion.Candidate) float64 { return mm(c.Behavior.Sag.Middle) })
	row("  band, mm", func(c conversion.Candidate) string {
		if c.Behavior.Sag.Load == 0 {
			return "-"
		}
		return fmt.Sprintf("%.0f-%.0f", mm(c.Behavior.Sag.High), mm(c.Behavior.Sag.Low))
	})
	ride(now("Sag of machine", "%.0f", mm(s.Present.MachineSag.Middle), "mm"), "%.0f", func(c conversion.Candidate) float64 { return mm(c.Behavior.MachineSag.Middle) })
	row("Front lower by, mm", func(c conversion.Candidate) string {
		if c.Behavior.Sag.Load == 0 {
			return "-"
		}
		return signed(mm(c.SagChange))
	})
	ride(now("Energy to 90 %", "%.0f", float64(s.Present.Energy90), "J"), "%.0f", func(c conversion.Candidate) float64 { return float64(c.Behavior.Energy90) })
	ride(now("Energy to end", "%.0f", float64(s.Present.EnergyFull), "J"), "%.0f", func(c conversion.Candidate) float64 { return float64(c.Behavior.EnergyFull) })
	value("Bind margin, mm", "%.0f", func(c conversion.Candidate) float64 { return mm(c.BindMargin) })
	value("  advised, mm", "%.0f", func(c conversion.Candidate) float64 { return mm(c.BindMarginAdvised) })
	stress := func(p units.Stress) string {
		if p == 0 {
			return "?" // the wire is not known
		}
		return fmt.Sprintf("%.0f", p.In(units.Megapascal))
	}
	row("Wire stress, MPa", func(c conversion.Candidate) string { return stress(c.Stress) })
	row("  limit, MPa", func(c conversion.Candidate) string { return stress(c.StressLimit) })
	row("Gas compression ratio", func(c conversion.Candidate) string { return ratio(c.GapRatio) })
	row("  with the oil 40 K warmer", func(c conversion.Candidate) string { return ratio(c.GapRatioWarm) })
	value("Peak gas pressure, bar", "%.1f", func(c conversion.Candidate) float64 { return c.GapPeak.In(units.Bar) })
	value("Mass of a spring, kg", "%.2f", func(c conversion.Candidate) float64 { return c.Mass.In(units.Kilogram) })
	row("Verdict", verdict)
	if hidden := len(s.Report.Candidates) - len(shown); hidden > 0 {
		fmt.Fprintf(s, "  and %d more, ranked lower\n", hidden)
	}
}

// now names a row with the present fork's value.
func now(name, format string, value float64, unit string) string {
	return fmt.Sprintf("%s (now "+format+"), %s", name, value, unit)
}

func sprung(legs []setup.Side) string {
	if len(legs) == 1 {
		return fmt.Sprintf("one spring, %v leg", legs[0])
	}
	return "a spring in each leg"
}

// signed is a change to a tenth, without the sign of a negative 0.
func signed(v float64) string {
	if math.Abs(v) < 0.05 {
		return "0.0"
	}
	return fmt.Sprintf("%+.1f", v)
}

func ratio(r float64) string {
	if r == 0 {
		return "lock"
	}
	return fmt.Sprintf("%.1f", r)
}

func verdict(c conversion.Candidate) string {
	if !c.Safe() {
		return "NO"
	}
	return c.Verdict.String()
}

// build says what to do, what to expect, and what to watch.
func (s *sheet) build() {
	c, ok := s.Chosen()
	if !ok {
		s.Section("NO SAFE PLAN")
		s.Paragraph("  ", "None of the coils on the shelf can be built safely into this fork. The findings say why, each with its number.")
		for _, c := range s.Report.Candidates {
			s.list(c.Coil, c.Findings, conversion.Stop)
		}
		s.list("job", s.Findings, conversion.Note)
		return
	}
	job := s.Job
	s.Section("BUILD: coil " + c.Coil + ", " + sprung(c.Legs))
	s.line("Spring", "%s", s.spring(c))
	s.line("Oil", "%.0f in %s (allowed %.0f to %.0f)", c.OilVolume, inLegs(c.Legs), job.OilVolume.Min, job.OilVolume.Max)
	if c.OilLevel != nil {
		s.line("Oil level", "%.0f of air over the oil; fork fully compressed, spring out, damper bled", *c.OilLevel)
	}
	s.line("Oil steps", "%s", oilSteps(c))
	if drained := job.Drained; drained != ([2]units.Volume{}) {
		s.line("Oil before", "%.0f to %.0f: drain and measure", drained[0], drained[1])
	}
	if text := s.precharge(c); text != "" {
		s.line("Precharge", "%s", text)
	}
	s.line("Preload", "%.1f (aim %.1f, allowed %.1f to %.1f)", c.Preload, job.Preload.Aim, job.Preload.Min, job.Preload.Max)
	if c.CaliperReading != nil {
		s.line("Caliper reading", "%.1f from the reference edge to the collar; %.1f with the spring loose, allowed %.1f to %.1f",
			*c.CaliperReading, job.Caliper.Loose, job.Caliper.Reading(job.Preload.Min), job.Caliper.Reading(job.Preload.Max))
	} else {
		s.line("Caliper reading", "read the collar with the spring just touching, then set it %.1f deeper", c.Preload)
	}
	if collar := c.Spacer - c.Preload; collar < -0.05*units.Millimeter {
		s.line("Spacer", "%.1f, which sets the preload; the spring is too long for a collar to do so", max(0, c.Spacer))
	} else {
		s.line("Spacer", "%.1f where a collar sets the preload, %.1f where the spacer does", max(0, collar), max(0, c.Spacer))
	}
	s.line("Rebound", "%s", rebound(c))
	s.line("", "why: %.2f times the damping keeps the damping ratio about the sag, %.2f times the speed of return from %.0f %% of travel",
		c.Rebound.Ratio, c.Rebound.Return, 100*conversion.ReboundDepth)
	if s.onAir() {
		s.line("Compression", "as it was or 1 to 2 clicks firmer at low speed: the seals of the air piston no longer help")
	}
	s.line("Then: sag with rider", "%s", s.sag(c.Behavior.Sag))
	s.line("Sag of the machine alone", "%s", s.sag(c.Behavior.MachineSag))
	if d := c.Behavior.Uncertainty; d != nil {
		s.line("How sure", "sag ±%.0f, energy ±%.0f, change at the event ±%.1f: one standard deviation at what a workshop reaches", d.Sag, d.Energy, d.Drift)
	}
	s.line("Front", "%s", front(c))
	s.line("Energy to the end", "%.0f as ridden, the present fork %.0f", c.Behavior.EnergyFull, s.Present.EnergyFull)
	d := spring.Compare(s.Present.Setup.Curve(job.RideExponent), c.Behavior.Setup.Curve(job.RideExponent), 101)
	if math.Abs(float64(d.Largest.Force)) < 0.5 {
		s.line("Against the present fork", "the same force all the way")
	} else {
		s.line("Against the present fork", "%+.0f at %.0f of travel, where they differ most", d.Largest.Force, d.Largest.Travel)
	}
	s.Section("WATCH")
	if len(s.Findings)+len(c.Findings) == 0 {
		fmt.Fprintln(s, "  nothing found")
	}
	s.list("job", s.Findings, conversion.Note)
	s.list(c.Coil, c.Findings, conversion.Note)
}

// spring names the coil by what is printed on it and what a caliper finds.
func (s *sheet) spring(c conversion.Candidate) string {
	text := fmt.Sprintf("%.2f (%.3f kgf/mm)", c.Each, c.Each.In(units.KilogramForcePerMillimeter))
	for _, coil := range s.Job.Shelf {
		if coil.Name != c.Coil {
			continue
		}
		if coil.Spring != nil {
			return fmt.Sprintf("%s, outside %.1f, free length %.0f, which does as one coil of %s would", spring.Kind(coil.Spring),
				coil.Size.OuterDiameter, coil.Size.FreeLength, text)
		}
		if part, err := helical.New(coil.Wire); err == nil {
			text += fmt.Sprintf(", wire %.1f, outside %.1f, free length %.0f", part.Wire(), part.OuterDiameter(), part.FreeLength())
		}
	}
	return text
}

// oilSteps says what the usual steps of the fill do.
func oilSteps(c conversion.Candidate) string {
	switch {
	case c.GapRatio == 0:
		return "the leg locks; no step helps"
	case c.OilVolume == 0:
		return "none: the leg runs on grease"
	case c.OilSteps.Volume == 0:
		return "5 mL more and the leg locks"
	case c.OilLevel == nil:
		return fmt.Sprintf("5 mL more add %.0f at full travel", c.OilSteps.Volume)
	}
	return fmt.Sprintf("5 mL more add %.0f at full travel, 5 mm less air %.0f", c.OilSteps.Volume, c.OilSteps.Level)
}

// rebound is the advice, or that no adjuster can follow it.
func rebound(c conversion.Candidate) string {
	for _, f := range c.Findings {
		if f.Code == conversion.DamperRange {
			return fmt.Sprintf("some %+.0f clicks asked for, more than an adjuster in its middle has: have the damper revalved for this spring", (c.Rebound.FewClicks+c.Rebound.MostClicks)/2)
		}
	}
	return strings.TrimPrefix(c.Rebound.Advice, "rebound ")
}

// precharge says where the gas over the oil is no longer pumped up, and where it stays so.
func (s *sheet) precharge(c conversion.Candidate) string {
	if !s.Job.Precharged() {
		return ""
	}
	text := "none in " + inLegs(c.Legs) + ": close at the ambient, fork extended"
	if g := s.keeps(c); g != (units.GaugePressure{}) {
		text += fmt.Sprintf("; %.2f in the other leg as before", g)
	}
	return text
}

// keeps is the precharge of a leg without a coil.
func (s *sheet) keeps(c conversion.Candidate) units.GaugePressure {
	for side, leg := range []setup.Leg{s.Job.Present.Left, s.Job.Present.Right} {
		if leg.Gap != nil && !slices.Contains(c.Legs, setup.Side(side)) {
			return leg.Gap.Gauge
		}
	}
	return units.GaugePressure{}
}

// front is how the stance of the machine changes.
func front(c conversion.Candidate) string {
	way := "lower"
	if c.SagChange < 0 {
		way = "higher"
	}
	if math.Abs(c.SagChange.In(units.Millimeter)) < 0.5 {
		return "as high as before"
	}
	return fmt.Sprintf("%.1f %s than before: rake %+.2f°, trail %+.1f", units.Length(math.Abs(float64(c.SagChange))), way, c.RakeChange.In(units.Degree), c.TrailChange)
}

func inLegs(legs []setup.Side) string {
	if len(legs) == 1 {
		return fmt.Sprintf("the %v leg", legs[0])
	}
	return "each leg"
}

func (s *sheet) eventDay() {
	s.Section("EVENT DAY: change of sag, mm        as it arrives   vented   air set again")
	row := func(name string, d setup.Drift, refilled bool) {
		change := func(g setup.Sag) string { return signed(d.Change(g).In(units.Millimeter)) }
		last := "-"
		if refilled {
			last = change(d.Refilled)
		}
		fmt.Fprintf(s, "  %s%16s%9s%16s\n", typeset.Pad(name, 31), change(d.There), change(d.Vented), last)
	}
	row(fmt.Sprintf("present fork, %.0f as set", s.Event.Here.Middle), s.Event, s.onAir() || s.Job.Precharged())
	if c, ok := s.Chosen(); ok {
		row(fmt.Sprintf("%s, %.0f as set", typeset.Plain(c.Coil, 15), c.Event.Here.Middle), c.Event, s.keeps(c) != (units.GaugePressure{}))
	}
	s.Paragraph("  ", "Plus: the fork sits lower. Vented: the gas over the oil let out there, wheel off the ground, fork extended.")
}

func (s *sheet) torques() {
	if len(s.Job.Torques) == 0 {
		return
	}
	s.Section("TORQUE, as the job gives it; the maker's manual prevails")
	for _, t := range s.Job.Torques {
		s.line(t.Name, "%.1f = %.1f lbf·ft", t.Value, t.Value.In(units.PoundForceFoot))
	}
}

// otherFindings are those on the coils that were not chosen, cautions and stops.
func (s *sheet) otherFindings() {
	others, title := s.Report.Candidates, "FOUND ON ALL COILS"
	if _, ok := s.Chosen(); ok {
		others, title = others[1:], "FOUND ON THE OTHER COILS"
	}
	s.Section(title + " (notes left out; -json has them)")
	before := s.Len()
	for _, c := range others {
		s.list(c.Coil, c.Findings, conversion.Caution)
	}
	if s.Len() == before {
		fmt.Fprintln(s, "  nothing")
	}
}

// list prints findings from a severity up.
func (s *sheet) list(about string, findings []conversion.Finding, least conversion.Severity) {
	for _, f := range findings {
		if f.Severity >= least {
			s.finding(about, f)
		}
	}
}

func (s *sheet) finding(about string, f conversion.Finding) {
	marks := map[conversion.Severity]string{conversion.Note: "note", conversion.Caution: "CAUTION", conversion.Stop: "STOP"}
	head := fmt.Sprintf("  %s%s", typeset.Pad(marks[f.Severity], 9), typeset.Pad(typeset.Plain(about, 10), 11))
	text := fmt.Sprintf("%s, %s against %s: %s", f.Code, show(f.Value), show(f.Limit), f.Reason)
	for i, l := range typeset.Wrap(text, width-typeset.Count(head)) {
		if i > 0 {
			head = strings.Repeat(" ", typeset.Count(head))
		}
		fmt.Fprintf(s, "%s%s\n", head, l)
	}
}

// show is a finding's number with the digits a workshop can use.
func show(v any) string {
	switch v.(type) {
	case units.Length, units.GaugePressure, conversion.Number:
		return fmt.Sprintf("%.1f", v)
	case units.Stiffness:
		return fmt.Sprintf("%.2f", v)
	case fmt.Formatter:
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprint(v)
}

func (s *sheet) cautions() {
	s.Section("CAUTIONS")
	for _, text := range s.Report.Cautions {
		s.Paragraph("  - ", text)
	}
}
