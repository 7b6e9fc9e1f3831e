package calc

import (
	"math"

	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/ferment"
	"skep/calc/honey"
)

// Fermentation is how one beer ferments: package ferment's walk with this beer's mass
// balance. It is a workspace.
type Fermentation struct {
	walk   ferment.Walk
	events []ferment.Event
	in     []contents // by how many additions are in

	litres   float64 // pitched
	volume   float64 // in the end, litres per litre pitched
	beerC    float64
	leftKg   float64 // dextrin, that honey's enzymes may trim
	trimmed  float64
	trimFrom float64 // hours after pitching: the first raw honey
}

// contents are the extract and the mass of everything that is in.
type contents struct{ extractKg, massKg float64 }

// course follows a beer: with its times, or as it goes until now without them.
func (b *Brew) course(in *Inputs, x *Draw, timed bool) {
	c, w := &x.Fermentation, &x.w
	litres := b.d.Batch.IntoFermenterL
	perL := 1000 / litres
	c.litres, c.volume, c.beerC = litres, 1, b.yeast.TemperatureC+in.WarmerC
	c.leftKg, c.trimmed, c.trimFrom = x.Beer.dextrinKg, w.trimmed, math.Inf(1)

	sugars := w.take.Fermented(x.MashWort.Times(x.GrainKg)).Plus(w.hot).Plus(w.pitched.kg)
	sugars.Dextrin -= w.hot.Dextrin + w.pitched.kg.Dextrin // no strain takes honey's
	sugars = sugars.Times(x.reached)
	c.events = c.events[:0]
	for i := range b.d.Honey {
		h := &b.d.Honey[i]
		volume := honey.VolumeL(h.MassKg, h.MoisturePct, 20) / litres
		switch h.Moment {
		case design.MomentBoil, design.MomentWhirlpool: // its room is in the wort already
		case design.MomentPitching:
			c.volume += volume
			if h.Raw {
				c.trimFrom = 0
			}
		default:
			if h.MassKg <= 0 {
				continue
			}
			kg := honeyKg(h, in).Times(perL * x.reached)
			kg.Dextrin = 0
			e := ferment.Event{Hours: h.HoursAfterHeight, AfterHeight: true, Fermentable: kg, VolumeShare: volume, Place: i}
			if b.logged.NowHours > 0 {
				e.NotBefore = b.logged.NowHours + JustAfter
			}
			if at, logged := b.logged.honeyHours(i); logged {
				e.Hours, e.AfterHeight = at, false
			} else if !timed && b.logged.NowHours > 0 {
				continue // it is still to come
			}
			c.events = append(c.events, e)
		}
	}
	for i := range b.d.Temperature {
		// What is past was logged.
		s := &b.d.Temperature[i]
		if s.AtAttenuationPct == 0 && b.logged.NowHours > 0 && s.AtHours <= b.logged.NowHours {
			continue
		}
		c.events = append(c.events, ferment.Event{
			Hours: s.AtHours, AtShare: s.AtAttenuationPct / 100, NotBefore: b.logged.NowHours, Change: true, ToC: s.TemperatureC + in.WarmerC,
		})
	}
	for _, k := range b.logged.Changes {
		c.events = append(c.events, ferment.Event{Hours: k.Hours, Change: true, ToC: k.TemperatureC + in.WarmerC})
	}
	c.walk.Run(ferment.Pitched{
		Fermentable: sugars.Times(perL), VolumeShare: c.volume, BillionPerL: b.yeast.CellsBillionPerL,
		TemperatureC: c.beerC, LagHours: in.LagHours, RateFactor: in.RateFactor, Shape: in.Shape, HeightPlace: in.Height, Untimed: !timed,
	}, c.events)

	now := contents{x.Wort.Total(), x.PitchedKg}
	c.in = append(c.in[:0], now)
	for i := range c.walk.Events {
		e := &c.walk.Events[i]
		if e.Change {
			continue
		}
		h := &b.d.Honey[e.Place]
		now.extractKg += honeyKg(h, in).Total()
		now.massKg += h.MassKg
		c.in = append(c.in, now)
		c.volume += e.VolumeShare
		if h.Raw {
			c.trimFrom = min(c.trimFrom, e.Hours)
		}
	}
}

// JustAfter and before it: a gravity of the same moment as honey is of the beer
// before it, hours.
const JustAfter = 1e-6

