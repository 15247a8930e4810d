// Package damping holds one thing, force against speed: what resists the motion of a telescopic fork, from the parts
// it is made of to what it does.
//
//   - [Damper] is a force and a coefficient against the speed v along the fork axis, positive in compression. A
//     [Cartridge] of oil, a measured [Table], [Linear] and [Friction] are dampers, [Sum] adds those of both legs.
//   - [Valve] is what a cartridge is made of: a flow against a pressure difference, and back, in an [Oil] at one
//     temperature. [Series], [Parallel] and [Reverse] combine valves; a [ShimStack] bends
//     as a [Plate] does.
//   - [Oscillator], [Settings], [Rebound] and [Warming] are what a damper does: to the swing of the body, at each
//     click, with another spring, and to its own temperature.
//
// Valves and friction stand together because neither is of use alone: a fork is damped by their sum. A valve knows
// nothing of speed and friction nothing of oil.
//
// Symbols and units
//
//	v    speed along the fork axis, positive in compression  m/s
//	F    force that resists                                  N
//	c    coefficient F/v                                     N·s/m
//	p    pressure difference                                 Pa
//	q    flow                                                m³/s
//	ρ μ  density and dynamic viscosity of the oil            kg/m³, Pa·s
//	A    area; A_r of the rod                                m²
//	d    diameter; L length, h radial clearance              m
//	C    discharge coefficient
//	D    plate rigidity E·t³/(12·(1 − ν²)), t thickness      N·m
//	ε    rake, steering axis from the vertical               rad
//	ζ δ  damping ratio, logarithmic decrement
//
// Formulas
//
//	pipe            p = 128·μ·L·q/(π·d⁴) + K·(ρ/2)·(q/A)²
//	annulus         p = 12·μ·L·q/(π·d·h³·(1 + 1.5·e²)) + K·(ρ/2)·(q/A)²
//	film of disks   p = 6·μ·ln(r₂/r₁)·q/(π·h³)
//	orifice         p = (ρ/2)·(q/(C·A))² + 24·μ·q/d³
//	check valve     q = C·A(p)·√(2·p/ρ), closed up to its cracking pressure
//	shim            D·∇⁴w = load, solved exactly for each ring, with contact between rings
//	cartridge       F = Δp_base·A_r + Δp_piston·(A − A_r)
//	friction        F = (F_k + (F_b − F_k)·exp(−(v/v_s)²))·tanh(v/v_c) + c·v
//	seal            F = F₀ + μ·π·D·w·p
//	bushes          F = μ·(|R_low| + |R_up|) under wheel load, braking and brake reaction
//	critical        c = 2·√(k·m), m = m_sprung·cos² ε
//	decrement       δ = 2πζ/√(1 − ζ²)
//	rebound         c₂/c₁ between √(k₂/k₁) and F₂/F₁ at depth
//	heat            ΔT = Δp/(ρ·c);  P/G·(1 − exp(−t/τ))
//
// Laminar passages follow viscosity, orifices and wide-open shims only density: that is the whole of fade here.
// Foam and dissolved air, which soften a hot open-bath fork further, are not modeled; nor are inertia and
// compression of the oil, so that a force follows its speed at once. Reynolds methods tell where a laminar law is
// left.
//
// # How sure
//
// The formulas and the plate solution are textbook physics, and a network is solved to ten digits. The numbers that
// go in are not so good. Discharge coefficients are known to 10 %, gaps and shim thickness enter with their third
// power, and typical damper forces from memory are good to ±50 %. A computed damper shows what a change does; for
// how strong a damper is, measure it and use a [Table]. Clicks are a starting point for a careful test ride, and
// the limits of the maker of fork and damper prevail. A cartridge holds gas and oil under pressure: release it
// before opening.
//
// # Use
//
// A New function checks its specification once and reports every fault as a *units.RangeError. What it returns is
// immutable and safe for concurrent use, and its methods allocate nothing. No method returns NaN or an infinity for
// speeds up to [MaxSpeed], except where said so. Zero values of types with a New function are not valid, except for
// the closed [Orifice]. Field and argument values are SI with a unit of package units, as 0.15*units.Millimeter.
//
// # Sources
//
//   - B. S. Massey, Mechanics of Fluids; R. W. Fox and A. T. McDonald,
//     Introduction to Fluid Mechanics; A. Esposito, Fluid Power with
//     Applications: passages, orifices (examples checked in the tests).
//   - R. A. Sampson, On Stokes's current function, Phil. Trans. R. Soc. A 182
//     (1891): creeping flow through an orifice (from memory).
//   - S. Timoshenko and S. Woinowsky-Krieger, Theory of Plates and Shells:
//     ring plates. The table of coefficients that handbooks reprint from A. M.
//     Wahl and G. Lobo (1930) has errors of up to 25 % and is not used.
//   - C. L. Lawson and R. J. Hanson, Solving Least Squares Problems (1974):
//     the active-set method for the contact of shims.
//   - J. L. Meriam and L. G. Kraige, Dynamics; W. G. McLean, Engineering
//     Mechanics; T. Bevan, The Theory of Machines: free vibration.
//   - F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984):
//     monotone interpolation.
package damping
