// Package setup assembles a fork from its two legs, closes it in some air, and
// tells what it does: the force–travel curve at rest or ridden, the sag band
// under a load, and the drift of both when the fork is carried to other weather
// or altitude.
//
// A [Setup] is a state. Its sealed gas spaces keep their gas; [Setup.At] takes
// the fork to another temperature and ambient pressure, [Setup.Vented] opens the
// gas trapped over the oil at full extension, [Setup.Refilled] sets the air
// springs and precharges to their gauge readings again. Each returns a new Setup.
//
// How sure sag, energy and drift are, [Spec.Uncertainty] tells to first order and
// [Spec.Sample] by random forks.
//
// Two exponents matter. A fork settles at rest (n = 1) and then moves fast
// (n near 1.3, at most 1.4). In this library and its programs ridden means from
// the sag: [Setup.CurveAbout] is the curve a fork moves on after it has settled
// there. A landing is from full extension, as is a fast stroke on a bench:
// [Setup.Curve].
//
// At fixed travel the gas of a sealed space obeys p ∝ T, and a change of ambient
// pressure by Δp_a changes its force by −A·Δp_a; both follow from the state and
// need no further formula.
//
// Friction is a band: with F_c the friction force of the fork, it stays anywhere
// between the travels that carry load − F_c (let down from above) and
// load + F_c (let up from below).
//
// Sources: ideal gas law and statics. The sag reading from both sides is common
// practice.
package setup
