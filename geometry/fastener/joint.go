package fastener

import (
	"example.org/forkcurve/internal/check"
	"example.org/forkcurve/units"
)

// Joint is a preloaded bolt and what it clamps, as the axle clamps and the brake caliper of a fork have them.
type Joint struct {
	Bolt    units.Stiffness // of the bolt, 1 N/mm to 10⁸ N/mm
	Members units.Stiffness // of what it clamps, 1 N/mm to 10⁸ N/mm
}

// Validate reports every field out of range.
func (j Joint) Validate() error {
	f := check.Of("Joint")
	check.Between(f, "Bolt", j.Bolt, 1*units.NewtonPerMillimeter, 1e8*units.NewtonPerMillimeter)
	check.Between(f, "Members", j.Members, 1*units.NewtonPerMillimeter, 1e8*units.NewtonPerMillimeter)
	return f.Err()
}

// Share of an outer load that the bolt feels while the joint is closed: C = k_b/(k_b + k_m).
//
// Source: Mechanical Engineering Design, 9th edition, equations 8-22 to 8-24.
func (j Joint) Share() units.Share { return units.Share(j.Bolt / (j.Bolt + j.Members)) }

// Force in the bolt under an outer load that pulls the joint apart: preload + C·load while the members still touch,
// the load itself after.
func (j Joint) Force(preload, load units.Force) units.Force {
	return max(preload+units.Force(j.Share())*load, load)
}

// Opens is the load at which the joint opens: preload/(1 − C).
func (j Joint) Opens(preload units.Force) units.Force {
	return preload / units.Force(1-j.Share())
}
