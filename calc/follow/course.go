package follow

import (
	"cmp"
	"math"
	"slices"

	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/design"
)

// The honey window and the end as package ferment defines them.
const (
	openRate, openDone   = 0.85, 0.5
	closeRate, closeDone = 0.1, 0.9
	finishedDone         = 0.99
	trackEnd             = 0.9995 // where a course is over
	mostNodes            = 6000
	longestHours         = 2160.0
	nothingG             = 1e-6
)

// part is a stretch of a course without an event, in the yeast's clock.
type part struct {
	tau, step       float64
	first, n        int     // nodes
	extract, massKg float64 // in the fermenter, kg
}

// event is honey or a change of temperature on the way.
type event struct {
	hours float64
	dose  *dose
	beerC float64 // where dose is nil
}

// milestones are those of the wort's own fermentation, and the end of it all;
// hours after pitching.
type milestones struct{ height, opens, closes, finished float64 }

// course is one draw's fermentation. It is a workspace: used again and again.
type course struct {
	clock  clock
	litres float64
	times  milestones

	done, rate []float64 // by node: g/L pitched, and per hour of the yeast's clock
	at         []state
	slow       []float64 // scratch of milestones
	parts      []part
	events     []event
	beer       *beer
	trimFrom   float64 // hours; the first raw honey
}

// run follows a draw to its end.
func (m *model) run(t *theta, b *beer, c *course) {
	m.beerOf(t, b)
	c.beer, c.clock, c.litres = b, m.clock(t), m.d.Batch.IntoFermenterL
	c.done, c.rate, c.at, c.parts, c.events = c.done[:0], c.rate[:0], c.at[:0], c.parts[:0], c.events[:0]
	shift := m.beerSD * min(max(t[iTemperature], -4), 4)

	perL := 1000 / c.litres
	r := ratesAt(m.beerC+shift, m.yeast.CellsBillionPerL)
	start := state{iX: r.x0}
	take := b.take.Fermented(b.grain)
	start.put(perL*take.Simple(), perL*take.Maltose, perL*take.Maltotriose, perL*take.Dextrin)
	start.putHoney(b.honey.hot.Times(perL))
	start.putHoney(b.honey.pitched.Times(perL))
	own := start.extract()
	w := walk{c: c, m: m, r: r, y: start, put: own, volume: 1 + b.honey.pitchedL/c.litres}
	w.limit, _ = c.clock.yeast(longestHours)
	first := w

	// The wort's own course: changes of temperature are in it, later honey not.
	for _, x := range m.changes {
		c.events = append(c.events, event{hours: x.hour, beerC: x.temperatureC + shift})
	}
	w.run()
	c.milestones(own)
	c.trimFrom = math.Inf(1)
	for i := range m.d.Honey {
		if h := &m.d.Honey[i]; h.Raw && h.Moment == design.MomentPitching {
			c.trimFrom = 0
		}
	}
	if b.honey.lates == 0 {
		return
	}
	whole := own
	for i := range b.honey.lates {
		x := &b.honey.late[i]
		hours := x.hours
		if x.fromHeight {
			hours = max(hours+c.times.height, m.nowHours+justBefore)
		}
		hours = min(max(hours, 0), longestHours)
		c.events = append(c.events, event{hours: hours, dose: x})
		whole += perL * x.kg.Sugars()
		if m.d.Honey[x.place].Raw {
			c.trimFrom = min(c.trimFrom, hours)
		}
	}
	slices.SortStableFunc(c.events, func(a, b event) int { return cmp.Compare(a.hours, b.hours) })
	c.again(&first)
	c.times.finished = c.reached(finishedDone * whole)
}

// again walks with all events: from the last node before the first, if that is
// honey, else from the start.
func (c *course) again(w *walk) {
	if len(c.parts) > 1 || c.events[0].dose == nil {
		c.done, c.rate, c.at, c.parts = c.done[:0], c.rate[:0], c.at[:0], c.parts[:0]
		w.run()
		return
	}
	p := &c.parts[0]
	tau, _ := c.clock.yeast(c.events[0].hours)
	k := min(int(tau/p.step), p.n-1)
	keep := k + 1
	w.y, w.tau = c.at[k], float64(k)*p.step
	c.done, c.rate, c.at = c.done[:keep], c.rate[:keep], c.at[:keep]
	p.n = keep
	w.run()
}

