package calc

import (
	"math"

	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/message"
	"skep/calc/parallel"
)

// Course is a fermentation hour by hour, with its doubt. The slices are of one
// length.
type Course struct {
	Hours            []float64 // after pitching, 0, 1, 2 …
	GravitySG        []Band    // what a hydrometer shows at 20 °C
	CO2RateGPerLH    []Band    // given off, per litre pitched and hour
	AttenuatedPct    []float64 // of all that will ferment, later honey included
	FermentableGPerL []float64 // still to ferment of what is in, per litre pitched
	YeastBillionPerL []float64 // grown so far, settled cells included
	TemperatureC     []float64 // that the beer is to be kept at

	HeightHours      Band
	HoneyWindowHours [2]Band
	FinishedHours    Band
	HoneyHours       []float64 // when each honey of the design goes in; 0 with the wort
	Warnings         []message.Message
}

// Course follows the fermentation of a design with one of its yeasts: at every
// hour the percentiles of the draws' own courses, from the original gravity to
// the final one, so that it says what the prediction says. What has no band is
// that of the middle beer. It goes on for two weeks at least, a day beyond the
// finish, 90 days at most.
func (e *Engine) Course(d design.Design, i int) (Course, error) {
	b, err := e.ready(d, i)
	if err != nil {
		return Course{}, err
	}
	p := e.predict(b, toTheEnd, func(int, *Draw) {})
	last := min(max(ferment.UsualHorizonHours, math.Ceil(p.FinishedHours.High)+24), ferment.LongestHours)
	h := newHourly(b, int(last))
	b = b.together(&p)
	e.eachDraw(b, toTheEnd, h.note)
	return e.course(b, &p, &h), nil
}

// PredictCourse is [Engine.PredictYeast] and [Engine.Course] to an hour of choice,
// every draw followed once; visit sees each, from two goroutines.
func (e *Engine) PredictCourse(d design.Design, i, lastHour int, visit func(i int, x *Draw)) (Prediction, Course, error) {
	b, err := e.ready(d, i)
	if err != nil {
		return Prediction{}, Course{}, err
	}
	h := newHourly(b, min(max(lastHour, 1), ferment.LongestHours))
	planned := b.plansHoney()
	p := e.predict(b, toTheEnd, func(i int, x *Draw) {
		if !planned {
			h.note(i, x)
		}
		visit(i, x)
	})
	e.day(b, &p)
	if planned {
		b = b.together(&p)
		e.eachDraw(b, toTheEnd, h.note)
	}
	return p, e.course(b, &p, &h), nil
}

// offCourse widens the band of a gravity that is still to come by how far a real beer
// may be off its course by then: readings have told of the course, and of the beer's
// own error only until the last of them. A plan's bands are so much wider than that
// error that they are left alone.
func (b *Brew) offCourse(p *Prediction, hours float64, x Band) Band {
	since := hours - b.logged.ReadHours
	fall := p.EffectiveOriginalGravitySG.Mid - p.FinalGravitySG.Mid
	if b.logged.ReadHours <= 0 || since <= 0 || !(fall > 0) {
		return x
	}
	forgotten := math.Sqrt(-math.Expm1(-2 * since / ferment.AlikeHours))
	off := doubt.Z90 * forgotten * fall * ferment.CourseErrs((p.EffectiveOriginalGravitySG.Mid-x.Mid)/fall)
	return Band{x.Mid - math.Hypot(x.Mid-x.Low, off), x.Mid, x.Mid + math.Hypot(x.High-x.Mid, off)}
}

// plansHoney tells whether honey is to go in while the beer ferments and has not.
func (b *Brew) plansHoney() bool {
	for i := range b.d.Honey {
		h := &b.d.Honey[i]
		if _, logged := b.logged.honeyHours(i); !logged && h.Moment == design.MomentFermenting && h.MassKg > 0 {
			return true
		}
	}
	return false
}

// together is the brew with honey that is only planned put in at one hour in every
// draw, counted from the median height: as a brewer will, who puts it in once. With
// an hour of its own in each draw, the percentiles by the hour would jump from draws
// with honey to draws without. How unsure that hour is, the height's band says.
func (b *Brew) together(p *Prediction) *Brew {
	if !b.plansHoney() {
		return b
	}
	at := *b
	logged := *b.logged
	logged.HoneyHours = make([]float64, len(b.d.Honey))
	for i := range logged.HoneyHours {
		hours, known := b.logged.honeyHours(i)
		if !known {
			hours = max(p.HeightHours.Mid+b.d.Honey[i].HoursAfterHeight, 0)
			if b.logged.NowHours > 0 {
				hours = max(hours, b.logged.NowHours+JustAfter)
			}
		}
		logged.HoneyHours[i] = hours
	}
	at.logged = &logged
	return &at
}

// hourly is gravity and rate of every draw, by the hour.
type hourly struct {
	draws, hours  int
	gravity, rate []float64
}

func newHourly(b *Brew, last int) hourly {
	n := len(b.draws) * (last + 1)
	return hourly{len(b.draws), last + 1, make([]float64, n), make([]float64, n)}
}

func (h *hourly) note(i int, x *Draw) {
	if x.again {
		for k := range h.hours {
			at := k*h.draws + i
			h.gravity[at], h.rate[at] = h.gravity[at-1], h.rate[at-1]
		}
		return
	}
	x.Hourly(h.hours, func(k int, gravitySG, co2RateGPerLH float64) {
		h.gravity[k*h.draws+i], h.rate[k*h.draws+i] = gravitySG, co2RateGPerLH
	})
}

func (e *Engine) course(b *Brew, p *Prediction, by *hourly) Course {
	hours, n := by.hours, by.draws
	c := Course{
		Hours: make([]float64, hours), AttenuatedPct: make([]float64, hours), FermentableGPerL: make([]float64, hours), YeastBillionPerL: make([]float64, hours), TemperatureC: make([]float64, hours),
		GravitySG: make([]Band, hours), CO2RateGPerLH: make([]Band, hours),
		HeightHours: p.HeightHours, HoneyWindowHours: p.HoneyWindowHours, FinishedHours: p.FinishedHours,
		HoneyHours: make([]float64, len(b.d.Honey)),
	}
	parallel.Each(workers, hours+1, func(_, h int) {
		if h--; h < 0 {
			e.middleCourse(b, &c)
			return
		}
		c.GravitySG[h], c.CO2RateGPerLH[h] = b.offCourse(p, float64(h), BandOf(by.gravity[h*n:(h+1)*n])), BandOf(by.rate[h*n:(h+1)*n])
	})
	return c
}

// middleCourse fills in what has no band.
func (e *Engine) middleCourse(b *Brew, c *Course) {
	x := &e.work[0]
	b.Ferment(&b.mid, x)
	c.Warnings = x.Walk.Warnings(b.yeast.TemperatureC, x.EffectivePlato)
	b.Doses(x, func(d Dose) { c.HoneyHours[d.Place] = d.Hours })
	cells := b.yeast.CellsBillionPerL
	if cells == 0 {
		cells = ferment.UsualPitchBillionPerL
	}
	for h := range c.Hours {
		m := x.At(float64(h))
		c.Hours[h] = float64(h)
		c.AttenuatedPct[h], c.FermentableGPerL[h], c.YeastBillionPerL[h] = 100*m.Attenuated, m.FermentableGPerL, cells*m.YeastShare
		c.TemperatureC[h] = x.TemperatureC(float64(h)) - b.mid.WarmerC
	}
}
