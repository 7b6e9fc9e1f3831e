package ode_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/ode"
)

func decay(_ float64, y, d []float64) { d[0] = -y[0] }

func logistic(_ float64, y, d []float64) { d[0] = y[0] * (1 - y[0]) }

func circle(_ float64, y, d []float64) { d[0], d[1] = -y[1], y[0] }

// Closed forms.
func TestClosedForms(t *testing.T) {
	t.Parallel()
	cases := []struct {
		name string
		f    ode.System
		y0   []float64
		end  float64
		want []float64
	}{
		{"decay", decay, []float64{1}, 5, []float64{math.Exp(-5)}},
		{"decay backwards", decay, []float64{1}, -3, []float64{math.Exp(3)}},
		{"logistic", logistic, []float64{0.1}, 6, []float64{1 / (1 + 9*math.Exp(-6))}},
		{"circle", circle, []float64{1, 0}, 20, []float64{math.Cos(20), math.Sin(20)}},
		{"forced", func(t float64, y, d []float64) { d[0] = math.Cos(t) - y[0] }, []float64{0}, 4,
			[]float64{(math.Cos(4) + math.Sin(4) - math.Exp(-4)) / 2}},
	}
	for _, c := range cases {
		for _, tol := range []float64{1e-4, 1e-7, 1e-10} {
			y := append([]float64(nil), c.y0...)
			s := ode.New(len(y))
			if err := s.Integrate(c.f, 0, c.end, y, ode.Options{RelTol: tol, AbsTol: tol}); err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			for i := range y {
				// The global error is the sum of the steps' errors: tens of tolerances.
				if d := math.Abs(y[i] - c.want[i]); d > 50*tol*math.Max(1, math.Abs(c.want[i])) {
					t.Errorf("%s at tolerance %g: y[%d] = %.12g, want %.12g", c.name, tol, i, y[i], c.want[i])
				}
			}
		}
	}
}

// One fixed step after another: the error of the solution falls with the
// fifth power of the step, that of the continuous output with the fourth or
// better (Hairer et al. I, II.5 and II.6).
func TestConvergenceOrder(t *testing.T) {
	t.Parallel()
	run := func(steps int) (end, between float64) {
		h := 2.0 / float64(steps)
		s := ode.New(2)
		// A tolerance that accepts everything, and no step longer than h.
		opt := ode.Options{RelTol: 1e6, AbsTol: 1e6, InitialStep: h, MaxStep: h}
		if err := s.Start(circle, 0, 2, []float64{1, 0}, opt); err != nil {
			t.Fatal(err)
		}
		out := make([]float64, 2)
		for !s.Done() {
			if err := s.Step(); err != nil {
				t.Fatal(err)
			}
			a, b := s.Last()
			for _, q := range []float64{0.25, 0.5, 0.75} {
				x := a + q*(b-a)
				s.At(x, out)
				between = math.Max(between, math.Hypot(out[0]-math.Cos(x), out[1]-math.Sin(x)))
			}
		}
		y := s.Y()
		return math.Hypot(y[0]-math.Cos(2), y[1]-math.Sin(2)), between
	}
	prevEnd, prevBetween := run(10)
	for _, n := range []int{20, 40, 80} {
		end, between := run(n)
		if p := math.Log2(prevEnd / end); p < 4.7 || p > 6.3 {
			t.Errorf("%d steps: order %.2f, want 5", n, p)
		}
		if p := math.Log2(prevBetween / between); p < 3.7 || p > 6.3 {
			t.Errorf("%d steps: order of the continuous output %.2f, want at least 4", n, p)
		}
		prevEnd, prevBetween = end, between
	}
}

// The same where the time itself is in the system, y' = t y with exp(t²/2):
// every stage must be taken at its own time.
func TestConvergenceOrderWithTime(t *testing.T) {
	t.Parallel()
	run := func(steps int) float64 {
		h := 1.5 / float64(steps)
		y := []float64{1}
		f := func(t float64, y, d []float64) { d[0] = t * y[0] }
		if err := ode.New(1).Integrate(f, 0, 1.5, y, ode.Options{RelTol: 1e6, AbsTol: 1e6, InitialStep: h, MaxStep: h}); err != nil {
			t.Fatal(err)
		}
		return math.Abs(y[0] - math.Exp(1.125))
	}
	prev := run(10)
	for _, n := range []int{20, 40, 80} {
		end := run(n)
		if p := math.Log2(prev / end); p < 4.7 || p > 6.3 {
			t.Errorf("%d steps: order %.2f, want 5", n, p)
		}
		prev = end
	}
}

