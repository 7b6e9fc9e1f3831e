// Package doubt draws the uncertain inputs of a prediction.
//
// The draws are a scrambled Halton sequence (A. B. Owen, arXiv:1706.02808, as
// gonum/stat/samplemv has it) with a fixed seed, mapped to standard normal
// scores. Every strain, lever and picture uses the same draws, so that a
// difference between two designs is never noise, and a design always gives
// the same answer.
//
// # The distributions
//
// One column for each input below, independent of the others; what inputs have
// in common is put in where they are used, and is listed as "shared". Source:
// design notes, section 7, unless said.
//
//	Strain         normal; the given attenuation range is its 10 to 90 %
//	Rest           normal, sd kit.rest_error_c; shared: one thermometer, so all
//	               rests of a mash are off by the same
//	Malt           normal, sd mash.MaltSDPoints of limit attenuation; shared: one
//	               harvest and maltster for the whole grist, so dextrin, maltose
//	               and maltotriose move together
//	Response       triangle 0.1 to 1.1, likeliest 1 (ours: package mash); how far
//	               the mash temperature acts, between the laboratory's rows and
//	               the flat pilot batches
//	Efficiency     normal, sd 2 points; shared: extract of all grain together
//	HoneyMoisture  normal, sd 1 point; shared by all honeys (one refractometer)
//	HoneySugars    normal, sd 0.02 of the fermentable share; shared by all honeys
//	MaltSweet      two-piece normal over the published ranges; shared: maltose,
//	               maltotriose and dextrin are sweet to one taster together
//	SimpleSweet    the same for glucose and fructose
//	Diastase       one-sided: nothing up to the 10th percentile, then growing
//	               (package honey); only where raw honey went in cool
//	PalateDryness  normal, sd of one palate and one tasting where tastings have
//	               told of them, else 0: the index alone; PalateBody likewise
//
// The clock of the fermentation (rate, lag, temperature) is drawn apart, in
// package ferment: times do not move gravities here. So are bitterness and
// colour, whose bands their packages make.
package doubt

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// Input names one uncertain input, a column of the draws.
type Input int

// The uncertain inputs, with the spread each is given (1 sd unless said).
const (
	Strain        Input = iota // attenuation: the given range is its 10 to 90
	Rest                       // thermometer and control: kit.rest_error_c
	Malt                       // limit attenuation of the malt: 3 points
	Response                   // how strongly the mash temperature acts: package mash
	Efficiency                 // mash efficiency: 2 points
	HoneyMoisture              // 1 point
	HoneySugars                // fermentable share of honey solids: 0.02
	MaltSweet                  // sweetness of maltose, maltotriose and dextrin, over their ranges
	SimpleSweet                // sweetness of glucose and fructose, over their ranges
	Diastase                   // dextrin trimmed by live honey enzymes: one-sided
	// Behind all others: what one palate makes of the indices.
	PalateDryness
	PalateBody
	Inputs // how many there are
)

// seed fixes the scrambling. Any value would do; it is fixed so that a design
// predicts the same numbers everywhere and always.
const seed = 20260620

// Draws is a table of standard normal scores: Draws[i][input].
type Draws [][Inputs]float64

// New makes n draws. The first m of n draws are not those of New(m): take one
// size and keep it.
func New(n int) Draws {
	batch := mat.NewDense(n, int(Inputs), nil)
	samplemv.Halton{
		Kind: samplemv.Owen,
		Q:    distmv.NewUnitUniform(int(Inputs), nil),
		Src:  rand.NewPCG(seed, uint64(n)),
	}.Sample(batch)
	draws := make(Draws, n)
	unit := distuv.UnitNormal
	for i := range draws {
		for j := range draws[i] {
			// Half a step keeps the quantile off 0 and 1, where it is infinite.
			u := min(max(batch.At(i, j), 0.5/float64(n)), 1-0.5/float64(n))
			draws[i][j] = unit.Quantile(u)
		}
	}
	return draws
}

// Uniform turns a normal score into its place between 0 and 1.
func Uniform(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// Z90 is the normal score of the 90th percentile: a range given as its 10th
// to 90th percentile has the standard deviation (high - low) / (2 Z90).
const Z90 = 1.2815515655446004
