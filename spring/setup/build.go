package setup

import (
	"errors"
	"fmt"
	"slices"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// New closes the fork. It reports every fault of the specification at once.
func New(s Spec) (*Setup, error) {
	springs, err := s.check()
	if err != nil {
		return nil, err
	}
	set := new(Setup)
	if err := set.assemble(s.Clone(), together(springs), nil); err != nil {
		return nil, err
	}
	return set, nil
}

// check reports every fault, and makes the springs of both legs on the way.
func (s Spec) check() (springs []spring.Curve, err error) {
	f := check.Of("Spec")
	travel := s.Travel
	if !check.Between(f, "Travel", travel, 20*units.Millimeter, 400*units.Millimeter) {
		travel = 20 * units.Millimeter // to look at the rest
	}
	check.Between(f, "Friction", s.Friction, 0, MostFriction)
	f.Nest("Closed", s.Closed.Validate())
	springs, err = s.Left.check(travel, springs)
	f.Nest("Left", err)
	springs, err = s.Right.check(travel, springs)
	f.Nest("Right", err)
	return springs, f.Err()
}

func (l Leg) check(travel units.Length, springs []spring.Curve) ([]spring.Curve, error) {
	f := check.Of("Leg")
	for i, spec := range l.Springs {
		if spec == nil {
			f.Report(fmt.Sprintf("Springs[%d]", i), "none", "a spring", "")
			continue
		}
		c, err := spec.Curve(travel)
		if err != nil {
			f.Nest(fmt.Sprintf("Springs[%d]", i), err)
		}
		springs = append(springs, c)
	}
	if l.Air != nil {
		f.Nest("Air", l.Air.validate(travel))
	}
	if l.Damper != nil {
		f.Nest("Damper", l.Damper.validate(travel))
	}
	if l.Gap != nil {
		f.Nest("Gap", l.Gap.validate(travel))
	}
	return springs, f.Err()
}

// together is what springs do in one fork, nil where there are none.
func together(springs []spring.Curve) spring.Curve {
	if len(springs) == 0 {
		return nil
	}
	return spring.Parallel(springs...)
}

// assemble puts a fork together from a specification that has been checked and its springs, with its gas in the
// room that is lent, if there is enough.
func (s *Setup) assemble(spec Spec, springs spring.Curve, room []space) error {
	*s = Setup{spec: spec, ambient: spec.Closed, springs: springs}
	both := slices.Grow(room[:0], s.spec.spaces())
	for i, l := range s.spec.legs() {
		spaces, err := l.closed(both[len(both):], spec.Travel, spec.Closed)
		if err != nil {
			return err
		}
		s.legs[i], both = slices.Clip(spaces), both[:len(both)+len(spaces)]
	}
	s.sum(&s.rest, 0, gas.Isothermal)
	return s.check()
}

// spaces counts those of both legs.
func (s *Spec) spaces() (n int) {
	for _, l := range s.legs() {
		if l.Air != nil {
			for _, volume := range chambersOf(l.Air) {
				if *volume != 0 {
					n++
				}
			}
		}
		if l.Damper != nil {
			n++
		}
		if l.Gap != nil {
			n++
		}
	}
	return n
}

// closed is the gas of a leg, filled in the air of each fill and closed here, added to an empty list.
func (l *Leg) closed(list []space, travel units.Length, here gas.Ambient) ([]space, error) {
	set := func(to []space, by gas.Fill) error {
		added := to[len(list):]
		for i := range added {
			added[i].gas.Pressure, added[i].gas.Temperature = by.Absolute(), by.Ambient.Temperature
		}
		list = to
		return fill(added, by.Ambient)
	}
	var errs [3]error
	if l.Air != nil {
		errs[0] = set(l.Air.spaces(list), l.Air.Fill)
	}
	if l.Damper != nil {
		errs[1] = set(append(list, l.Damper.space()), l.Damper.Fill)
	}
	if l.Gap != nil {
		errs[2] = set(append(list, l.Gap.space(travel)), gas.Fill{Gauge: l.Gap.Gauge, Ambient: here})
	}
	if err := errors.Join(errs[:]...); err != nil {
		return nil, err
	}
	return list, heat(list, here.Temperature)
}
