package ferment

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"

	"skep/calc/doubt"
)

func TestClockRunsBothWays(t *testing.T) {
	t.Parallel()
	for _, c := range []clock{{8, 1}, {3, 1.5}, {15, 0.6}, {0.01, 20}} {
		before := -1.0
		for tau := 0.0; tau < 60; tau += 0.37 {
			wall := c.wall(tau)
			got, _ := c.yeast(wall)
			near(t, "yeast(wall)", got, tau, 1e-9)
			if wall < before {
				t.Fatalf("%v: the clock runs back at %v", c, tau)
			}
			before = wall
		}
		// The lag is the time lost.
		end := c.started() + 10
		tau, activity := c.yeast(end)
		near(t, "time lost", end-tau/c.s, c.lag, 1e-9)
		near(t, "activity", activity, c.s, 0)
		// Activity is the slope.
		for _, u := range []float64{0.6, 0.9, 1.2, 1.49, 1.6} {
			at, d := u*c.lag, 1e-6*c.lag
			up, _ := c.yeast(at + d)
			down, _ := c.yeast(at - d)
			_, a := c.yeast(at)
			near(t, "slope", (up-down)/(2*d), a, 1e-4*c.s)
		}
	}
}

// The scaling is exact: a draw of rate and lag is the course run anew.
func TestTimingIsTheCourseRunAnew(t *testing.T) {
	t.Parallel()
	timing, err := NewTiming(ale())
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range []Doubt{{}, {Rate: 1.5}, {Rate: -2}, {Lag: 1.3}, {Lag: -1}, {Rate: 1, Lag: -1.5}, {Rate: 2.5, Lag: 2.5}} {
		rate, lag := d.factors()
		in := ale()
		in.RateFactor, in.LagHours = rate, UsualLagHours*lag
		c, got := mustRun(t, in), timing.At(d)
		within := 0.01 // h
		if c.HeightHours < 1.5*in.LagHours {
			within = 0.1 // a height in the smooth start is looked up on the track
		}
		near(t, "height", got.HeightHours, c.HeightHours, within)
		near(t, "opening", got.Window[0], c.Window[0], within)
		near(t, "closing", got.Window[1], c.Window[1], within)
		near(t, "finish", got.FinishedHours, c.FinishedHours, 0.05)
	}
	// The temperature is interpolated.
	for _, z := range []float64{-2, -1, 1, 2} {
		in := ale()
		in.TemperatureC += z * UsualTemperatureErrorC
		c, got := mustRun(t, in), timing.At(Doubt{Temperature: z})
		// The opening is where the later of two conditions is met: a kink.
		near(t, "height by temperature", got.HeightHours, c.HeightHours, 0.2)
		near(t, "opening by temperature", got.Window[0], c.Window[0], 0.5)
		near(t, "closing by temperature", got.Window[1], c.Window[1], 0.2)
		near(t, "finish by temperature", got.FinishedHours, c.FinishedHours, 0.5)
	}
}

func TestFinishWithHoneyIsInterpolated(t *testing.T) {
	t.Parallel()
	timing, err := NewTiming(honeyAle())
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range []Doubt{
		{}, {Rate: 0.5}, {Rate: -1.5}, {Rate: 2}, {Rate: -2}, {Rate: 3}, {Rate: -3}, {Lag: 1.2}, {Lag: -1}, {Rate: 1, Lag: 1},
		{Temperature: 1}, {Temperature: -1}, {Rate: -1, Temperature: 1}, {Rate: 1, Temperature: -1},
	} {
		rate, lag := d.factors()
		in := honeyAle()
		in.RateFactor, in.LagHours = rate, UsualLagHours*lag
		in.TemperatureC += d.Temperature * UsualTemperatureErrorC
		near(t, "finish", timing.At(d).FinishedHours, mustRun(t, in).FinishedHours, 1.5)
	}
	// At the scores where courses were run, the finish is theirs; additions given
	// by the hour stand there in the middle course.
	for _, hours := range []Addition{honeyAle().Additions[0], {Hours: 50, Sugars: honeyGPerL, Fermentable: 0.93, VolumeShare: 0.03}} {
		in := honeyAle()
		in.Additions[0] = hours
		timing, err := NewTiming(in)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "finish of the middle", timing.At(Doubt{}).FinishedHours, mustRun(t, in).FinishedHours, 0.05)
	}
}

