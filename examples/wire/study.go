package main

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

const (
	mm  = units.Millimeter
	npm = units.NewtonPerMillimeter

	// Fork builders leave 5 mm to 10 mm to solid (common practice, no source).
	habit = 10 * mm
)

// study is one fork and the springs for it.
type study struct {
	Fork     data.Fork
	Rate     units.Stiffness // of the whole fork
	Why      string          // that rate
	Wire     helical.Material
	One, Two build
	Now      *build // what the record of a coil fork has in it
}

// build is a spring in one leg, or one in each.
type build struct {
	helical.ForkDesign
	Offered bool // the fork takes springs so
}

// newStudy designs both builds. A zero rate or wire is the fork's own.
func newStudy(fork data.Fork, rate units.Stiffness, wire helical.Material) (*study, error) {
	s := &study{Fork: fork, Rate: rate, Why: "as asked for", Wire: wire}
	kit, id := fork.Kit, "sicrv"
	var coils []data.Coil
	for _, l := range []data.Leg{fork.Left, fork.Right} {
		if l.Role.HasCoil() {
			id, coils = l.Coil.Material, append(coils, l.Coil)
		}
	}
	switch {
	case rate != 0:
	case len(coils) > 0:
		s.Rate = coils[0].Rate.Value * units.Stiffness(len(coils))
		s.Why = fmt.Sprintf("what is in it, %d × %.2f", len(coils), coils[0].Rate.Value)
	default:
		s.Rate = (kit.Rate.Lo + kit.Rate.Hi) / 2
		s.Why = fmt.Sprintf("the middle of what its riders need, %.1f to %.1f", kit.Rate.Lo, kit.Rate.Hi)
	}
	var errs [4]error
	if wire.ID() == "" {
		s.Wire, errs[0] = data.Reference().Wire(id)
	}
	spec := fork.SpringSpec(s.Rate, s.Wire)
	s.One.ForkDesign, errs[1] = spec.Design(1)
	s.Two.ForkDesign, errs[2] = spec.Design(2)
	s.One.Offered, s.Two.Offered = kit.Legs.Left || kit.Legs.Right, kit.Legs.Both
	if len(coils) > 0 {
		now, c := build{s.One.ForkDesign, true}, coils[0]
		now.Legs, now.Spec.Rate, now.Spec.Preload = len(coils), c.Rate.Value, c.Preload.Value
		now.Spec.FreeLength = kit.Room.Value + c.Preload.Value
		now.Spec.Clearance = 0.1 * mm // it is in there
		if now.Spring, errs[3] = c.Spring(data.Reference()); errs[3] == nil {
			now.Reason = now.Spec.Check(now.Spring)
		}
		s.Now = &now
	}
	return s, errors.Join(errs[:]...)
}

// Fits reports whether the fork takes the build and has room for it.
func (b build) Fits() bool { return b.Offered && b.Reason == nil }

// Answer is the build to take: what the fork has now, else one spring, which is less
// work than two. Where neither fits it is the first choice, and does not Fit.
func (s *study) Answer() build {
	first, second := s.One, s.Two
	if s.Now != nil && s.Now.Legs == 2 {
		first, second = second, first
	}
	if !first.Fits() && second.Fits() {
		return second
	}
	return first
}

// Habit is the free length that leaves no more to solid than the habit does.
func (b build) Habit() units.Length { return b.Spring.SolidLength() + b.Deflection() + habit }

// Load is the stress at full travel on its limit.
func (b build) Load() units.Share { return units.Share(1 / b.Spring.StaticFactor(b.Force())) }

// Stiffest is the highest rate at which a spring of this wire still fits, 0 if none does.
func (b build) Stiffest() units.Stiffness {
	k, _ := helical.Stiffest(b.Spec)
	return k
}

var (
	fault = regexp.MustCompile(`(?m)^\w+\.(\w+) = (.*?)( \(two springs.*)?$`) // the sheet has ways of its own
	words = strings.NewReplacer("FreeLength", "free length", "Rod", "rod inside", "Rate", "rate of a spring", "\n", "; ",
		"Bore", "bore", "OuterDiameterAtSolid", "diameter closed", "InnerDiameter", "inner diameter",
		"BindMargin", "left to solid", "ShearStress", "stress")
)

// Faults are the library's reasons against the build, one after the other.
func (b build) Faults() string {
	return words.Replace(fault.ReplaceAllString(b.Reason.Error(), "$1 $2"))
}

