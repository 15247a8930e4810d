package geometry

import (
	"fmt"
	"math"

	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Riders in kit that the library takes, from a child to more than any machine is set up for.
const (
	LightestRider = 15 * units.Kilogram
	HeaviestRider = 200 * units.Kilogram
)

// Chassis is the part of the machine that decides what load reaches the fork.
type Chassis struct {
	Rake        units.Angle  // steering axis from the vertical, 10° to 45°
	Offset      units.Length // total offset: clamp offset plus axle lead, −20 mm to 120 mm
	WheelRadius units.Length // front, 100 mm to 450 mm
	Wheelbase   units.Length // 700 mm to 2000 mm

	Mass             units.Mass   // machine ready to ride, 4 kg to 600 kg
	UnsprungMass     units.Mass   // front wheel, brake and sliding tubes, 0.5 kg to 40 kg
	FrontShare       units.Share  // of the machine's weight on the front wheel, 20 % to 80 %
	FrontShareRidden units.Share  // the same with the rider in stance, 20 % to 80 %
	CenterOfGravity  units.Length // height with rider, 300 mm to 1500 mm
}

// Validate reports every field out of range, and a front wheel that would carry less than its own unsprung mass by
// either share of the machine alone: a rider then always loads the fork.
func (c Chassis) Validate() error {
	f := check.Of("Chassis")
	check.Between(f, "Rake", c.Rake, 10*units.Degree, 45*units.Degree)
	check.Between(f, "Offset", c.Offset, -20*units.Millimeter, 120*units.Millimeter)
	check.Between(f, "WheelRadius", c.WheelRadius, 100*units.Millimeter, 450*units.Millimeter)
	check.Between(f, "Wheelbase", c.Wheelbase, 700*units.Millimeter, 2*units.Meter)
	mass := check.Between(f, "Mass", c.Mass, 4*units.Kilogram, 600*units.Kilogram)
	unsprung := check.Between(f, "UnsprungMass", c.UnsprungMass, 0.5*units.Kilogram, 40*units.Kilogram)
	shares := check.Between(f, "FrontShare", c.FrontShare, 0.2, 0.8)
	shares = check.Between(f, "FrontShareRidden", c.FrontShareRidden, 0.2, 0.8) && shares
	check.Between(f, "CenterOfGravity", c.CenterOfGravity, 300*units.Millimeter, 1500*units.Millimeter)
	switch alone, ridden := c.Mass*units.Mass(c.FrontShare), c.Mass*units.Mass(c.FrontShareRidden); {
	case !mass || !unsprung || !shares:
	case c.UnsprungMass >= alone:
		f.Report("UnsprungMass", c.UnsprungMass, fmt.Sprintf("below the mass on the front wheel, %.6g", alone), "")
	case c.UnsprungMass >= ridden:
		f.Report("FrontShareRidden", c.FrontShareRidden,
			fmt.Sprintf("above %.3g, so that the front wheel carries its own mass", units.Share(c.UnsprungMass/c.Mass)),
			"")
	}
	return f.Err()
}

// Load is how a mass becomes a force on the fork axis.
type Load struct {
	Mass     units.Mass  `json:"mass"`     // of machine and rider
	Wheel    units.Force `json:"wheel"`    // vertical load on the front wheel
	Unsprung units.Force `json:"unsprung"` // weight the fork does not carry
	Sprung   units.Force `json:"sprung"`   // Wheel − Unsprung
	Axial    units.Force `json:"axial"`    // Sprung·cos ε, what the fork's springs hold up at rest
}

// MachineLoad is the load of the machine alone.
func (c Chassis) MachineLoad() Load { return c.load(c.Mass, c.FrontShare) }

// RiddenLoad is the load with a rider of that mass, kit included, in stance.
func (c Chassis) RiddenLoad(rider units.Mass) Load {
	return c.load(c.Mass+rider, c.FrontShareRidden)
}

func (c Chassis) load(total units.Mass, share units.Share) Load {
	const g = float64(units.StandardGravity)
	wheel := units.Force(float64(total) * float64(share) * g)
	unsprung := units.Force(float64(c.UnsprungMass) * g)
	return Load{
		Mass:     total,
		Wheel:    wheel,
		Unsprung: unsprung,
		Sprung:   wheel - unsprung,
		Axial:    c.AxialLoad(wheel, 0),
	}
}

// AxialLoad is the quasi-static force along the fork axis under a vertical front wheel load and a braking force at
// the contact patch: (wheel − m_u·g)·cos ε + braking·sin ε.
func (c Chassis) AxialLoad(wheel, braking units.Force) units.Force {
	sprung := wheel - units.Force(c.UnsprungMass)*units.Force(units.StandardGravity)
	return sprung*units.Force(math.Cos(float64(c.Rake))) + braking*units.Force(math.Sin(float64(c.Rake)))
}

// Trail is the ground trail (R·sin ε − o) / cos ε.
func (c Chassis) Trail() units.Length {
	sin, cos := math.Sincos(float64(c.Rake))
	return (c.WheelRadius*units.Length(sin) - c.Offset) / units.Length(cos)
}

// NormalTrail is the mechanical trail, square to the steering axis: trail·cos ε.
func (c Chassis) NormalTrail() units.Length {
	return c.Trail() * units.Length(math.Cos(float64(c.Rake)))
}

// Lowered is the chassis after the front has sunk by dx along the fork axis with the rear unchanged: the machine
// pitches by dx·cos ε / w, which takes that much off the rake. Good to a few percent for |dx| below 0.1·w; the
// wheelbase is left as it is.
func (c Chassis) Lowered(dx units.Length) Chassis {
	c.Rake -= units.Angle(float64(dx/c.Wheelbase) * math.Cos(float64(c.Rake)))
	return c
}

// WheelRate is the vertical stiffness at the wheel of a fork whose axial stiffness is k: k / cos² ε.
func (c Chassis) WheelRate(k units.Stiffness) units.Stiffness {
	cos := math.Cos(float64(c.Rake))
	return k / units.Stiffness(cos*cos)
}

// Frequency of the body on the fork: √(k_w/m) / 2π, with the wheel rate of an axial stiffness k and the sprung mass
// behind the load.
func (c Chassis) Frequency(k units.Stiffness, l Load) units.Frequency {
	sprung := float64(l.Sprung) / float64(units.StandardGravity)
	return units.Frequency(math.Sqrt(float64(c.WheelRate(k))/sprung) / (2 * math.Pi))
}
