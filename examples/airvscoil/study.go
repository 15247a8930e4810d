package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"example.org/forkcurve/data"
	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

const (
	mm  = units.Millimeter
	cm  = units.Centimeter
	mL  = units.Milliliter
	cm2 = units.SquareCentimeter
	npm = units.NewtonPerMillimeter
)

// study is the two forks, set up in the same air.
type study struct {
	air, coil fork
	here      gas.Ambient
	hot, up   gas.Ambient // the worked day and place
	ride      float64     // exponent of the ridden gas
	loop      loop
}

// fork is one of them with its rider on.
type fork struct {
	data.Fork
	flag  string // that named it
	spec  setup.Spec
	set   *setup.Setup
	rider units.Mass
	load  units.Force
	sag   setup.Sag
	// settled is the sag to a tenth of a millimeter, as a student writes it down.
	settled units.Length
	spaces  []space // its gas, at rest there
}

func newStudy(air, coil string, rider units.Mass) (*study, error) {
	s := &study{}
	var err error
	if s.here, err = gas.StandardAt(0, units.Celsius(20)); err != nil {
		return nil, err
	}
	s.hot = s.warmed(hotDay)
	if s.up, err = s.lifted(mountain); err != nil {
		return nil, err
	}
	typical, err := data.Reference().Gas("air")
	if err != nil {
		return nil, err
	}
	s.ride = typical.Ride.Value
	var airErr, coilErr error
	s.air, airErr = s.fork("-air", air, data.AirLeg, rider)
	s.coil, coilErr = s.fork("-coil", coil, data.CoilLeg, rider)
	if err := errors.Join(airErr, coilErr); err != nil {
		return nil, err
	}
	for _, f := range []*fork{&s.air, &s.coil} {
		if err = f.breathe(); err != nil {
			return nil, fmt.Errorf("%s: %s: %w", f.flag, f.ID, err)
		}
	}
	s.loop, err = s.newLoop()
	return s, err
}

// fork looks one up and sets it up; it must stand on that kind of spring.
func (s *study) fork(flag, id string, kind data.Role, rider units.Mass) (fork, error) {
	record, err := data.Reference().Fork(strings.TrimSpace(id))
	if err != nil {
		return fork{}, fmt.Errorf("%s: %w", flag, err)
	}
	if record.Spring() != kind {
		words := map[data.Role]string{data.AirLeg: "air", data.CoilLeg: "coil springs"}
		return fork{}, fmt.Errorf("%s: %s is the %q, on %s; here belongs a fork on %s, as %s",
			flag, record.ID, record.Name, words[record.Spring()], words[kind], strings.Join(alike(record, kind), ", "))
	}
	if record.Left.Compound.Kind != "" {
		return fork{},
			fmt.Errorf("%s: %s has springs of more than one rate, which no formula here is for; take another, as %s",
				flag, record.ID, strings.Join(alike(record, kind), ", "))
	}
	if rider == 0 {
		rider = record.Rider.Mass.Value
	}
	f := fork{Fork: record, flag: flag, spec: record.Spec(s.here), rider: rider, load: record.Load(rider)}
	if f.set, err = setup.New(f.spec); err != nil {
		return fork{}, fmt.Errorf("%s: %s: %w", flag, record.ID, err)
	}
	if f.sag, err = f.set.Sag(f.load); err != nil {
		return fork{}, fmt.Errorf("%s: %s under a rider of %.0f: %w", flag, record.ID, rider, err)
	}
	f.settled = units.Length(math.Round(f.sag.Middle.In(mm)*10)) * mm / 10
	if f.settled < 1*mm || f.settled > f.set.Travel()-1*mm {
		return fork{}, fmt.Errorf("%s: %s under a rider of %.0f: %w", flag, record.ID, rider,
			&units.RangeError{Field: "sag", Value: f.settled, Want: "1 mm or more from either end of the travel",
				Hint: "another rider mass shows more"})
	}
	return f, nil
}

// alike are forks on that kind of spring, those for the same use first.
func alike(f data.Fork, kind data.Role) []string {
	var same, other []string
	for g := range data.Reference().Forks(data.SprungBy(kind)) {
		if g.Left.Compound.Kind != "" {
			continue
		}
		if g.Use == f.Use {
			same = append(same, g.ID)
		} else {
			other = append(other, g.ID)
		}
	}
	all := append(same, other...)
	return all[:min(5, len(all))]
}

// rest is the fork moved slowly, ridden the fork that has settled under its rider and moves fast from there.
func (f *fork) rest() spring.Curve { return f.set.Curve(gas.Isothermal) }

func (f *fork) ridden(n float64) spring.Curve { return f.set.CurveAbout(f.settled, n) }

// deep is the travel of the second worked point, three quarters to the millimeter.
func (f *fork) deep() units.Length {
	return units.Length(math.Round(0.75*f.set.Travel().In(mm))) * mm
}

// sagOf is the sag of the fork in another state; false if it does not carry the rider there.
func (f *fork) sagOf(s *setup.Setup, err error) (units.Length, bool) {
	if err != nil {
		return 0, false
	}
	sag, err := s.Sag(f.load)
	return sag.Middle, err == nil
}

// trapped reports whether gas is trapped beside the springs.
func (f *fork) trapped() bool { return f.spec.Left.Gap != nil || f.spec.Right.Gap != nil }

// airSpring is the air spring of one leg, and in how many legs there is one.
func (f *fork) airSpring() (setup.Air, int) {
	var a setup.Air
	n := 0
	for _, l := range f.legs() {
		if l.Air != nil {
			a = *l.Air
			n++
		}
	}
	return a, n
}

func (f *fork) legs() []setup.Leg { return []setup.Leg{f.spec.Left, f.spec.Right} }
