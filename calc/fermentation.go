package calc

import (
	"math"
	"slices"

	"skep/calc/design"
	"skep/calc/ferment"
	"skep/calc/honey"
)

// JustAfter and before it: a gravity of the same moment as honey is of the beer
// before it, hours.
const JustAfter = 1e-6

// Fermentation is the course of a beer.
type Fermentation = ferment.Fermentation

// followed is how far a course is followed at first; a later hour may be asked for
// where honey that goes in later is followed too.
type followed int

const (
	unfollowed  followed = iota
	untilNow             // without the milestones, and without honey that is still to come
	toTheWindow          // without the finish, and without honey that goes in later
	toTheEnd
)

// keptWindow is a height and a honey window with all that they hang on. Honey that goes
// in later is not among it, so they stand while its lever moves.
type keptWindow struct {
	pitched ferment.Pitched
	changes []ferment.Event
	times   Times
}

// course follows a beer. Where it is followed to the window alone, kept is what was
// found the last time, and will be the next.
func (b *Brew) course(in *Inputs, x *Draw, far followed, kept *keptWindow) {
	w, litres := &x.w, b.d.Batch.IntoFermenterL
	perL := 1000 / litres
	beerC, rawFrom, pitchedL := b.yeast.TemperatureC+in.WarmerC, math.Inf(1), 1.0
	sugars := w.take.Fermented(x.MashWort.Times(x.GrainKg)).Plus(w.hot).Plus(w.pitched.kg)
	sugars.Dextrin -= w.hot.Dextrin + w.pitched.kg.Dextrin // no strain takes honey's
	sugars = sugars.Times(x.reached)
	x.events = x.events[:0]
	for i := range b.d.Honey {
		h := &b.d.Honey[i]
		share := honey.VolumeL(h.MassKg, h.MoisturePct, 20) / litres
		switch h.Moment {
		case design.MomentBoil, design.MomentWhirlpool: // its room is in the wort already
		case design.MomentPitching:
			pitchedL += share
			if h.Raw {
				rawFrom = 0
			}
		default:
			if h.MassKg <= 0 || far == toTheWindow {
				continue
			}
			kg := in.HoneyKg(h).Times(perL * x.reached)
			kg.Dextrin = 0
			e := ferment.Event{Hours: h.HoursAfterHeight, AfterHeight: true, Fermentable: kg, VolumeShare: share, Place: i}
			if b.logged.NowHours > 0 {
				e.NotBefore = b.logged.NowHours + JustAfter
			}
			if at, logged := b.logged.honeyHours(i); logged {
				e.Hours, e.AfterHeight = at, false
			} else if far == untilNow && b.logged.NowHours > 0 {
				continue // it is still to come
			}
			x.events = append(x.events, e)
		}
	}
	for i := range b.d.Temperature {
		// What is past was logged.
		s := &b.d.Temperature[i]
		if s.AtAttenuationPct == 0 && b.logged.NowHours > 0 && s.AtHours <= b.logged.NowHours {
			continue
		}
		x.events = append(x.events, ferment.Event{
			Hours: s.AtHours, AtShare: s.AtAttenuationPct / 100, NotBefore: b.logged.NowHours, Change: true, ToC: s.TemperatureC + in.WarmerC,
		})
	}
	for _, k := range b.logged.Changes {
		x.events = append(x.events, ferment.Event{Hours: k.Hours, Change: true, ToC: k.TemperatureC + in.WarmerC})
	}
	pitched := ferment.Pitched{
		Fermentable: sugars.Times(perL), VolumeShare: pitchedL, BillionPerL: b.yeast.CellsBillionPerL,
		TemperatureC: beerC, LagHours: in.LagHours, RateFactor: in.RateFactor, Shape: in.Shape,
		Slow: in.Slow, Air: in.Air, HeightPlace: in.Height,
		Untimed: far == untilNow, Unfinished: far == toTheWindow,
	}
	if far == toTheWindow && kept.pitched == pitched && slices.Equal(kept.changes, x.events) {
		x.Times = kept.times
	} else if x.Run(pitched, x.events); far == toTheWindow {
		kept.pitched, kept.changes, kept.times = pitched, append(kept.changes[:0], x.events...), x.Times
	}
	x.Times.Read(100*x.Wort.Total()/x.PitchedKg, perL*x.Wort.Total())
	if far == toTheWindow {
		return
	}

	c := &x.Balance
	c.Litres, c.VolumeL, c.TemperatureC = litres, pitchedL, beerC
	c.DextrinKg, c.Trimmed = x.dextrinKg, w.trimmed
	now := ferment.Contents{ExtractKg: x.Wort.Total(), MassKg: x.PitchedKg}
	c.In = append(c.In[:0], now)
	for i := range x.Events {
		e := &x.Events[i]
		if e.Change {
			continue
		}
		h := &b.d.Honey[e.Place]
		kg := in.HoneyKg(h)
		now.ExtractKg += kg.Total()
		now.MassKg += h.MassKg
		c.In = append(c.In, now)
		c.VolumeL += e.VolumeShare
		if h.Raw {
			rawFrom = min(rawFrom, e.Hours)
		}
	}
	c.TrimFromHours = rawFrom
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
	for i := range x.Events {
		if e := &x.Events[i]; !e.Change {
			k++
			_, logged := b.logged.honeyHours(e.Place)
			visit(Dose{e.Place, e.Hours, b.d.Honey[e.Place].MassKg, x.Balance.In[k].ExtractKg, x.Balance.In[k].MassKg, logged})
		}
	}
}
