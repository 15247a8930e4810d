// Package ode integrates ordinary differential equations dy/dt = f(t, y) of a few
// unknowns, not stiff, forward in time, which gonum does not offer.
//
// The method is the explicit Runge–Kutta pair of order 5(4) of Dormand and
// Prince with a proportional-integral step control. The continuous extension of
// order 4 gives the solution between steps and serves to locate events.
//
// A step allocates nothing. A Solver belongs to one goroutine.
//
// Sources:
//
//   - J. R. Dormand and P. J. Prince, A family of embedded Runge–Kutta formulae,
//     J. Comput. Appl. Math. 6 (1980) 19–26: the pair.
//   - E. Hairer, S. P. Nørsett and G. Wanner, Solving Ordinary Differential
//     Equations I, 2nd edition (1993), sections II.4 (first step, step control),
//     II.5 (error norm) and II.6 (continuous extension, after L. F. Shampine).
package ode
