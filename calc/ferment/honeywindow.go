package ferment

import "math"

// The honey window and the end, as the design notes define them (section 4).
const (
	openRate     = 0.85 // the window opens when the rate is below this part of the height's
	openDone     = 0.5  // and this share of the attenuation is done;
	closeRate    = 0.1  // it closes when the rate is below this part,
	closeDone    = 0.9  // or this share is done
	flatPart     = 0.93 // a height is flat: the real one lies somewhere where the rate is above this part of the greatest (ours)
	finishedDone = 0.99 // finished: a gravity within half a point of its end (ours)
)

// Times are the milestones of a course, hours after pitching.
type Times struct {
	HeightHours   float64    // greatest CO2 rate of the wort's own fermentation
	Window        [2]float64 // the honey window: opens, closes
	FinishedHours float64    // 99 % of everything fermentable is gone
}

// milestones finds those of what has been walked, but for the finish, and tells
// whether it found them. A place that is not reached is the end of the walk.
//
// Once activity is full an unstretched clock leaves the rate's shape alone; else,
// and within the smooth start, where rising activity and falling sugar pull
// against each other, the height is looked for by the hour.
func (w *Walk) milestones(place float64) (found bool) {
	if w.whole <= nothing {
		w.Times = Times{w.clock.lag, [2]float64{w.clock.lag, w.clock.lag}, w.clock.lag}
		return true
	}
	c := &w.clock
	rate := w.rateAt
	for i := range w.nodes {
		w.nodes[i].paced = w.nodes[i].rate
	}
	k := w.highest()
	if c.half > 0 || w.nodes[k].tau/c.s < c.lag/2 {
		rate = func(i int, tau float64) float64 {
			if n := &w.nodes[i]; tau == n.tau {
				return n.paced
			}
			return c.pace(tau) * w.rateAt(i, tau)
		}
		for i := range w.nodes {
			w.nodes[i].paced *= c.pace(w.nodes[i].tau)
		}
		k = w.highest()
	}
	height, peak := w.summit(k, rate)

	end := w.nodes[len(w.nodes)-1].tau
	opens, closes := end, end
	i := max(k, 1)
	for ; i < len(w.nodes); i++ {
		n := &w.nodes[i]
		if n.tau <= height || rate(i, n.tau) >= openRate*peak || w.done(i) < openDone*w.whole {
			continue
		}
		from := max(w.nodes[i-1].tau, height)
		slow := w.crossing(from, n.tau, func(tau float64) float64 { return openRate*peak - rate(i, tau) })
		half := w.crossing(from, n.tau, func(tau float64) float64 { return w.doneAt(i, tau) - openDone*w.whole })
		opens = max(slow, half)
		break
	}
	for ; i < len(w.nodes); i++ {
		n := &w.nodes[i]
		slow, done := rate(i, n.tau) < closeRate*peak, w.done(i) >= closeDone*w.whole
		if !slow && !done {
			continue
		}
		from := max(w.nodes[i-1].tau, opens)
		closes = n.tau
		if slow {
			closes = min(closes, w.crossing(from, n.tau, func(tau float64) float64 { return closeRate*peak - rate(i, tau) }))
		}
		if done {
			closes = min(closes, w.crossing(from, n.tau, func(tau float64) float64 { return w.doneAt(i, tau) - closeDone*w.whole }))
		}
		break
	}
	at := c.wall(height)
	if place > 0 {
		from, to := w.summitEnds(k, flatPart*peak, rate)
		at = c.wall(from)
		at += place * (c.wall(to) - at)
	}
	opens, closes = max(opens, height), max(closes, opens)
	w.Times = Times{HeightHours: at, Window: [2]float64{c.wall(opens), c.wall(closes)}}
	return i < len(w.nodes)
}

// summitEnds is where the rate passes a level on either side of node k.
func (w *Walk) summitEnds(k int, level float64, rate func(i int, tau float64) float64) (from, to float64) {
	// What is done to the beer after its height does not move it.
	own := w.partOf(k)
	end := own.first + own.n
	from, to = w.nodes[0].tau, w.nodes[end-1].tau
	for i := k; i > 0; i-- {
		if rate(i, w.nodes[i-1].tau) < level {
			from = w.crossing(w.nodes[i-1].tau, w.nodes[i].tau, func(tau float64) float64 { return rate(i, tau) - level })
			break
		}
	}
	for i := k + 1; i < end; i++ {
		if rate(i, w.nodes[i].tau) < level {
			to = w.crossing(w.nodes[i-1].tau, w.nodes[i].tau, func(tau float64) float64 { return level - rate(i, tau) })
			break
		}
	}
	return from, to
}

// partOf is the part of a node.
func (w *Walk) partOf(i int) *part {
	k := len(w.parts) - 1
	for k > 0 && w.parts[k].first > i {
		k--
	}
	return &w.parts[k]
}

