package ferment

import (
	"math"

	"skep/calc/density"
	"skep/calc/message"
	"skep/calc/quantity"
)

// strongestPlato is the original extract up to which the course is trusted, °P
// (common practice, no source).
const strongestPlato = 24.0

// negligibleGPerL is an amount of extract, g/L, that does not count as fermentation.
const negligibleGPerL = 1e-6

// Run follows a fermentation and writes it down by the hour.
//
// Height and window are those of the wort's own fermentation, with what was in
// it at pitching, undisturbed by later additions. Where nothing of that
// ferments, they all stand at the end of the lag.
func Run(in Input) (Course, error) { return run(in, usualTolerance, nil) }

// run is Run with a tolerance of choice; visit, if not nil, sees every state by
// the hour.
func run(in Input, tolerance float64, visit func(hour float64, y *State)) (Course, error) {
	in, err := in.filled()
	if err != nil {
		return Course{}, err
	}
	var c Course
	p := Pitched{
		Fermentable: in.Take.Fermented(in.Wort), VolumeShare: 1, BillionPerL: in.PitchBillionPerL,
		TemperatureC: in.TemperatureC, LagHours: in.LagHours, RateFactor: in.RateFactor, Kinetics: in.Kinetics,
	}
	c.AdditionHours = make([]float64, len(in.Additions))
	now := step{extract: in.Wort.Total(), volume: 1}
	events := make([]Event, 0, len(in.Additions))
	for i, a := range in.Additions {
		if a.AfterHeight || a.Hours > 0 {
			events = append(events, Event{Hours: a.Hours, AfterHeight: a.AfterHeight, Fermentable: a.fermentable(in.Take), VolumeShare: a.VolumeShare, Place: i})
			continue
		}
		if a.Hours < 0 {
			c.Warnings = append(c.Warnings, message.New("addition {n} would stand {hours} before pitching: taken as at pitching", i+1, quantity.Of(quantity.WholeHours, -a.Hours)))
		}
		p.Fermentable = p.Fermentable.Plus(a.fermentable(in.Take))
		p.VolumeShare += a.VolumeShare
		now.add(&a)
	}
	w := Walk{tolerance: tolerance}
	w.Run(p, events)
	c.Times, c.TemperatureC = w.Times, in.TemperatureC
	var own State
	own.put(p.Fermentable)
	c.AdiabaticRiseK = heatKJPerL(&own)
	now.plato = now.originalPlato()
	c.steps = append(c.steps, now)
	for _, e := range w.Events {
		a := &in.Additions[e.Place]
		now.add(a)
		now.hour, now.plato = e.Hours, now.originalPlato()
		c.steps = append(c.steps, now)
		c.AdditionHours[e.Place] = e.Hours
		var add State
		add.put(e.Fermentable)
		c.AdiabaticRiseK += heatKJPerL(&add)
	}
	c.finalVolume, c.EffectiveOriginal = now.volume, now.plato
	c.AdiabaticRiseK /= now.volume * wortHeatKJPerLK
	c.totalCO2 = CO2PerExtract * w.whole
	c.FinalSG = gravityAt(now.plato, share(w.whole, now.extract))
	c.Warnings = append(c.Warnings, w.Warnings(in.TemperatureC, c.EffectiveOriginal)...)
	c.write(&w, &in, visit)
	return c, nil
}

func (s *step) add(a *Addition) {
	s.extract += a.Sugars.Total()
	s.volume += a.VolumeShare
}

func (s *step) originalPlato() float64 { return density.PlatoFromGramsPerLitre(s.extract / s.volume) }

// write puts down every hour to the horizon, a day beyond the finish, never
// beyond the longest.
func (c *Course) write(w *Walk, in *Input, visit func(hour float64, y *State)) {
	over := max(c.FinishedHours, c.steps[len(c.steps)-1].hour) // what goes in last may be little
	end := int(min(max(in.HorizonHours, math.Ceil(over)+24), longestHours))
	c.makeRoom(end + 1)
	for h := range end + 1 {
		hour := float64(h)
		m := w.At(hour)
		s := &c.steps[m.Doses]
		c.Hours = append(c.Hours, hour)
		c.GravitySG = append(c.GravitySG, gravityAt(s.plato, share(m.FermentedGPerL, s.extract)))
		c.CO2RateGPerLH = append(c.CO2RateGPerLH, CO2PerExtract*m.RateGPerLH)
		c.CO2TotalGPerL = append(c.CO2TotalGPerL, CO2PerExtract*m.FermentedGPerL)
		c.Attenuated = append(c.Attenuated, share(m.FermentedGPerL, w.whole))
		c.YeastBillionPerL = append(c.YeastBillionPerL, m.YeastShare*in.PitchBillionPerL)
		c.FermentableGPerL = append(c.FermentableGPerL, m.LeftGPerL)
		if visit != nil {
			tau, _ := w.clock.yeast(hour)
			y, _ := w.state(w.partAt(tau), tau)
			visit(hour, &y)
		}
	}
}

// makeRoom gives every slice its capacity in one block.
func (c *Course) makeRoom(n int) {
	const slices = 7
	block := make([]float64, slices*n)
	next := func() []float64 {
		v := block[:0:n]
		block = block[n:]
		return v
	}
	c.Hours, c.GravitySG, c.CO2RateGPerLH = next(), next(), next()
	c.CO2TotalGPerL, c.Attenuated, c.YeastBillionPerL, c.FermentableGPerL = next(), next(), next(), next()
}
