// Package spring holds the springs of a telescopic fork as force–travel curves:
// coil springs, linear, progressive, stacked and nested, sealed gas chambers, air
// springs made of them, top-out springs, bump stops, measured curves, and
// their combination: [Parallel], [Series], [Shift], [Scale], [Limit] and [WithStops].
//
// Every element is a [Curve]: a force, a rate and an energy against the travel
// x along the fork axis, x = 0 at full extension, positive in compression. The
// three are closed forms of one another.
//
// Symbols and units
//
//	x    travel from full extension                  m
//	F    force that resists compression              N
//	k    rate, dF/dx                                 N/m
//	E    energy, the integral of F from 0 to x       J
//	A    effective piston area, signed               m²
//	V    gas volume, V(x) = V₀ − A·x                 m³
//	p    absolute gas pressure; p_a ambient          Pa
//	n    polytropic exponent: 1 at rest, 1.4 adiabatic
//
// A coil spring gives F = k·(x + preload). A sealed chamber gives
// F = A·(p(x) − p_a) with p·Vⁿ constant, so
//
//	F(x) = A·(p₀·u⁻ⁿ − p_a)            u = V/V₀ = 1 − A·x/V₀
//	k(x) = n·p·A²/V
//	E(x) = p₀·V₀·(u¹⁻ⁿ − 1)/(n − 1) − p_a·A·x      or p₀·V₀·ln(1/u) for n = 1
//
// A chamber that pulls the fork down, such as the negative chamber of an air
// spring, is the same with a negative area: it grows as the fork compresses.
//
// Springs in parallel share their travel and add their forces; springs in series
// share their force and add their travels. Springs that change their law along
// the stroke are chains of cubic pieces,
//
//	F = f + k·t + b·t² + c·t³             t = x − x_i
//	E = e + f·t + k·t²/2 + b·t³/3 + c·t⁴/4
//
// straight ones where coils close or join.
//
// A New function checks its specification once and reports every fault as a
// *units.RangeError. The value it returns is immutable and safe for concurrent
// use; its methods return no error, allocate nothing and are NaN only outside
// [0, Stroke]. The functions of this package that take a curve check the range
// first and return an error.
//
// Sources: textbook statics and the polytropic relations of an ideal gas
// (OpenStax University Physics, volume 2, chapter 3); those of rubber and of the
// interpolation stand with [BumpStop] and [Measured].
package spring
