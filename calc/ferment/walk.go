package ferment

import (
	"cmp"
	"slices"

	"skep/calc/density"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/sugar"
)

// Pitched is what a course starts with, per litre of the wort pitched.
type Pitched struct {
	Fermentable  sugar.Spectrum // g that will ferment, of the wort and of what goes in with the yeast
	VolumeShare  float64        // litres in the fermenter; 0: 1
	BillionPerL  float64        // viable cells; 0: [UsualPitchBillionPerL]
	TemperatureC float64
	LagHours     float64   // as at 20 °C
	RateFactor   float64   // on every rate
	Shape        float64   // above 1 later and steeper about the same half-way hour, below 1 earlier and longer; 0: 1
	Slow         float64   // share of it that goes as slowly as dextrin does: [SlowShare]
	Air          float64   // of the wort over the usual: [AirFactor]; 0: the usual
	HeightPlace  float64   // where on its flat top the height is, 0 to 1; 0: at the very greatest rate
	Kinetics     *Kinetics // nil: [Trade]
	Untimed      bool      // no milestone is asked for, and gravities to 0.00002 SG will do; an event after the height finds it all the same
	Unfinished   bool      // no more than height and window is asked for: neither the finish nor what goes in later
}

// Event is what happens on the way: sugar goes in, or the beer is brought to
// another temperature.
type Event struct {
	Hours       float64 // after pitching, or after the height
	AfterHeight bool
	NotBefore   float64        // hours after pitching, with AfterHeight
	Fermentable sugar.Spectrum // g per litre pitched
	VolumeShare float64        // litres per litre pitched
	Change      bool           // of temperature: nothing goes in
	ToC         float64        // with Change
	AtShare     float64        // with Change: when so much of the wort's own attenuation is done, in place of Hours
	Place       int            // the caller's own

	asked float64 // hours after pitching, before they were held within what can be followed
}

// Walk follows courses, one after another: the one way in which a fermentation
// is integrated. It keeps its memory, so that a few hundred draws allocate
// nothing. The zero value is ready; a Walk is for one goroutine.
type Walk struct {
	// Of the last course: height and window are the wort's own, with what was in it
	// at pitching and every change of temperature, but nothing added later; the
	// finish is that of everything.
	Times
	Events []Event // as they came to pass, in order of time: Hours after pitching

	tolerance float64 // 0: by what is asked
	errs      float64 // of the steps
	clock     clock
	kinetics  Kinetics
	tauLimit  float64
	nodes     []node
	parts     []part
	whole     float64    // fermentable extract in all, g per litre pitched
	at        int        // part that was looked at last
	ahead     integrator // of the last part, which goes on as far as is asked for
	most      float64    // rate of the nodes so far
	crests    []crest    // about the height
}

// part is a stretch of a course without an event.
type part struct {
	first, n int // nodes
	tau      float64
	put      float64 // fermentable extract that has gone in, g per litre pitched
	volume   float64
	doses    int // how many additions are in
	rates    Rates
	slopes   slopes // of the rates, with what is in
}

const (
	trackEnd  = 0.9995 // of all that will ferment: where a course is over
	mostNodes = 60000
)

