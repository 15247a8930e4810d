// Package fit finds the numbers of a fork from its measured force–travel curve, and
// says how well the readings determine them.
//
// The [Model] is a [setup.Spec] moved over a bench, F(x) ± friction: friction is added
// in the readings taken while compressing and subtracted in those taken while
// extending. Any number of the fork may be free within bounds, such as [Rate],
// [Preload], [GapVolume], [ChamberVolume], [Gauge], [Friction], the [Exponent] of the
// sweep, or what [NewParameter] names; the others are known.
//
// [Fit] minimizes the sum of the squared residuals r. With m readings, p free
// parameters and the derivatives J the standard errors are the roots of the diagonal
// of
//
//	s²·(JᵀJ)⁻¹      s² = Σr² / (m − p)
//
// They tell how repeatable the numbers are if residuals scatter like independent
// noise. They do not know of a wrong model: look at the residuals
// against travel, at their [Runs], and do not trust a standard error where these show
// a pattern.
//
// Readings taken while compressing alone hold the spring plus friction, which
// no fit can tell from preload: k·Δpreload = friction. Readings both ways can.
// Volume and exponent trade against each other unless the readings reach
// deep enough to bend the curve. [Identify] holds what is not determined.
//
// [ReadCSV] reads a record of a test bench, [Steady] leaves out where it turns.
// Results are safe for concurrent use.
//
// Source: G. A. F. Seber and C. J. Wild, Nonlinear Regression (1989), for the
// covariance.
package fit
