package brewday

import (
	"math"

	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/recipe"
	"skep/calc/water"
)

func (b *brew) mash() water.Mash {
	return water.Mash{GrainKg: b.plan.GrainKg, LiquorL: b.plan.MashLiquor, VesselHeatKJPerK: b.d.Kit.VesselHeatKJPerK}
}

// strikeIs answers to the liquor's temperature before the grain goes in.
func (b *brew) strikeIs(c float64) Answer {
	want := b.plan.StrikeTemperatureC
	in := recipe.LiquorInput(b.d)
	settles, err := in.Strike(b.plan.MashLiquor).MashC(c)
	if err != nil || math.Abs(c-want) <= nearC {
		return Answer{AsPlanned: true}
	}
	a := Answer{Means: message.New("The mash would settle at {temperature}, not at {planned}", celsius(settles), celsius(b.plan.SettlesC))}
	if c < want {
		if m := water.HeatingMinutes(b.plan.MashLiquor, 0, b.d.Kit.VesselHeatKJPerK, c, want, b.d.Kit.HeaterW); m > 0 {
			a.add(Way{Text: message.New("Heat for about {minutes} more, to {temperature}", upMinutes(m), celsius(want)), Again: measured.StrikeTemperature})
		}
		return a
	}
	a.add(Way{Text: message.New("Lid off and stir until it shows {temperature}", celsius(want)), Again: measured.StrikeTemperature})
	if l, ok := water.ExchangeL(b.plan.MashLiquor, c, want, b.d.Kit.TapC); ok && l > 0.05 {
		a.add(Way{Text: message.New("Ladle out {volume} and pour in as much from the tap", litres(l)), Again: measured.StrikeTemperature})
	}
	return a
}

// mashIs answers to the mash's temperature once it is mixed.
func (b *brew) mashIs(c float64) Answer {
	if len(b.d.Mash.Rest) == 0 {
		return Answer{AsPlanned: true}
	}
	want := b.d.Mash.Rest[0].TemperatureC
	if math.Abs(c-want) <= nearC {
		return Answer{AsPlanned: true}
	}
	a := Answer{Means: message.New("Cooler than planned by {difference}: it would end drier and lighter", of(quantity.TemperatureDifference, want-c))}
	if c > want {
		a.Means = message.New("Warmer than planned by {difference}: it would end sweeter and fuller", of(quantity.TemperatureDifference, c-want))
	}
	a.Ways = b.mashWays(c, want)
	return a
}

func (b *brew) mashWays(c, want float64) []Way {
	var a Answer
	if c < want {
		if m := b.heatingMash(c, want); m > 0 {
			a.add(Way{Text: message.New("Heater on for about {minutes}, pump running", upMinutes(m)), Short: message.New("heater {minutes}", upMinutes(m)), Again: measured.MashTemperature})
		}
		if l, ok := b.mash().MixL(c, want, b.plan.BoilingPointC); ok {
			a.add(b.thinner(l, message.New("Stir in {volume} of boiling water, and sparge with as much less", litres(l)), message.New("{volume} of boiling water", litres(l))))
		}
		return a.Ways
	}
	if l, ok := b.mash().MixL(c, want, b.d.Kit.TapC); ok {
		a.add(b.thinner(l, message.New("Stir in {volume} from the tap, and sparge with as much less", litres(l)), message.New("{volume} from the tap", litres(l))))
	}
	return a.Ways
}

// thinner is a mash with so much more water in it.
func (b *brew) thinner(more float64, text, short message.Message) Way {
	w := Way{Text: text, Short: short, Again: measured.MashTemperature}
	if b.plan.GrainKg > 0 {
		w.Settings = []Setting{{"mash.liquor_l_per_kg", b.plan.LiquorLPerKg + more/b.plan.GrainKg}}
	}
	return w
}
