package ferment

import "math"

// What is noted by the hour is worked out in full at some hours and lies on a cubic
// between them.
const (
	noteErrsGPerL = 0.0002 // fermented: less than the steps of a walk err by
	linearGPerL   = 2.0    // so little ferments that gravity is linear in it, to 1e-7
	longestNote   = 16     // hours
	// A beer that has gone on by no more stands still: 1e-9 SG.
	negligibleShare = 1e-8
)

// note is a course at an hour at which it is worked out in full.
type note struct {
	hour, fermented, rate, gone, gravity float64
	doses                                int
}

func (c *Fermentation) note(hour int) note {
	m := c.Walk.At(float64(hour))
	gone := c.Balance.gone(float64(hour), m.FermentedGPerL, m.Doses)
	return note{float64(hour), m.FermentedGPerL, m.RateGPerLH, gone, c.Balance.gravity(gone, m.Doses), m.Doses}
}

// Hourly visits [Fermentation.At] at the first hours after pitching, 0, 1, 2 …: the
// gravity, and the carbon dioxide given off per litre pitched and hour. The straighter
// a course is, the farther apart are the hours at which it is worked out.
func (c *Fermentation) Hourly(hours int, visit func(hour int, gravitySG, co2RateGPerLH float64)) {
	var known [2]note // the two before a
	count, span, event := 0, 1, 0
	a := c.note(0)
	visit(0, a.gravity, CO2PerExtract*a.rate)
	for h := 0; h+1 < hours; {
		for event < len(c.Events) && c.Events[event].Hours <= a.hour {
			event++
		}
		to := min(h+span, hours-1)
		if event < len(c.Events) {
			to = min(to, int(math.Ceil(c.Events[event].Hours))-1)
		}
		if a.hour < 1.5*c.clock.lag {
			to = h
		}
		to = max(to, h+1)
		b := c.note(to)
		errs := math.Inf(1)
		if width := b.hour - a.hour; count == len(known) {
			errs = math.Abs(thirdDifference(&known[0], &known[1], &a, &b)) * (width * width) * (width * width) / 64
			if errs != errs {
				errs = math.Inf(1)
			}
		}
		if to > h+1 && !(errs < noteErrsGPerL) {
			span = (to - h) / 2
			continue
		}
		for k := h + 1; k < to; k++ {
			c.between(&a, &b, k, visit)
		}
		visit(to, b.gravity, CO2PerExtract*b.rate)
		span = to - h
		if 16*errs < noteErrsGPerL {
			span = min(2*span, longestNote)
		}
		known[0], known[1] = known[1], a
		count = min(count+1, len(known))
		a, h = b, to
	}
}

// between visits an hour between two at which a course is known.
func (c *Fermentation) between(a, b *note, hour int, visit func(hour int, gravitySG, co2RateGPerLH float64)) {
	width, made := b.hour-a.hour, b.fermented-a.fermented
	u := (float64(hour) - a.hour) / width
	start, end := width*a.rate, width*b.rate
	two, three := 3*made-2*start-end, start+end-2*made
	fermented := a.fermented + u*(start+u*(two+u*three))
	rate := (start + u*(2*two+u*3*three)) / width
	gravity := a.gravity
	if all := b.gone - a.gone; all > negligibleShare {
		gone := c.Balance.gone(float64(hour), fermented, a.doses)
		if made > linearGPerL {
			gravity = c.Balance.gravity(gone, a.doses)
		} else {
			gravity += (gone - a.gone) / all * (b.gravity - a.gravity)
		}
	}
	visit(hour, gravity, CO2PerExtract*max(rate, 0))
}

// thirdDifference is the third divided difference of the rate: a sixth of its third
// derivative.
func thirdDifference(a, b, c, d *note) float64 {
	ab, bc, cd := (b.rate-a.rate)/(b.hour-a.hour), (c.rate-b.rate)/(c.hour-b.hour), (d.rate-c.rate)/(d.hour-c.hour)
	return ((cd-bc)/(d.hour-b.hour) - (bc-ab)/(c.hour-a.hour)) / (d.hour - a.hour)
}