// walk is a state on its way through the events.
type walk struct {
	c           *course
	m           *model
	r           rates
	y           state
	tau         float64
	put, volume float64 // fermentable extract so far, g per litre pitched; litres per litre pitched
	limit       float64
}

func (w *walk) run() {
	c := w.c
	extract, mass := c.beer.pitched, c.beer.pitchKg
	for i := range c.events {
		e := &c.events[i]
		to, _ := c.clock.yeast(e.hours)
		w.stretch(min(max(to, w.tau), w.limit), false, part{extract: extract, massKg: mass})
		if e.dose == nil {
			x0 := w.r.x0
			w.r = ratesAt(e.beerC, w.m.yeast.CellsBillionPerL)
			w.r.x0 = x0
			continue
		}
		before := w.y.extract()
		w.y.putHoney(e.dose.kg.Times(1000 / c.litres))
		w.put += w.y.extract() - before
		w.volume += e.dose.volumeL / c.litres
		extract += e.dose.kg.Total()
		mass += e.dose.massKg
	}
	w.stretch(w.limit, true, part{extract: extract, massKg: mass})
}

// stretch integrates one part. The last ends when nothing is left.
func (w *walk) stretch(to float64, last bool, p part) {
	c := w.c
	h := w.r.stepHours()
	span := max(to-w.tau, 0)
	n := max(int(math.Ceil(span/h)), 1)
	if !last {
		h = span / float64(n) // to end on the event
	}
	n = min(n, max(mostNodes-len(c.done), 1))
	p.tau, p.step, p.first = w.tau, max(h, 1e-9), len(c.done)
	var d state
	for i := 0; ; i++ {
		rate := w.r.derive(&w.y, &d, w.volume)
		left := max(w.y.extract(), 0)
		c.done = append(c.done, w.put-left)
		c.rate = append(c.rate, rate)
		c.at = append(c.at, w.y)
		if i == n || last && left < (1-trackEnd)*w.put {
			break
		}
		w.r.step(&w.y, h, w.volume, &d)
	}
	p.n = len(c.done) - p.first
	c.parts = append(c.parts, p)
	w.tau = to
}

// in finds the part and the fermented extract at a time of the yeast.
func (c *course) in(tau float64) (p *part, done, rate float64) {
	k := len(c.parts) - 1
	for k > 0 && c.parts[k].tau > tau {
		k--
	}
	p = &c.parts[k]
	x := (tau - p.tau) / p.step
	i := int(x)
	if i >= p.n-1 {
		j := p.first + p.n - 1
		dt := tau - p.tau - float64(p.n-1)*p.step
		left := c.at[j].extract()
		if left <= nothingG || dt <= 0 {
			return p, c.done[j], c.rate[j]
		}
		fade := math.Exp(-c.rate[j] / left * dt)
		return p, c.done[j] + left*(1-fade), c.rate[j] * fade
	}
	u := x - float64(i)
	j := p.first + i
	a, b := c.done[j], c.done[j+1]
	sa, sb := c.rate[j]*p.step, c.rate[j+1]*p.step
	done = a + u*(sa+u*((3*(b-a)-2*sa-sb)+u*(2*(a-b)+sa+sb)))
	return p, done, c.rate[j] + u*(c.rate[j+1]-c.rate[j])
}

// gravity is what a hydrometer shows at an hour, and the CO2 given off.
func (c *course) gravity(hours float64) (sg, co2RateGPerLH float64) {
	tau, activity := c.clock.yeast(hours)
	p, done, rate := c.in(tau)
	f := done*c.litres/1000 + c.beer.dextrin*c.trim(hours)
	_, _, ae := apparent(p.extract, f, p.massKg)
	return density.QuickSG(ae), alcohol.CO2PerExtract * rate * activity
}

// trim is the share of dextrin that honey's enzymes have taken by an hour: all
// of the draw's after three weeks.
func (c *course) trim(hours float64) float64 {
	days := (hours - c.trimFrom) / hoursPerDay
	if !(days > 0) || c.beer.trimmed == 0 {
		return 0
	}
	return c.beer.trimmed * min(1, math.Expm1(-days/trimDays)/math.Expm1(-1))
}