// rateAt is the extract fermented per hour of the yeast, between node i and the
// one before it.
func (w *Walk) rateAt(i int, tau float64) float64 {
	b := &w.nodes[i]
	if tau >= b.tau || i == 0 {
		return b.rate
	}
	p := w.partOf(i)
	if i == p.first {
		return w.nodes[i-1].rate // between two parts lies no time
	}
	y := between(&w.nodes[i-1], b, tau)
	var d State
	return p.rates.derive(&y, &d, p.perVolume, p.perMost)
}

// done is what has fermented by a node.
func (w *Walk) done(i int) float64 { return w.partOf(i).put - w.nodes[i].y.extract() }

func (w *Walk) doneAt(i int, tau float64) float64 {
	p := w.partOf(i)
	if i == p.first {
		return p.put - w.nodes[i].y.extract()
	}
	y := between(&w.nodes[i-1], &w.nodes[i], tau)
	return p.put - y.extract()
}

// highest is the node of the greatest rate by the hour. Once it has fallen again, a
// beer that is warmed later has its height behind it, however fast it then goes.
func (w *Walk) highest() int {
	k, most := 0, 0.0
	for p := range w.parts {
		end := w.parts[p].first + w.parts[p].n
		for i := w.parts[p].first; i < end; i++ {
			if r := w.nodes[i].paced; r > most {
				k, most = i, r
			}
		}
		if w.parts[p].n > 1 && k < end-1 {
			break
		}
	}
	return k
}

// summit is the place and height of the greatest rate, which lies beside node k.
func (w *Walk) summit(k int, rate func(i int, tau float64) float64) (tau, peak float64) {
	tau, peak = w.nodes[k].tau, rate(k, w.nodes[k].tau)
	if k == 0 {
		return tau, peak
	}
	a, b := w.nodes[k-1].tau, w.nodes[min(k+1, len(w.nodes)-1)].tau
	f := func(x float64) float64 {
		if x <= w.nodes[k].tau {
			return rate(k, x)
		}
		return rate(k+1, x)
	}
	fa, fb := f(a), f(b)
	// Parabolas through the best three, or the longer side's middle where they
	// lead nowhere.
	for range 12 {
		if b-a < 1e-3 {
			break
		}
		x := (a + tau) / 2
		if b-tau > tau-a {
			x = (tau + b) / 2
		}
		p, q := (tau-a)*(peak-fb), (tau-b)*(peak-fa)
		if p != q {
			v := tau - ((tau-a)*p-(tau-b)*q)/(2*(p-q))
			if v > a && v < b && math.Abs(v-tau) > 1e-4 {
				x = v
			} else if math.Abs(v-tau) <= 1e-4 {
				break
			}
		}
		fx := f(x)
		switch {
		case fx > peak && x > tau:
			a, fa, tau, peak = tau, peak, x, fx
		case fx > peak:
			b, fb, tau, peak = tau, peak, x, fx
		case x > tau:
			b, fb = x, fx
		default:
			a, fa = x, fx
		}
	}
	return tau, peak
}

// crossing is where f passes from negative to not negative between a and b: a if
// it has passed before (the Illinois rule of false position).
func (w *Walk) crossing(a, b float64, f func(tau float64) float64) float64 {
	fa, fb := f(a), f(b)
	if fa >= 0 {
		return a
	}
	if fb < 0 {
		return b
	}
	side := 0
	for range 40 {
		if b-a < 1e-6 {
			break
		}
		x := a + (b-a)*fa/(fa-fb)
		fx := f(x)
		if math.Abs(fx) < 1e-9*w.whole {
			return x
		}
		if fx < 0 {
			a, fa = x, fx
			if side < 0 {
				fb /= 2
			}
			side = -1
		} else {
			b, fb = x, fx
			if side > 0 {
				fa /= 2
			}
			side = 1
		}
	}
	return b
}

// reached is the hour at which a share of everything has fermented; the longest
// if never.
func (w *Walk) reached(share float64) float64 {
	want := share * w.whole
	if w.whole <= nothing {
		return w.clock.lag
	}
	for k := range w.parts {
		p := &w.parts[k]
		// What was put in later is still to come, so only a part's end is looked at.
		if last := p.first + p.n - 1; w.done(last) < want {
			continue
		}
		for i := p.first; i < p.first+p.n; i++ {
			if w.done(i) < want {
				continue
			}
			if i == p.first {
				return w.clock.wall(w.nodes[i].tau)
			}
			return w.clock.wall(w.crossing(w.nodes[i-1].tau, w.nodes[i].tau, func(tau float64) float64 { return w.doneAt(i, tau) - want }))
		}
	}
	return longestHours
}
