// Package gas describes the air in a fork: its state, what compressing, heating, leaking and venting do to it, and
// the air around it.
//
// # Ideal gas
//
//	p·V = N·R·T        R = 8.314 462 618 153 24 J/(mol·K), exact
//
// p is absolute pressure (Pa), V volume (m³), N amount (mol), T thermodynamic temperature (K). A gauge reading
// becomes a pressure p only together with the ambient it was read in ([Fill]).
//
// Real gases depart from this. For dry air Z = p·V/(N·R·T) at 20 °C is 0.997 at 10 bar and 0.992 at 25 bar; at −23
// °C it is 0.991 and 0.978. The amount in a chamber is therefore up to 1 % off at 10 bar, and 2 % at 25 bar in deep
// cold. A hard hit, where the error adds up over the stroke, ends above the ideal pressure: from 7 bar absolute and
// 20 °C to a quarter of the volume by 2.7 %, from 12 bar by 5.5 %, and from 12 bar to a sixth, 160 bar and beyond
// [Species], by 9.6 % (dry air by the equation of Lemmon et al., γ = 1.4). [Species.Departure] gives the numbers
// for a chamber.
//
// # Polytropic change
//
//	p·Vⁿ = constant      T·Vⁿ⁻¹ = constant
//	W = ∫p dV = (p₁V₁/(n−1))·((V₁/V₂)ⁿ⁻¹ − 1),  p₁V₁·ln(V₁/V₂) at n = 1
//
//	ΔU = W·(n−1)/(γ−1)   Q = ΔU − W
//
// W is the work done on the gas in a closed chamber, ΔU its gain of internal energy and Q the heat from the wall.
// (The work of a compressor in steady flow is n times as large and is not meant here.) The exponent n says how much
// heat the wall takes: n = 1 ([Isothermal]) when the gas keeps the wall temperature, as at rest; n = γ = 1.4
// ([Adiabatic]) when none flows, as in the first instant of a hard hit. Constant γ overstates the temperature of
// air compressed eightfold from 295 K by 13 K in 665 K, because cp rises with temperature.
//
// # Wall heat exchange
//
//	m·cv·dT/dt = h·A·(T_wall − T) − p·dV/dt       τ = m·cv/(h·A)
//
// [Exchange] holds τ and solves this for small sinusoidal motion: the exponent between 1 and γ and the damping that
// goes with it. [Cycle] integrates it for motion of any amplitude to the p–V loop. [EstimateExchange] guesses τ
// from the geometry, to ±50 %. [WarmUp] is the slow part, the wall itself: leg, oil and gas as one lump between
// damping power and wind.
//
// # Loss
//
// A sealed chamber keeps its amount N. [Leak] takes it away with a time constant, to the ambient or from one
// chamber into the other, [State.Bleed] and [State.Admit] let some out or in, [Join] is a stroke through the
// transfer port, or what the hose of a pump costs that reads the pressure.
//
// # Standard atmosphere
//
//	H = r₀·Z/(r₀ + Z)
//	T = T₀ − L·H         p = p₀·(T/T₀)^(g₀·M/(R*·L))
//
// Z is geometric altitude, H geopotential altitude, r₀ = 6 356 766 m, T₀ = 288.15 K, p₀ = 101 325 Pa, L = 6.5 K/km,
// g₀ = 9.806 65 m/s², M = 28.9644 g/mol and R* = 8.314 32 J/(mol·K), the value the standard fixed in 1976 and which
// its tables rest on.
//
// # Validity
//
// A nil error means finite results, save where a method says NaN. The methods refuse a State outside 0.01 bar to
// 1000 bar, 1 mm³ to 1 m³ and 50 K to 3000 K, before and after the change. These limits are wide for a fork; they
// catch a number given without its unit. All values here are safe for concurrent use.
//
// # Sources
//
//   - ISO 2533:1975, Standard atmosphere; U.S. Standard Atmosphere, 1976 (NOAA-S/T 76-1562), the same model up to
//     32 km.
//   - BIPM, The International System of Units, 9th edition (2019): the exact Boltzmann and Avogadro constants,
//     whose product is R.
//   - Çengel and Boles, Thermodynamics: An Engineering Approach, chapter 4 (boundary work) and 7 (isentropic
//     change).
//   - Lemmon, Jacobsen, Penoncello and Friend, J. Phys. Chem. Ref. Data 29 (2000) 331: properties of dry air; Span,
//     Lemmon, Jacobsen, Wagner and Yokozeki, the same volume, 1361: nitrogen.
//   - Hyland and Wexler, ASHRAE Transactions 89 (1983) part 2A, 500: virial coefficients of dry air.
//   - Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1323, and Churchill and Bernstein, J. Heat Transfer
//     99 (1977) 300: convection.
package gas
