package units

import "math"

// Ratio and difference quantities: float64 in SI.
type (
	Length                float64 // m
	Area                  float64 // m²
	Volume                float64 // m³
	Mass                  float64 // kg
	Density               float64 // kg/m³
	Time                  float64 // s
	Speed                 float64 // m/s
	Acceleration          float64 // m/s²
	Force                 float64 // N
	Stiffness             float64 // N/m
	DampingRate           float64 // N·s/m
	Energy                float64 // J
	Power                 float64 // W
	Torque                float64 // N·m
	Stress                float64 // Pa
	Pressure              float64 // Pa, a difference
	TemperatureDifference float64 // K
	Frequency             float64 // Hz
	Angle                 float64 // rad
	KinematicViscosity    float64 // m²/s
	DynamicViscosity      float64 // Pa·s
	Amount                float64 // mol
)

const (
	inch       = 0.0254
	pound      = 0.45359237
	gravity    = 9.80665
	poundForce = pound * gravity

	Meter      Length = 1
	Centimeter Length = 1e-2
	Millimeter Length = 1e-3
	Inch       Length = inch
	Foot       Length = 12 * inch

	SquareMeter      Area = 1
	SquareCentimeter Area = 1e-4
	SquareMillimeter Area = 1e-6

	CubicMeter      Volume = 1
	Liter           Volume = 1e-3
	Milliliter      Volume = 1e-6
	CubicMillimeter Volume = 1e-9

	Kilogram  Mass = 1
	Gram      Mass = 1e-3
	PoundMass Mass = pound

	KilogramPerCubicMeter Density = 1
	GramPerMilliliter     Density = 1e3

	Second Time = 1
	Minute Time = 60
	Hour   Time = 3600
	Day    Time = 86400

	MeterPerSecond Speed = 1

	MeterPerSecondSquared Acceleration = 1
	StandardGravity       Acceleration = gravity

	Newton        Force = 1
	Kilonewton    Force = 1e3
	KilogramForce Force = gravity
	PoundForce    Force = poundForce

	NewtonPerMeter             Stiffness = 1
	NewtonPerMillimeter        Stiffness = 1e3
	KilogramForcePerMillimeter Stiffness = gravity * 1e3
	PoundForcePerInch          Stiffness = poundForce / inch

	NewtonSecondPerMeter DampingRate = 1

	Joule Energy = 1
	Watt  Power  = 1

	NewtonMeter    Torque = 1
	PoundForceFoot Torque = poundForce * 12 * inch
	PoundForceInch Torque = poundForce * inch

	Megapascal Stress = 1e6

	Pascal     Pressure = 1
	Kilopascal Pressure = 1e3
	Bar        Pressure = 1e5
	Atmosphere Pressure = 101325
	PSI        Pressure = poundForce / (inch * inch)

	KelvinDifference TemperatureDifference = 1

	Hertz Frequency = 1

	Radian Angle = 1
	Degree Angle = math.Pi / 180

	SquareMillimeterPerSecond KinematicViscosity = 1e-6
	PascalSecond              DynamicViscosity   = 1

	Mole Amount = 1
)

func (q Length) In(unit Length) float64                            { return float64(q / unit) }
func (q Area) In(unit Area) float64                                { return float64(q / unit) }
func (q Volume) In(unit Volume) float64                            { return float64(q / unit) }
func (q Mass) In(unit Mass) float64                                { return float64(q / unit) }
func (q Density) In(unit Density) float64                          { return float64(q / unit) }
func (q Force) In(unit Force) float64                              { return float64(q / unit) }
func (q Stiffness) In(unit Stiffness) float64                      { return float64(q / unit) }
func (q Energy) In(unit Energy) float64                            { return float64(q / unit) }
func (q Torque) In(unit Torque) float64                            { return float64(q / unit) }
func (q Stress) In(unit Stress) float64                            { return float64(q / unit) }
func (q Pressure) In(unit Pressure) float64                        { return float64(q / unit) }
func (q Angle) In(unit Angle) float64                              { return float64(q / unit) }
func (q TemperatureDifference) In(u TemperatureDifference) float64 { return float64(q / u) }
