package ferment

import (
	"math"

	"skep/calc/density"
)

// walk is one pass through a course with its additions.
type walk struct {
	*brew
	*solver
	clock  clock
	pulses []pulse
	visit  func(float64, *State)
	course Course

	y     State   // where the walk stands
	put   float64 // fermentable extract put in so far, per litre pitched
	whole float64 // fermentable extract in all
	now   step
	next  int // hour to be written next
	found bool
	heat  float64

	silent bool // only the finish is wanted: write nothing

	scratch [2]State
}

func (w *walk) run() error {
	c := &w.course
	w.y, w.now = w.start, w.begin
	w.solver.volume = w.begin.volume
	w.put = w.y.extract()
	w.whole = w.put
	c.finalVolume = w.begin.volume
	extract := w.begin.extract
	w.heat = heatKJPerL(&w.y)
	for i := range w.pulses {
		var add State
		add.put(w.pulses[i].fermentable)
		w.whole += add.extract()
		w.heat += heatKJPerL(&add)
		extract += w.pulses[i].extract
		c.finalVolume += w.pulses[i].volume
		if !w.silent {
			c.AdditionHours[w.pulses[i].place] = w.pulses[i].hour
		}
	}
	c.totalCO2 = CO2PerExtract * w.whole
	c.EffectiveOriginal = density.PlatoFromGramsPerLitre(extract / c.finalVolume)
	c.FinalSG = gravityAt(c.EffectiveOriginal, share(w.whole, extract))
	c.AdiabaticRiseK = w.heat / (c.finalVolume * wortHeatKJPerLK)
	c.steps = append(c.steps, w.now)

	if !w.silent {
		c.makeRoom(int(w.in.HorizonHours) + 2)
	}
	c.FinishedHours = longestHours
	if w.whole <= nothing {
		c.FinishedHours, w.found = w.in.LagHours, true
	}
	for _, p := range w.pulses {
		if err := w.until(p.hour); err != nil {
			return err
		}
		w.take(p)
	}
	return w.until(math.Inf(1))
}

// take puts an addition in.
func (w *walk) take(p pulse) {
	before := w.y.extract()
	w.y.put(p.fermentable)
	w.put += w.y.extract() - before
	w.now.hour = p.hour
	w.now.extract += p.extract
	w.now.volume += p.volume
	w.now.plato = density.PlatoFromGramsPerLitre(w.now.extract / w.now.volume)
	w.solver.volume = w.now.volume
	w.course.steps = append(w.course.steps, w.now)
}

// end is how far the course is written: the horizon, a day beyond the finish,
// never beyond the longest.
func (w *walk) end() float64 {
	if !w.found {
		return longestHours
	}
	return min(max(w.in.HorizonHours, math.Ceil(w.course.FinishedHours)+24), longestHours)
}

// until walks to an hour, or to the end of the course if that is infinite,
// and writes every full hour before it (the end itself included).
func (w *walk) until(hour float64) error {
	last := math.IsInf(hour, 1)
	target := hour
	if last {
		target = longestHours
	}
	target = min(target, longestHours)
	var from float64
	if len(w.course.steps) > 1 {
		from = w.now.hour
	}
	tauFrom, _ := w.clock.yeast(from)
	tauTo, _ := w.clock.yeast(target)
	if tauTo <= tauFrom { // still before the first activity
		w.write(tauFrom, target, last, false)
		return nil
	}
	if err := w.ode.Start(w.f, tauFrom, tauTo, w.y[:], w.opt); err != nil {
		return err
	}
	for !w.ode.Done() {
		if last && w.found && (w.silent || float64(w.next) > w.end()) {
			break
		}
		if err := w.ode.Step(); err != nil {
			return err
		}
		copy(w.y[:], w.ode.Y())
		if !w.found && w.whole-w.stillToCome() >= finishedDone*w.whole {
			w.finish()
		}
		w.write(w.ode.T(), target, last, true)
	}
	return nil
}

// stillToCome is the extract that will ferment and has not, additions to come
// included.
func (w *walk) stillToCome() float64 { return w.y.extract() + w.whole - w.put }

// finish finds, within the last step, when 99 % were done.
func (w *walk) finish() {
	from, to := w.ode.Last()
	var y State
	tau := bisect(from, to, func(t float64) float64 {
		w.ode.At(t, y[:])
		return (1-finishedDone)*w.whole - (y.extract() + w.whole - w.put)
	})
	w.course.FinishedHours, w.found = w.clock.wall(tau), true
}

// write puts down the full hours that lie before tau: by the last step when
// one was made, by the state as it stands otherwise.
func (w *walk) write(tau, before float64, last, stepped bool) {
	for !w.silent {
		hour := float64(w.next)
		if hour > w.end() || hour > before || (!last && hour == before) {
			return
		}
		at, activity := w.clock.yeast(hour)
		if at > tau {
			return
		}
		y := &w.scratch[0]
		*y = w.y
		if stepped {
			w.ode.At(at, y[:])
		}
		rate := w.rates.derive(y, &w.scratch[1], w.x0, w.solver.volume)
		left := max(y.extract(), 0) // round-off must not ferment more than there is
		done := max(w.put-left, 0)
		c := &w.course
		c.Hours = append(c.Hours, hour)
		c.GravitySG = append(c.GravitySG, gravityAt(w.now.plato, share(done, w.now.extract)))
		c.CO2RateGPerLH = append(c.CO2RateGPerLH, CO2PerExtract*rate*activity)
		c.CO2TotalGPerL = append(c.CO2TotalGPerL, CO2PerExtract*done)
		c.Attenuated = append(c.Attenuated, share(done, w.whole))
		c.YeastBillionPerL = append(c.YeastBillionPerL, y[iX]/w.x0*w.in.PitchBillionPerL)
		c.FermentableGPerL = append(c.FermentableGPerL, left)
		if w.visit != nil {
			w.visit(hour, y)
		}
		w.next++
	}
}
