package ode

import (
	"errors"
	"fmt"
	"math"
)

// System writes the derivatives of y at t into dydt. It must not keep or
// change y.
type System func(t float64, y, dydt []float64)

// Options steers an integration. The zero value means the defaults.
type Options struct {
	RelTol      float64   // relative tolerance of each step, default 1e-6
	AbsTol      float64   // absolute tolerance, default 1e-9, in the unit of y
	AbsTols     []float64 // absolute tolerance for each unknown, instead of AbsTol
	InitialStep float64   // first step tried, default estimated
	MaxStep     float64   // longest step, default the whole interval
	MaxSteps    int       // most steps tried, accepted or not, default 100000
}

// Errors of an integration; the error returned wraps one of them and says where.
var (
	ErrNotFinite   = errors.New("the derivatives are not finite")
	ErrStepTooTiny = errors.New("the step has become too small: the problem is stiff or singular")
	ErrTooMany     = errors.New("too many steps")
	ErrInput       = errors.New("unusable input")
)

// Solver is a reusable workspace for systems of one size.
type Solver struct {
	f   System
	opt Options
	n   int

	t, tEnd, h float64 // h is signed: the next step to try
	dir        float64 // +1 forwards, -1 backwards
	errOld     float64 // error of the last accepted step, for PI control
	probe      float64 // how far ahead the first step was looked for
	rejected   bool    // the last try was rejected: do not grow at once
	tries      int
	accepted   int

	y, yNew, yStage            []float64
	k1, k2, k3, k4, k5, k6, k7 []float64

	// Continuous output over the last accepted step, from tOld over hOld.
	tOld, hOld         float64
	r1, r2, r3, r4, r5 []float64

	scratch []float64 // for At inside Sample
}

// New makes a workspace for n unknowns.
func New(n int) *Solver {
	const vectors = 16
	block := make([]float64, vectors*n)
	next := func() []float64 {
		v := block[:n:n]
		block = block[n:]
		return v
	}
	return &Solver{
		n: n, y: next(), yNew: next(), yStage: next(),
		k1: next(), k2: next(), k3: next(), k4: next(), k5: next(), k6: next(), k7: next(),
		r1: next(), r2: next(), r3: next(), r4: next(), r5: next(), scratch: next(),
	}
}

// Start prepares an integration of f from (t0, y0) to tEnd, either way. y0 is
// copied.
func (s *Solver) Start(f System, t0, tEnd float64, y0 []float64, opt Options) error {
	if len(y0) != s.n {
		return fmt.Errorf("ode: %d values given for %d unknowns: %w", len(y0), s.n, ErrInput)
	}
	if opt.AbsTols != nil && len(opt.AbsTols) != s.n {
		return fmt.Errorf("ode: %d absolute tolerances for %d unknowns: %w", len(opt.AbsTols), s.n, ErrInput)
	}
	if !finite(t0) || !finite(tEnd) {
		return fmt.Errorf("ode: interval from %g to %g: %w", t0, tEnd, ErrInput)
	}
	for i, v := range y0 {
		if !finite(v) {
			return fmt.Errorf("ode: starting value %d is %g: %w", i, v, ErrInput)
		}
	}
	if !(opt.RelTol > 0) {
		opt.RelTol = 1e-6
	}
	if !(opt.AbsTol > 0) {
		opt.AbsTol = 1e-9
	}
	if !(opt.MaxStep > 0) || opt.MaxStep > math.Abs(tEnd-t0) {
		opt.MaxStep = math.Abs(tEnd - t0)
	}
	if opt.MaxSteps <= 0 {
		opt.MaxSteps = 100000
	}
	s.f, s.opt = f, opt
	s.t, s.tEnd = t0, tEnd
	s.tOld, s.hOld = t0, 0
	s.dir = 1
	if tEnd < t0 {
		s.dir = -1
	}
	s.errOld, s.rejected = 1e-4, false
	s.tries, s.accepted = 0, 0
	copy(s.y, y0)
	copy(s.r1, y0)
	for i := range s.n {
		s.r2[i], s.r3[i], s.r4[i], s.r5[i] = 0, 0, 0, 0
	}
	if s.Done() {
		return nil
	}
	f(t0, s.y, s.k1)
	for _, v := range s.k1 {
		if !finite(v) {
			return fmt.Errorf("ode: at t = %g: %w", t0, ErrNotFinite)
		}
	}
	if opt.InitialStep > 0 {
		s.h = s.dir * math.Min(opt.InitialStep, opt.MaxStep)
	} else {
		s.h = s.dir * s.firstStep()
	}
	return nil
}

