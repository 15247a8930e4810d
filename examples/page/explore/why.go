package explore

import (
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Why is the arithmetic of the point under the cursor, by hand, and the laws it rests on. What the records say is in
// [Records].
type Why struct {
	Units string // that the arithmetic is in
	Forks []Reckoning
	Laws  []string // with their sources
}

// Reckoning is that of one fork, whose record has that id.
type Reckoning struct {
	Name, ID string
	Steps    []Step
}

// Step is a line of arithmetic: what it finds, and how.
type Step struct{ Name, Sum, Result string }

var laws = []string{
	"p·V stays the same in a closed gas at rest, p·Vⁿ in one that moves fast: ideal gas law and polytropic process, " +
		"OpenStax University Physics, volume 2, chapter 3.",
	"Gauge = absolute − ambient pressure; F = (p − p_a)·A, the rate of a gas n·p·A²/V: the definition of pressure, and " +
		"its derivative.",
	"F = k·(x + preload): Hooke's law.",
	"n = 1.3 for a ridden fork: common practice, no source; 1.4 is air that loses no heat.",
	"Air pressure by altitude: ISO 2533 standard atmosphere, scaled with the weather at sea level.",
}

// Why works the point under the cursor out.
func (s State) Why() (Why, error) {
	w := Why{Units: hands[s.system()].words, Laws: laws}
	for i := range s.Forks {
		f, there, err := s.Fork(i)
		if err != nil {
			return w, err
		}
		if !there {
			continue
		}
		r := Reckoning{Name: f.Name, ID: f.Record.ID}
		if r.Steps, err = s.reckon(f); err != nil {
			return w, err
		}
		w.Forks = append(w.Forks, r)
	}
	return w, nil
}

// hand is the units of an arithmetic by hand. A pressure on an area is force newtons or pounds-force, and
// n·p·A²/V comes out in the unit of a rate without a factor in both: 1 bar·cm⁴/mL = 1 N/mm, 1 psi·in⁴/in³ = 1 lbf/in.
type hand struct {
	words                        string
	pressure                     units.Pressure
	area                         units.Area
	length                       units.Length // that an area sweeps a volume over
	volume                       units.Volume
	force                        float64
	weight                       string // of a unit of mass
	bar, ml, short, n, rate, arm string // names of the units; short is the length of springs, arm that of sweeps
}

var hands = [2]hand{
	{"Pressures in bar absolute, areas in cm², volumes in mL: 1 bar on 1 cm² is 10 N. A negative area pulls.",
		units.Bar, units.SquareCentimeter, units.Centimeter, units.Milliliter, 10, "·9.80665", "bar", "mL", "mm", "N",
		"N/mm", "cm"},
	{"Pressures in psi absolute, areas in in², volumes in in³: 1 psi on 1 in² is 1 lbf, and 1 lb weighs 1 lbf. A " +
		"negative area pulls.",
		units.PSI, units.SquareInch, units.Inch, units.CubicInch, 1, "", "psi", "in³", "in", "lbf", "lbf/in", "in"},
}

// reckon works a fork out. Numbers that are shown are those that were calculated with, rounded.
func (s State) reckon(f Fork) ([]Step, error) {
	var steps []Step
	say := func(name, sum, format string, result ...any) {
		minus := strings.NewReplacer("-", "−")
		steps = append(steps, Step{name, minus.Replace(sum), minus.Replace(fmt.Sprintf(format, result...))})
	}
	h, system := hands[s.system()], s.system()
	kg, newton, short, rates := kilograms[system].of, newtons[system].of, millimeters[system].of, rates[system].of
	c := f.Record.Chassis
	say("Load on the axis", fmt.Sprintf("((%.0f %s + %.0f %[2]s)·%.0[4]f %% − %.1[5]f %[2]s)%[6]s·cos(%.1[7]f°)",
		kg(c.Mass.Value), kilograms[system].unit, kg(s.Rider), 100*float64(c.FrontShareRidden.Value),
		kg(c.UnsprungMass.Value), h.weight, c.Rake.Value.In(units.Degree)), "%.0f %s", newton(f.Load), h.n)
	sag, err := f.Now.Sag(f.Load)
	if err != nil {
		return nil, err
	}
	x := min(s.Travel, f.Now.Curve(gas.Isothermal).Stroke())
	ridden := f.Now.CurveAbout(sag.Middle, s.Exponent)
	extended, err0 := f.Now.Spaces(0, gas.Isothermal)
	settled, err1 := f.Now.Spaces(sag.Middle, gas.Isothermal)
	here, err2 := f.Now.SpacesAbout(sag.Middle, x, s.Exponent)
	for _, err := range []error{err0, err1, err2} {
		if err != nil {
			return nil, err
		}
	}
	bars := func(p units.AbsolutePressure) float64 { return p.In(h.pressure) }
	pa := bars(f.Now.Ambient().Pressure)
	fine := 1 + system // digits of a length
	say("Sag, at rest", fmt.Sprintf("where the force at rest is the load; friction %.0f %s either way",
		newton(f.Now.Friction()), h.n),
		"%.*f %s (%.*f to %.*f)", fine, short(sag.Middle), h.short, fine, short(sag.High), fine, short(sag.Low))
	var total, slope []string
	for i, now := range here {
		before, then := extended[i].Gas, settled[i].Gas
		name := now.Side.String() + " " + chamberNames[now.Chamber]
		v0, vs, v := before.Volume.In(h.volume), then.Volume.In(h.volume), now.Gas.Volume.In(h.volume)
		p0, ps, p := bars(before.Pressure), bars(then.Pressure), bars(now.Gas.Pressure)
		area := now.Area.In(h.area)
		if now.Area != 0 {
			say(name+": V", fmt.Sprintf("%.*f − (%.3f %s²)·%.2f %[4]s", fine, v0, area, h.arm, x.In(h.length)),
				"%.*f %s", fine, v, h.ml)
		}
		if math.Abs(ps*vs/(p0*v0)-1) < 1e-9 {
			say("settled at the sag: p", fmt.Sprintf("%.3f·%.*f/%.*f", p0, fine, v0, fine, vs), "%.3f %s", ps, h.bar)
		} else {
			say("settled at the sag: p", "shares its gas or pressure with the chamber beside it", "%.3f %s", ps, h.bar)
		}
		switch {
		case now.Area == 0:
			say("moved fast: p", "cut off, or behind its piston", "%.3f %s", p, h.bar)
		case math.Abs(ps*math.Pow(vs/v, s.Exponent)/p-1) < 1e-9:
			say("moved fast: p", fmt.Sprintf("%.3f·(%.*f/%.*f)^%.2f", ps, fine, vs, fine, v, s.Exponent), "%.3f %s", p,
				h.bar)
		default:
			say("moved fast: p", "with the chamber behind the floating piston", "%.3f %s", p, h.bar)
		}
		if now.Area == 0 {
			continue
		}
		force := h.force * (p - pa) * area
		total = append(total, fmt.Sprintf("%.1f", force))
		factor := map[bool]string{true: "", false: fmt.Sprintf("%.0f·", h.force)}[h.force == 1]
		say("its force", fmt.Sprintf("%s(%.3f − %.3f)·(%.3f)", factor, p, pa, area), "%.1f %s", force, h.n)
		if math.Abs(ps*math.Pow(vs/v, s.Exponent)/p-1) < 1e-9 {
			rate := s.Exponent * p * area * area / v
			slope = append(slope, fmt.Sprintf("%.2f", rate))
			say("its rate", fmt.Sprintf("%.2f·%.3f·(%.3f)²/%.*f", s.Exponent, p, area, fine, v), "%.2f %s", rate, h.rate)
		}
	}
	for side, l := range []setup.Leg{f.Spec.Left, f.Spec.Right} {
		for _, spec := range l.Springs {
			curve, err := spec.Curve(f.Spec.Travel)
			if err != nil {
				return nil, err
			}
			sum := "by its own law"
			switch c := spec.(type) {
			case spring.CoilSpec:
				sum = fmt.Sprintf("%.2f %s·(%.*f + %.*f) %s", rates(c.Rate), h.rate, fine, short(x), fine, short(c.Preload),
					h.short)
			case spring.TopOutSpec:
				sum = fmt.Sprintf("−%.2f %s·(%.*f − %.*f) %s, 0 beyond", rates(c.Rate), h.rate, fine, short(c.Length), fine,
					short(x), h.short)
			}
			force := newton(curve.Force(x))
			total = append(total, fmt.Sprintf("%.1f", force))
			slope = append(slope, fmt.Sprintf("%.2f", rates(curve.Rate(x))))
			say(setup.Side(side).String()+" "+spring.Kind(spec), sum, "%.1f %s", force, h.n)
		}
	}
	joule := joules[system]
	say("Force of the fork", added(total), "%.1f %s", newton(ridden.Force(x)), h.n)
	say("Rate of the fork", added(slope), "%.2f %s", rates(ridden.Rate(x)), h.rate)
	say("Energy to here", fmt.Sprintf("ten strips of %.*f %s, each with the force in its middle: %.1f %s", fine,
		short(x)/10, h.short, joule.of(strips(ridden, x)), joule.unit),
		"%.1f %s", joule.of(ridden.Energy(x)), joule.unit)
	return steps, nil
}

// added is a sum, with the minus of what pulls.
func added(terms []string) string {
	return strings.ReplaceAll(strings.Join(terms, " + "), "+ -", "− ")
}

// strips is the area under the force in ten strips.
func strips(c spring.Curve, x units.Length) units.Energy {
	sum := 0.0
	for i := range 10 {
		sum += float64(c.Force(x*units.Length(float64(i)+0.5)/10)) * float64(x) / 10
	}
	return units.Energy(sum)
}
