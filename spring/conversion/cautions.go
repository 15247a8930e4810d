package conversion

import (
	"fmt"

	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// Cautions are the usual ones of work on a fork, as it is filled, and of its first ride.
func Cautions(fork *setup.Setup) []string { return cautions(fork, false, units.Style{}) }

// cautions are those of a conversion as well, where an air spring is taken out.
func cautions(fork *setup.Setup, converted bool, style units.Style) []string {
	list := make([]string, 0, 16)
	add := func(text string) { list = append(list, text) }
	present := Job{Present: fork.Spec()}
	_, onAir := present.Fill()
	precharged := present.Precharged()
	if onAir {
		add("Stored pressure" + stored(fork, style) + ". Wheel off the ground, release every chamber at its valve, " +
			"then take " +
			"the cores out, before any cap is loosened. A fork that stays down may still hold pressure. Face and " +
			"hands off the axis of the cap.")
	}
	if precharged {
		add("Stored pressure over the oil: let the precharge out at its valve, wheel off the ground and fork " +
			"extended, before any cap is loosened. Face and hands off the axis of the cap.")
	}
	if s := present.Present; s.Left.Damper != nil || s.Right.Damper != nil {
		add("The dampers hold gas and oil under pressure whatever is done to the springs. Open one only with its " +
			"pressure released, as its maker says.")
	}
	if onAir || precharged {
		add("Refill with air or nitrogen only, by a fork pump with a gauge, never above the marked maximum. Never " +
			"oxygen.")
	}
	add("Cap and collar are under spring preload. Hold the cap, lower slowly, use the proper holder or compressor, " +
		"wear eye protection.")
	add("Never cut, grind, heat or straighten a spring or a tube; never reuse a part that has set, cracked or scored.")
	if onAir && converted {
		add("A vacated air leg must not pump: take the piston out or leave its valve open as the kit's maker says.")
	}
	add("Do not run a leg without the oil or grease it is made for.")
	add("Before closing, cycle the fork through its whole stroke with the springs out and measure the travel; it " +
		"must be metal to metal as specified.")
	add("Support the machine so that it cannot fall. Bleed trapped gas only with the wheel off the ground and the " +
		"fork extended.")
	add("Axle, pinch bolts and brake caliper by the maker's torque and sequence. Before riding: wheel turns, brake " +
		"bites, hoses reach, tire clears at full travel.")
	add("First ride slow, flat and near. Check fasteners, leaks, sag and the travel marker after 10 to 20 minutes " +
		"and after the first hour.")
	add("Computed values are starting points for a generic fork. The maker's manual, local codes and licensed " +
		"practice prevail.")
	return list
}

// Fill is the gauge reading of the present air spring; false for a fork without one.
func (j Job) Fill() (gas.Fill, bool) {
	for _, leg := range []setup.Leg{j.Present.Left, j.Present.Right} {
		if leg.Air != nil {
			return leg.Air.Fill, true
		}
	}
	return gas.Fill{}, false
}

// Precharged reports gas pumped in over the oil of the present fork.
func (j Job) Precharged() bool {
	for _, leg := range []setup.Leg{j.Present.Left, j.Present.Right} {
		if leg.Gap != nil && leg.Gap.Gauge != (units.GaugePressure{}) {
			return true
		}
	}
	return false
}

// stored says how much energy the charged air springs hold, with the gas in every chamber
// as the port and the readings left it.
func stored(fork *setup.Setup, style units.Style) string {
	spaces, err := fork.Spaces(0, gas.Isothermal)
	if err != nil {
		return ""
	}
	total := 0.0
	for _, s := range spaces {
		if s.Chamber == setup.OverOil || s.Chamber == setup.Reservoir {
			continue
		}
		energy, err := s.Gas.StoredEnergy(fork.Ambient())
		if err != nil {
			return ""
		}
		total += energy.In(units.Joule)
	}
	return fmt.Sprintf(": the charged air spring holds about %.0f", style.Shown(units.Energy(total)))
}
