// Package gas describes the air in a fork: its state, what compressing,
// heating, leaking and venting do to it, and the air around it.
//
// # Ideal gas
//
//	p·V = N·R·T        R = 8.314 462 618 153 24 J/(mol·K), exact
//
// p is absolute pressure (Pa), V volume (m³), N amount (mol), T thermodynamic
// temperature (K). A gauge reading becomes a pressure p only together with the
// ambient it was read in ([Fill]).
//
// Dry air departs from this by its compressibility factor Z = p·V/(N·R·T). At
// 20 °C Z is 0.997 at 10 bar and 0.992 at 25 bar; at −23 °C it is 0.991 and
// 0.978. The amount in a chamber is therefore up to 1 % off at 10 bar, and 2 %
// at 25 bar in deep cold, far less than a fork gauge is off.
//
// # Polytropic change
//
//	p·Vⁿ = constant      T·Vⁿ⁻¹ = constant
//	W = ∫p dV = (p₁V₁/(n−1))·((V₁/V₂)ⁿ⁻¹ − 1),  p₁V₁·ln(V₁/V₂) at n = 1
//
// W is the work done on the gas in a closed chamber. (The work of a compressor
// in steady flow is n times as large and is not meant here.) The exponent n says
// how much heat the wall takes: n = 1 ([Isothermal]) when the gas keeps the wall
// temperature, as at rest; n = γ = 1.4 ([Adiabatic]) when none flows, as in the
// first instant of a hard hit. [Exchange] gives the value between for a
// sinusoidal motion. Constant γ overstates the temperature of air compressed
// eightfold from 295 K by 15 K in 663 K, because cp rises with temperature.
//
// # Standard atmosphere
//
//	H = r₀·Z/(r₀ + Z)
//	T = T₀ − L·H         p = p₀·(T/T₀)^(g₀·M/(R*·L))
//
// Z is geometric altitude, H geopotential altitude, r₀ = 6 356 766 m,
// T₀ = 288.15 K, p₀ = 101 325 Pa, L = 6.5 K/km, g₀ = 9.806 65 m/s²,
// M = 28.9644 g/mol and R* = 8.314 32 J/(mol·K), the value the standard fixed in
// 1976 and which its tables rest on.
//
// # Validity
//
// A nil error means finite results. The methods refuse a State outside 0.01 bar
// to 1000 bar, 1 mm³ to 1 m³ and 50 K to 3000 K, before and after the change.
// These limits are wide for a fork; they catch a number given without its unit.
//
// # Sources
//
//   - ISO 2533:1975, Standard atmosphere; U.S. Standard Atmosphere, 1976
//     (NOAA-S/T 76-1562), the same model up to 32 km.
//   - BIPM, The International System of Units, 9th edition (2019): the exact
//     Boltzmann and Avogadro constants, whose product is R.
//   - Çengel and Boles, Thermodynamics: An Engineering Approach, chapter 4
//     (boundary work) and 7 (isentropic change).
//   - Lemmon, Jacobsen, Penoncello and Friend, J. Phys. Chem. Ref. Data 29
//     (2000) 331: properties of dry air.
package gas
