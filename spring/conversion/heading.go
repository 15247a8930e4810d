package conversion

import (
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Heading is what a sheet calls the job and its parts. Any of it may be left out:
// no number of the plan depends on it.
type Heading struct {
	Title      string
	Stance     string // in which sag is read, as "standing"
	Discipline string // in words, as "motocross, full size"
	Fork       string // a short name, as "M07"
	ForkName   string // in words
	Workshop   Place
	Event      Place
}

// Place is where a fork is, and when.
type Place struct {
	Name     string
	Altitude *units.Length `unit:"m"` // −500 m to 11 000 m; nil: not told
}

// Torque is one the technician wants on the sheet.
type Torque struct {
	Name  string       // of the fastener
	Value units.Torque // LeastTorque to MostTorque
}

// checkHeading reports numbers that no sheet can say.
func (j Job) checkHeading(f *check.Faults) {
	for i, z := range []*units.Length{j.Heading.Workshop.Altitude, j.Heading.Event.Altitude} {
		if z != nil {
			check.Between(f, "Heading."+[]string{"Workshop", "Event"}[i]+".Altitude", *z, -500*units.Meter,
				11000*units.Meter)
		}
	}
	for i, t := range j.Torques {
		check.Between(f, fmt.Sprintf("Torques[%d].Value", i), t.Value, LeastTorque, MostTorque)
	}
}
