// Package bench turns readings at the bench into what is known of a fork: from numbers that
// are uncertain, of its class or of the maker, and from sag, pressures, volumes and forces
// that somebody read, each with its own uncertainty, to the numbers that fit both.
//
//	known, err := bench.Learn(ctx, fork, room, unknowns, readings)
//	known.Values      // before and after, and how much of it the readings taught
//	known.Answer(q)   // what is asked, and how sure it is now
//	known.Next(q, c)  // which reading would sharpen that most for a minute of work
//
// # Method
//
// Bayesian least squares. With the unknowns θ scaled to z = (θ − θ₀)/σ, bent near 0 where
// a value is above 0, by the normal distribution between limits, and readings y with
// standard uncertainties u,
//
//	min over z of  Σ ((y − model(z))/u)² + Σ z²
//
// within the bounds of each unknown. The posterior is taken as normal about the minimum
// (Laplace), with the covariance (1 + JᵀJ)⁻¹ and J over the width that it tells itself;
// [Known.Check] compares that with importance samples of the posterior, drawn from a t
// distribution about it, and [Known.Refined] goes by these samples and their quantiles: what
// readings bound on one side only, as the pressure behind a floating piston that does not lift
// off, is like no normal distribution, and 95 % about the best fork are 92 % there. Intervals
// of refined forks cover what they say over forks drawn from ten archetypes.
//
// A reading's leverage is h = J_i·C·J_iᵀ; its residual over √(1 − h) is standardized, and
// beyond 3 contradicts the rest. Combinations known better than their parts are eigenvectors
// of the covariance. A reading with row a takes (gᵀCa)²/(1 + aᵀCa) off the variance gᵀCg of
// an answer with gradient g, which is what [Known.Next] ranks by.
//
// Everything is immutable and safe for concurrent use once made.
//
// Sources: JCGM 102:2011 and JCGM 101:2008 for the spread of answers; A. Gelman et al.,
// Bayesian Data Analysis, 3rd edition, chapters 4 and 13 (normal approximation, modes);
// R. D. Cook and S. Weisberg, Residuals and Influence in Regression (1982).
package bench
