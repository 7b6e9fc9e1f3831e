package stress

import (
	"math"

	"skep/calc/density"
	"skep/calc/message"
	"skep/calc/quantity"
)

// Warning is a stress in a sentence, with what to do; empty for a stress that has
// none. Litres are those of the fermenter.
func Warning(s Stress, litres float64) message.Message {
	in100 := quantity.Number(int(math.Round(100 * s.Risk)))
	celsius := func(v float64) quantity.Quantity { return quantity.Of(quantity.Temperature, v) }
	switch s.What {
	case Alcohol:
		return message.New("The sugar would give {strength} and this strain bears about {limit}: it stops early in {risk} of 100 such beers and stays sweet; take a strain that bears more, or less extract", quantity.Of(quantity.Strength, s.Value), quantity.Of(quantity.Strength, s.Limit), in100)
	case Cold:
		return message.New("{temperature} is colder than this strain likes, {limit}: it may fall asleep ({risk} in 100); ferment warmer, or take a strain for the cold", celsius(s.Value), celsius(s.Limit), in100)
	case Heat:
		return message.New("{temperature} is warmer than this strain likes, {limit}: harsh, solvent-like flavours are likely ({risk} in 100); cool the beer, above all in its first two days", celsius(s.Value), celsius(s.Limit), in100)
	case Pitch:
		return message.New("That is little yeast, half the usual or less: it may start late or stop early ({risk} in 100); pitch {cells} billion cells, and give the wort air", in100, quantity.Of(quantity.Cells, s.EnoughPerL*litres))
	case Nitrogen:
		mg := func(v float64) quantity.Quantity { return quantity.Of(quantity.MgPerLitre, v) }
		if s.EnoughPerL <= 0 {
			return message.New("Nitrogen for the yeast is short or nearly so, about {nitrogen} (a quarter more or less) where {least} is the least: it may run slow or stop early ({risk} in 100); no more than a gram of nutrient a litre: put malt in place of some honey or sugar", mg(s.Value), mg(s.Limit), in100)
		}
		return message.New("Nitrogen for the yeast is short or nearly so, about {nitrogen} (a quarter more or less) where {least} is the least: it may run slow or stop early ({risk} in 100); give {mass} of yeast nutrient (diammonium phosphate) in all, or as its maker says", mg(s.Value), mg(s.Limit), in100, quantity.Of(quantity.MassG, s.EnoughPerL*litres))
	case Gravity:
		return message.New("An original gravity of {gravity}, everything counted, is a heavy load for yeast: it may stop early ({risk} in 100); pitch in proportion, give air and nutrient, and add the honey in parts", quantity.Of(quantity.Gravity, density.SGFromPlato(s.Value)), in100)
	}
	return message.Message{}
}
