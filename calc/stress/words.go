package stress

import (
	"fmt"
	"math"
)

// Warning is a stress in a sentence, with what to do. Litres are those of the
// fermenter.
func Warning(s Stress, in Input, litres float64) string {
	risk := int(math.Round(100 * s.Risk))
	switch s.What {
	case Alcohol:
		return fmt.Sprintf("the sugar would give %.1f %% vol and this strain bears about %g: it stops early in %d of 100 such beers and stays sweet; take a strain that bears more, or less extract", s.Value, s.Limit, risk)
	case Cold:
		return fmt.Sprintf("%g °C is colder than this strain likes (%g °C): it may fall asleep (%d in 100); ferment warmer, or take a strain for the cold", s.Value, s.Limit, risk)
	case Heat:
		return fmt.Sprintf("%g °C is warmer than this strain likes (%g °C): harsh, solvent-like flavours are likely (%d in 100); cool the beer, above all in its first two days", s.Value, s.Limit, risk)
	case Pitch:
		return fmt.Sprintf("%.2f million cells a mL and °P are few (half of the usual is %.2f): it may start late or stop early (%d in 100); pitch more, and give the wort air", s.Value, s.Limit, risk)
	case Nitrogen:
		dose := in.MoreNutrientGPerL()
		if dose <= 0 {
			return fmt.Sprintf("little nitrogen for the yeast (%.0f mg/L, it wants %.0f): it may run slow or stop early (%d in 100); no more than a gram of nutrient a litre: put malt in place of some honey or sugar", s.Value, s.Limit, risk)
		}
		return fmt.Sprintf("little nitrogen for the yeast (%.0f mg/L, it wants %.0f): it may run slow or stop early (%d in 100); give %.1f g of yeast nutrient (diammonium phosphate) in all, or as its maker says", s.Value, s.Limit, risk, (dose+in.NutrientGPerL)*litres)
	case Gravity:
		return fmt.Sprintf("%.1f °P is a heavy load for yeast (%.1f): it may stop early (%d in 100); pitch in proportion, give air and nutrient, and add the honey in parts", s.Value, s.Limit, risk)
	}
	return ""
}
