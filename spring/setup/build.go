package setup

import (
	"errors"
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// New closes the fork. It reports every fault of the specification at once.
func New(s Spec) (*Setup, error) {
	if err := s.validate(); err != nil {
		return nil, err
	}
	return s.clone().assemble()
}

func (s Spec) validate() error {
	f := check.Of("Spec")
	travel := s.Travel
	if !check.Between(f, "Travel", travel, 20*units.Millimeter, 400*units.Millimeter) {
		travel = 20 * units.Millimeter // to look at the rest
	}
	check.Between(f, "Friction", s.Friction, 0, MostFriction)
	f.Nest("Closed", s.Closed.Validate())
	f.Nest("Left", s.Left.validate(travel))
	f.Nest("Right", s.Right.validate(travel))
	return f.Err()
}

func (l Leg) validate(travel units.Length) error {
	f := check.Of("Leg")
	for i, spec := range l.Springs {
		if spec == nil {
			f.Report(fmt.Sprintf("Springs[%d]", i), "none", "a spring", "")
		} else if _, err := spec.Curve(travel); err != nil {
			f.Nest(fmt.Sprintf("Springs[%d]", i), err)
		}
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
	return f.Err()
}

// assemble puts a fork together from a specification that has been checked.
func (s Spec) assemble() (*Setup, error) {
	set := &Setup{spec: s, ambient: s.Closed}
	var springs []spring.Curve
	for i, l := range []Leg{s.Left, s.Right} {
		for _, spec := range l.Springs {
			c, err := spec.Curve(s.Travel)
			if err != nil {
				return nil, err
			}
			springs = append(springs, c)
		}
		var err error
		if set.legs[i], err = l.closed(s.Travel, s.Closed); err != nil {
			return nil, err
		}
	}
	if len(springs) > 0 {
		set.springs = spring.Parallel(springs...)
	}
	set.rest = set.sum(0, gas.Isothermal)
	return checked(set, nil)
}

// closed is the gas of a leg, filled in the air of each fill and closed here.
func (l Leg) closed(travel units.Length, here gas.Ambient) ([]space, error) {
	list := make([]space, 0, 5)
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
