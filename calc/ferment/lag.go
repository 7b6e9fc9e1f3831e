package ferment

import "math"

// clock is the lag and the rate as a change of time: the yeast's own hours τ
// against hours t after pitching. Nothing happens until half the lag; activity
// then rises smoothly (3u² - 2u³) and is full at one and a half times the lag,
// after which τ = s (t - lag) exactly. The smooth start is ours; the lag is
// the time lost.
//
// Courses of one pace differ in shape: some fall late and fast, some early and
// long. Where half is the yeast's hours in which half of the sugar goes, they are
// stretched to half (τ/half)^shape, which leaves the half-way hour where it is.
type clock struct {
	lag, s      float64
	shape, half float64 // half 0: not stretched
}

// yeast is τ at t, and activity its slope dτ/dt.
func (c clock) yeast(t float64) (tau, activity float64) {
	u := (t - c.lag/2) / c.lag
	switch {
	case u <= 0:
		return 0, 0
	case u >= 1:
		tau, activity = c.s*(t-c.lag), c.s
	default:
		tau, activity = c.s*c.lag*u*u*u*(1-u/2), c.s*u*u*(3-2*u)
	}
	if c.half > 0 && tau > 0 {
		x := tau / c.half
		r := math.Pow(x, c.shape)
		return c.half * r, activity * c.shape * r / x
	}
	return tau, activity
}

// plain is the τ before the stretch.
func (c clock) plain(tau float64) float64 {
	if c.half > 0 && tau > 0 {
		return c.half * math.Pow(tau/c.half, 1/c.shape)
	}
	return tau
}

// pace is the activity over that of the rate alone, at a τ.
func (c clock) pace(tau float64) float64 {
	plain := c.plain(tau)
	if plain < c.s*c.lag/2 {
		_, activity := c.yeast(c.wall(tau))
		return activity / c.s
	}
	if c.half > 0 {
		return c.shape * tau / plain
	}
	return 1
}

// started is when activity is full.
func (c clock) started() float64 { return 1.5 * c.lag }

// wall is the t at which the yeast's clock shows tau.
func (c clock) wall(tau float64) float64 {
	if tau <= 0 {
		return c.lag / 2
	}
	want := c.plain(tau) / c.s
	if want >= c.lag/2 {
		return c.lag + want
	}
	lo, hi := c.lag/2, c.started()
	for range 60 {
		mid := (lo + hi) / 2
		if got, _ := c.yeast(mid); got < tau {
			lo = mid
		} else {
			hi = mid
		}
		if hi-lo < 1e-12*math.Max(1, hi) {
			break
		}
	}
	return (lo + hi) / 2
}

// YeastHours is what the clock of the yeast shows after so many hours at 20 °C,
// with a lag: what a course of full activity from pitching has to be read at.
func YeastHours(hoursAt20C, lagHours float64) float64 {
	tau, _ := clock{lag: lagHours, s: 1}.yeast(hoursAt20C)
	return tau
}
