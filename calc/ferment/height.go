package ferment

import "math"

// A height is flat: the real one lies somewhere where the rate is above 0.96 of
// the greatest (ours). From flatFrom to flatFull a rate counts more and more.
const (
	flatFrom = 0.95
	flatFull = 0.97
	nearTop  = 0.85 // above this part the rate is looked at between the nodes too
)

// crest is the rate by the hour over a while near the top: at five places, and
// between them by the quartic through the five. The places are equally far from each
// other by the hour while the start lasts, later by the logarithm of the hours since
// the lag, in which a course is stretched evenly: no power has to be taken.
type crest struct {
	offset, start, ratio, step float64 // the hour of place k is offset + start ratio^k + step k
	rate                       [5]float64
}

// finer is how many places a crest is looked at in.
const finer = 16

// weights are those of the five in the quartic through them, at each place.
var weights = func() (w [finer + 1][5]float64) {
	for k := range w {
		for i := range w[k] {
			w[k][i] = 1
			for j := range w[k] {
				if j != i {
					w[k][i] *= (4.0/finer*float64(k) - float64(j)) / float64(i-j)
				}
			}
		}
	}
	return w
}()

func (t *crest) at(k int) float64 {
	v, w := &t.rate, &weights[k]
	return v[0]*w[0] + v[1]*w[1] + v[2]*w[2] + v[3]*w[3] + v[4]*w[4]
}

func (t *crest) most() float64 {
	return max(t.rate[0], t.rate[1], t.rate[2], t.rate[3], t.rate[4])
}

func (t *crest) least() float64 {
	return min(t.rate[0], t.rate[1], t.rate[2], t.rate[3], t.rate[4])
}

// top is the hour at which the rate by the hour is greatest, and that rate, over
// the rate factor. The rate is looked at between the nodes too, as steps are long
// and of two tops of nearly one height neither need stand at a node; what was seen
// is left in crests.
//
// Once the rate has fallen again, a beer that is warmed later has its height behind
// it, however fast it then goes; and what is done to the beer then does not move it.
func (w *Walk) top() (hours, peak float64) {
	k, end := 0, len(w.parts)
	for p := range w.parts {
		own := &w.parts[p]
		behind := own.first + own.n
		for i := own.first; i < behind; i++ {
			if w.nodes[i].paced > w.nodes[k].paced {
				k = i
			}
		}
		if own.n > 1 && k < behind-1 {
			end = p + 1
			break
		}
	}
	hours, peak = w.clock.wallOf(w.nodes[k].plain), w.nodes[k].paced
	w.crests = w.crests[:0]
	for p := range w.parts[:end] {
		own := &w.parts[p]
		for i := own.first + 1; i < own.first+own.n; i++ {
			if max(w.nodes[i-1].paced, w.nodes[i].paced) > nearTop*peak {
				w.look(own, i)
			}
		}
	}
	best := peak
	for i := range w.crests {
		best = max(best, w.crests[i].most())
	}
	for i := range w.crests {
		t := &w.crests[i]
		if t.most() < 0.99*best { // as the five have it, a top is no higher above them
			continue
		}
		before, now, x := t.rate[0], t.at(1), t.start*t.ratio
		for k := 1; k < finer; k++ {
			next := t.at(k + 1)
			if bend := before - 2*now + next; now >= before && now >= next && bend < 0 {
				s := (before - next) / (2 * bend)
				if r := now - s*(before-next)/4; r > peak {
					hours, peak = t.offset+x*(1+s*(t.ratio-1))+t.step*(float64(k)+s), r
				}
			}
			before, now = now, next
			x *= t.ratio
		}
	}
	return hours, peak
}

// sharper is the hour of a top by parabolas through the rate about it, closer and
// closer.
func (w *Walk) sharper(hours float64) float64 {
	for d := hours / 100; d > hours/1e5; d /= 10 {
		before, now, after := w.At(hours-d).RateGPerLH, w.At(hours).RateGPerLH, w.At(hours+d).RateGPerLH
		bend := before - 2*now + after
		s := (before - after) / (2 * bend)
		if !(math.Abs(s) < 3) || !(bend < 0) {
			break
		}
		hours += s * d
	}
	return hours
}

