package main

import (
	"fmt"

	"example.org/forkcurve/spring/conversion/jobfile"
	"example.org/forkcurve/spring/gas"
	"example.org/forkcurve/spring/setup"
	"example.org/forkcurve/units"
)

// cautions are the usual ones of this work.
func cautions(file *jobfile.File) []string {
	var list []string
	if file.Fill != (gas.Fill{}) {
		list = append(list,
			"Stored pressure"+stored(file)+". Wheel off the ground, release every chamber at its valve, then take the cores out, before any cap is loosened. A fork that stays down may still hold pressure. Face and hands off the axis of the cap.",
			"Refill with air or nitrogen only, by a fork pump with a gauge, never above the marked maximum. Never oxygen.")
	}
	return append(list,
		"Cap and collar are under spring preload. Hold the cap, lower slowly, use the proper holder or compressor, wear eye protection.",
		"Never cut, grind, heat or straighten a spring or a tube; never reuse a part that has set, cracked or scored.",
		"A vacated air leg must not pump: take the piston out or leave its valve open as the kit's maker says. Do not run a leg without oil.",
		"Before closing, cycle the fork through its whole stroke with the springs out and measure the travel; it must be metal to metal as specified.",
		"Support the machine so that it cannot fall. Bleed trapped gas only with the wheel off the ground and the fork extended.",
		"Tighten axle, pinch bolts and brake caliper to the maker's torque and sequence; check that the wheel turns, the brake bites, hoses reach and the tire clears at full travel before riding.",
		"First ride slow, flat and near. Check fasteners, leaks, sag and the travel marker after 10 to 20 minutes and after the first hour.",
		"Computed values are starting points for a generic fork. The maker's manual, local codes and licensed practice prevail.")
}

// stored says how much energy the charged positive chambers hold.
func stored(file *jobfile.File) string {
	total := 0.0
	for _, leg := range []setup.Leg{file.Job.Present.Left, file.Job.Present.Right} {
		if leg.Air == nil {
			continue
		}
		state, err := file.Fill.State(leg.Air.Volume)
		if err != nil {
			return ""
		}
		energy, err := state.StoredEnergy(file.Fill.Ambient)
		if err != nil {
			return ""
		}
		total += energy.In(units.Joule)
	}
	return fmt.Sprintf(": the charged air spring holds about %.0f J", total)
}
