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
func (c *clock) yeast(t float64) (tau, activity float64) {
	u := (t - c.lag/2) / c.lag
	switch {
	case u <= 0:
		return 0, 0
	case u >= 1:
		tau, activity = c.s*(t-c.lag), c.s
	default:
		tau, activity = c.s*c.lag*rise(u), c.s*risen(u)
	}
	if c.half > 0 && tau > 0 {
		x := tau / c.half
		r := power(x, c.shape)
		return c.half * r, activity * c.shape * r / x
	}
	return tau, activity
}

// plain is the τ before the stretch.
func (c *clock) plain(tau float64) float64 {
	if c.half > 0 && tau > 0 {
		return c.half * power(tau/c.half, 1/c.shape)
	}
	return tau
}

// pace is the activity over that of the rate alone, at a τ.
func (c *clock) pace(tau float64) float64 { return c.paceOf(tau, c.plain(tau)) }

// paceOf is pace where the plain τ is known.
func (c *clock) paceOf(tau, plain float64) float64 {
	if tau <= 0 {
		return 0
	}
	pace := 1.0
	if full := c.s * c.lag; plain < full/2 {
		pace = risen(unrise(plain / full))
	}
	if c.half > 0 {
		pace *= c.shape * tau / plain
	}
	return pace
}

// wall is the t at which the yeast's clock shows tau.
func (c *clock) wall(tau float64) float64 { return c.wallOf(c.plain(tau)) }

// wallOf is wall where the plain τ is known.
func (c *clock) wallOf(plain float64) float64 {
	if plain <= 0 {
		return c.lag / 2
	}
	want := plain / c.s
	if want >= c.lag/2 {
		return c.lag + want
	}
	return c.lag * (0.5 + unrise(want/c.lag))
}

// risen is the activity at a share of its smooth start, rise the sum of it.
func risen(u float64) float64 { return u * u * (3 - 2*u) }
func rise(u float64) float64  { return u * u * u * (1 - u/2) }

// unrise is the share of the smooth start by which so much has risen, up to half:
// a series near 0, brought home by Newton's steps.
func unrise(sum float64) float64 {
	if !(sum > 0) {
		return 0
	}
	c := math.Cbrt(sum)
	u := min(c*(1+c*(1.0/6+c*(1.0/12+c*(35.0/648+c*(77.0/1944+c/32))))), 1)
	for range 3 {
		step := (rise(u) - sum) / risen(u)
		u -= step
		if math.Abs(step) < 1e-9 { // the next would be below a rounding
			break
		}
	}
	return u
}

// power is x to a power, x above 0: the general one takes several times as long.
func power(x, exponent float64) float64 { return math.Exp(exponent * math.Log(x)) }

// YeastHours is what the clock of the yeast shows after so many hours at 20 °C,
// with a lag: what a course of full activity from pitching has to be read at.
func YeastHours(hoursAt20C, lagHours float64) float64 {
	c := clock{lag: lagHours, s: 1}
	tau, _ := c.yeast(hoursAt20C)
	return tau
}
