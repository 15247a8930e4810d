// Package ride moves a fork: body, wheel and tire over a road, off a ledge or through
// waves, with the gas heating and cooling beside its walls and friction that sticks.
//
//	v, err := ride.New(ride.Of(fork, chassis, rider, damper))
//	r, err := v.Run(ctx, ride.Course{Duration: 10, Road: road}, ride.Settings{})
//	r.Summary().Travel.Most
//
// # Equations
//
// The body of mass m_s and the wheel of mass m_u move up and down; the fork axis leans by
// the rake ε, so that the travel is x = (z_u − z_s)/cos ε and an axial force F acts as
// F/cos ε on both:
//
//	m_s·z̈_s = F/cos ε − m_s·g              F = F_springs + Σ A·(p − p_a) + F_damper + F_friction + F_stops
//	m_u·z̈_u = F_tire − F/cos ε − m_u·g     F_tire = max(0, k_t·δ + c_t·δ̇), δ = road − z_u > 0
//
// The sideways mass of the wheel is left out. Each gas space keeps its amount N and has a
// temperature of its own,
//
//	p = N·R·T/V      Ṫ = (T_wall − T)/τ − (γ − 1)·T·V̇/V
//
// with V = V₀ − A·x and γ = 1.4. Two chambers beside a floating piston share one pressure
// once it is off its stop. Up to its port a negative chamber is one with the positive
// one: they mix as it opens and part as it closes. A linked volume is cut off. The legs
// take up the heat of damper, friction and gas as one lump, if given.
//
// Friction is Coulomb's, as a set: while the force that would hold the fork is less than
// the friction, it holds, and both ends move as one; else it slides against the friction.
// Sticking, slipping, both ends of the travel, the tire's grip, ports and floating
// pistons are events that the integration stops at, so that energy closes to a
// millionth of what moved.
//
// Braking acts by the rake, F·sin ε along the axis, and with a [Rear] by the load that it
// moves forward, F·h/wheelbase. The rear is a spring on the ground without a wheel of
// its own.
//
// # What it is good for
//
// Differences between two forks over the same ground. Damping, friction, tire and the time
// constant τ are estimates in all but a measured machine; compare them at several values.
//
// A [Vehicle] is immutable and safe for concurrent use; a [Run] belongs to its caller.
//
// Sources: mechanics of two masses and the ideal gas; Coulomb friction as in any text on
// dynamics; the describing functions as in A. Gelb and W. E. Vander Velde, Multiple-Input
// Describing Functions (1968), from memory; ISO 8608 for roads.
package ride