// OtherWires are three in which the build would fit, without those of outdated tables.
func (b build) OtherWires() string {
	var list []string
	for record := range data.Reference().Materials() {
		spec := b.Spec
		spec.Material, _ = record.Wire()
		if record.ID == b.Spec.Material.ID() || strings.HasSuffix(record.ID, "-earlier") {
			continue
		}
		if s, err := helical.Design(spec); err == nil && len(list) < 3 {
			list = append(list, fmt.Sprintf("%s (wire %.1f, %.0f long)", record.ID, s.Wire(), s.FreeLength()))
		}
	}
	return strings.Join(list, ", ")
}

// verdict is what is to be said of the build in a word or two.
func (b build) verdict() string {
	switch {
	case b.Reason != nil:
		return "does not fit"
	case !b.Offered:
		return "not this fork"
	}
	return "FITS"
}

// Table sets the builds that exist side by side.
func (s *study) Table() [][]string {
	var builds []build
	heads := []string{""}
	for i, b := range []*build{&s.One, &s.Two, s.Now} {
		if b != nil && b.Exists() {
			builds, heads = append(builds, *b), append(heads, [...]string{"one spring", "two springs", "now in it"}[i])
		}
	}
	rows := [][]string{heads}
	for _, r := range []struct {
		name, format string
		of           func(b build) any
	}{
		{"Rate of a spring", "%.2f", func(b build) any { return b.Spec.Rate }},
		{"Preload", "%.0f", func(b build) any { return b.Spec.Preload }},
		{"Wire", "%.1f", func(b build) any { return b.Spring.Wire() }},
		{"Outer diameter", "%.1f", func(b build) any { return b.Spring.OuterDiameter() }},
		{"  with the coils closed", "%.1f", func(b build) any { return b.Spring.OuterDiameterAtSolid() }},
		{"Inner diameter", "%.1f", func(b build) any { return b.Spring.InnerDiameter() }},
		{"Active coils", "%.1f", func(b build) any { return b.Spring.ActiveCoils() }},
		{"Solid length", "%.0f", func(b build) any { return b.Spring.SolidLength() }},
		{"Free length", "%.0f", func(b build) any { return b.Spring.FreeLength() }},
		{"  room for it", "%.0f", func(b build) any { return b.Spec.FreeLength }},
		{"Force at full travel", "%.0f", func(b build) any { return b.Force() }},
		{"Stress there", "%.0f", func(b build) any { return b.Spring.ShearStress(b.Force()) }},
		{"  limit, 0.56 of the strength", "%.0f", func(b build) any { return b.Spring.StaticLimit() }},
		{"Left to solid there", "%.0f", func(b build) any { return b.Spring.BindMargin(b.Deflection()) }},
		{"  asked for by 1.5·S_a", "%.0f", func(b build) any { return b.Spring.DynamicMinimumGap() }},
		{"Free length with 10 mm left", "%.0f", func(b build) any { return b.Habit() }},
		{"Mass in the fork", "%.2f", func(b build) any { return b.Spring.Mass() * units.Mass(b.Legs) }},
		{"Verdict", "%s", func(b build) any { return b.verdict() }},
	} {
		row := []string{r.name}
		for _, b := range builds {
			row = append(row, fmt.Sprintf(r.format, r.of(b)))
		}
		rows = append(rows, row)
	}
	return rows
}

// facts are what the sheet tells: the forks, the first that stands on one spring beside
// the first on two, and one spring against two in any room for the same preload.
func facts(studies []*study) map[string]any {
	all := map[string]any{"Forks": studies}
	for _, s := range studies {
		place := [...]string{1: "Single", 2: "Pair"}[s.Answer().Legs]
		if s.Answer().Fits() && all[place] == nil {
			all[place] = s
		}
		one, two, preload := s.One, s.Two, s.One.Spec.Preload
		if two.Spec.Preload != preload {
			preload = s.Fork.Kit.PreloadAim.Value
		}
		one.Spring, two.Spring = one.InAnyRoom(preload), two.InAnyRoom(preload)
		if !one.Exists() || !two.Exists() || all["ID"] != nil {
			continue
		}
		one.Spec.Preload, two.Spec.Preload = preload, preload
		all["ID"], all["One"], all["Two"] = s.Fork.ID, one, two
		all["Energy"] = one.Spring.Energy(one.Deflection())
		all["WireRatio"] = float64(one.Spring.Wire() / two.Spring.Wire())
		all["CoilRatio"] = one.Spring.ActiveCoils() / two.Spring.ActiveCoils()
		all["SolidRatio"] = float64(one.Spring.SolidLength() / two.Spring.SolidLength())
	}
	return all
}
