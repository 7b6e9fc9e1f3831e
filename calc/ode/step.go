package ode

import (
	"fmt"
	"math"

	"skep/calc/ode/pair"
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
		if left := s.tEnd - s.t; lastStep(h, left) {
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

// lastStep tells whether a step is stretched or cut to what is left.
func lastStep(h, left float64) bool { return math.Abs(h)*1.01 >= math.Abs(left) }

// try computes the stages of a step h and returns its error in units of the
// tolerance (root mean square over the unknowns); the new solution is in yNew.
func (s *Solver) try(h float64) float64 {
	n, t, y, z := s.n, s.t, s.y[:s.n], s.yStage[:s.n]
	k1, k2, k3, k4, k5, k6, k7 := s.k1[:n], s.k2[:n], s.k3[:n], s.k4[:n], s.k5[:n], s.k6[:n], s.k7[:n]
	for i := range n {
		z[i] = y[i] + h*pair.A21*k1[i]
	}
	s.f(t+pair.C2*h, z, k2)
	for i := range n {
		z[i] = y[i] + h*(pair.A31*k1[i]+pair.A32*k2[i])
	}
	s.f(t+pair.C3*h, z, k3)
	for i := range n {
		z[i] = y[i] + h*(pair.A41*k1[i]+pair.A42*k2[i]+pair.A43*k3[i])
	}
	s.f(t+pair.C4*h, z, k4)
	for i := range n {
		z[i] = y[i] + h*(pair.A51*k1[i]+pair.A52*k2[i]+pair.A53*k3[i]+pair.A54*k4[i])
	}
	s.f(t+pair.C5*h, z, k5)
	for i := range n {
		z[i] = y[i] + h*(pair.A61*k1[i]+pair.A62*k2[i]+pair.A63*k3[i]+pair.A64*k4[i]+pair.A65*k5[i])
	}
	s.f(t+h, z, k6)
	yNew := s.yNew[:n]
	for i := range n {
		yNew[i] = y[i] + h*(pair.B1*k1[i]+pair.B3*k3[i]+pair.B4*k4[i]+pair.B5*k5[i]+pair.B6*k6[i])
	}
	s.f(t+h, yNew, k7)
	var sum float64
	for i := range n {
		e := h * (pair.E1*k1[i] + pair.E3*k3[i] + pair.E4*k4[i] + pair.E5*k5[i] + pair.E6*k6[i] + pair.E7*k7[i])
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
		s.r5[i] = h * (pair.D1*s.k1[i] + pair.D3*s.k3[i] + pair.D4*s.k4[i] + pair.D5*s.k5[i] + pair.D6*s.k6[i] + pair.D7*s.k7[i])
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
