package ferment

import "math"

// clock is the lag and the rate as a change of time: the yeast's own hours τ
// against hours t after pitching. Nothing happens until half the lag; activity
// then rises smoothly (3u² - 2u³) and is full at one and a half times the lag,
// after which τ = s (t - lag) exactly. The smooth start is ours; the lag is
// the time lost.
type clock struct{ lag, s float64 }

// yeast is τ at t, and activity its slope dτ/dt.
func (c clock) yeast(t float64) (tau, activity float64) {
	u := (t - c.lag/2) / c.lag
	switch {
	case u <= 0:
		return 0, 0
	case u >= 1:
		return c.s * (t - c.lag), c.s
	}
	return c.s * c.lag * u * u * u * (1 - u/2), c.s * u * u * (3 - 2*u)
}

// started is when activity is full.
func (c clock) started() float64 { return 1.5 * c.lag }

// wall is the t at which the yeast's clock shows tau.
func (c clock) wall(tau float64) float64 {
	if tau <= 0 {
		return c.lag / 2
	}
	want := tau / c.s
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
	tau, _ := clock{lagHours, 1}.yeast(hoursAt20C)
	return tau
}
