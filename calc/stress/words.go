package stress

import (
	"math"

	"skep/calc/density"
	"skep/calc/quantity"
	"skep/calc/says"
)

// Warning is a stress in a sentence, with what to do; empty for a stress that has
// none. Litres are those of the fermenter.
func Warning(s Stress, litres float64) says.Sentence {
	in100 := quantity.Number(int(math.Round(100 * s.Risk)))
	celsius := func(v float64) quantity.Quantity { return quantity.Of(quantity.Temperature, v) }
	switch s.What {
	case Alcohol:
		return says.Say("The sugar would give {} and this strain bears about {}: it stops early in {} of 100 such beers and stays sweet; take a strain that bears more, or less extract", quantity.Of(quantity.Strength, s.Value), quantity.Of(quantity.Strength, s.Limit), in100)
	case Cold:
		return says.Say("{} is colder than this strain likes, {}: it may fall asleep ({} in 100); ferment warmer, or take a strain for the cold", celsius(s.Value), celsius(s.Limit), in100)
	case Heat:
		return says.Say("{} is warmer than this strain likes, {}: harsh, solvent-like flavours are likely ({} in 100); cool the beer, above all in its first two days", celsius(s.Value), celsius(s.Limit), in100)
	case Pitch:
		return says.Say("That is little yeast, half of the usual or less: it may start late or stop early ({} in 100); pitch {} billion cells, and give the wort air", in100, quantity.Of(quantity.Cells, s.EnoughPerL*litres))
	case Nitrogen:
		mg := func(v float64) quantity.Quantity { return quantity.Of(quantity.MgPerLitre, v) }
		if s.EnoughPerL <= 0 {
			return says.Say("Nitrogen for the yeast is short or nearly so, about {} (a quarter more or less) where {} is the least: it may run slow or stop early ({} in 100); no more than a gram of nutrient a litre: put malt in place of some honey or sugar", mg(s.Value), mg(s.Limit), in100)
		}
		return says.Say("Nitrogen for the yeast is short or nearly so, about {} (a quarter more or less) where {} is the least: it may run slow or stop early ({} in 100); give {} of yeast nutrient (diammonium phosphate) in all, or as its maker says", mg(s.Value), mg(s.Limit), in100, quantity.Of(quantity.MassG, s.EnoughPerL*litres))
	case Gravity:
		return says.Say("An original gravity of {}, everything counted, is a heavy load for yeast: it may stop early ({} in 100); pitch in proportion, give air and nutrient, and add the honey in parts", quantity.Of(quantity.Gravity, density.SGFromPlato(s.Value)), in100)
	}
	return says.Sentence{}
}
