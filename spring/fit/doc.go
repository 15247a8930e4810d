// Package fit finds the numbers of a spring from its measured force–travel
// curve, and says how well the readings determine them.
//
// The [Model] is a sum,
//
//	F(x) = k·(x + preload) + A·(p₀·(1 − A·x/V)⁻ⁿ − p_a) + … ± friction
//
// of a coil, the gas over the oil, an air spring and a known rest, with friction
// added in the readings taken while compressing and subtracted in those taken
// while extending. Any of rate, preload, gap volume, chamber volume, exponent
// and friction may be free within bounds; the others are known.
//
// [Fit] minimizes the sum of the squared residuals r by the method of Levenberg
// and Marquardt with exact derivatives J, steps projected on the bounds. With m
// readings and p free parameters the standard errors are the roots of the
// diagonal of
//
//	s²·(JᵀJ)⁻¹      s² = Σr² / (m − p)
//
// They tell how repeatable the numbers are if residuals scatter like independent
// noise. They do not know of a wrong model: look at the residuals
// against travel, and do not trust a standard error where these show a pattern.
//
// Readings taken while compressing alone hold the spring plus friction, which
// no fit can tell from preload: k·Δpreload = friction. Readings both ways can.
// Volume and exponent trade against each other unless the readings reach
// deep enough to bend the curve.
//
// [ReadCSV] reads a record of a test bench.
//
// Sources: J. J. Moré, The Levenberg–Marquardt algorithm: implementation and
// theory, Lecture Notes in Mathematics 630 (1978); G. A. F. Seber and C. J.
// Wild, Nonlinear Regression (1989), for the covariance.
package fit
