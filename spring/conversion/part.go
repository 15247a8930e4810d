package conversion

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/helical"
	"example.org/forkcurve/units"
)

// ShelfCoil is a spring on the shelf, one for each leg that gets a coil: either a coil by
// its wire, or any main spring by its curve and the room it takes.
type ShelfCoil struct {
	Name string          // what a report calls it, no other coil's
	Rate units.Stiffness // of a coil, as labeled; zero: from the wire
	Wire helical.Spec    // of a coil; zero: not known

	Spread units.Share // standard uncertainty of the rate, 0 to 10 %, by its class or as measured; 0: that of Job.Known

	Spring spring.Spec // in place of Rate and Wire: progressive, of two rates, nested or measured, without preload
	Size   SpringSize  // of Spring
}

// SpringSize is the room a spring takes that is not known by its wire.
type SpringSize struct {
	FreeLength    units.Length  // 40 mm to 900 mm
	OuterDiameter units.Length  // 8 mm to 80 mm
	InnerDiameter units.Length  // 5 mm to OuterDiameter; zero: not known, which a leg with a guide refuses
	Mass          units.Mass    // 10 g to 5 kg
	Density       units.Density // of its material; zero: steel
}

// steel is the density where none is given.
const steel = 7850 * units.KilogramPerCubicMeter

// part is a spring of the shelf as a plan builds it in.
type part struct {
	ShelfCoil
	wire         *helical.Spring // nil: known by its curve
	rate         units.Stiffness // of a coil
	free         units.Length
	outer, inner units.Length // outer when closed; inner 0: not known
	metal        units.Volume
	mass         units.Mass
}

// origin is the field that says what the spring does.
func (s part) origin() string {
	if s.wire != nil {
		return "Wire"
	}
	return "Spring"
}

// spec is the spring at a preload.
func (s part) spec(preload units.Length) spring.Spec {
	if s.wire != nil {
		return spring.CoilSpec{Rate: s.rate, Preload: preload, FreeLength: s.free, SolidLength: s.wire.SolidLength()}
	}
	return s.Spring.(spring.Adjustable).Adjusted(1, preload)
}

// compressed is the force of the spring at a preload and a travel, or where its stroke ends before;
// NaN at 0 where it has none.
func (s part) compressed(preload, x units.Length) (units.Length, units.Force) {
	if s.wire != nil {
		x = min(x, s.free-s.wire.SolidLength()-preload)
		return x, units.Force(float64(s.rate) * float64(x+preload))
	}
	c, err := s.spec(preload).Curve(longestTravel)
	if err != nil {
		return 0, units.Force(math.NaN())
	}
	x = min(x, c.Stroke())
	return x, c.Force(x)
}

// softened is the spring at a preload with its rate times a factor.
func (s part) softened(preload units.Length, factor float64) spring.Spec {
	return s.spec(preload).(spring.Adjustable).Adjusted(factor, 0)
}

// mislabeled is the relative difference of label and wire.
func (s part) mislabeled() float64 { return math.Abs(float64(s.rate/s.wire.Rate()) - 1) }

// checkShelf reports what is wrong with the springs of the shelf, at a preload that may be wrong itself, and
// returns them.
func (j Job) checkShelf(f *check.Faults, preload bool) []part {
	if n := len(j.Shelf); n == 0 || n > MaxShelf {
		f.Report("Shelf", n, fmt.Sprintf("1 to %d coil springs", MaxShelf), "")
		return nil
	}
	guided := slices.ContainsFunc(j.Legs, func(l ConvertedLeg) bool { return l.Room.Guide > 0 })
	parts := make([]part, len(j.Shelf))
	for i, c := range j.Shelf {
		name := fmt.Sprintf("Shelf[%d]", i)
		if err := check.Text(c.Name); err != nil && c.Name != "" {
			f.Report(name+".Name", strconv.Quote(c.Name), "a name in one line", err.Error())
		}
		if first := slices.IndexFunc(j.Shelf, func(other ShelfCoil) bool { return other.Name == c.Name }); first < i {
			f.Report(name+".Name", c.Name, "a name of its own", fmt.Sprintf("Shelf[%d] has it", first))
		}
		one := check.Of("ShelfCoil")
		check.Between(one, "Spread", c.Spread, 0, 0.1)
		if c.Spring == nil {
			parts[i] = c.wound(one)
		} else {
			parts[i] = c.sized(one, guided)
		}
		if preload && one.Err() == nil { // it may still have no stroke at the least preload
			_, err := parts[i].spec(j.leastPreload()).Curve(longestTravel)
			one.Nest(parts[i].origin(), err)
		}
		f.Nest(name, one.Err())
	}
	return parts
}

