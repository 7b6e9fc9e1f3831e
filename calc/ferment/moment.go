package ferment

import "math"

// Moment is a course at one hour.
type Moment struct {
	FermentedGPerL float64 // so far, per litre pitched
	LeftGPerL      float64 // to ferment of what is in
	RateGPerLH     float64 // extract fermented, per hour after pitching
	YeastShare     float64 // over what was pitched, settled cells included
	Doses          int     // additions that are in
}

// At is the course at an hour after pitching; at the hour of an addition it is in.
func (w *Walk) At(hours float64) Moment {
	tau, activity := w.clock.yeast(hours)
	w.to(tau)
	p := w.partAt(tau)
	y, rate := w.state(p, tau)
	m := Moment{
		LeftGPerL:  max(y.extract(), 0), // round-off must not ferment more than there is
		RateGPerLH: rate * activity,
		YeastShare: y[iX] / w.nodes[0].y[iX],
		Doses:      p.doses,
	}
	m.FermentedGPerL = max(p.put-m.LeftGPerL, 0)
	return m
}

// Fermented is what of [Walk.At] a gravity needs, in a third of its time: how much
// has fermented by an hour, and how many additions are in.
func (w *Walk) Fermented(hours float64) (gPerL float64, doses int) {
	tau, _ := w.clock.yeast(hours)
	w.to(tau)
	p := w.partAt(tau)
	nodes := w.nodes[p.first : p.first+p.n]
	if tau >= nodes[p.n-1].tau {
		y, _ := w.state(p, tau)
		return max(p.put-max(y.extract(), 0), 0), p.doses
	}
	k := nodeAt(nodes, tau)
	return min(max(fermented(&nodes[k], &nodes[k+1], tau), 0), p.put), p.doses
}

// state is the state at a time of the yeast and the extract fermented per hour
// of it. Beyond the end what little is left fades.
func (w *Walk) state(p *part, tau float64) (y State, rate float64) {
	nodes := w.nodes[p.first : p.first+p.n]
	last := &nodes[p.n-1]
	if tau >= last.tau {
		y, rate = last.y, last.rate
		if left := y.extract(); left > negligibleGPerL && tau > last.tau {
			fade := math.Exp(-rate / left * (tau - last.tau))
			for _, i := range [...]int{iG, iM, iN, iD} {
				y[i] *= fade
			}
			y[iF] += left * (1 - fade)
			rate *= fade
		}
		return y, rate
	}
	k := nodeAt(nodes, tau)
	y = between(&nodes[k], &nodes[k+1], tau)
	return y, p.slopes.rate(&y)
}

// PutGPerL is the fermentable extract that is in by an hour, per litre pitched;
// AllGPerL what will ever be.
func (w *Walk) PutGPerL(hours float64) float64 {
	tau, _ := w.clock.yeast(hours)
	return w.partAt(tau).put
}

// AllGPerL is the fermentable extract of everything, g per litre pitched.
func (w *Walk) AllGPerL() float64 { return w.whole }

// partAt is the last part that has begun by a time of the yeast. Hours are mostly
// asked for in order, so it looks near the last one.
func (w *Walk) partAt(tau float64) *part {
	k := min(w.at, len(w.parts)-1)
	for k > 0 && w.parts[k].tau > tau {
		k--
	}
	for k < len(w.parts)-1 && w.parts[k+1].tau <= tau {
		k++
	}
	w.at = k
	return &w.parts[k]
}

// nodeAt is the last node at or before tau, never the last of all.
func nodeAt(nodes []node, tau float64) int {
	lo, hi := 0, len(nodes)-1
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; nodes[mid].tau <= tau {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}