// The steps do not depend on the unit of the unknowns, nor on that of time, nor
// on how many copies of a system are integrated together. The units are powers
// of two, so that even the rounding is the same.
func TestStepsDependOnNoUnit(t *testing.T) {
	t.Parallel()
	steps := func(unit, hour float64, copies int, opt ode.Options) (h []float64) {
		y := make([]float64, 2*copies)
		for i := range copies {
			y[2*i], y[2*i+1] = 2*unit, 0
		}
		f := func(_ float64, y, d []float64) { // van der Pol, which wants steps of many lengths
			for i := range copies {
				x, v := y[2*i]/unit, y[2*i+1]/unit
				d[2*i], d[2*i+1] = v*unit/hour, (3*(1-x*x)*v-x)*unit/hour
			}
		}
		opt.RelTol, opt.AbsTol = 1e-6, 1e-6*unit
		opt.InitialStep, opt.MaxStep = opt.InitialStep*hour, opt.MaxStep*hour
		s := ode.New(len(y))
		if err := s.Start(f, 0, 12*hour, y, opt); err != nil {
			t.Fatal(err)
		}
		for !s.Done() {
			if err := s.Step(); err != nil {
				t.Fatal(err)
			}
			from, to := s.Last()
			if to != s.T() {
				t.Fatalf("the last step ends at %v, the solver stands at %v", to, s.T())
			}
			h = append(h, (to-from)/hour)
		}
		return h
	}
	same := func(what string, a, b []float64, within float64) {
		t.Helper()
		if len(a) != len(b) {
			t.Errorf("%s: %d steps, %d", what, len(a), len(b))
			return
		}
		for i := range a {
			if math.Abs(a[i]/b[i]-1) > within {
				t.Errorf("%s: step %d is %v, %v", what, i, a[i], b[i])
				return
			}
		}
	}
	free, given := ode.Options{}, ode.Options{InitialStep: 1.0 / 128}
	base := steps(1, 1, 1, free)
	for _, unit := range []float64{1 << 20, 1.0 / (1 << 20)} {
		same("another unit", steps(unit, 1, 1, free), base, 1e-12)
		same("another unit of time", steps(1, unit, 1, given), steps(1, 1, 1, given), 1e-12)
	}
	// Sums of more terms round differently.
	same("nine copies", steps(1, 1, 9, free), base, 1e-6)
	// No step is longer than allowed, the first included.
	for _, opt := range []ode.Options{{MaxStep: 1.0 / 1024}, {MaxStep: 1.0 / 1024, InitialStep: 1}} {
		for i, h := range steps(1, 1, 1, opt) {
			if h > 1.0/1024*1.02 { // the last may take up a hundredth more
				t.Fatalf("step %d is %v", i, h)
			}
		}
	}
}

// The restricted three-body orbit of Arenstorf returns to its start after one
// period: constants, start and period as printed in Hairer, Nørsett, Wanner,
// Solving Ordinary Differential Equations I, II.0 (equations 0.1 and 0.2).
func TestArenstorfOrbit(t *testing.T) {
	t.Parallel()
	const mu = 0.012277471
	f := func(_ float64, y, d []float64) {
		d1 := math.Pow((y[0]+mu)*(y[0]+mu)+y[1]*y[1], 1.5)
		d2 := math.Pow((y[0]-1+mu)*(y[0]-1+mu)+y[1]*y[1], 1.5)
		d[0], d[1] = y[2], y[3]
		d[2] = y[0] + 2*y[3] - (1-mu)*(y[0]+mu)/d1 - mu*(y[0]-1+mu)/d2
		d[3] = y[1] - 2*y[2] - (1-mu)*y[1]/d1 - mu*y[1]/d2
	}
	start := []float64{0.994, 0, 0, -2.00158510637908252240537862224}
	const period = 17.0652165601579625588917206249
	y := append([]float64(nil), start...)
	s := ode.New(4)
	if err := s.Integrate(f, 0, period, y, ode.Options{RelTol: 1e-11, AbsTol: 1e-11}); err != nil {
		t.Fatal(err)
	}
	for i := range y {
		if d := math.Abs(y[i] - start[i]); d > 2e-5*math.Max(1, math.Abs(start[i])) {
			t.Errorf("y[%d] = %.9f, want %.9f", i, y[i], start[i])
		}
	}
	// Hairer's figure 0.1 needs 74 steps for this orbit at a loose tolerance;
	// tens to a few hundred are right for a pair of order 5, thousands are not.
	y = append(y[:0], start...)
	if err := s.Integrate(f, 0, period, y, ode.Options{RelTol: 1e-4, AbsTol: 1e-4}); err != nil {
		t.Fatal(err)
	}
	if n, _ := s.Steps(); n < 30 || n > 250 {
		t.Errorf("%d steps for the orbit", n)
	}
}

// What is conserved stays: a chain of first-order reactions keeps its sum.
func TestLinearSumIsKept(t *testing.T) {
	t.Parallel()
	f := func(_ float64, y, d []float64) {
		r1, r2 := 3*y[0], 0.2*y[1]
		d[0], d[1], d[2] = -r1, r1-r2, r2
	}
	y := []float64{1, 0, 0}
	if err := ode.New(3).Integrate(f, 0, 12, y, ode.Options{}); err != nil {
		t.Fatal(err)
	}
	if d := math.Abs(y[0] + y[1] + y[2] - 1); d > 1e-13 {
		t.Errorf("the sum drifted by %g", d)
	}
}

