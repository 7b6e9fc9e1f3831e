// Package ode integrates ordinary differential equations y' = f(t, y) with the
// explicit Runge-Kutta pair of Dormand and Prince, order 5(4): adaptive steps under PI
// control, and continuous output between the steps.
//
// A function f and a first y come in, y at later times goes out. It must not know what
// is integrated.
//
// A [Solver] is a workspace for a fixed number of unknowns. It is made once
// and used for as many integrations as wanted; no step allocates. It is not
// safe for use by two goroutines at once: give each its own.
//
//	s := ode.New(2)
//	y := []float64{1, 0}
//	err := s.Integrate(f, 0, 10, y, ode.Options{}) // y now holds y(10)
//
// For output at chosen times use [Solver.Sample]; for full control use
// [Solver.Start] and [Solver.Step] with [Solver.At].
//
// Symbols: t is the independent variable, y the unknowns, h the step, k1..k7
// the stages. Units are the caller's. Discontinuities of f (a pulse, a change
// of temperature slope) should fall on the ends of integrations: integrate up
// to them and start again.
//
// Sources: J. R. Dormand, P. J. Prince, J. Comput. Appl. Math. 6:19, 1980 (the
// pair); E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary Differential
// Equations I, 2nd ed., Springer 1993, II.4 (error norm, first step), II.5
// (coefficients), II.6 (continuous output); E. Hairer, G. Wanner, vol. II,
// IV.2 (PI control). The coefficients were written from memory of these books
// and are confirmed by the convergence order and a published orbit in the tests.
package ode
