package taste

import "skep/calc/sugar"

// Weights are what one taster makes of a beer: how sweet each kind of extract
// is, g of sucrose for each g ([sugar.Spectrum.Other] is not sweet), and how
// full alcohol feels.
type Weights struct {
	Glucose, Fructose, Sucrose, Maltose, Maltotriose, Dextrin float64
	// Alcohol is what alcohol fills at most, as g/L of dextrin; see [Weight].
	Alcohol float64
}

// Mid is the middle of the published ranges.
func Mid() Weights {
	return Weights{Glucose: 0.7, Fructose: 1.2, Sucrose: 1, Maltose: 0.4, Maltotriose: 0.25, Dextrin: 0.1, Alcohol: alcoholMid}
}

// Low is the least of the published ranges, read as their 10th percentile.
func Low() Weights {
	return Weights{Glucose: 0.5, Fructose: 1.0, Sucrose: 1, Maltose: 0.33, Maltotriose: 0.2, Dextrin: 0.05, Alcohol: alcoholLow}
}

// High is the most of the published ranges, read as their 90th percentile.
func High() Weights {
	return Weights{Glucose: 0.8, Fructose: 1.7, Sucrose: 1, Maltose: 0.5, Maltotriose: 0.3, Dextrin: 0.2, Alcohol: alcoholHigh}
}

// scoreMost holds the scores of a draw: beyond, the weights stay.
const scoreMost = 2.5

// Draw gives the weights for two standard normal scores, one for what malt
// leaves (maltose, maltotriose, dextrin) and one for the simple sugars and for
// alcohol: of simple sugars a finished beer holds next to nothing, so that the
// score is free for it. The 10th percentile of each is [Low], the 50th [Mid],
// the 90th [High]; one taster finds all of a group sweeter or less sweet
// together. Scores are held to ±2.5, and no weight falls below zero; NaN counts
// as 0.
func Draw(maltScore, simpleScore float64) Weights {
	l, m, h := Low(), Mid(), High()
	return Weights{
		Glucose: split(simpleScore, l.Glucose, m.Glucose, h.Glucose), Fructose: split(simpleScore, l.Fructose, m.Fructose, h.Fructose),
		Sucrose: 1,
		Maltose: split(maltScore, l.Maltose, m.Maltose, h.Maltose), Maltotriose: split(maltScore, l.Maltotriose, m.Maltotriose, h.Maltotriose),
		Dextrin: split(maltScore, l.Dextrin, m.Dextrin, h.Dextrin),
		Alcohol: max(split(simpleScore, l.Alcohol, m.Alcohol, h.Alcohol), 0),
	}
}

// split is a two-piece normal quantile: each side with its own spread.
func split(z, low, mid, high float64) float64 {
	const z90 = 1.2815515655446004
	switch {
	case z < 0:
		return mid + max(z, -scoreMost)/z90*(mid-low)
	case z > 0:
		return mid + min(z, scoreMost)/z90*(high-mid)
	}
	return mid
}

// SweetnessGL is the sweetness of what is left in the beer (g/L by kind) in
// grams of sucrose a litre that would be as sweet in water, where 3.4 g/L is
// the least that is tasted.
func SweetnessGL(residue sugar.Spectrum, w Weights) float64 { return w.Sweet(&residue) }

// Sweet is [SweetnessGL] in any unit.
func (w *Weights) Sweet(left *sugar.Spectrum) float64 {
	return left.Glucose*w.Glucose + left.Fructose*w.Fructose + left.Sucrose*w.Sucrose +
		left.Maltose*w.Maltose + left.Maltotriose*w.Maltotriose + left.Dextrin*w.Dextrin
}
