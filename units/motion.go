package units

import "math"

// Time is a duration in seconds.
type Time float64

// Frequency is a rate of repetition in hertz: cycles, not radians, per second.
type Frequency float64

// Speed is a velocity along one axis in meters per second.
type Speed float64

// Flow is a volume of fluid per time in cubic meters per second.
type Flow float64

// Acceleration is an acceleration along one axis in meters per second squared.
type Acceleration float64

// Angle is a plane angle in radians.
type Angle float64

const gravity = 9.80665 // m/s², standard acceleration of free fall (3rd CGPM, 1901)

// Units of time.
const (
	Millisecond Time = 1e-3
	Second      Time = 1
	Minute      Time = 60
	Hour        Time = 3600
	Day         Time = 86400
)

// Units of frequency.
const (
	Hertz               Frequency = 1
	RevolutionPerMinute Frequency = 1.0 / 60
)

// Units of speed.
const (
	MeterPerSecond      Speed = 1
	MillimeterPerSecond Speed = 1e-3
	KilometerPerHour    Speed = 1000.0 / 3600
	MilePerHour         Speed = 5280 * 12 * inch / 3600
	Knot                Speed = 1852.0 / 3600
	InchPerSecond       Speed = inch
	FootPerSecond       Speed = 12 * inch
)

// Units of volume flow.
const (
	CubicMeterPerSecond Flow = 1
	MilliliterPerSecond Flow = 1e-6
	LiterPerMinute      Flow = 1e-3 / 60
)

// Units of acceleration.
const (
	MeterPerSecondSquared Acceleration = 1
	FootPerSecondSquared  Acceleration = 12 * inch
	StandardGravity       Acceleration = gravity
)

// Units of plane angle.
const (
	Radian Angle = 1
	Degree Angle = math.Pi / 180
)

var timeKind = kind{
	name: "Time", noun: "a time",
	units: []unit{
		{"s", float64(Second), nil},
		{"ms", float64(Millisecond), nil},
		{"min", float64(Minute), nil},
		{"h", float64(Hour), nil},
		{"d", float64(Day), nil},
	},
}

var frequencyKind = kind{
	name: "Frequency", noun: "a frequency",
	units: []unit{
		{"Hz", float64(Hertz), also{"1/s"}},
		{"1/min", float64(RevolutionPerMinute), also{"rpm"}},
	},
}

var speedKind = kind{
	name: "Speed", noun: "a speed",
	units: []unit{
		{"m/s", float64(MeterPerSecond), nil},
		{"mm/s", float64(MillimeterPerSecond), nil},
		{"km/h", float64(KilometerPerHour), nil},
		{"mph", float64(MilePerHour), nil},
		{"knot", float64(Knot), nil},
		{"in/s", float64(InchPerSecond), nil},
		{"ft/s", float64(FootPerSecond), nil},
	},
}

var flowKind = kind{
	name: "Flow", noun: "a flow",
	units: []unit{
		{"mL/s", float64(MilliliterPerSecond), also{"ml/s", "cm³/s", "cc/s"}},
		{"L/min", float64(LiterPerMinute), also{"l/min"}},
		{"m³/s", float64(CubicMeterPerSecond), nil},
	},
}

var accelerationKind = kind{
	name: "Acceleration", noun: "an acceleration",
	units: []unit{
		{"m/s²", float64(MeterPerSecondSquared), nil},
		{"ft/s²", float64(FootPerSecondSquared), nil},
		{"g", float64(StandardGravity), nil},
	},
}

var angleKind = kind{
	name: "Angle", noun: "an angle",
	units: []unit{
		{"deg", float64(Degree), also{"°"}},
		{"rad", float64(Radian), nil},
	},
}
