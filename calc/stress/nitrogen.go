package stress

import "math"

// Usable nitrogen: see the package comment.
const (
	perMaltPlato   = 17.0
	perHoneyG      = 0.03
	PerNutrientG   = 212.0 // mg of nitrogen in a gram of diammonium phosphate
	leastPerPlato  = 130.0 / 12
	quickPerPlato  = 170.0 / 12
	slowestPart    = 0.35 // of the rate; without any nitrogen yeast still lives on itself (ours)
	mostNutrientGL = 1.0  // g/L: limits of the wine trade are 0.96 (US, from memory) and 1 (EU)
)

// NitrogenMgPerL is the nitrogen that the yeast can use, mg/L.
func (in *Input) NitrogenMgPerL() float64 {
	return perMaltPlato*in.MaltPlato + perHoneyG*in.HoneyGPerL + PerNutrientG*in.NutrientGPerL
}

// NeedMgPerL is the least that a beer of its strength wants.
func (in *Input) NeedMgPerL() float64 { return leastPerPlato * in.OriginalPlato }

// Pace is how fast the yeast works on its nitrogen, of what it does well fed.
func (in *Input) Pace() float64 {
	quick := quickPerPlato * in.OriginalPlato
	if !(quick > 0) {
		return 1
	}
	return min(max(math.Sqrt(max(in.NitrogenMgPerL(), 0)/quick), slowestPart), 1)
}

// MoreNutrientGPerL is the diammonium phosphate still to give for a quick and full
// attenuation, g/L: never beyond a gram in all.
func (in *Input) MoreNutrientGPerL() float64 {
	short := (quickPerPlato*in.OriginalPlato - in.NitrogenMgPerL()) / PerNutrientG
	return max(0, min(short, mostNutrientGL-in.NutrientGPerL))
}

// OxygenG is the oxygen dissolved in so many litres, g.
func OxygenG(litres, mgPerL float64) float64 { return litres * mgPerL / 1000 }
