package ode

import (
	"fmt"
	"math"
)

// Coefficients of Dormand and Prince, 5(4), seven stages, the last of a step
// being the first of the next.
const (
	c2, c3, c4, c5 = 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9

	a21                     = 1.0 / 5
	a31, a32                = 3.0 / 40, 9.0 / 40
	a41, a42, a43           = 44.0 / 45, -56.0 / 15, 32.0 / 9
	a51, a52, a53, a54      = 19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729
	a61, a62, a63, a64, a65 = 9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656
	b1, b3, b4, b5, b6      = 35.0 / 384, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84

	// e = b - b^, the difference to the embedded solution of order 4.
	e1, e3, e4, e5, e6, e7 = 71.0 / 57600, -71.0 / 16695, 71.0 / 1920, -17253.0 / 339200, 22.0 / 525, -1.0 / 40

	// d: weights of the continuous extension.
	d1 = -12715105075.0 / 11282082432
	d3 = 87487479700.0 / 32700410799
	d4 = -10690763975.0 / 1880347072
	d5 = 701980252875.0 / 199316789632
	d6 = -1453857185.0 / 822651844
	d7 = 69997945.0 / 29380423
)

// Step control (Hairer and Wanner II, IV.2; the customary values of their
// code of this order).
const (
	safety    = 0.9
	piBeta    = 0.04
	piAlpha   = 0.2 - 0.75*piBeta
	shrinkMax = 0.2  // never to less than a fifth at once
	growMax   = 10.0 // never to more than tenfold at once
)

// Step advances by one accepted step, never past the end of the interval.
func (s *Solver) Step() error {
	for !s.Done() {
		if s.tries >= s.opt.MaxSteps {
			return fmt.Errorf("ode: %d steps tried, stopped at t = %g: %w", s.tries, s.t, ErrTooMany)
		}
		s.tries++
		h := s.h
		last := false
		if left := s.tEnd - s.t; math.Abs(h)*1.01 >= math.Abs(left) {
			h, last = left, true
		}
		if math.Abs(h) <= 1e-15*math.Abs(s.t) || h == 0 {
			return fmt.Errorf("ode: at t = %g: %w", s.t, ErrStepTooTiny)
		}
		err := s.try(h)
		if !finite(err) {
			// Stepped somewhere the system has no answer: come closer.
			s.h, s.rejected = 0.1*h, true
			if math.Abs(s.h) < 1e-13*(math.Abs(s.tEnd-s.tOld)+math.Abs(s.t)) {
				return fmt.Errorf("ode: at t = %g: %w", s.t, ErrNotFinite)
			}
			continue
		}
		factor := math.Pow(err, piAlpha)
		if err > 1 {
			s.h = h * math.Max(shrinkMax, safety/factor)
			s.rejected = true
			continue
		}
		grow := safety * math.Pow(s.errOld, piBeta) / factor // +Inf when err is 0
		grow = math.Min(growMax, math.Max(shrinkMax, grow))
		if s.rejected {
			grow = math.Min(grow, 1)
		}
		s.errOld, s.rejected = math.Max(err, 1e-4), false
		s.accept(h, last)
		s.h = s.dir * math.Min(math.Abs(h*grow), s.opt.MaxStep)
		return nil
	}
	return nil
}

// try computes the stages of a step h and returns its error in units of the
// tolerance (root mean square over the unknowns); the new solution is in yNew.
func (s *Solver) try(h float64) float64 {
	n, t, y, z := s.n, s.t, s.y[:s.n], s.yStage[:s.n]
	k1, k2, k3, k4, k5, k6, k7 := s.k1[:n], s.k2[:n], s.k3[:n], s.k4[:n], s.k5[:n], s.k6[:n], s.k7[:n]
	for i := range n {
		z[i] = y[i] + h*a21*k1[i]
	}
	s.f(t+c2*h, z, k2)
	for i := range n {
		z[i] = y[i] + h*(a31*k1[i]+a32*k2[i])
	}
	s.f(t+c3*h, z, k3)
	for i := range n {
		z[i] = y[i] + h*(a41*k1[i]+a42*k2[i]+a43*k3[i])
	}
	s.f(t+c4*h, z, k4)
	for i := range n {
		z[i] = y[i] + h*(a51*k1[i]+a52*k2[i]+a53*k3[i]+a54*k4[i])
	}
	s.f(t+c5*h, z, k5)
	for i := range n {
		z[i] = y[i] + h*(a61*k1[i]+a62*k2[i]+a63*k3[i]+a64*k4[i]+a65*k5[i])
	}
	s.f(t+h, z, k6)
	yNew := s.yNew[:n]
	for i := range n {
		yNew[i] = y[i] + h*(b1*k1[i]+b3*k3[i]+b4*k4[i]+b5*k5[i]+b6*k6[i])
	}
	s.f(t+h, yNew, k7)
	var sum float64
	for i := range n {
		e := h * (e1*k1[i] + e3*k3[i] + e4*k4[i] + e5*k5[i] + e6*k6[i] + e7*k7[i])
		q := e / s.scale(i, math.Max(math.Abs(y[i]), math.Abs(yNew[i])))
		sum += q * q
	}
	return math.Sqrt(sum / float64(max(n, 1)))
}

// accept makes the step just tried the solution and prepares At for it.
func (s *Solver) accept(h float64, last bool) {
	for i := range s.n {
		dy := s.yNew[i] - s.y[i]
		bend := h*s.k1[i] - dy
		s.r1[i] = s.y[i]
		s.r2[i] = dy
		s.r3[i] = bend
		s.r4[i] = dy - h*s.k7[i] - bend
		s.r5[i] = h * (d1*s.k1[i] + d3*s.k3[i] + d4*s.k4[i] + d5*s.k5[i] + d6*s.k6[i] + d7*s.k7[i])
	}
	s.tOld, s.hOld = s.t, h
	s.y, s.yNew = s.yNew, s.y
	s.k1, s.k7 = s.k7, s.k1
	s.accepted++
	if last {
		s.t = s.tEnd
	} else {
		s.t += h
	}
}
