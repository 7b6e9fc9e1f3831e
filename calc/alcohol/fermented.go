package alcohol

// ReferencePlato is the original extract, °P, on which attenuations are
// stated: an ordinary wort. It matters little: the share that is 76 %
// apparent at 12 °P is 76.6 % at 8 and 75.4 % at 16.
const ReferencePlato = 12.0

// gasPerExtract is what 1 g of extract loses in fermenting: carbon dioxide that
// leaves and yeast that settles.
const gasPerExtract = gasPerEthanol / ExtractPerEthanol

// RealExtractAfter gives RE in °P when a share (0 to 1) of the extract of a
// wort of OE °P has fermented. It is the mass balance: of 100 g of wort
//
//	f = OE·share,  RE = 100 (OE - f)/(100 - 1.0665 f/2.0665)
//
// since the beer weighs less than the wort by the carbon dioxide and the yeast.
// Leaving that out makes RE 4 % too low in a beer of 12 °P, which in final
// gravity is about 0.9 points (0.0009).
func RealExtractAfter(oePlato, share float64) float64 {
	f := oePlato * share
	return 100 * (oePlato - f) / (100 - gasPerExtract*f)
}

// ApparentFromFermented gives the apparent attenuation in % of a wort of OE °P
// of whose extract a share (0 to 1) has fermented: the mass balance of
// [RealExtractAfter] and RE = 0.1808 OE + 0.8192 AE. It may pass 100.
func ApparentFromFermented(oePlato, share float64) float64 {
	return 100 / RealPerApparent * share * (1 - gasPerExtract*oePlato/100) / (1 - gasPerExtract*oePlato/100*share)
}

// FermentedFromApparent is the inverse of [ApparentFromFermented]: the share of
// the extract that has fermented at an apparent attenuation in %.
func FermentedFromApparent(oePlato, apparentPct float64) float64 {
	drop := RealPerApparent * apparentPct / 100 // 1 - RE/OE
	return drop / (1 - (1-drop)*gasPerExtract*oePlato/100)
}

// FermentedAbove is the share of the extract that has fermented where the apparent
// attenuation is so many points above that of another share: [FermentedFromApparent] of
// [ApparentFromFermented] and the points, with one division in place of three.
func FermentedAbove(oePlato, share, points float64) float64 {
	gas := gasPerExtract * oePlato / 100
	left := 1 - gas*share
	drop := (1-gas)*share + RealPerApparent*points/100*left // 1 - RE/OE, times left
	return drop / ((1-gas)*left + gas*drop)
}
