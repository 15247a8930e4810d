// Package lsq minimizes a sum of squared residuals within bounds, and tells how
// well the residuals determine the parameters.
//
// With residuals r(x) and their derivatives J, the method of Levenberg and
// Marquardt steps by
//
//	δ = argmin |r + J·δ|² + λ·|D·δ|²      D_j the longest column j of J so far
//
// projected on the bounds. A parameter on a bound that the descent points beyond
// stays there. λ falls where J foretells the reduction and grows where a step is
// refused. Where J foretells badly, the step is bent by its geodesic acceleration,
// and refused where that is long against it. QR factors of J solve both, never JᵀJ,
// whose condition is that of J squared. The search ends when J explains nothing of
// the residuals that is left, relative to their length.
//
// A normal prior of mean μ and covariance C adds the residuals L⁻¹·(x − μ) with
// C = L·Lᵀ, so that the least squares are the mode of the posterior and (JᵀJ)⁻¹ is
// its covariance about the mode (Laplace), if each residual is given in units of
// its standard deviation.
//
// A [Solver] allocates when it is made and not in [Solver.Minimize]. It serves one
// goroutine at a time.
//
// Sources: J. J. Moré, The Levenberg–Marquardt algorithm: implementation and
// theory, Lecture Notes in Mathematics 630 (1978), for D; K. Madsen, H. B. Nielsen
// and O. Tingleff, Methods for non-linear least squares problems (2004), for λ;
// M. K. Transtrum and J. P. Sethna, Improvements to the Levenberg–Marquardt
// algorithm, arXiv:1201.5885 (2012), for the acceleration; D. M. Bates and D. G.
// Watts, Technometrics 23 (1981) 179, for the relative offset that ends the search;
// A. Gelman et al., Bayesian Data Analysis
// (3rd ed. 2013), section 14.8, for prior rows. Checked against the NIST
// Statistical Reference Datasets.
package lsq
