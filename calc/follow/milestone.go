package follow

import "math"

// milestones finds height, window and finish of what has been walked, with so
// much to ferment in all, g per litre pitched.
//
// The height is the node of the greatest rate, mended by a parabola. Within the
// yeast's smooth start rising activity and falling sugar pull against each
// other, so there the rate counts by the hour, not by the yeast's clock.
func (c *course) milestones(whole float64) {
	t := &c.times
	if whole <= nothingG {
		*t = milestones{c.clock.lag, c.clock.lag, c.clock.lag, c.clock.lag}
		return
	}
	rate := c.rate
	k := greatest(rate)
	if c.tauOf(k)/c.clock.rate < c.clock.lag/2 {
		c.slow = c.slow[:0]
		for i := range rate {
			_, activity := c.clock.yeast(c.clock.wall(c.tauOf(i)))
			c.slow = append(c.slow, rate[i]*activity/c.clock.rate)
		}
		rate = c.slow
		k = greatest(rate)
	}
	tau, peak := c.tauOf(k), rate[k]
	if k > 0 && k < len(rate)-1 {
		a, b := c.tauOf(k)-c.tauOf(k-1), c.tauOf(k+1)-c.tauOf(k)
		if a > 1e-6 && math.Abs(a-b) < 1e-6 {
			l, r := rate[k-1], rate[k+1]
			if bend := l - 2*peak + r; bend < 0 {
				u := (l - r) / (2 * bend)
				tau += u * a
				peak -= (l - r) * u / 4
			}
		}
	}
	opens, closes := -1.0, -1.0
	for i := k + 1; i < len(rate); i++ {
		if opens < 0 && rate[i] < openRate*peak && c.done[i] >= openDone*whole {
			slow := crossing(rate[i-1], rate[i], openRate*peak)
			half := crossing(c.done[i-1], c.done[i], openDone*whole)
			opens = c.tauOf(i-1) + max(slow, half)*(c.tauOf(i)-c.tauOf(i-1))
		}
		if opens >= 0 && (rate[i] < closeRate*peak || c.done[i] >= closeDone*whole) {
			u := 1.0
			if rate[i] < closeRate*peak {
				u = min(u, crossing(rate[i-1], rate[i], closeRate*peak))
			}
			if c.done[i] >= closeDone*whole {
				u = min(u, crossing(c.done[i-1], c.done[i], closeDone*whole))
			}
			closes = c.tauOf(i-1) + u*(c.tauOf(i)-c.tauOf(i-1))
			break
		}
	}
	end := c.tauOf(len(rate) - 1)
	if opens < 0 {
		opens = max(tau, end)
	}
	if closes < 0 {
		closes = max(opens, end)
	}
	t.height = c.clock.wall(tau)
	t.opens = max(t.height, c.clock.wall(opens))
	t.closes = max(t.opens, c.clock.wall(closes))
	t.finished = c.reached(finishedDone * whole)
}

func greatest(x []float64) int {
	k := 0
	for i := range x {
		if x[i] > x[k] {
			k = i
		}
	}
	return k
}

// crossing is where, between 0 and 1, a line from a to b passes x; 0 where it
// has passed before.
func crossing(a, b, x float64) float64 {
	if a == b {
		return 0
	}
	return min(max((x-a)/(b-a), 0), 1)
}

// tauOf is the yeast's clock at a node.
func (c *course) tauOf(i int) float64 {
	k := len(c.parts) - 1
	for k > 0 && c.parts[k].first > i {
		k--
	}
	return c.parts[k].tau + float64(i-c.parts[k].first)*c.parts[k].step
}

// reached is the hour at which so much has fermented; the longest if never.
func (c *course) reached(doneG float64) float64 {
	for i, d := range c.done {
		if d < doneG {
			continue
		}
		if i == 0 {
			return c.clock.wall(0)
		}
		a, b := c.tauOf(i-1), c.tauOf(i)
		return c.clock.wall(a + crossing(c.done[i-1], d, doneG)*(b-a))
	}
	return longestHours
}