// TemperatureC is what the beer is kept at, at an hour after pitching.
func (c *Fermentation) TemperatureC(hours float64) float64 {
	t := c.beerC
	for i := range c.walk.Events {
		if e := &c.walk.Events[i]; e.Change && e.Hours <= hours {
			t = e.ToC
		}
	}
	return t
}

// Times are the milestones: height and window of the wort's own fermentation,
// undisturbed by later honey; the finish of everything.
func (c *Fermentation) Times() ferment.Times { return c.walk.Times }

// Moment is a course at one hour.
type Moment struct {
	GravitySG        float64 // what a hydrometer shows at 20 °C
	CO2RateGPerLH    float64 // given off, per litre pitched and hour
	Attenuated       float64 // share of all that will ferment, later honey included
	FermentableGPerL float64 // still to ferment of what is in, per litre pitched
	YeastShare       float64 // over what was pitched, settled cells included
}

// At is the course at an hour after pitching.
func (c *Fermentation) At(hours float64) Moment {
	m := c.walk.At(hours)
	x := Moment{
		GravitySG:     c.gravity(hours, m.FermentedGPerL, m.Doses),
		CO2RateGPerLH: ferment.CO2PerExtract * m.RateGPerLH, FermentableGPerL: m.LeftGPerL, YeastShare: m.YeastShare,
	}
	if all := c.walk.AllGPerL(); all > 0 {
		x.Attenuated = min(max(m.FermentedGPerL/all, 0), 1)
	}
	return x
}

// GravityAt is the gravity of [Fermentation.At] alone, sooner.
func (c *Fermentation) GravityAt(hours float64) float64 {
	fermented, doses := c.walk.Fermented(hours)
	return c.gravity(hours, fermented, doses)
}

// EndSG is the gravity when all sugar that is in by some hour has gone, live
// honey enzymes as far as they are then.
func (c *Fermentation) EndSG(hours float64) float64 {
	m := c.walk.At(hours)
	return c.gravity(hours, m.FermentedGPerL+m.LeftGPerL, m.Doses)
}

func (c *Fermentation) gravity(hours, fermentedGPerL float64, doses int) float64 {
	in := &c.in[doses]
	if !(in.extractKg > 0) {
		return 1
	}
	original := 100 * in.extractKg / in.massKg
	fermented := fermentedGPerL*c.litres/1000 + c.leftKg*c.trim(hours)
	re := alcohol.RealExtractAfter(original, fermented/in.extractKg)
	return density.QuickSG(alcohol.ApparentExtract(original, re))
}

// trim is the share of dextrin that honey's enzymes have taken by an hour: all
// of the draw's after three weeks.
func (c *Fermentation) trim(hours float64) float64 {
	days := (hours - c.trimFrom) / 24
	if !(days > 0) || c.trimmed == 0 {
		return 0
	}
	return c.trimmed * min(1, math.Expm1(-days/trimDays)/(1/math.E-1))
}

// CO2AfterLPerL is the carbon dioxide still to come after an hour: litres of gas
// at the temperature of the beer and 101.325 kPa per litre of the finished beer.
// It is what strips aroma (package honey). All of it counts as leaving; what the
// beer keeps dissolved (0.8 to 1 litre per litre) matters only in the first hours.
func (c *Fermentation) CO2AfterLPerL(hours float64) float64 {
	left := max(c.walk.AllGPerL()-c.walk.At(hours).FermentedGPerL, 0)
	return ferment.CO2Litres(ferment.CO2PerExtract*left/c.volume, c.beerC)
}

// Dose is honey that went into the fermenter while it worked.
type Dose struct {
	Place  int     // in the design
	Hours  float64 // after pitching
	MassKg float64
	// ExtractKg and AllKg are of everything in the fermenter with it.
	ExtractKg, AllKg float64
	Logged           bool // as written down; else as planned
}

// Doses calls visit for each, in order of time.
func (b *Brew) Doses(x *Draw, visit func(Dose)) {
	k := 0
	for i := range x.walk.Events {
		if e := &x.walk.Events[i]; !e.Change {
			k++
			_, logged := b.logged.honeyHours(e.Place)
			visit(Dose{e.Place, e.Hours, b.d.Honey[e.Place].MassKg, x.in[k].extractKg, x.in[k].massKg, logged})
		}
	}
}