func TestSample(t *testing.T) {
	t.Parallel()
	var times []float64
	for i := range 101 {
		times = append(times, float64(i)/10)
	}
	s := ode.New(2)
	seen := 0
	err := s.Sample(circle, times, []float64{1, 0}, ode.Options{RelTol: 1e-9, AbsTol: 1e-9}, func(i int, x float64, y []float64) {
		if i != seen || x != times[i] {
			t.Errorf("visit %d at %g", i, x)
		}
		seen++
		if d := math.Hypot(y[0]-math.Cos(x), y[1]-math.Sin(x)); d > 1e-6 {
			t.Errorf("at %g off by %g", x, d)
		}
	})
	if err != nil || seen != len(times) {
		t.Fatalf("%d of %d samples, %v", seen, len(times), err)
	}
	err = s.Sample(circle, []float64{0, 1, 1}, []float64{1, 0}, ode.Options{}, func(int, float64, []float64) {})
	if !errors.Is(err, ode.ErrInput) {
		t.Errorf("times that stand still: %v", err)
	}
}

func TestRefusals(t *testing.T) {
	t.Parallel()
	s := ode.New(1)
	y := []float64{1}
	nan := math.NaN()
	cases := []struct {
		name string
		f    ode.System
		y    []float64
		to   float64
		opt  ode.Options
		want error
	}{
		{"length", decay, []float64{1, 2}, 1, ode.Options{}, ode.ErrInput},
		{"start", decay, []float64{nan}, 1, ode.Options{}, ode.ErrInput},
		{"end", decay, y, math.Inf(1), ode.Options{}, ode.ErrInput},
		{"tolerances", decay, y, 1, ode.Options{AbsTols: []float64{1, 1}}, ode.ErrInput},
		{"not finite", func(_ float64, _, d []float64) { d[0] = nan }, y, 1, ode.Options{}, ode.ErrNotFinite},
		{"not finite later", func(x float64, _, d []float64) { d[0] = math.Sqrt(0.5 - x) }, y, 1, ode.Options{}, ode.ErrNotFinite},
		{"too many", decay, y, 100, ode.Options{MaxSteps: 3}, ode.ErrTooMany},
	}
	for _, c := range cases {
		in := append([]float64(nil), c.y...)
		if err := s.Integrate(c.f, 0, c.to, in, c.opt); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.name, err, c.want)
		}
	}
	// y = 1/(1-x) has no value at 1: whatever the error, there is one.
	in := []float64{1}
	if err := s.Integrate(func(_ float64, y, d []float64) { d[0] = y[0] * y[0] }, 0, 2, in, ode.Options{}); err == nil {
		t.Error("passed a pole")
	}
}

// A step that leaves where the system has an answer is taken again, shorter:
// y' = -√y from 1, which is (1 - t/2)², with a first step far past the zero.
func TestComesCloser(t *testing.T) {
	t.Parallel()
	y, outside := []float64{1}, false
	err := ode.New(1).Integrate(func(_ float64, y, d []float64) {
		d[0] = -math.Sqrt(y[0])
		outside = outside || y[0] < 0
	}, 0, 1.9, y, ode.Options{InitialStep: 1.9, RelTol: 1e-8, AbsTol: 1e-10})
	if err != nil || math.Abs(y[0]-0.0025) > 1e-7 || !outside {
		t.Errorf("%v (%v), left the domain: %v; want 0.0025", y[0], err, outside)
	}
}

func TestNoAllocation(t *testing.T) {
	s := ode.New(2)
	y := make([]float64, 2)
	n := testing.AllocsPerRun(20, func() {
		y[0], y[1] = 1, 0
		if err := s.Integrate(circle, 0, 10, y, ode.Options{}); err != nil {
			t.Fatal(err)
		}
	})
	if n != 0 {
		t.Errorf("%g allocations per integration", n)
	}
}

// There and back again, for random linear systems.
func TestReverses(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-1, 1)
		m := [4]float64{a.Draw(t, "a"), a.Draw(t, "b"), a.Draw(t, "c"), a.Draw(t, "d")}
		f := func(_ float64, y, d []float64) {
			d[0] = m[0]*y[0] + m[1]*y[1]
			d[1] = m[2]*y[0] + m[3]*y[1]
		}
		y := []float64{a.Draw(t, "y0"), a.Draw(t, "y1")}
		was := [2]float64{y[0], y[1]}
		s := ode.New(2)
		opt := ode.Options{RelTol: 1e-9, AbsTol: 1e-11}
		end := rapid.Float64Range(-3, 3).Draw(t, "end")
		if err := s.Integrate(f, 0, end, y, opt); err != nil {
			t.Fatal(err)
		}
		if err := s.Integrate(f, end, 0, y, opt); err != nil {
			t.Fatal(err)
		}
		for i := range y {
			if math.Abs(y[i]-was[i]) > 1e-5 {
				t.Fatalf("y[%d] came back as %g, was %g", i, y[i], was[i])
			}
		}
	})
}

func BenchmarkCircle(b *testing.B) {
	s := ode.New(2)
	y := make([]float64, 2)
	b.ReportAllocs()
	for b.Loop() {
		y[0], y[1] = 1, 0
		if err := s.Integrate(circle, 0, 10, y, ode.Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
