package ferment

import "math"

// The honey window and the end, as the design notes define them (section 4).
const (
	openRate     = 0.85 // the window opens when the rate is below this part of the height's
	openDone     = 0.5  // and this share of the attenuation is done;
	closeRate    = 0.1  // it closes when the rate is below this part,
	closeDone    = 0.9  // or this share is done
	finishedDone = 0.99 // finished: a gravity within half a point of its end (ours)
)

// Times are the milestones of a course, hours after pitching.
type Times struct {
	HeightHours   float64    // greatest CO2 rate of the wort's own fermentation
	Window        [2]float64 // the honey window: opens, closes
	WindowGPerL   [2]float64 // fermented by then of the wort's own, per litre pitched
	WindowSG      [2]float64 // what a hydrometer shows then without anything added later: [Times.Read]
	FinishedHours float64    // 99 % of everything fermentable is gone
}

// Read fills in the window's gravities, of an original extract in °P and g per litre.
func (t *Times) Read(originalPlato, extractGPerL float64) {
	for k, fermented := range t.WindowGPerL {
		t.WindowSG[k] = 1
		if extractGPerL > 0 {
			t.WindowSG[k] = gravityAt(originalPlato, fermented/extractGPerL)
		}
	}
}

// milestones finds those of what has been walked, but for the finish, and tells
// whether it found them. A place that is not reached is the end of the walk.
func (w *Walk) milestones(place float64) (found bool) {
	if w.whole <= negligibleGPerL {
		w.Times = Times{HeightHours: w.clock.lag, Window: [2]float64{w.clock.lag, w.clock.lag}, FinishedHours: w.clock.lag}
		return true
	}
	for i := range w.nodes {
		n := &w.nodes[i]
		n.plain = w.clock.plain(n.tau)
		n.paced = n.rate * w.clock.paceOf(n.tau, n.plain)
	}
	heightHours, peak := w.top()
	height, _ := w.clock.yeast(heightHours)

	end := w.nodes[len(w.nodes)-1].tau
	opens, closes := end, end
	i := 1
	for ; i < len(w.nodes); i++ {
		n := &w.nodes[i]
		if n.tau <= height || n.paced >= openRate*peak || n.y[iF] < openDone*w.whole {
			continue
		}
		from := max(w.nodes[i-1].tau, height)
		opens = max(w.slowed(i, from, openRate, peak), w.passed(i, from, openDone*w.whole))
		break
	}
	for ; i < len(w.nodes); i++ {
		n := &w.nodes[i]
		slow, done := n.paced < closeRate*peak, n.y[iF] >= closeDone*w.whole
		if !slow && !done {
			continue
		}
		from := max(w.nodes[i-1].tau, opens)
		closes = n.tau
		if slow {
			closes = min(closes, w.slowed(i, from, closeRate, peak))
		}
		if done {
			closes = min(closes, w.passed(i, from, closeDone*w.whole))
		}
		break
	}
	opens, closes = max(opens, height), max(closes, opens)
	w.Times = Times{HeightHours: heightHours, Window: [2]float64{w.clock.wall(opens), w.clock.wall(closes)}}
	if place > 0 {
		from, to := w.flat(heightHours, peak)
		w.HeightHours = from + place*(to-from)
	} else {
		w.HeightHours = min(w.sharper(heightHours), w.Window[0])
	}
	return i < len(w.nodes)
}

// partOf is the part of a node.
func (w *Walk) partOf(i int) *part {
	k := len(w.parts) - 1
	for k > 0 && w.parts[k].first > i {
		k--
	}
	return &w.parts[k]
}

// pacedAt is the extract fermented by the hour, between node i and the one before
// it.
func (w *Walk) pacedAt(i int, tau float64) float64 {
	b := &w.nodes[i]
	if tau >= b.tau || i == 0 {
		return b.paced
	}
	p := w.partOf(i)
	if i == p.first {
		return w.nodes[i-1].paced // between two parts lies no time
	}
	y := between(&w.nodes[i-1], b, tau)
	return p.slopes.rate(&y) * w.clock.pace(tau)
}

// slowed is where the rate by the hour falls below a share of the peak, between a
// place and node i.
func (w *Walk) slowed(i int, from, share, peak float64) float64 {
	return crossing(from, w.nodes[i].tau, 1e-6*peak, func(tau float64) float64 { return share*peak - w.pacedAt(i, tau) })
}

// passed is where so much has fermented, between a place and node i.
func (w *Walk) passed(i int, from, want float64) float64 {
	b := &w.nodes[i]
	a := &w.nodes[max(i-1, 0)]
	return crossing(from, b.tau, 1e-9*w.whole, func(tau float64) float64 { return fermented(a, b, tau) - want })
}

// crossing is where f passes from negative to not negative between a and b, or
// misses 0 by less than is enough: a if it has passed before (the Illinois rule of
// false position).
func crossing(a, b, enough float64, f func(tau float64) float64) float64 {
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
		if math.Abs(fx) < enough {
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
	if w.whole <= negligibleGPerL {
		return w.clock.lag
	}
	for k := range w.parts {
		p := &w.parts[k]
		// What was put in later is still to come, so only a part's end is looked at.
		if last := p.first + p.n - 1; w.nodes[last].y[iF] < want {
			continue
		}
		for i := p.first; i < p.first+p.n; i++ {
			if w.nodes[i].y[iF] < want {
				continue
			}
			if i == p.first {
				return w.clock.wall(w.nodes[i].tau)
			}
			return w.clock.wall(w.passed(i, w.nodes[i-1].tau, want))
		}
	}
	return longestHours
}
