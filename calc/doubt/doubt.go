// Package doubt draws the uncertain inputs of a prediction.
//
// The number of draws comes in, scores and percentiles of them go out. It must not
// know what an input does to a beer.
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
//	SimpleSweet    the same for glucose and fructose, and for how full alcohol is
//	Diastase       one-sided: nothing up to the 10th percentile, then growing
//	               (package honey); only where raw honey went in cool
//	PalateDryness  normal, sd of one palate and one tasting where tastings have
//	               told of them, else 0: the index alone; PalateBody likewise
//	Rate           log-normal: a factor of ferment.RateSpread as 10 to 90 %
//	Lag            log-normal: a factor of ferment.LagSpread as 10 to 90 %
//	BeerTemperature  normal, sd ferment.UsualTemperatureErrorC, or what is known
//	               of it where it was measured
//	Shape          log-normal: a power of ferment.ShapeSpread as 10 to 90 %
//	Height         even over the flat top of the rate (package ferment)
//	Tail           log-normal: how much of the sugar goes slowly (package ferment)
//	Air            log-normal: how little air the wort had (package ferment)
//
// The last two are of a beer that is followed (package follow), whose scores stand
// [Asked] above nought. In a plan, whose bands are so much wider, all are nought: none.
//
// Bitterness and colour are drawn apart: their packages make their bands. A
// column that is added goes behind all others, which keeps them as they are.
package doubt

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

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
	SimpleSweet                // sweetness of glucose and fructose, fullness of alcohol, over their ranges
	Diastase                   // dextrin trimmed by live honey enzymes: one-sided
	// What one palate makes of the indices.
	PalateDryness
	PalateBody
	// The clock of the fermentation: package ferment has the spreads.
	Rate            // of all uptake: slow is negative
	Lag             // short is negative
	BeerTemperature // over the days: cool is negative
	Shape           // of the course: late and steep is positive
	Height          // where on its flat top the height is: late is positive
	// What only readings tell of, from [Asked]: none at nought.
	Tail   // how much of the sugar goes slowly
	Air    // how little air the wort had
	Inputs // how many there are
)

// Asked is where the middle of Tail and Air stands in the scores of a beer that is
// followed.
const Asked = 4.0

// seed fixes the scrambling. Any value would do; it is fixed so that a design
// predicts the same numbers everywhere and always.
const seed = 20260620

// Draws is a table of standard normal scores: Draws[i][input].
type Draws [][Inputs]float64

// New makes n draws. The first m of n draws are not those of New(m): take one
// size and keep it.
func New(n int) Draws {
	batch := mat.NewDense(n, int(Rate), nil)
	samplemv.Halton{
		Kind: samplemv.Owen,
		Q:    distmv.NewUnitUniform(int(Rate), nil),
		Src:  rand.NewPCG(seed, uint64(n)),
	}.Sample(batch)
	draws := make(Draws, n)
	clock := lattice(n)
	for i := range draws {
		for j := range int(Rate) {
			draws[i][j] = score(batch.At(i, j), n)
		}
		for j := range clock {
			draws[i][int(Rate)+j] = score(clock[j][i], n)
		}
	}
	return draws
}

// lattice are the places of the clock's columns: an additive lattice in three
// dimensions (generalised golden ratio, the root of x⁴ = x + 1; M. Roberts 2018,
// from memory), each column put evenly by its ranks. A thirteenth column of
// Halton's sequence would have the base 41, of which a few hundred draws hold six
// periods: times came out up to 5 % off.
func lattice(n int) (places [Tail - Rate][]float64) {
	const golden = 1.2207440846057596
	step := 1.0
	for j := range places {
		step /= golden
		switch Rate + Input(j) { // golden to the fourth is no new number: it is 1 + golden
		case Shape:
			step = math.Sqrt2 - 1
		case Height:
			step = math.Sqrt(3) - 1
		}
		places[j] = ranked(n, step)
	}
	return places
}

// score is the normal score of a place between 0 and 1 of n. Half a step keeps it
// off the ends, where it is infinite.
func score(u float64, n int) float64 {
	return distuv.UnitNormal.Quantile(min(max(u, 0.5/float64(n)), 1-0.5/float64(n)))
}

// Uniform turns a normal score into its place between 0 and 1.
func Uniform(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }

// Z90 is the normal score of the 90th percentile: a range given as its 10th
// to 90th percentile has the standard deviation (high - low) / (2 Z90).
const Z90 = 1.2815515655446004

// AnotherStrain is a column of scores for the attenuation of a second strain: two
// strains are two unknowns, so it hangs on no column of n draws. Like the clock's
// columns it is a lattice put evenly by its ranks.
func AnotherStrain(n int) []float64 {
	u := ranked(n, math.Sqrt(14)-3)
	for i := range u {
		u[i] = score(u[i], n)
	}
	return u
}

// ranked are n places between 0 and 1, each once, in the order of an additive
// lattice of a step.
func ranked(n int, step float64) []float64 {
	u, order := make([]float64, n), make([]int, n)
	for i := range u {
		_, u[i] = math.Modf(0.5 + step*float64(i+1))
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(u[a], u[b]) })
	for rank, i := range order {
		u[i] = (float64(rank) + 0.5) / float64(n)
	}
	return u
}
