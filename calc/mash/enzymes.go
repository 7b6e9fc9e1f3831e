package mash

import "math"

const (
	gasConstant = 8.314e-3        // kJ/(mol K)
	kelvin      = 273.15          // 0 °C in K
	rateRefK    = 65 + kelvin     // rates are stated at 65 °C
	hottestC    = 85.0            // the kinetics are held here: every enzyme is dead within the minute
	barleyGelC  = 61.5            // gelatinisation of barley in bulk, 61 to 62 °C (read, design notes section 2)
	refLiquor   = 3.0             // L/kg of the laboratory rows
	dissolvedL  = 0.4             // L/kg of grain: what dissolved extract adds to the liquid (0.8 kg/kg · 0.62 L/kg, less what the husk keeps; ours)
	maltoseMol  = 342.30 / 1000.0 // kg/mol
)

// Kinetics are the constants of the mash. Which are fitted, to what, and how
// well they are known is printed by the fit (package doc); the others carry
// their source here. Rates are per minute at 65 °C.
type Kinetics struct {
	// Gelatinisation: rate = GelRate·arr(GelE)/(1+exp(-(T-GelMidC)/GelWidthC)).
	GelRate   float64 // 1/min, limit of the rate at 65 °C
	GelE      float64 // kJ/mol, of the limit
	GelMidC   float64 // °C, half of the limit, barley starch at 3 L/kg
	GelWidthC float64 // °C, steepness below it
	GelThickC float64 // °C per kg/L of grain in liquor by which a thicker mash gelatinises hotter
	GelTail   float64 // each hotter class of granules holds this share of the one before
	GelStepC  float64 // °C from class to class

	AlphaRate  float64 // 1/min on gelatinised starch
	AlphaE     float64 // kJ/mol
	AlphaLoss  float64 // 1/min
	AlphaLossE float64 // kJ/mol
	AlphaTrim  float64 // rate on dextrin over that on starch

	BetaRate  float64 // 1/min on dextrin open to it
	BetaE     float64 // kJ/mol
	BetaLoss  float64 // 1/min without maltose
	BetaLossE float64 // kJ/mol
	BetaGuard float64 // mol/L of maltose that halves the loss

	LimitRate  float64 // 1/min, limit dextrinase on limit dextrin
	LimitE     float64 // kJ/mol
	LimitLoss  float64 // 1/min
	LimitLossE float64 // kJ/mol

	// What alpha-amylase makes of starch, mass shares; the rest is dextrin
	// open to beta-amylase.
	YieldGlucose     float64
	YieldMaltose     float64
	YieldMaltotriose float64
	YieldLimit       float64 // limit dextrin
	// What trimming makes of dextrin, mass shares that sum to 1.
	TrimGlucose, TrimMaltose, TrimMaltotriose float64
	// What beta-amylase leaves as maltotriose where a chain has an odd number.
	BetaMaltotriose float64
}

// granules is how many classes of granules malt starch is reckoned in: the
// small ones gelatinise hotter than the large, with no gap between.
const granules = 4

// rates are the constants at one temperature, 1/min.
type rates struct {
	alpha, alphaLoss, trim float64
	beta, betaLoss         float64
	limit, limitLoss       float64
}

// arrhenius is the factor from 65 °C to T for an activation energy, kJ/mol.
func arrhenius(e, tK float64) float64 {
	return math.Exp(e / gasConstant * (1/rateRefK - 1/tK))
}

func (k *Kinetics) at(tC float64) rates {
	tK := math.Min(tC, hottestC) + kelvin
	a := k.AlphaRate * arrhenius(k.AlphaE, tK)
	return rates{
		alpha: a, trim: k.AlphaTrim * a, alphaLoss: k.AlphaLoss * arrhenius(k.AlphaLossE, tK),
		beta: k.BetaRate * arrhenius(k.BetaE, tK), betaLoss: k.BetaLoss * arrhenius(k.BetaLossE, tK),
		limit: k.LimitRate * arrhenius(k.LimitE, tK), limitLoss: k.LimitLoss * arrhenius(k.LimitLossE, tK),
	}
}

// gel is the rate of gelatinisation of starch whose middle lies shiftC above
// that of barley's large granules at 3 L/kg. One smooth function over all
// temperatures: the published pair of Arrhenius lines meets with a jump at
// 60 °C, where the lever passes.
func (k *Kinetics) gel(tC, shiftC float64) float64 {
	tC = math.Min(tC, hottestC)
	limit := k.GelRate * arrhenius(k.GelE, tC+kelvin)
	return limit / (1 + math.Exp(-(tC-k.GelMidC-shiftC)/k.GelWidthC))
}

// BetaLossAt is the rate, 1/min, at which beta-amylase is lost at a
// temperature in a solution of so much maltose, mol/L.
func (k *Kinetics) BetaLossAt(tC, maltoseMolL float64) float64 {
	return k.at(tC).betaLoss * k.unguarded(maltoseMolL)
}

// unguarded is the share of its loss that so much maltose, mol/L, leaves
// beta-amylase.
func (k *Kinetics) unguarded(maltoseMolL float64) float64 { return 1 / (1 + maltoseMolL/k.BetaGuard) }
