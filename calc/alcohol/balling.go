package alcohol

import (
	"skep/calc/density"
	"skep/calc/units"
)

// Balling's stoichiometry, g for each g of ethanol.
const (
	ExtractPerEthanol = 2.0665
	CO2PerEthanol     = 0.9565
	YeastPerEthanol   = 0.11
)

// The same for each g of extract that ferments.
const (
	EthanolPerExtract = 1 / ExtractPerEthanol
	CO2PerExtract     = CO2PerEthanol / ExtractPerEthanol
	YeastPerExtract   = YeastPerEthanol / ExtractPerEthanol
)

const (
	// gasPerEthanol is what leaves the beer (CO2) or settles (yeast).
	gasPerEthanol = CO2PerEthanol + YeastPerEthanol // 1.0665
	// realPerOriginal and RealPerApparent: RE = 0.1808 OE + 0.8192 AE.
	realPerOriginal = 0.1808
	RealPerApparent = 0.8192
	// rdfPerRE: the ASBC's allowance for the mass that fermentation takes away.
	rdfPerRE = 0.005161
	// ethanolKgM3 is the density of ethanol at 20 °C (OIML R 22).
	ethanolKgM3 = 789.24
)

// RealExtract gives RE in °P from OE and AE in °P.
func RealExtract(oePlato, aePlato float64) float64 {
	return realPerOriginal*oePlato + RealPerApparent*aePlato
}

// ApparentExtract gives AE in °P from OE and RE in °P; it may be negative.
func ApparentExtract(oePlato, rePlato float64) float64 {
	return (rePlato - realPerOriginal*oePlato) * (1 / RealPerApparent)
}

// ABW gives alcohol in % by mass from OE and RE in °P (Balling, solved for A).
func ABW(oePlato, rePlato float64) float64 {
	return (oePlato - rePlato) / (ExtractPerEthanol - gasPerEthanol/100*oePlato)
}

// OriginalExtract gives OE in °P from alcohol in % by mass and RE in °P:
// OE = 100 (2.0665 A + RE)/(100 + 1.0665 A).
func OriginalExtract(abwPct, rePlato float64) float64 {
	return 100 * (ExtractPerEthanol*abwPct + rePlato) / (100 + gasPerEthanol*abwPct)
}

// ABV gives % by volume at 20 °C from % by mass and the beer's specific
// gravity 20/20.
func ABV(abwPct, sg float64) float64 {
	return abwPct * density.KgM3FromSG(sg) * (1 / ethanolKgM3)
}

// ABWFromABV is the inverse of [ABV].
func ABWFromABV(abvPct, sg float64) float64 {
	return abvPct * ethanolKgM3 / density.KgM3FromSG(sg)
}

// RDF gives the real degree of fermentation (ASBC) in % from OE and RE in °P;
// 0 when there is no original extract.
func RDF(oePlato, rePlato float64) float64 {
	if oePlato == 0 {
		return 0
	}
	return 100 * (oePlato - rePlato) / (oePlato * (1 - rdfPerRE*rePlato))
}

// RealExtractFromRDF is the inverse of [RDF].
func RealExtractFromRDF(oePlato, rdfPct float64) float64 {
	return oePlato * (1 - rdfPct/100) / (1 - rdfPerRE*oePlato*rdfPct/100)
}

// ApparentAttenuation gives 100 (OE - AE)/OE in %; 0 without original extract.
func ApparentAttenuation(oePlato, aePlato float64) float64 {
	if oePlato == 0 {
		return 0
	}
	return 100 * (oePlato - aePlato) / oePlato
}

// Energy by the EBC's formula, kcal/g.
const (
	kcalPerGramAlcohol = 6.9
	kcalPerGramExtract = 4.0
	ashPct             = 0.1 // of the extract, burns nothing
)

// EnergyKJPerL gives the energy of beer in kJ/L from alcohol in % by mass,
// real extract in °P and specific gravity; 0 at least, as extract that is less
// than the ash the formula takes off is all ash.
func EnergyKJPerL(abwPct, rePlato, sg float64) float64 {
	kcalPer100mL := (kcalPerGramAlcohol*abwPct + kcalPerGramExtract*max(0, rePlato-ashPct)) * sg
	return kcalPer100mL * 10 * units.KilojoulesPerKcal
}

// CutaiaABW gives alcohol in % by mass straight from OE and AE in °P by the
// regression of Cutaia, Reid and Speers 2009. A cross-check; the prediction
// uses Balling's chain.
func CutaiaABW(oePlato, aePlato float64) float64 {
	return (0.372 + 0.00357*oePlato) * (oePlato - aePlato)
}