// look adds the crests between two nodes of a part.
func (w *Walk) look(p *part, i int) {
	c, a, b := &w.clock, &w.nodes[i-1], &w.nodes[i]
	rate := func(tau float64) float64 {
		y := between(a, b, min(max(tau, a.tau), b.tau))
		return p.slopes.rate(&y)
	}
	from, plain, first := a.tau, a.plain, a.paced
	if full := c.s * c.lag / 2; plain < full { // the start, after which the rate bends
		start, to := c.wallOf(plain), min(c.wallOf(b.plain), 1.5*c.lag)
		t := crest{start: start, ratio: 1, step: (to - start) / finer}
		for k := range t.rate {
			tau, activity := c.yeast(start + float64(k)/4*(to-start))
			t.rate[k] = rate(tau) * activity / c.s
			from = tau
		}
		w.crests = append(w.crests, t)
		if b.plain <= full {
			return
		}
		plain, first = full, t.rate[4]
	}
	last := b.paced
	if b.plain > 2*plain { // much at once: the rate falls soon after the start
		mid, tau := math.Sqrt(plain*b.plain), math.Sqrt(from*b.tau)
		half := rate(tau) * c.paceOf(tau, mid)
		w.stretchOf(rate, from, plain, first, tau, mid, half)
		from, plain, first = tau, mid, half
	}
	w.stretchOf(rate, from, plain, first, b.tau, b.plain, last)
}

// stretchOf adds the crest from a place to another, given by their time of the yeast
// with the stretch and without, and by their rates.
func (w *Walk) stretchOf(rate func(tau float64) float64, tau0, plain0, rate0, tau4, plain4, rate4 float64) {
	tau2, plain2 := math.Sqrt(tau0*tau4), math.Sqrt(plain0*plain4)
	tau1, plain1 := math.Sqrt(tau0*tau2), math.Sqrt(plain0*plain2)
	tau3, plain3 := math.Sqrt(tau2*tau4), math.Sqrt(plain2*plain4)
	c := &w.clock
	w.crests = append(w.crests, crest{offset: c.lag, start: plain0 / c.s, ratio: math.Sqrt(math.Sqrt(plain1 / plain0)), rate: [5]float64{
		rate0, rate(tau1) * c.paceOf(tau1, plain1), rate(tau2) * c.paceOf(tau2, plain2), rate(tau3) * c.paceOf(tau3, plain3), rate4,
	}})
}

// flat is the hours from which and to which the height may be. Two tops may count,
// or one of them alone, with or without what is between them, so the ends are not
// those of a stretch, which would jump with the least change of what is fermented.
// They are those of the even spread that has the mean and the standard deviation of
// all the time that counts: of a single top its own ends.
func (w *Walk) flat(hours, peak float64) (from, to float64) {
	var sum, first, second float64
	low, high := math.Inf(1), math.Inf(-1)
	// Hours are counted from the top. The share that counts goes from a to b.
	add := func(from, to, a, b float64) {
		h, mid := to-from, (from+to)/2
		weight, lean := (a+b)/2*h, (b-a)*h*h/12
		sum += weight
		first += weight*mid + lean
		second += weight*(mid*mid+h*h/12) + 2*lean*mid
		low, high = min(low, from), max(high, to)
	}
	counts := func(rate float64) float64 {
		return min(max((rate/peak-flatFrom)*(1/(flatFull-flatFrom)), 0), 1)
	}
	for i := range w.crests {
		t := &w.crests[i]
		if t.most() < (flatFrom-0.01)*peak {
			continue
		}
		whole := t.least() > (flatFull+0.01)*peak
		x := t.start
		began := t.offset + x - hours
		at, a := began, counts(t.rate[0])
		for k := 1; k <= finer; k++ {
			x *= t.ratio
			next := t.offset + x + t.step*float64(k) - hours
			if whole {
				if k == finer {
					add(began, next, 1, 1)
				}
				continue
			}
			b := counts(t.at(k))
			if a+b > 0 {
				add(at, next, a, b)
			}
			at, a = next, b
		}
	}
	if !(sum > 0) {
		return hours, hours
	}
	mean := first / sum
	half := math.Sqrt(3 * max(second/sum-mean*mean, 0))
	return hours + max(mean-half, low), hours + min(mean+half, high)
}
