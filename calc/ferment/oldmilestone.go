package ferment

// milestones are places on a track, in the yeast's clock, and the greatest rate.
type milestones struct {
	height, opens, closes, finished float64
	peak                            float64
}

// milestones finds them. A place that is never reached is the end of the track.
func (k *track) milestones() milestones {
	i := 0
	for j := range k.nodes {
		if k.nodes[j].rate > k.nodes[i].rate {
			i = j
		}
	}
	m := milestones{height: k.nodes[i].tau, peak: k.nodes[i].rate}
	// The peak lies in the part before or behind the highest node.
	for _, j := range [2]int{i, i + 1} {
		if j < 1 || j >= len(k.nodes) {
			continue
		}
		a, b := k.nodes[j-1], k.nodes[j]
		if !(a.slope > 0 && b.slope < 0) {
			continue
		}
		tau := golden(a.tau, b.tau, func(t float64) float64 { return k.rateIn(j, t) })
		if r := k.rateIn(j, tau); r > m.peak {
			m.height, m.peak = tau, r
		}
	}
	rate := func(j int, tau float64) float64 { return k.rateIn(j, tau) }
	m.opens, m.closes = k.window(m.height, m.peak, rate, func(j int) float64 { return k.nodes[j].rate })
	m.finished = k.reached(finishedDone)
	return m
}

// window finds opening and closing after the height, given the rate inside
// part j of the track and at its node j.
func (k *track) window(height, peak float64, rate func(j int, tau float64) float64, at func(j int) float64) (opens, closes float64) {
	end := k.nodes[len(k.nodes)-1].tau
	opens, closes = end, end
	j := 1
	for ; j < len(k.nodes); j++ {
		n := &k.nodes[j]
		if n.tau <= height || at(j) >= openRate*peak || n.done < openDone*k.total {
			continue
		}
		from := max(k.nodes[j-1].tau, height)
		slow := from
		if rate(j, from) >= openRate*peak {
			slow = bisect(from, n.tau, func(t float64) float64 { return openRate*peak - rate(j, t) })
		}
		half := k.passes(j, from, openDone)
		opens = max(slow, half)
		break
	}
	for ; j < len(k.nodes); j++ {
		n := &k.nodes[j]
		if at(j) >= closeRate*peak && n.done < closeDone*k.total {
			continue
		}
		from := max(k.nodes[j-1].tau, opens)
		closes = n.tau
		if at(j) < closeRate*peak {
			slow := from
			if rate(j, from) >= closeRate*peak {
				slow = bisect(from, n.tau, func(t float64) float64 { return closeRate*peak - rate(j, t) })
			}
			closes = min(closes, slow)
		}
		if n.done >= closeDone*k.total {
			closes = min(closes, k.passes(j, from, closeDone))
		}
		break
	}
	return opens, max(opens, closes)
}

// passes is where, from tau on in part j, the share is done.
func (k *track) passes(j int, from, share float64) float64 {
	f := func(t float64) float64 { return k.doneIn(j, t) - share*k.total }
	if f(from) >= 0 {
		return from
	}
	return bisect(from, k.nodes[j].tau, f)
}

// reached is where a share of the attenuation is done.
func (k *track) reached(share float64) float64 {
	for j := 1; j < len(k.nodes); j++ {
		if k.nodes[j].done >= share*k.total {
			return k.passes(j, k.nodes[j-1].tau, share)
		}
	}
	return k.nodes[len(k.nodes)-1].tau
}

// times turns milestones into hours after pitching. Once activity is full the
// change of clock is exact; a height within the smooth start is looked for anew,
// since rising activity and falling sugar pull against each other there.
func (k *track) times(m milestones, c clock) Times {
	if m.height/c.s >= c.lag/2 {
		return Times{c.wall(m.height), [2]float64{c.wall(m.opens), c.wall(m.closes)}, c.wall(m.finished)}
	}
	// In hours: activity times rate, over the parts of the track.
	rate := func(j int, tau float64) float64 {
		_, activity := c.yeast(c.wall(tau))
		return activity / c.s * k.rateIn(j, tau)
	}
	part := func(tau float64) int {
		j := 1
		for j < len(k.nodes)-1 && k.nodes[j].tau < tau {
			j++
		}
		return j
	}
	// The highest node, then its neighbourhood.
	top := 0
	highest := 0.0
	for j := 1; j < len(k.nodes); j++ {
		if r := rate(j, k.nodes[j].tau); r > highest {
			top, highest = j, r
		}
		if k.nodes[j].tau > c.s*c.lag/2 {
			break
		}
	}
	from, to := k.nodes[max(top-1, 0)].tau, k.nodes[min(top+1, len(k.nodes)-1)].tau
	height := golden(from, to, func(t float64) float64 { return rate(part(t), t) })
	peak := rate(part(height), height)
	opens, closes := k.window(height, peak, rate, func(j int) float64 { return rate(j, k.nodes[j].tau) })
	return Times{c.wall(height), [2]float64{c.wall(opens), c.wall(closes)}, c.wall(m.finished)}
}

// golden finds the maximum of f between a and b (golden section).
func golden(a, b float64, f func(float64) float64) float64 {
	const g = 0.6180339887498949
	c, d := b-g*(b-a), a+g*(b-a)
	fc, fd := f(c), f(d)
	for range 40 {
		if fc > fd {
			b, d, fd = d, c, fc
			c = b - g*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + g*(b-a)
			fd = f(d)
		}
	}
	return (a + b) / 2
}
