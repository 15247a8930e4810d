package setup

import (
	"cmp"
	"fmt"

	"example.org/forkcurve/spring"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/units"
)

// Sag is the travel a fork settles at under a load, at rest. Friction makes it
// a band.
type Sag struct {
	Load     units.Force  `json:"load"`     // on the fork axis
	Friction units.Force  `json:"friction"` // used for the band
	Middle   units.Length `json:"middle"`   // without friction, the mean a technician aims for
	High     units.Length `json:"high"`     // let down from above: the fork stays high, load − friction
	Low      units.Length `json:"low"`      // let up from below: the fork stays low, load + friction
}

// maxLoad on the axis of a fork, more than any landing.
const maxLoad = 20 * units.Kilonewton

// Sag settles the fork under a load on its axis, 0 to 20 kN. A load that the
// fork does not carry before the end of its stroke is a *units.RangeError; if
// only friction takes it there, Low is the stroke.
func (s *Setup) Sag(load units.Force) (Sag, error) {
	if !(load >= 0 && load <= maxLoad) {
		return Sag{}, &units.RangeError{Field: "load", Value: load, Want: fmt.Sprintf("0 N to %.0f", maxLoad)}
	}
	bottom, end := s.rest.Force(0), s.rest.Stroke()
	top := s.rest.Force(end)
	settled := func(load units.Force, guess units.Length) (units.Length, error) {
		switch {
		case load <= bottom:
			return 0, nil
		case load > top:
			return end, nil
		}
		if x, ok := s.rest.Equilibrium(float64(load), float64(guess)); ok {
			return units.Length(x), nil
		}
		return spring.Equilibrium(&s.rest, load) // which tells what is wrong
	}
	if !(load <= top) {
		_, err := spring.Equilibrium(&s.rest, load)
		return Sag{}, err
	}
	sag := Sag{Load: load, Friction: s.spec.Friction}
	var errs [3]error
	sag.Middle, errs[0] = settled(load, end*units.Length((load-bottom)/(top-bottom)))
	shift := units.Length(float64(sag.Friction) / float64(s.rest.Rate(sag.Middle))) // the edges lie about there
	sag.High, errs[1] = settled(load-sag.Friction, sag.Middle-shift)
	sag.Low, errs[2] = settled(load+sag.Friction, sag.Middle+shift)
	if err := cmp.Or(errs[0], errs[1], errs[2]); err != nil {
		return Sag{}, err
	}
	// Where there is next to no friction, three roots lie as their rounding has them.
	sag.High, sag.Low = min(sag.High, sag.Middle), max(sag.Low, sag.Middle)
	return sag, nil
}

// String is the sag and its band, as "66 mm (59 mm to 72 mm)".
func (s Sag) String() string { return fmt.Sprintf("%.0f (%.0f to %.0f)", s.Middle, s.High, s.Low) }

// Drift is what a change of air does to the sag.
type Drift struct {
	Here     Sag `json:"here"`     // as set up
	There    Sag `json:"there"`    // carried there and soaked, nothing touched
	Vented   Sag `json:"vented"`   // there, the trapped gas let out with the fork extended
	Refilled Sag `json:"refilled"` // there, let out and the air springs set to their readings again
}

// Drift carries the fork from the air it is in to other air.
func (s *Setup) Drift(load units.Force, there gas.Ambient) (Drift, error) {
	moved, err := s.At(there)
	if err != nil {
		return Drift{}, err
	}
	var d Drift
	for _, step := range []struct {
		sag *Sag
		set *Setup
	}{{&d.Here, s}, {&d.There, moved}, {&d.Vented, moved.Vented()}, {&d.Refilled, moved.Vented().Refilled()}} {
		if *step.sag, err = step.set.Sag(load); err != nil {
			return Drift{}, err
		}
	}
	return d, nil
}

// Change is by how much a sag exceeds the one as set up; positive: the fork
// sits lower.
func (d Drift) Change(s Sag) units.Length { return s.Middle - d.Here.Middle }