// A draw stands where the middle course stood at its equivalent hour: the same
// gas made, coming as much faster. Exact for rate and lag; for temperature the
// shape of the course changes a little.
func TestEquivalentHour(t *testing.T) {
	t.Parallel()
	in := ale()
	in.TemperatureErrorC = 2
	timing, err := NewTiming(in)
	if err != nil {
		t.Fatal(err)
	}
	middle := mustRun(t, in)
	for _, d := range []Doubt{{}, {Rate: 1}, {Rate: -1.5, Lag: 1}, {Lag: -1}, {Temperature: 1}, {Temperature: -1}, {Rate: 1, Temperature: -1}} {
		rate, lag := d.factors()
		in := ale()
		in.RateFactor, in.LagHours = rate, UsualLagHours*lag
		in.TemperatureC += 2 * d.Temperature
		c := mustRun(t, in)
		within := 0.002
		if d.Temperature != 0 {
			within = 0.06
		}
		all := c.CO2TotalGPerL[len(c.Hours)-1]
		for h := 10; h < 120; h += 5 {
			at, faster := timing.Equivalent(float64(h), d)
			_, co2 := middle.At(at)
			near(t, "gas made", co2/all, c.CO2TotalGPerL[h]/all, within)
			_, before := middle.At(at - 0.5)
			_, after := middle.At(at + 0.5)
			near(t, "rate", faster*(after-before), c.CO2RateGPerLH[h], (0.02+2*within)*2.5)
		}
	}
	if at, faster := timing.Equivalent(0, Doubt{}); at != 0 || faster != 0 {
		t.Errorf("at pitching %v, %v", at, faster)
	}
}

// The draws are standard normal scores that do not hang together: within two
// standard errors of as many random ones, 2/sqrt(512) = 0.088.
func TestLattice(t *testing.T) {
	t.Parallel()
	var x [3][]float64
	for _, d := range lattice(drawCount) {
		for i, v := range []float64{d.Rate, d.Lag, d.Temperature} {
			x[i] = append(x[i], v)
		}
	}
	for i := range x {
		if mean, sd := stat.MeanStdDev(x[i], nil); math.Abs(mean) > 0.088 || math.Abs(sd-1) > 0.063 {
			t.Errorf("score %d: mean %v, sd %v", i, mean, sd)
		}
		if r := stat.Correlation(x[i], x[(i+1)%3], nil); math.Abs(r) > 0.088 {
			t.Errorf("scores %d and %d are correlated: %v", i, (i+1)%3, r)
		}
	}
	// However few, none is further out than half a step from the ends.
	for _, d := range lattice(1) {
		if d.Doubt != (Doubt{}) {
			t.Errorf("one draw alone is %+v", d.Doubt)
		}
	}
}

// The bands of a course are the percentiles of its draws, each the middle
// course at its own hour and pace.
func TestCourseBandsAreTheDraws(t *testing.T) {
	t.Parallel()
	in := ale()
	c := mustRun(t, in)
	timing, err := NewTiming(in)
	if err != nil {
		t.Fatal(err)
	}
	b := timing.Course(&c)
	for h := 12; h < 100; h += 8 {
		var rates []float64
		for _, d := range draws {
			at, faster := timing.Equivalent(float64(h), d.Doubt)
			_, before := c.At(at - 0.25)
			_, after := c.At(at + 0.25)
			rates = append(rates, 2*faster*(after-before))
		}
		low, mid, high := doubt.Percentiles(rates)
		got := b.CO2RateGPerLH[h]
		near(t, "low", got.Low, low, 0.1*high)
		near(t, "mid", got.Mid, mid, 0.1*high)
		near(t, "high", got.High, high, 0.1*high)
		if g := b.GravitySG[h]; !(g.Low < g.Mid && g.Mid < g.High) {
			t.Errorf("gravity at %d h: %+v", h, g)
		}
	}
}

