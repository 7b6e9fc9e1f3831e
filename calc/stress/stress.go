package stress

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Input is a brew as its yeast meets it.
type Input struct {
	TolerancePct float64 // % vol that the strain bears; 0: [UsualTolerancePct]
	ColdestC     float64 // of the range it works in; with WarmestC 0: not known
	WarmestC     float64

	TemperatureC     float64 // coldest of the fermentation
	HottestC         float64 // warmest; 0: TemperatureC
	StrengthPct      float64 // of the finished beer, if nothing stops it, % vol
	OriginalPlato    float64 // of everything that goes in
	MaltPlato        float64 // its share from malt
	HoneyGPerL       float64
	NutrientGPerL    float64 // diammonium phosphate
	PitchBillionPerL float64
	PitchedPlato     float64 // of what is in the fermenter at pitching; 0: OriginalPlato
	Cold             bool    // lager: wants twice the cells
}

// Usual values (common practice, no source; pitch: G. Fix, Analysis of Brewing
// Techniques, as quoted).
const (
	UsualTolerancePct = 12.0
	usualWarmestC     = 28.0 // of a strain of which nothing is known
	usualPitch        = 0.75 // million cells per mL and °P
	usualColdPitch    = 1.5
)

// What a stress is.
const (
	Alcohol  = "alcohol"
	Cold     = "cold"
	Heat     = "heat"
	Pitch    = "pitch"
	Nitrogen = "nitrogen"
	Gravity  = "gravity"
)

// Stress is one thing that may go wrong with the yeast.
type Stress struct {
	What  string  `json:"what"`
	Value float64 `json:"value"`
	Limit float64 `json:"limit"`
	Risk  float64 `json:"risk"` // 0 to 1
	// EnoughPerL is what would be enough, in all: 1e9 cells a litre of [Pitch], g of
	// nutrient a litre of [Nitrogen], 0 where no dose may be; of the others 0.
	EnoughPerL float64 `json:"-"`
}

// least is the risk that is worth a line, Worth the one that is worth a warning.
const (
	least = 0.05
	Worth = 0.10
)

// Of lists what may go wrong, the gravest first, from [Least] on.
func Of(in Input) []Stress {
	var all []Stress
	for _, s := range every(&in) {
		if s.Risk >= least {
			all = append(all, s)
		}
	}
	for i := range all { // a handful: insertion keeps equals in order
		for j := i; j > 0 && all[j].Risk > all[j-1].Risk; j-- {
			all[j], all[j-1] = all[j-1], all[j]
		}
	}
	return all
}

func every(in *Input) [6]Stress {
	all := [6]Stress{}
	put := func(i int, what string, value, limit, score float64) {
		all[i] = Stress{What: what, Value: value, Limit: limit}
		if !math.IsNaN(score) {
			all[i].Risk = distuv.UnitNormal.CDF(score)
		}
	}
	tolerance := in.tolerance()
	put(0, Alcohol, in.StrengthPct, tolerance, (in.StrengthPct-tolerance)/ToleranceSD)
	cold, warmest := math.NaN(), usualWarmestC
	hottest := max(in.HottestC, in.TemperatureC)
	if in.ColdestC != 0 || in.WarmestC != 0 {
		cold, warmest = (in.ColdestC-in.TemperatureC-2)/1.5, in.WarmestC
	}
	put(1, Cold, in.TemperatureC, in.ColdestC, cold)
	put(2, Heat, hottest, warmest, (hottest-warmest-4)/2)
	rate, usual := in.pitch()
	put(3, Pitch, rate, usual/2, (math.Log2(usual/rate)-2)/0.8)
	all[3].EnoughPerL = usual * in.pitchedPlato()
	need := in.NeedMgPerL()
	put(4, Nitrogen, in.NitrogenMgPerL(), need, math.Log(0.85*need/in.NitrogenMgPerL())/0.25)
	if more := in.MoreNutrientGPerL(); more > 0 {
		all[4].EnoughPerL = in.NutrientGPerL + more
	}
	put(5, Gravity, in.OriginalPlato, strongPlato, (in.OriginalPlato-26)/2.5)
	return all
}

const (
	ToleranceSD = 1.0  // % vol, of what a strain bears
	strongPlato = 21.5 // SG 1.090
)

func (in *Input) tolerance() float64 {
	if in.TolerancePct > 0 {
		return in.TolerancePct
	}
	return UsualTolerancePct
}

// pitchedPlato is the wort that the yeast goes into.
func (in *Input) pitchedPlato() float64 {
	if in.PitchedPlato == 0 {
		return in.OriginalPlato
	}
	return in.PitchedPlato
}

// pitch is the cells given and the usual ones, million per mL and °P; NaN where
// there is nothing to divide by.
func (in *Input) pitch() (given, usual float64) {
	plato := in.pitchedPlato()
	usual = usualPitch
	if in.Cold {
		usual = usualColdPitch
	}
	if !(plato > 0) || !(in.PitchBillionPerL > 0) {
		return math.NaN(), usual
	}
	return in.PitchBillionPerL / plato, usual // billion per L is million per mL
}

// StopRisk is the risk that something of it stops the beer early or makes it
// slow, alcohol left out: that stops it at a strength ([Strength]). Heat does not.
func StopRisk(in Input) float64 {
	going := 1.0
	for _, s := range every(&in) {
		switch s.What {
		case Alcohol, Heat:
		case Nitrogen:
			going *= 1 - s.Risk/3 // hungry beers are slow more often than stuck (ours)
		default:
			going *= 1 - s.Risk
		}
	}
	return 1 - going
}

// Strength is where alcohol stops a strain, % vol, at a standard normal score.
func Strength(tolerancePct, score float64) float64 {
	in := Input{TolerancePct: tolerancePct}
	return in.tolerance() + ToleranceSD*score
}

// Early is the share of the attenuation that a beer which stops early has reached,
// by how early among them it is (0 to 1): half to nearly all (ours; no
// figures were found).
func Early(stop float64) float64 { return 0.95 - 0.45*stop*stop }
