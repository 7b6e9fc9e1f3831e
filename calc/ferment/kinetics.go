package ferment

import (
	"math"

	"skep/calc/alcohol"
)

// Range of temperature in which the rates are followed, °C: below 4 no source has
// data, above 30 ale yeasts are past their best (common practice, no source).
const (
	ColdestC = 4.0
	WarmestC = 30.0
)

// Fitted in calc/record to testdata/ferment; its test fails when these
// and the record there disagree.
const (
	FittedUptake  = 0.0151 // V, mol/m³/h of sugar per mol/m³ of yeast, at 20 °C
	FittedCarrier = 22.4   // half-saturation of the carrier of maltose and maltotriose, mol/m³
	FittedGrowth  = 11.3   // on the yields of growth
	FittedEaKcal  = 17.8   // of everything the yeast does, kcal/mol
)

const (
	activityOneAtC = 20.0
	gasKcal        = 1.987e-3 // kcal/mol/K
	zeroC          = 273.15   // K
	usualPitchX    = 125.0    // mol/m³, as Gee & Ramirez count yeast
	// Cells over those pitched where growth ends, by what they bring and with the
	// air of the wort, at the usual pitch (ours: yeast multiplies three to fivefold
	// in an ordinary wort, and the fit cannot tell).
	ownSterols, mostCells = 1.5, 6.0
)

// Kinetics is the set of constants of the course: see the package comment for
// what each does and where it is from.
type Kinetics struct {
	Uptake      float64    // V at 20 °C, mol/m³/h per mol/m³ of yeast
	Hexose      float64    // of hexose over maltose, by mol
	Triose      float64    // of maltotriose over maltose
	HexoseK     float64    // half-saturation, mol/m³
	CarrierK    float64    // the same of the carrier of maltose and maltotriose
	HexoseBrake float64    // hexose that halves that carrier, mol/m³
	AlcoholGL   float64    // alcohol that halves the uptake of a cell, g/L
	Yield       [3]float64 // mol of yeast per mol of hexose, maltose, maltotriose
	OwnSterols  float64    // cells that a cell can become by what it brings
	AirX        float64    // cells that the air of the wort makes beside, mol/m³
	Dextrin     float64    // hydrolysis by strains that can, at 20 °C, 1/h
	EaKcal      float64    // activation of all of it, kcal/mol
	PitchX      float64    // yeast at the usual pitch, mol/m³
}

// Trade returns the constants used for brewing.
func Trade() Kinetics {
	return Kinetics{
		Uptake: FittedUptake, Hexose: 1.25, Triose: 0.6, HexoseK: 20, CarrierK: FittedCarrier, HexoseBrake: 120, AlcoholGL: 80,
		Yield:      [3]float64{0.134 * FittedGrowth, 0.268 * FittedGrowth, 0.402 * FittedGrowth},
		OwnSterols: ownSterols, AirX: (mostCells - ownSterols) * usualPitchX,
		Dextrin: 0.010, EaKcal: FittedEaKcal, PitchX: usualPitchX,
	}
}

// Activity is how fast everything goes at a temperature, °C, over how fast it
// goes at 20 °C. It is held within [ColdestC, WarmestC].
func (k *Kinetics) Activity(temperatureC float64) float64 {
	c := min(max(temperatureC, ColdestC), WarmestC)
	return math.Exp(-k.EaKcal / gasKcal * (1/(c+zeroC) - 1/(activityOneAtC+zeroC)))
}

// Rates is the constants at one temperature.
type Rates struct{ Kinetics }

// At is the constants at a temperature, °C.
func (k Kinetics) At(temperatureC float64) Rates {
	a := k.Activity(temperatureC)
	k.Uptake *= a
	k.Dextrin *= a
	return Rates{k}
}

// The unknowns of the course, amounts per litre of the wort pitched.
const (
	iG = iota // hexose, mol/m³
	iM        // maltose, mol/m³
	iN        // maltotriose, mol/m³
	iD        // dextrin that the strain takes, g/L
	iX        // yeast, mol/m³
	iF        // extract fermented, g/L
	states
)

// State is the course at one moment: see the unknowns above.
type State [states]float64

// Molar masses, g/mol (IUPAC atomic weights).
const (
	hexoseMass      = 180.156
	maltoseMass     = 342.297
	maltotrioseMass = 504.438
)

// gramsPerLitre turns a mol/m³ into g/L.
var gramsPerLitre = [3]float64{hexoseMass / 1000, maltoseMass / 1000, maltotrioseMass / 1000}