// Mark is where an integration stands: what one to another end goes on from.
type Mark struct {
	t, h, errOld, probe float64
	rejected            bool
	y                   []float64
}

// Mark writes down where the integration stands.
func (s *Solver) Mark() Mark {
	return Mark{s.t, s.h, s.errOld, s.probe, s.rejected, append([]float64(nil), s.y...)}
}

// Begins tells, of the first mark, whether an integration to an end begins alike: the
// first step was not looked for beyond it.
func (m *Mark) Begins(tEnd float64) bool { return m.probe <= math.Abs(tEnd-m.t) }

// Ends tells whether the next step from the mark is meant to be the last to an end. An
// integration to that end that begins alike comes by the first mark that ends it, to
// the last bit.
func (m *Mark) Ends(tEnd float64) bool { return lastStep(m.h, tEnd-m.t) }

// Resume prepares the way on from a mark to an end on the same side of it.
func (s *Solver) Resume(f System, m *Mark, tEnd float64, opt Options) error {
	opt.InitialStep = math.Abs(m.h)
	err := s.Start(f, m.t, tEnd, m.y, opt)
	s.h, s.errOld, s.rejected = m.h, m.errOld, m.rejected
	return err
}

// Done reports whether the end of the interval is reached.
func (s *Solver) Done() bool { return s.t == s.tEnd }

// T is where the integration stands.
func (s *Solver) T() float64 { return s.t }

// Y is the solution at T. It is the solver's own memory, valid until the next
// step: copy what is to be kept.
func (s *Solver) Y() []float64 { return s.y }

// Steps is how many steps were accepted and how many were tried.
func (s *Solver) Steps() (accepted, tried int) { return s.accepted, s.tries }

// Last is the span of the last accepted step, over which [Solver.At] holds.
func (s *Solver) Last() (from, to float64) { return s.tOld, s.tOld + s.hOld }

// At writes the solution at t, within the last accepted step, into out: the
// continuous extension of order 4 (Hairer et al. I, II.6).
func (s *Solver) At(t float64, out []float64) {
	if s.hOld == 0 {
		copy(out, s.r1)
		return
	}
	theta := (t - s.tOld) / s.hOld
	theta1 := 1 - theta
	for i := range s.n {
		out[i] = s.r1[i] + theta*(s.r2[i]+theta1*(s.r3[i]+theta*(s.r4[i]+theta1*s.r5[i])))
	}
}

// firstStep estimates a first step (Hairer et al. I, II.4), always positive.
func (s *Solver) firstStep() float64 {
	var d0, d1 float64
	for i := range s.n {
		sc := s.scale(i, math.Abs(s.y[i]))
		d0 += (s.y[i] / sc) * (s.y[i] / sc)
		d1 += (s.k1[i] / sc) * (s.k1[i] / sc)
	}
	h0 := 1e-6
	if d0 > 1e-10 && d1 > 1e-10 {
		h0 = 0.01 * math.Sqrt(d0/d1)
	}
	s.probe = h0
	h0 = math.Min(h0, s.opt.MaxStep)
	for i := range s.n {
		s.yStage[i] = s.y[i] + s.dir*h0*s.k1[i]
	}
	s.f(s.t+s.dir*h0, s.yStage, s.k2)
	var d2 float64
	for i := range s.n {
		q := (s.k2[i] - s.k1[i]) / s.scale(i, math.Abs(s.y[i]))
		d2 += q * q
	}
	d2 = math.Sqrt(d2) / h0
	der := math.Max(math.Abs(d2), math.Sqrt(d1)) / math.Sqrt(float64(max(s.n, 1)))
	h1 := math.Max(1e-6, h0*1e-3)
	if der > 1e-15 {
		h1 = math.Pow(0.01/der, 1.0/5)
	}
	h := math.Min(math.Min(100*h0, h1), s.opt.MaxStep)
	if !(h > 0) {
		h = h0
	}
	return h
}

func (s *Solver) scale(i int, size float64) float64 {
	abs := s.opt.AbsTol
	if s.opt.AbsTols != nil {
		abs = s.opt.AbsTols[i]
	}
	return abs + s.opt.RelTol*size
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
