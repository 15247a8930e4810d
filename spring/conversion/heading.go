package conversion

import (
	"fmt"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Heading is what a sheet calls the job and its parts. Any of it may be left out:
// no number of the plan depends on it.
type Heading struct {
	Title      string      // of the sheet
	Stance     string      // in which sag is read, as "standing"
	Discipline string      // in words, as "motocross, full size"
	Fork       string      // a short name, as "M07"
	ForkName   string      // in words
	Workshop   Place       // where the legs are closed
	Event      Place       // where the fork is taken
	Oil        string      // of the converted legs, with its grade
	Invented   bool        // the rider, the readings and the shelf are made up, as those of an example
	Designed   bool        // the shelf is a row of springs designed for the fork, not what somebody has
	Units      units.Style // in which sheet and findings show quantities
}

// Place is where a fork is, and when.
type Place struct {
	Name     string        // and when
	Altitude *units.Length `unit:"m"` // −500 m to 11 000 m; nil: not told
}

// Torque is one the technician wants on the sheet.
type Torque struct {
	Name  string       // of the fastener
	Value units.Torque // LeastTorque to MostTorque
	Unit  string       // it was written in, as "lbf·ft"; "": N·m
}

// checkHeading reports numbers that no sheet can say.
func (j Job) checkHeading(f *check.Faults) {
	for i, z := range []*units.Length{j.Heading.Workshop.Altitude, j.Heading.Event.Altitude} {
		if z != nil {
			check.Between(f, "Heading."+[]string{"Workshop", "Event"}[i]+".Altitude", *z, -500*units.Meter,
				11000*units.Meter)
		}
	}
	f.Nest("Heading.Units", j.Heading.Units.Validate())
	for i, t := range j.Torques {
		if t.Unit != "" && units.Written[units.Torque]("1 "+t.Unit) == "" {
			f.Report(fmt.Sprintf("Torques[%d].Unit", i), t.Unit, "a unit of torque", "")
		}
		check.Between(f, fmt.Sprintf("Torques[%d].Value", i), t.Value, LeastTorque, MostTorque)
	}
}
