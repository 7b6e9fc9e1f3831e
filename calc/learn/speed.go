package learn

import (
	"cmp"
	"math"
	"slices"

	"skep/calc"
	"skep/calc/ferment"
	"skep/calc/measured"
)

// Gravities between these shares of the fall tell of the speed.
const (
	fallFrom = 0.15
	fallTo   = 0.85
)

// timing is one reading's say on the time factor.
type timing struct{ log, variance float64 }

// speed compares when the beer was so far with when it should have been:
// gravities half way down, foam at its height. One factor on all times, lag
// and rate together.
func (b *batch) speed(x calc.Inputs) {
	if !b.line.Pitched || b.line.Guessed {
		return
	}
	var gravities, foams []*measured.Point
	honeyAt := math.Inf(1)
	for i := range b.line.Points {
		p := &b.line.Points[i]
		switch {
		case !p.Used || p.Hours <= 0:
		case p.What == measured.HoneyAdded:
			honeyAt = min(honeyAt, p.Hours)
		case p.What == measured.Gravity && p.Instrument == "hydrometer" && p.Hours < honeyAt:
			gravities = append(gravities, p)
		case p.What == measured.Foam:
			foams = append(foams, p)
		}
	}
	if len(gravities)+len(foams) == 0 {
		return
	}
	if b.StrainPct.Known {
		x.Take = calc.TakeOf(b.StrainPct.Mean)
	}
	c := b.brew.course(&x)
	height := c.HeightHours
	timings := foamed(foams, height)
	for _, p := range gravities {
		if t, ok := passed(p, c); ok {
			timings = append(timings, t)
		}
	}
	if len(timings) == 0 {
		return
	}
	mean, sd := together(timings)
	// The shape of the course errs the same way in all readings of a batch.
	b.LogTime = value(mean, math.Hypot(sd, shapeTimeSD))
	hours := height * math.Exp(b.LogTime.Mean)
	b.HeightHours = value(hours, hours*b.LogTime.SD)
}

// together is the mean of what readings say and its sd, each by its own error. A
// wrong reading must not teach a kit: what is off the median by much more than a
// course errs counts for little (weights of Student's t with five degrees of freedom,
// as package follow has it).
func together(timings []timing) (mean, sd float64) {
	const freedom, rounds = 5.0, 10
	sorted := slices.SortedFunc(slices.Values(timings), func(a, b timing) int { return cmp.Compare(a.log, b.log) })
	n := len(sorted)
	mean = (sorted[(n-1)/2].log + sorted[n/2].log) / 2
	for range rounds {
		w, sum := 0.0, 0.0
		for _, t := range timings {
			off := (t.log - mean) * (t.log - mean) / (t.variance + shapeTimeSD*shapeTimeSD)
			one := (freedom + 1) / (freedom + off) / t.variance
			w, sum = w+one, sum+one*t.log
		}
		mean, sd = sum/w, math.Sqrt((freedom+1)/freedom/w)
	}
	return mean, sd
}

// passed compares the hour of a gravity with the hour at which the predicted
// course shows it.
func passed(p *measured.Point, c *calc.Fermentation) (timing, bool) {
	from, to := c.At(0).GravitySG, c.EndSG(0)
	if fall := from - to; !(fall > 0.005) || p.Value > from-fallFrom*fall || p.Value < from-fallTo*fall {
		return timing{}, false
	}
	hour := hourOf(c, p.Value)
	sd := math.Abs(hourOf(c, p.Value-p.SD)-hourOf(c, p.Value+p.SD)) / 2
	if !(hour > 0) {
		return timing{}, false
	}
	return timing{math.Log(p.Hours / hour), math.Pow(sd/hour, 2) + 1e-6}, true
}

// hourOf is when a course comes down to a gravity, by bisection; at the ends of
// what is followed where it never does.
func hourOf(c *calc.Fermentation, sg float64) float64 {
	lo, hi := 0.0, ferment.LongestHours
	for range 30 {
		if mid := (lo + hi) / 2; c.GravityAt(mid) > sg {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// foamed reads foam: at its height, or between the last that rose and the
// first that fell.
func foamed(foams []*measured.Point, heightHours float64) (timings []timing) {
	rose, fell, seen := 0.0, math.Inf(1), false
	for _, p := range foams {
		switch p.Value {
		case 1:
			rose = max(rose, p.Hours)
		case 2:
			timings, seen = append(timings, timing{math.Log(p.Hours / heightHours), foamTime * foamTime}), true
		case 3:
			fell = min(fell, p.Hours)
		}
	}
	if !seen && rose > 0 && fell > rose && !math.IsInf(fell, 1) {
		mid := (rose + fell) / 2
		wide := (fell - rose) / mid / math.Sqrt(12)
		timings = append(timings, timing{math.Log(mid / heightHours), wide*wide + foamTime*foamTime})
	}
	return timings
}
