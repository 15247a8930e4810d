package conversion

import (
	"example.org/forkcurve/oil"
	"example.org/forkcurve/units"
)

// Limits of a job; what lies outside is a slip of the pen.
const (
	LeastRideExponent = 1.05 // a ridden fork is faster than its heat; below, at rest is meant
	LeastRate         = 0.5 * units.NewtonPerMillimeter
	MostRate          = 100 * units.NewtonPerMillimeter
	MostPreload       = 60 * units.Millimeter
	LeastTorque       = 0.5 * units.NewtonMeter
	MostTorque        = 300 * units.NewtonMeter
)

// Limits behind the findings.
const (
	// LeastBindMargin is what must be left above solid length at full travel. Common
	// practice, no source: fork builders leave 5 mm to 10 mm. A careful one leaves
	// BindMarginShare of the travel more, and 1.5·S_a of EN 13906-1 (from memory).
	LeastBindMargin = 5 * units.Millimeter
	BindMarginShare = 0.02

	// GoodGapRatio is the compression ratio of the gas over the oil that the plan
	// fills up to, StopGapRatio the one it refuses.
	GoodGapRatio = oil.GoodRatio
	StopGapRatio = oil.MostRatio

	// CautionGapPressure and StopGapPressure bound the peak pressure over the oil,
	// above ambient. Common practice, no source.
	CautionGapPressure = 8 * units.Bar
	StopGapPressure    = 12 * units.Bar

	// LeastOil wets bushings and seals of a leg that is not greased. Common practice, no
	// source: the smallest fills of bicycle lowers are 5 mL.
	LeastOil = 1 * units.Milliliter

	// MaxShelf bounds the time a plan takes: no rack holds more.
	MaxShelf = 200

	// SpringClearance is the least diametral gap between spring and tube, or
	// spring and guide, where the job says none. Common practice, no source.
	SpringClearance = 1 * units.Millimeter

	// LeastPreload keeps the spring on its seats at full extension, whatever range
	// the job gives. Common practice, no source.
	LeastPreload = 1 * units.Millimeter

	// TopOutShare is the most preload force against the load of the machine alone.
	// Common practice, no source. Machines up to LightMachine, the bicycles, hardly
	// sag alone and are exempt.
	TopOutShare  = 0.6
	LightMachine = 30 * units.Kilogram

	// LabelTolerance is how far a label may be off the wire: grade 2 of EN 15800 is
	// of that size (from memory).
	LabelTolerance = 0.06

	// SealColdest and SealHottest bound the air a fork is taken to; nitrile seals stiffen
	// below and age above. From memory, by the usual compounds.
	SealColdest = -25.0 // °C
	SealHottest = 55.0  // °C, before the fork warms itself

	// RideHeightStep is the change of sag at which the fork's height in the clamps
	// wants correction. Common practice, no source.
	RideHeightStep = 5 * units.Millimeter

	// ReboundDepth is the share of travel from which the return speed is compared.
	ReboundDepth = 0.75

	// UsualRebound is the damping ratio in rebound that friction is held against, ReboundSpeed
	// the peak speed of everyday rebound. Common practice, no source.
	UsualRebound = 0.6
	ReboundSpeed = 0.5 * units.MeterPerSecond

	// EverydayShare of the travel is what a spring has to live through for good. Common practice,
	// no source.
	EverydayShare = 0.6

	// LeanFriction is what a spring that leans on its tube may add; lean of 0.1 the force on it.
	// Common practice, no source.
	LeanFriction        = 20 * units.Newton
	FrictionCoefficient = 0.1

	// HardBraking is a deceleration on loose ground, in g, by the front brake alone and short of
	// lifting the rear wheel, which LiftShare of it reaches; DiveShare of the travel is what it
	// may take. Common practice, no source.
	HardBraking = 0.6
	LiftShare   = 0.9
	DiveShare   = 0.9

	// BushFriction is the coefficient of coated bushes in oil, from memory 0.03 to 0.1. BindShare is
	// what their friction may hold of the force that compresses the fork. Common practice, no source.
	BushFriction = 0.06
	BindShare    = 0.25

	// LeakShare of its gas leaves an air spring with sound seals in a month. From memory: 1 to 3 % a week.
	LeakShare = 0.1

	// SideMomentShare is how much more a fork may be pushed to one side than the present one.
	// Common practice, no source.
	SideMomentShare = 1.1
	LeastMoment     = 10 * units.NewtonMeter

	// FillShare is how far a fill may lie outside those of the fork's record. Common practice, no
	// source.
	FillShare = 1.25

	// ReboundWindow is how many clicks an adjuster serves about its middle. Common
	// practice, no source.
	ReboundWindow = 6.0

	// PumpedPressure is what seals pump over the oil in a run. From memory: 0 to 0.3 bar.
	PumpedPressure = 0.2 * units.Bar

	// ExtensionStep is how near to full extension preload is read. Common practice, no source.
	ExtensionStep = 1 * units.Millimeter

	// FrictionStep and MassStep are changes that a rider notices. Common practice, no source.
	FrictionStep = 10 * units.Newton
	MassStep     = 0.5 * units.Kilogram

	// LeastClicks from closed keep the check of an adjuster from sticking. Common practice, no source.
	LeastClicks = 2

	// SetShare of its free length a spring may lose before it is changed; RecheckHours of riding pass
	// before sag is read again. Common practice, no source.
	SetShare     = 0.01
	RecheckHours = 5

	// DriftStep is the change of sag from weather and altitude that a rider notices.
	// Common practice, no source.
	DriftStep = 5 * units.Millimeter

	// ShortfallShare of the present energy to full travel may be missing unnoticed.
	ShortfallShare = 0.05

	// RateShare is how far the shelf may be off the rate asked for: one step of the
	// usual racks. Common practice, no source.
	RateShare = 0.04

	// CautionShare is what a caution weighs against the rate when the shelf is ranked: half a
	// step. Common practice, no source.
	CautionShare = RateShare / 2

	// FarRate is the factor either way at which a rate is not a choice but a mistake: one
	// for each leg taken for the fork's, or the other way round, is off by 2. Common
	// practice, no source: the rates of all riders of a machine lie within it.
	FarRate = 1.6

	// HottestRunning is beyond what oil and seals of a fork are made for; from memory.
	HottestRunning = 100.0 // °C

	// OilWarming is how much warmer than the workshop the oil gets when ridden. From
	// memory: 40 °C to 65 °C in use.
	OilWarming units.TemperatureDifference = 40

	// LengthSpread is the standard uncertainty of the free length of a spring less its solid one, as
	// a share of the free length. Common practice, no source: 95 % within 1 %.
	LengthSpread = 0.005

	// LeastInteriorSpread is the standard uncertainty of the inside of a leg that was
	// measured, by filling it and pouring out: common practice, no source.
	LeastInteriorSpread = 5 * units.Milliliter

	// LevelSpread is that of an oil level set with a syringe and read in a leg that stands
	// upright: 95 % of readings within 5 mm. Common practice, no source.
	LevelSpread = 2.5 * units.Millimeter

	// LeastFillSpread is that of a volume poured from a cylinder, with what sticks to it.
	// Common practice, no source: 95 % within 5 mL.
	LeastFillSpread = 2.5 * units.Milliliter
)
