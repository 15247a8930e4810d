package main

import (
	"example.org/forkcurve/spring/fit"
	"example.org/forkcurve/units"
)

// What the demo record was made with, whole fork.
const (
	madeFork     = "M06"
	madeRate     = 9.6 * units.NewtonPerMillimeter
	madePreload  = 7.5 * units.Millimeter
	madeGap      = 1.31 * units.Liter
	madeExponent = 1.1
	madeFriction = 58 * units.Newton
)

// asMade tells whether the demo is fitted as the fork it was made of, where it was
// made.
func (j *job) asMade() bool {
	return j.demo && j.fork.ID == madeFork && j.leg == "both" && j.altitude == 0
}

// made is a parameter of the demo in SI.
func made(p fit.Parameter) float64 {
	switch p {
	case fit.Rate:
		return float64(madeRate)
	case fit.Preload:
		return float64(madePreload)
	case fit.GapVolume:
		return float64(madeGap)
	case fit.Exponent:
		return madeExponent
	}
	return float64(madeFriction)
}