// Run follows a course: as far as its milestones need at first, and on from there
// where a later hour is asked for. Events that stand before pitching are taken at
// pitching, those beyond 90 days there.
func (w *Walk) Run(p Pitched, events []Event) {
	w.kinetics = Trade()
	if p.Kinetics != nil {
		w.kinetics = *p.Kinetics
	}
	if p.Air > 0 {
		w.kinetics.AirX *= p.Air
	}
	w.clock = clock{lag: p.LagHours / w.kinetics.Activity(p.TemperatureC), s: p.RateFactor}
	w.tauLimit, _ = w.clock.yeast(longestHours)
	if p.BillionPerL == 0 {
		p.BillionPerL = UsualPitchBillionPerL
	}
	if p.VolumeShare == 0 {
		p.VolumeShare = 1
	}
	start := part{volume: p.VolumeShare, rates: w.kinetics.At(p.TemperatureC)}
	var y State
	y[iX] = w.kinetics.PitchX * p.BillionPerL / UsualPitchBillionPerL
	y.put(p.Fermentable)
	y.slow(p.Slow)
	start.put = y.extract()
	w.whole = start.put

	late, timed := false, !p.Untimed
	switch {
	case w.tolerance > 0:
		w.errs = w.tolerance
	case p.Untimed:
		w.errs = untimedTolerance
	default:
		w.errs = usualTolerance
	}
	w.Events = w.Events[:0]
	for _, e := range events {
		switch {
		case !e.Change:
			late = true
			timed = timed || e.AfterHeight
		case e.AtShare <= 0:
			e.Hours = min(max(e.Hours, 0), longestHours)
			w.Events = append(w.Events, e)
		}
	}
	if p.Shape > 0 && p.Shape != 1 && w.whole > negligibleGPerL {
		// The half-way hour is that of the beer left alone: what is done to it
		// later does not change what has been.
		changes := w.Events
		w.Events = nil
		w.own(y, start)
		w.on(func(n *node) bool { return n.y[iF] >= w.whole/2 })
		w.clock.shape, w.clock.half, w.Events = p.Shape, w.halfTau(), changes
		w.tauLimit, _ = w.clock.yeast(longestHours)
		if len(changes) > 0 {
			w.own(y, start)
		}
	} else {
		w.own(y, start)
	}
	for _, e := range events {
		if e.Change && e.AtShare > 0 { // in order: each moves those behind it
			e.Hours = max(w.until(min(e.AtShare, finishedDone)), e.NotBefore)
			if e.Hours < longestHours {
				w.Events = append(w.Events, e)
				w.own(y, start)
			}
		}
	}
	w.Times = Times{}
	if timed {
		w.window(p.HeightPlace)
	}
	if p.Unfinished {
		return
	}
	if !late {
		if timed {
			w.FinishedHours = w.until(finishedDone)
		}
		return
	}
	for _, e := range events {
		if e.Change {
			continue
		}
		if e.AfterHeight {
			e.Hours += w.HeightHours
			if e.NotBefore > 0 {
				e.Hours = max(e.Hours, e.NotBefore)
			}
		}
		e.asked = e.Hours
		e.Hours = min(max(e.Hours, 0), longestHours)
		var add State
		add.put(e.Fermentable)
		w.whole += add.extract()
		w.Events = append(w.Events, e)
	}
	slices.SortStableFunc(w.Events, inTime)
	w.again(y, start)
	if timed {
		w.FinishedHours = w.until(finishedDone)
	}
}

// window finds the height and the honey window, for which a course need not be
// followed to its end.
func (w *Walk) window(place float64) {
	if w.whole > negligibleGPerL {
		w.on(func(n *node) bool {
			done := n.y[iF]
			return n.rate < openRate*w.most && done >= closeDone*w.whole || n.rate < closeRate*w.most && done >= openDone*w.whole
		})
	}
	if !w.milestones(place) {
		w.on(func(*node) bool { return false })
		w.milestones(place)
	}
	for k, hours := range w.Window {
		w.WindowGPerL[k], _ = w.Fermented(hours)
	}
}

// until goes on to where a share of everything has fermented, and is its hour.
func (w *Walk) until(share float64) float64 {
	if w.whole > negligibleGPerL {
		w.on(func(n *node) bool { return n.y[iF] >= share*w.whole })
	}
	return w.reached(share)
}

// own walks the wort's own course with the changes of temperature that are known.
func (w *Walk) own(y State, start part) {
	slices.SortStableFunc(w.Events, inTime)
	w.nodes, w.parts = w.nodes[:0], w.parts[:0]
	w.walk(y, start, 0, y[iX])
}

func inTime(a, b Event) int { return cmp.Compare(a.Hours, b.Hours) }

// again walks with all events: what the wort did before the first of them, if
// that is no change of temperature, stands.
func (w *Walk) again(y State, start part) {
	x0 := y[iX]
	keep := 0
	if len(w.parts) == 1 && !w.Events[0].Change {
		tau, _ := w.clock.yeast(w.Events[0].Hours)
		w.to(tau)
		for keep = len(w.nodes) - 1; keep > 0 && w.nodes[keep].tau > tau; keep-- {
		}
	}
	from := 0.0
	if keep > 0 {
		y, from = w.nodes[keep].y, w.nodes[keep].tau
	}
	w.nodes, w.parts = w.nodes[:keep], w.parts[:0]
	w.walk(y, start, from, x0)
	w.parts[0].first, w.parts[0].n, w.parts[0].tau = 0, w.parts[0].n+keep, w.nodes[0].tau
}

