// Package units holds the physical quantities of the other packages: their types,
// their units and their text form.
//
// # Types
//
// A ratio or a difference is a float64 in SI units under a name of its own, so that a
// force is not taken for a length and arithmetic stays ordinary:
//
//	travel := 140 * units.Millimeter
//	mm := travel.In(units.Millimeter) // 140
//
// A bare number becomes a quantity in SI: units.Length(12.5) is 12.5 m. A product or
// quotient of two quantities of one type compiles and keeps that type, although it is
// none; use In, or convert to float64.
//
// A point on a scale with an origin is an opaque value. [Temperature] is one, and so
// are [AbsolutePressure], counted from vacuum, and [GaugePressure], counted from the
// ambient. They mix neither with each other nor with [TemperatureDifference] and
// [Pressure], their differences. Between gauge and absolute the ambient is named:
//
//	fill := units.Gauge(9.6 * units.Bar)
//	inside := fill.Absolute(units.Absolute(1.013 * units.Bar))
//
// The zero value of a ratio or difference is nothing of it; those of the points are
// 0 K, vacuum and the ambient. All values are immutable and
// safe for concurrent use.
//
// # Units
//
// Unit constants are exact products of the definitions (inch 0.0254 m, pound
// 0.45359237 kg, standard gravity 9.80665 m/s²), rounded once to float64.
//
//	quantity               in Go as  printed in           also read
//	Share                  1         %
//	Length                 m         mm, from 10 m on m   cm km µm in ft
//	Area                   m²        cm²                  mm² m² in²
//	Volume                 m³        mL, from 10 L on L   cm³ (cc) mm³ m³ in³, US or imp fl oz and gal
//	Mass                   kg        kg                   g lb oz
//	Density                kg/m³     kg/m³                g/mL g/cm³ kg/L
//	Amount                 mol       mol                  mmol
//	Time                   s         s                    ms min h d
//	Frequency              Hz        Hz                   1/min (rpm)
//	Speed                  m/s       m/s                  mm/s km/h mph knot in/s ft/s
//	Flow                   m³/s      mL/s                 cm³/s L/min m³/s
//	Acceleration           m/s²      m/s²                 ft/s² g
//	Angle                  rad       deg                  ° rad
//	Force                  N         N                    kN kgf lbf
//	Stiffness              N/m       N/mm                 N/m kgf/mm (kg/mm) lbf/in (lb/in) lbf/ft
//	DampingRate            N·s/m     N·s/m                N·s/mm kgf·s/mm lbf·s/in
//	Energy                 J         J                    kJ ft·lbf
//	Power                  W         W                    kW
//	Torque                 N·m       N·m                  N·mm kgf·m lbf·ft lbf·in ozf·in
//	Stress                 Pa        MPa                  N/mm² GPa Pa kPa psi ksi
//	Pressure               Pa        bar                  mbar Pa hPa kPa MPa psi atm kgf/cm² inHg mmHg torr inH2O
//	AbsolutePressure       opaque    bar abs              as Pressure, with or without abs, (a), a
//	GaugePressure          opaque    bar                  as Pressure, with or without gauge, (g), g
//	Temperature            opaque    °C                   °F K
//	TemperatureDifference  K         K                    °C °F
//	Expansivity            1/K       1/K                  1/°C K⁻¹
//	SpecificHeat           J/(kg·K)  J/(kg·K)             kJ/(kg·K)
//	ThermalConductance     W/K       W/K                  W/°C
//	KinematicViscosity     m²/s      mm²/s                cSt m²/s
//	DynamicViscosity       Pa·s      mPa·s                cP Pa·s reyn lbf·s/ft²
//
// A bare "fl oz" or "gal" is refused, since the US and the imperial ones differ.
//
// # Text
//
// The text form, read by [Parse] and the UnmarshalText methods, is
//
//	[+-]digits[.digits][e[+-]digits] [space] unit
//
// with at most one space (plain, no-break or narrow no-break) and nothing around it.
// There is no decimal comma, no digit grouping, no NaN or infinity, and no number
// without a unit. The dot of N·m may be ·, *, ., - or a space, m² may be m^2 or m2,
// and both code points of µ are read.
//
// String, %v, %s and MarshalText give the shortest text that Parse reads back to the
// same value, bit for bit, in the unit of the table above. An Angle or a cold
// Temperature that no number of degrees gives exactly is in rad or K. NaN and the
// infinities print, for error messages, but are neither marshaled nor parsed.
//
// A unit that is a power of ten of the SI unit moves the decimal point of the text,
// so that "27.1 mm" is the float64 nearest to 0.0271, while the product
// 27.1*units.Millimeter is rounded twice and may differ in the last bit. Any other
// unit multiplies: Parse[Force]("3.7 kgf") is 3.7*units.KilogramForce.
//
// The verbs %e, %f and %g, and %v with a precision, print the number in that unit
// with that precision, then the unit: fmt.Sprintf("%.1f", 12.5*units.Millimeter) is
// "12.5 mm". Under %f a tie goes away from zero, within a millionth of the last digit, so
// that it prints alike on every processor: "%.0f" of 12.5 mm is "13 mm". The width counts
// the unit; the flags + and - work as in package fmt. %q
// quotes the exact text.
//
// # Sources
//
//   - BIPM, The International System of Units (SI), 9th edition, 2019: units, symbols,
//     and the writing of quantities.
//   - NIST Special Publication 811, Guide for the Use of the SI, 2008 edition,
//     appendix B: definitions and factors of the other units.
package units

//go:generate go run generate.go