// In the heart of the start-up the height must move without a jump.
func TestHeightIsSmoothInTheLag(t *testing.T) {
	t.Parallel()
	in := ale()
	in.TemperatureC = 28
	timing, err := NewTiming(in)
	if err != nil {
		t.Fatal(err)
	}
	before := timing.At(Doubt{Lag: -3})
	for z := -2.99; z < 3; z += 0.01 { // a lag of 0.8 to 35 h
		now := timing.At(Doubt{Lag: z})
		lagStep := 0.01 / 1.28155 * math.Log(15.0/8) * UsualLagHours * 4.4 // at z = 3
		for i, d := range []float64{now.HeightHours - before.HeightHours, now.Window[0] - before.Window[0], now.Window[1] - before.Window[1]} {
			if d < -0.02 || d > lagStep+0.02 {
				t.Fatalf("milestone %d moves by %.3f h in one step at a score of %.2f", i, d, z)
			}
		}
		before = now
	}
}

func TestBandsConverge(t *testing.T) {
	t.Parallel()
	timing, err := NewTiming(honeyAle())
	if err != nil {
		t.Fatal(err)
	}
	few, many := timing.Bands(), timing.bands(lattice(8*drawCount))
	for _, p := range []struct {
		name string
		a, b Band
	}{
		{"height", few.HeightHours, many.HeightHours}, {"opening", few.Window[0], many.Window[0]},
		{"closing", few.Window[1], many.Window[1]}, {"finish", few.FinishedHours, many.FinishedHours},
	} {
		near(t, p.name+" low", p.a.Low/p.b.Low, 1, 0.02)
		near(t, p.name+" mid", p.a.Mid/p.b.Mid, 1, 0.02)
		near(t, p.name+" high", p.a.High/p.b.High, 1, 0.02)
		if !(p.a.Low < p.a.Mid && p.a.Mid < p.a.High) {
			t.Errorf("%s: %v", p.name, p.a)
		}
	}
}

// With the rate alone in doubt the band must be a factor of 1.5 of the time
// after the lag (design notes, section 7).
func TestRateSpreadIsTheDesigns(t *testing.T) {
	t.Parallel()
	timing, err := NewTiming(ale())
	if err != nil {
		t.Fatal(err)
	}
	mid := timing.At(Doubt{}).Window[1] - UsualLagHours
	near(t, "slow", (timing.At(Doubt{Rate: -1.2815515655}).Window[1]-UsualLagHours)/mid, 1.5, 1e-6)
	near(t, "fast", (timing.At(Doubt{Rate: 1.2815515655}).Window[1]-UsualLagHours)/mid, 1/1.5, 1e-6)
	_, short := Doubt{Lag: -1.2815515655}.factors()
	_, long := Doubt{Lag: 1.2815515655}.factors()
	near(t, "shortest lag", UsualLagHours*short, 3, 1e-6) // C. White: 3 to 15 h
	near(t, "longest lag", UsualLagHours*long, 15, 1e-6)
}

func TestCourseBandsHoldTheCourse(t *testing.T) {
	t.Parallel()
	in := ale()
	c := mustRun(t, in)
	timing, err := NewTiming(in)
	if err != nil {
		t.Fatal(err)
	}
	b := timing.Course(&c)
	for i := range c.Hours {
		g := b.GravitySG[i]
		if !(g.Low <= c.GravitySG[i]+1e-9 && c.GravitySG[i] <= g.High+1e-9) {
			t.Fatalf("at %d h the gravity %.4f is outside its band %v", i, c.GravitySG[i], g)
		}
	}
	// Run anew at the edge of the band: inside or near it at every hour.
	in.RateFactor = RateSpread
	fast := mustRun(t, in)
	for i := 20; i < 160; i += 10 {
		if g := b.GravitySG[i]; fast.GravitySG[i] > g.Mid+1e-6 {
			t.Errorf("at %d h a fast brew shows %.4f, above the middle %.4f", i, fast.GravitySG[i], g.Mid)
		}
	}
}