// walk goes from a state through all events to the end.
func (w *Walk) walk(y State, p part, tau, x0 float64) {
	g := integrator{tolerance: w.errs, h: 0.5}
	if n := len(w.nodes); n > 1 {
		g.h = w.nodes[n-1].tau - w.nodes[n-2].tau
	}
	for i := range w.Events {
		e := &w.Events[i]
		to, _ := w.clock.yeast(e.Hours)
		to = min(max(to, tau), w.tauLimit)
		g.slopes = p.rates.slopes(&y, x0, p.volume)
		w.stretch(&g, &y, p, tau, to)
		tau = to
		if e.Change {
			p.rates = w.kinetics.At(e.ToC)
			continue
		}
		before := y.extract()
		y.put(e.Fermentable)
		p.put += y.extract() - before
		p.volume += e.VolumeShare
		p.doses++
		g.h = min(g.h, 0.5) // there is glucose again
	}
	g.slopes = p.rates.slopes(&y, x0, p.volume)
	w.at, w.ahead, w.most = 0, g, 0
	p.tau, p.first, p.n, p.slopes = tau, len(w.nodes), 1, g.slopes
	w.parts = append(w.parts, p)
	w.nodes = append(w.nodes, g.slopes.node(tau, &y))
	for i := range w.nodes {
		w.most = max(w.most, w.nodes[i].rate)
	}
}

// stretch integrates one part up to an event.
func (w *Walk) stretch(g *integrator, y *State, p part, tau, to float64) {
	p.tau, p.first, p.slopes = tau, len(w.nodes), g.slopes
	w.nodes = append(w.nodes, g.slopes.node(tau, y))
	for {
		last := len(w.nodes) - 1
		if !(to-w.nodes[last].tau > shortestStep) || last+1 >= mostNodes {
			*y = w.nodes[last].y
			p.n = last + 1 - p.first
			w.parts = append(w.parts, p)
			return
		}
		w.step(g, to)
	}
}

// step adds the next node.
func (w *Walk) step(g *integrator, limit float64) {
	w.nodes = append(w.nodes, node{})
	last := len(w.nodes) - 1
	g.step(&w.nodes[last-1], limit, &w.nodes[last])
}

// on goes on with the last part until enough is true of its last node, or nothing
// is left.
func (w *Walk) on(enough func(n *node) bool) {
	p := &w.parts[len(w.parts)-1]
	for {
		now := &w.nodes[len(w.nodes)-1]
		if enough(now) || !(w.tauLimit-now.tau > shortestStep) || len(w.nodes) >= mostNodes || now.y.extract() < (1-trackEnd)*p.put {
			return
		}
		w.step(&w.ahead, w.tauLimit)
		w.most = max(w.most, w.nodes[len(w.nodes)-1].rate)
		p.n++
	}
}

// to goes on past a time of the yeast.
func (w *Walk) to(tau float64) {
	if w.nodes[len(w.nodes)-1].tau <= tau {
		w.on(func(n *node) bool { return n.tau > tau })
	}
}

// halfTau is the yeast's hours in which half of the sugar goes.
func (w *Walk) halfTau() float64 {
	for i := range w.nodes {
		if w.nodes[i].y[iF] >= w.whole/2 {
			return w.passed(i, w.nodes[max(i-1, 0)].tau, w.whole/2)
		}
	}
	return 0
}

// Warnings are where the last course leaves what is known: at a temperature, from
// an original extract with everything in. Additions are counted from 1.
func (w *Walk) Warnings(temperatureC, originalPlato float64) []message.Message {
	var out []message.Message
	warn := func(m message.Message) { out = append(out, m) }
	celsius := func(v float64) quantity.Quantity { return quantity.Of(quantity.Temperature, v) }
	hours := func(v float64) quantity.Quantity { return quantity.Of(quantity.WholeHours, v) }
	gravity := func(plato float64) quantity.Quantity {
		return quantity.Of(quantity.Gravity, density.SGFromPlato(plato))
	}
	if temperatureC < ColdestC || temperatureC > WarmestC {
		warn(message.New("fermentation at {temperature}: rates are known from {coldest} to {warmest} and held at the bound", celsius(temperatureC), celsius(ColdestC), celsius(WarmestC)))
	}
	if w.parts[0].put <= negligibleGPerL {
		warn(message.New("nothing in the wort ferments"))
	}
	for i := range w.Events {
		switch e := &w.Events[i]; {
		case e.Change:
		case e.asked < 0:
			warn(message.New("addition {n} would stand {hours} before pitching: taken as at pitching", e.Place+1, hours(-e.asked)))
		case e.asked > longestHours:
			warn(message.New("addition {n} would stand {hours} after pitching: taken at {most}", e.Place+1, hours(e.asked), hours(longestHours)))
		}
	}
	if w.FinishedHours >= longestHours {
		warn(message.New("not finished after {span}", quantity.Of(quantity.Days, longestHours/24)))
	}
	if originalPlato > strongestPlato {
		warn(message.New("original gravity of {gravity}: above {most} sugar slows the yeast more than is reckoned with", gravity(originalPlato), gravity(strongestPlato)))
	}
	return out
}