// wound is a coil by its wire.
func (c ShelfCoil) wound(f *check.Faults) part {
	if c.Rate != 0 {
		check.Between(f, "Rate", c.Rate, LeastRate, MostRate)
	}
	if c.Size != (SpringSize{}) {
		f.Report("Size", "given", "no size of a coil by its wire", "it follows from the wire")
	}
	s, err := helical.New(c.Wire)
	f.Nest("Wire", err)
	if err != nil {
		return part{}
	}
	p := part{ShelfCoil: c, wire: &s, rate: c.Rate, free: s.FreeLength(), outer: s.OuterDiameterAtSolid(),
		inner: s.InnerDiameter(),
		metal: s.Volume(), mass: s.Mass()}
	if p.rate == 0 {
		p.rate = s.Rate()
	}
	return p
}

// sized is a spring by its curve.
func (c ShelfCoil) sized(f *check.Faults, guided bool) part {
	const mm = units.Millimeter
	if c.Rate != 0 || c.Wire != (helical.Spec{}) {
		f.Report("Spring", spring.Kind(c.Spring), "no rate and wire beside it",
			"either the curve says what the spring does, or the wire")
	}
	if _, ok := c.Spring.(spring.Adjustable); !ok {
		f.Report("Spring", spring.Kind(c.Spring), "a main spring, which takes a preload", "")
	} else if curve, err := c.Spring.Curve(longestTravel); err != nil {
		f.Nest("Spring", err)
	} else if _, measured := c.Spring.(spring.MeasuredSpec); !measured && curve.Force(0) != 0 {
		f.Report("Spring", curve.Force(0), "0 N at its free length", "the plan sets the preload")
	}
	s := c.Size
	check.Between(f, "Size.FreeLength", s.FreeLength, 40*mm, 900*mm)
	outer := check.Between(f, "Size.OuterDiameter", s.OuterDiameter, 8*mm, 80*mm)
	if outer && (s.InnerDiameter != 0 || guided) {
		check.Between(f, "Size.InnerDiameter", s.InnerDiameter, 5*mm, s.OuterDiameter)
	}
	check.Between(f, "Size.Mass", s.Mass, 10*units.Gram, 5*units.Kilogram)
	density := s.Density
	if density == 0 {
		density = steel
	}
	if !check.Between(f, "Size.Density", density, 1*units.GramPerMilliliter, 10*units.GramPerMilliliter) {
		return part{}
	}
	return part{ShelfCoil: c, free: s.FreeLength, outer: s.OuterDiameter, inner: s.InnerDiameter, mass: s.Mass,
		metal: units.Volume(float64(s.Mass) / float64(density))}
}

// longestTravel is that of a fork, on which the stroke of a spring is looked at.
const longestTravel = 400 * units.Millimeter

// bindMargin is what is left of the spring at full travel: of a coil by its wire above the
// solid length, of others of their stroke. A spring that binds nowhere in the longest of
// forks has the margin advised.
func (p *planner) bindMargin(s part, preload units.Length) (margin, advised units.Length) {
	advised = LeastBindMargin + BindMarginShare*p.Fork.Travel
	if s.wire != nil {
		return s.wire.BindMargin(p.Fork.Travel + preload), max(s.wire.DynamicMinimumGap(), advised)
	}
	c, err := s.spec(preload).Curve(longestTravel)
	if err != nil {
		return 0, advised
	}
	if c.Stroke() < longestTravel {
		return c.Stroke() - p.Fork.Travel, advised
	}
	return max(longestTravel-p.Fork.Travel, advised), advised
}

var errNoStroke = errors.New("the spring has no stroke at this preload")

// equivalent is the constant rate that would do what the spring does, by the criterion of
// the job and at that preload: of a coil its rate.
func (p *planner) equivalent(s part, preload units.Length) (units.Stiffness, error) {
	if s.wire != nil {
		return s.rate, nil
	}
	c, err := s.spec(preload).Curve(p.Fork.Travel)
	if err != nil {
		return 0, err
	}
	if !(c.Stroke() > 0) {
		return 0, errNoStroke
	}
	switch p.Criterion {
	case SagForce:
		x := min(p.goal, c.Stroke())
		return units.Stiffness(float64(c.Force(x)) / float64(x+preload)), nil
	case Energy:
		return constantRate(c.Energy(min(p.depth(0.9), c.Stroke())), min(p.depth(0.9), c.Stroke()), preload), nil
	}
	return p.leastSquares(0, preload, func(x units.Length) units.Force { return c.Force(min(x, c.Stroke())) }), nil
}
