package brewday

import (
	"math"
	"slices"

	"skep/calc"
	"skep/calc/boil"
	"skep/calc/cautions"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/recipe"
	"skep/calc/water"
)

// boil is the boil with everything that goes into it, by minutes left.
func (b *brew) boil() (Step, bool) {
	p, kit := &b.plan, b.d.Kit
	s := Step{Key: Boil, Title: message.New("Boil"), Why: message.New("It bitters, sterilises and drives off what smells.")}
	if !(b.d.Boil.Minutes > 0) {
		s.Title = message.New("No boil")
		s.Why = message.New("The design has no boil: wort and hops are then neither sterile nor bitter.")
		s.warn(keys("boil.minutes"), "Nothing is boiled: unboiled wort sours soon; give it a boil unless it is meant so")
	}
	s.lead("boil", minutes(b.d.Boil.Minutes))
	if m := water.HeatingMinutes(p.PreBoilLiquid.VolumeL(), 0, kit.VesselHeatKJPerK, b.beforeBoilC(), p.BoilingPointC, kit.HeaterW); m > 0 {
		s.number("heating, at least", minutes(m))
	}
	s.number("boils away", litres(p.SteamL))
	s.number("then left, hot", litres(p.PostBoil))
	s.number("gravity then", b.like(b.postBoilSG))
	if b.p.BitternessIBU.Mid > 0 {
		s.number("bitterness", band(quantity.Bitterness, b.p.BitternessIBU))
	}
	s.Events = b.additions()
	for i, e := range s.Events {
		s.Events[i].Timer = "boil"
		if e.Path != "" {
			s.Goes = append(s.Goes, Entry{Path: e.Path, Name: e.What, Amount: e.Amount, Gives: e.Gives})
		}
	}
	if b.d.Boil.Minutes > 0 {
		s.blank("left, hot", measured.PostBoilVolume, quantity.Volume, litres(p.PostBoil))
		s.blank("cooled", measured.PostBoilGravity, quantity.Gravity, b.like(b.postBoilSG).Plain())
	}
	s.Cautions = append(s.Cautions, cautions.BoilOver())
	b.infant(&s, design.MomentBoil)
	b.warnBoil(&s)
	return s, true
}

// hops of the design in its boil and stand.
func (b *brew) hops() boil.Brew {
	return recipe.Hops(b.d, b.plan.PostBoilGravitySG, b.plan.CoolL)
}

// additions are the events of the boil, first to last.
func (b *brew) additions() []Event {
	long := b.d.Boil.Minutes
	at := func(m float64) quantity.Quantity { return minutes(math.Min(m, long)) }
	var events []Event
	for i, ibu := range b.hops().ByCharge() {
		if hop := b.d.Hop[i]; hop.When != design.HopWhirlpool && hop.When != design.HopCold && hop.MassG > 0 {
			events = append(events, Event{
				Clock: leftToBoil, At: at(hop.Minutes), What: message.Plain(hop.Name), Path: path("hop", i),
				Amount: grams(hop.MassG), Gives: band(quantity.Bitterness, calc.Band(ibu)),
			})
		}
	}
	for i, h := range b.d.Honey {
		if h.Moment == design.MomentBoil && h.MassKg > 0 {
			events = append(events, Event{
				Clock: leftToBoil, At: at(boilHoneyMin), Path: path("honey", i),
				What: message.New("{name} honey, heater off while it is stirred in", h.Name), Amount: kilos(h.MassKg),
			})
		}
	}
	if long > 0 {
		events = append(events,
			Event{Clock: leftToBoil, At: minutes(long), What: message.New("Foam stirred in: start the timer")},
			Event{Clock: leftToBoil, At: at(sanitiseMin), What: message.New("Boiling wort through the chiller and back, to sanitise it")},
			Event{Clock: leftToBoil, At: minutes(0), What: message.New("Heater off")},
		)
	}
	slices.SortStableFunc(events, func(x, y Event) int {
		switch {
		case x.At.Value > y.At.Value:
			return -1
		case x.At.Value < y.At.Value:
			return 1
		}
		return order(x) - order(y)
	})
	return events
}

// order of events at the same minute: what starts the boil first, then what
// goes in, then the rest.
func order(e Event) int {
	switch {
	case e.Path == "" && e.At.Value > sanitiseMin:
		return 0
	case e.Path != "":
		return 1
	}
	return 2
}

func (b *brew) warnBoil(s *Step) {
	b.volumesWarn(s, water.AtBoil)
	for i, h := range b.d.Hop {
		if h.AlphaPct > alphaHighestPct {
			s.warn(keys(path("hop", i)+".alpha_pct"), "{name}: {alpha} alpha is more than any hop has (up to about {highest}): read the packet again", h.Name, percent(h.AlphaPct), percent(alphaHighestPct))
		}
		if h.When != design.HopWhirlpool && h.When != design.HopCold && h.Minutes > b.d.Boil.Minutes {
			s.warn(keys(path("hop", i)+".minutes", "boil.minutes"), "{name}: {minutes} is longer than the boil of {boil}, and counted as that", h.Name, minutes(h.Minutes), minutes(b.d.Boil.Minutes))
		}
	}
}

// whirlpool is the rest after the boil: whirlpool and stand.
func (b *brew) whirlpool() (Step, bool) {
	standingMinutes := b.d.Boil.WhirlpoolMinutes + b.d.Boil.StandMinutes
	s := Step{Key: Whirlpool, Title: message.New("Whirlpool and stand"), Why: message.New("Hops and break settle to a cone; bitterness still forms.")}
	for i, ibu := range b.hops().ByCharge() {
		if hop := b.d.Hop[i]; hop.When == design.HopWhirlpool && hop.MassG > 0 {
			s.Goes = append(s.Goes, Entry{Path: path("hop", i), Name: message.Plain(hop.Name), Amount: grams(hop.MassG), Gives: band(quantity.Bitterness, calc.Band(ibu))})
		}
	}
	for i, h := range b.d.Honey {
		if h.Moment == design.MomentWhirlpool && h.MassKg > 0 {
			s.Goes = append(s.Goes, Entry{Path: path("honey", i), Name: message.New("{name} honey, in a thin stream", h.Name), Amount: kilos(h.MassKg)})
		}
	}
	if !(standingMinutes > 0) && len(s.Goes) == 0 {
		return s, false
	}
	stand := b.hops().Stand()
	s.lead("start", celsius(stand.StartC))
	s.lead("stir", minutes(b.d.Boil.WhirlpoolMinutes))
	s.lead("stand", minutes(b.d.Boil.StandMinutes))
	s.number("run-off starts at", celsius(stand.EndC))
	if more := b.standIBU(); more >= leastIBU {
		s.number("bitterness of this wait", of(quantity.Bitterness, more))
	}
	s.do("Stir in a circle, then let it stand; draw from the side, not the cone")
	s.Cautions = append(s.Cautions, cautions.HotVessel())
	b.infant(&s, design.MomentWhirlpool)
	return s, true
}

// standIBU is what whirlpool and stand add to the bitterness: the design's less
// that of the same design run off at once.
func (b *brew) standIBU() float64 {
	hops := b.hops()
	with := hops.Bitterness().Mid
	hops.WhirlpoolMinutes, hops.StandMinutes = 0, 0
	return with - hops.Bitterness().Mid
}