// extract is the fermentable extract left, g per litre of the wort pitched.
func (y *State) extract() float64 {
	return gramsPerLitre[0]*y[iG] + gramsPerLitre[1]*y[iM] + gramsPerLitre[2]*y[iN] + y[iD]
}

// slopes is the constants of one stretch of a course, made ready: what a course
// spends its time in.
type slopes struct {
	per, perMost          float64 // the reciprocals of the volume and of the most yeast there can be
	total                 float64 // fermented and fermentable extract that is in, g/L
	ethanolPer            float64 // g per litre in the fermenter, of a g of extract per litre pitched
	hexoseK, carrierK     float64
	brake, alcohol        float64
	uptake, hexose, trios float64
	dextrin               float64
	yield                 [3]float64
}

// slopes makes the constants ready for what is in at a state: x0 is the yeast
// pitched, volume what the fermenter holds in litres per litre pitched.
func (r *Rates) slopes(y *State, x0, volume float64) slopes {
	return slopes{
		per: 1 / volume, perMost: 1 / (r.OwnSterols*x0 + r.AirX), total: y[iF] + y.extract(), ethanolPer: 1 / (volume * alcohol.ExtractPerEthanol),
		hexoseK: r.HexoseK, carrierK: r.CarrierK, brake: r.HexoseBrake, alcohol: r.AlcoholGL,
		uptake: r.Uptake * r.AlcoholGL, hexose: r.Hexose, trios: r.Triose, dextrin: r.Dextrin, yield: r.Yield,
	}
}

// at is the derivatives of the unknowns but the extract fermented, whose
// derivative, the rate, comes last: g/h per litre of the wort pitched. What has
// fermented is what is not there any more, so it need not be integrated. A
// division takes as long as ten multiplications: the three saturations share one.
func (s *slopes) at(hexose, maltose, triose, dextrin, x float64) (dHexose, dMaltose, dTriose, dDextrin, dX, rate float64) {
	// Round-off below nothing must not feed back.
	g, m, n, d := notBelow0(hexose)*s.per, notBelow0(maltose)*s.per, notBelow0(triose)*s.per, notBelow0(dextrin)
	fermented := s.total - ((hexoseMass/1000*hexose + maltoseMass/1000*maltose) + (maltotrioseMass/1000*triose + dextrin))
	ethanol := notBelow0(fermented) * s.ethanolPer
	saturated, braked := s.hexoseK+g, s.brake+g
	shared := braked * (s.carrierK + (m + n))
	cells := x * s.uptake / (saturated * shared * (s.alcohol + ethanol))
	carrier := cells * (saturated * s.brake)
	eatenG, eatenM, eatenN := cells*(s.hexose*g*shared), carrier*m, carrier*(s.trios*n)
	dDextrin = -s.dextrin * d
	grow := notBelow0(1-x*s.perMost) * GrowthIn(ethanol)
	dX = (s.yield[0]*eatenG + (s.yield[1]*eatenM + s.yield[2]*eatenN)) * grow
	rate = hexoseMass/1000*eatenG + (maltoseMass/1000*eatenM + (maltotrioseMass/1000*eatenN - dDextrin))
	return -eatenG, -eatenM, -eatenN, dDextrin, dX, rate
}

// node makes a state a node.
func (s *slopes) node(tau float64, y *State) node {
	n := node{tau: tau, y: *y}
	n.d[iG], n.d[iM], n.d[iN], n.d[iD], n.d[iX], n.rate = s.at(y[iG], y[iM], y[iN], y[iD], y[iX])
	n.d[iF] = n.rate
	return n
}

// rate is that of a state.
func (s *slopes) rate(y *State) float64 {
	_, _, _, _, _, rate := s.at(y[iG], y[iM], y[iN], y[iD], y[iX])
	return rate
}

// GrowthIn is how much of its growth yeast keeps in so much ethanol, g/L: Warren,
// Hill & Macdonald, Biotechnol. Prog. 6:319, 1990, 1 - (p/101.6)^1.95, whose power
// is met within 0.001 by what costs no logarithm.
func GrowthIn(ethanolGL float64) float64 {
	p := ethanolGL * (1 / 101.6)
	return notBelow0(1 - p*p*(1+0.1*(1-p)/(1+p)))
}

// notBelow0 costs less than max, which orders the zeroes as well.
func notBelow0(x float64) float64 {
	if x < 0 {
		return 0
	}
	return x
}
