package ferment

import "math"

// Range of temperature in which the rates are followed, °C: below 4 the source
// has no data, above 30 ale yeasts are past their best (common practice, no
// source).
const (
	ColdestC = 4.0
	WarmestC = 30.0
)

// heldAboveC is where the K stop following temperature: the warmest data of
// Gee & Ramirez 1994, °C.
const heldAboveC = 16.0

// Arrhenius is k = exp(Ln - EaKcal/(R T)).
type Arrhenius struct{ Ln, EaKcal float64 }

// gasKcal is the gas constant as the source has it, kcal/mol/K; zeroC in K.
const (
	gasKcal = 1.987e-3
	zeroC   = 273.15
)

func (a Arrhenius) at(c float64) float64 {
	return math.Exp(a.Ln - a.EaKcal/(gasKcal*(c+zeroC)))
}

// Kinetics is the set of constants of the course.
type Kinetics struct {
	VG, VM, VN   Arrhenius // greatest uptake, mol/m³/h per mol/m³ of yeast
	KG, KM, KN   Arrhenius // half-saturation, mol/m³
	KiG, KiM     Arrhenius // repression, mol/m³
	HeldAboveC   float64   // the K are held at this temperature above it
	GlucoseK     float64   // mol/m³, replaces KG; 0: KG as given
	RateScale    float64   // on all V
	Affinity     float64   // on KM and KN
	Growth       float64   // γ, on the yields of yeast
	DextrinRate  Arrhenius // kD, 1/h
	YieldGrowth  [3]float64
	GrowthBrakeX float64 // KX, (mol/m³)²
	PitchX       float64 // X0 at the usual pitch, mol/m³
}

// Published returns the constants of Gee & Ramirez 1994 as read, with nothing
// fitted: for checks, not for brewing.
func Published() Kinetics {
	return Kinetics{
		VG: Arrhenius{35.77, 22.6}, VM: Arrhenius{16.40, 11.3}, VN: Arrhenius{10.59, 7.16},
		KG: Arrhenius{-121.3, -68.6}, KM: Arrhenius{-19.15, -14.4}, KN: Arrhenius{-26.78, -19.9},
		KiG: Arrhenius{23.33, 10.2}, KiM: Arrhenius{55.61, 26.3},
		HeldAboveC: heldAboveC, RateScale: 1, Affinity: 1, Growth: 1,
		DextrinRate: diastatic,
		YieldGrowth: [3]float64{0.134, 0.268, 0.402}, GrowthBrakeX: 3.65e5, PitchX: 125,
	}
}

// Fitted in package calibration to testdata/ferment/rows.toml, whose test
// fails when these and the table disagree.
const (
	FittedRateScale = 0.4307
	FittedAffinity  = 0.4515
	FittedGrowth    = 6.7305
)

// LowAffinityGlucoseK is the half-saturation of hexose uptake, mol/m³ (from
// memory: Bisson & Fraenkel, PNAS 80:1730, 1983; see the package comment).
const LowAffinityGlucoseK = 20.0

// diastatic is the hydrolysis of dextrin by strains that can, 1/h: 0.010 at
// 20 °C, so that such a strain is finished in two to three weeks (common
// practice, no source), with the temperature dependence of VM (ours).
var diastatic = Arrhenius{Ln: math.Log(0.010) + 11.3/(gasKcal*(20+zeroC)), EaKcal: 11.3}

// Trade returns the constants used for brewing.
func Trade() Kinetics {
	k := Published()
	k.GlucoseK = LowAffinityGlucoseK
	k.RateScale, k.Affinity, k.Growth = FittedRateScale, FittedAffinity, FittedGrowth
	return k
}

// Rates is the constants at one temperature.
type Rates struct {
	VG, VM, VN, KG, KM, KN, KiG, KiM float64
	Dextrin                          float64 // 1/h
	Yield                            [3]float64
	BrakeX                           float64
}

// At is the constants at a temperature, °C, held within [ColdestC, WarmestC].
func (k Kinetics) At(temperatureC float64) Rates {
	c := math.Min(math.Max(temperatureC, ColdestC), WarmestC)
	held := math.Min(c, k.HeldAboveC)
	r := Rates{
		VG: k.RateScale * k.VG.at(c), VM: k.RateScale * k.VM.at(c), VN: k.RateScale * k.VN.at(c),
		KG: k.KG.at(held), KM: k.Affinity * k.KM.at(held), KN: k.Affinity * k.KN.at(held),
		KiG: k.KiG.at(held), KiM: k.KiM.at(held),
		Dextrin: k.DextrinRate.at(c), BrakeX: k.GrowthBrakeX,
	}
	if k.GlucoseK > 0 {
		r.KG = k.GlucoseK
	}
	for i, y := range k.YieldGrowth {
		r.Yield[i] = k.Growth * y
	}
	return r
}

// The unknowns of the course, amounts per litre of the wort pitched.
const (
	iG = iota // hexose, mol/m³
	iM        // maltose, mol/m³
	iN        // maltotriose, mol/m³
	iD        // dextrin that the strain takes, g/L
	iX        // yeast, mol/m³
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

// derive writes the derivatives of y into d and returns the extract fermented,
// g/h per litre of the wort pitched. x0 is the yeast pitched, volume what the
// fermenter holds in litres per litre pitched.
func (r *Rates) derive(y, d *State, x0, volume float64) float64 {
	per := 1 / volume
	// Round-off below nothing must not feed back.
	g, m, n := max(y[iG], 0)*per, max(y[iM], 0)*per, max(y[iN], 0)*per
	x := y[iX]
	// mu X of the package comment, each over one division, which costs as much as
	// ten products.
	eatenG := x * r.VG * g / (r.KG + g)
	eatenM := x * r.VM * m * r.KiG / ((r.KM + m) * (r.KiG + g))
	eatenN := x * r.VN * n * r.KiG * r.KiM / ((r.KN + n) * (r.KiG + g) * (r.KiM + m))
	grown := x - x0
	d[iG], d[iM], d[iN] = -eatenG, -eatenM, -eatenN
	d[iD] = -r.Dextrin * max(y[iD], 0)
	d[iX] = (r.Yield[0]*eatenG + r.Yield[1]*eatenM + r.Yield[2]*eatenN) * r.BrakeX / (r.BrakeX + grown*grown)
	return gramsPerLitre[0]*eatenG + gramsPerLitre[1]*eatenM + gramsPerLitre[2]*eatenN - d[iD]
}
