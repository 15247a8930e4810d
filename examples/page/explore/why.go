package explore

import (
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Why is the arithmetic of the point under the cursor, by hand, and what it rests on.
type Why struct {
	Forks   []Reckoning
	Laws    []string // with their sources
	Sources []string // of the records' values
}

// Reckoning is that of one fork.
type Reckoning struct {
	Name    string
	Steps   []Step
	Entries []data.Entry // of the record
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
	w := Why{Laws: laws}
	sources := map[string]bool{}
	for i := range s.Forks {
		f, there, err := s.Fork(i)
		if err != nil {
			return w, err
		}
		if !there {
			continue
		}
		r := Reckoning{Name: f.Name}
		if r.Steps, err = s.reckon(f); err != nil {
			return w, err
		}
		for _, e := range f.Record.Values() {
			if e.Source == "" || s.Forks[i].ID == Planned && (strings.Contains(e.Key, ".air.") || strings.Contains(e.Key,
				".coil.")) {
				continue
			}
			r.Entries = append(r.Entries, e)
			if source, err := data.Reference().Source(e.Source); err == nil && !sources[e.Source] {
				sources[e.Source] = true
				w.Sources = append(w.Sources, fmt.Sprintf("%s: %s (%s)", e.Source, source.Document,
					strings.ReplaceAll(string(source.Kind), "-", " ")))
			}
		}
		w.Forks = append(w.Forks, r)
	}
	return w, nil
}

func (s State) reckon(f Fork) ([]Step, error) {
	var steps []Step
	say := func(name, sum, format string, result ...any) {
		steps = append(steps, Step{name, sum, fmt.Sprintf(format, result...)})
	}
	c := f.Record.Chassis
	say("Load on the axis", fmt.Sprintf("((%.0f kg + %.0f kg)·%.0f %% − %.1f kg)·9.80665·cos(%.1f°)",
		c.Mass.Value.In(units.Kilogram),
		s.Rider.In(units.Kilogram), 100*float64(c.FrontShareRidden.Value), c.UnsprungMass.Value.In(units.Kilogram),
		c.Rake.Value.In(units.Degree)), "%.0f", f.Load)
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
	pa := f.Now.Ambient().Pressure.In(units.Bar)
	say("Sag, at rest", fmt.Sprintf("where the force at rest is the load; friction %.0f N either way",
		f.Now.Friction().In(units.Newton)),
		"%.1f mm (%.1f to %.1f)", mm(sag.Middle), mm(sag.High), mm(sag.Low))
	var total, slope []string
	for i, now := range here {
		before, then := extended[i].Gas, settled[i].Gas
		name := now.Side.String() + " " + chamberNames[now.Chamber]
		v0, vs, v := ml(before.Volume), ml(then.Volume), ml(now.Gas.Volume)
		p0, ps, p := bars(before.Pressure), bars(then.Pressure), bars(now.Gas.Pressure)
		area := float64(now.Area) * 1e4
		if now.Area != 0 {
			say(name+": V", fmt.Sprintf("%.1f − (%.3f cm²)·%.2f cm", v0, area, x.In(units.Centimeter)), "%.1f mL", v)
		}
		if math.Abs(ps*vs/(p0*v0)-1) < 1e-9 {
			say("settled at the sag: p", fmt.Sprintf("%.3f·%.1f/%.1f", p0, v0, vs), "%.3f bar", ps)
		} else {
			say("settled at the sag: p", "shares its gas or pressure with the chamber beside it", "%.3f bar", ps)
		}
		switch {
		case now.Area == 0:
			say("moved fast: p", "cut off, or behind its piston", "%.3f bar", p)
		case math.Abs(ps*math.Pow(vs/v, s.Exponent)/p-1) < 1e-9:
			say("moved fast: p", fmt.Sprintf("%.3f·(%.1f/%.1f)^%.2f", ps, vs, v, s.Exponent), "%.3f bar", p)
		default:
			say("moved fast: p", "with the chamber behind the floating piston", "%.3f bar", p)
		}
		if now.Area == 0 {
			continue
		}
		force := 10 * (p - pa) * area
		total = append(total, fmt.Sprintf("%.1f", force))
		say("its force", fmt.Sprintf("10·(%.3f − %.3f)·(%.3f)", p, pa, area), "%.1f N", force)
		if math.Abs(ps*math.Pow(vs/v, s.Exponent)/p-1) < 1e-9 {
			rate := s.Exponent * p * area * area / v
			slope = append(slope, fmt.Sprintf("%.2f", rate))
			say("its rate", fmt.Sprintf("%.2f·%.3f·(%.3f)²/%.1f", s.Exponent, p, area, v), "%.2f N/mm", rate)
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
				sum = fmt.Sprintf("%.2f N/mm·(%.1f + %.1f) mm", c.Rate.In(units.NewtonPerMillimeter), mm(x), mm(c.Preload))
			case spring.TopOutSpec:
				sum = fmt.Sprintf("−%.2f N/mm·(%.1f − %.1f) mm, 0 beyond", c.Rate.In(units.NewtonPerMillimeter), mm(c.Length),
					mm(x))
			}
			force := curve.Force(x).In(units.Newton)
			total = append(total, fmt.Sprintf("%.1f", force))
			slope = append(slope, fmt.Sprintf("%.2f", curve.Rate(x).In(units.NewtonPerMillimeter)))
			say(setup.Side(side).String()+" "+spring.Kind(spec), sum, "%.1f N", force)
		}
	}
	say("Force of the fork", added(total), "%.1f N", ridden.Force(x).In(units.Newton))
	say("Rate of the fork", added(slope), "%.2f N/mm", ridden.Rate(x).In(units.NewtonPerMillimeter))
	say("Energy to here", fmt.Sprintf("ten strips of %.1f mm, each with the force in its middle: %.1f J", mm(x)/10,
		strips(ridden, x)),
		"%.1f J", ridden.Energy(x).In(units.Joule))
	return steps, nil
}

// added is a sum, with the minus of what pulls.
func added(terms []string) string {
	return strings.ReplaceAll(strings.Join(terms, " + "), "+ -", "− ")
}

// strips is the area under the force in ten strips.
func strips(c spring.Curve, x units.Length) float64 {
	sum := 0.0
	for i := range 10 {
		sum += float64(c.Force(x*units.Length(float64(i)+0.5)/10)) * float64(x) / 10
	}
	return sum
}

func ml(v units.Volume) float64             { return v.In(units.Milliliter) }
func bars(p units.AbsolutePressure) float64 { return p.In(units.Bar) }
