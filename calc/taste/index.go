package taste

import (
	"math"

	"skep/calc/sugar"
)

// Dryness scale; see the package comment for why these.
const (
	drynessByRDF      = 0.45
	drynessBySweet    = 0.55
	rdfNotDryPct      = 45.0
	rdfSpanPct        = 40.0
	sweetnessScaleGL  = 6.0
	bodyHalfGL        = 50.0
	bodySugar         = 0.4
	bodyGLPerPctABV   = 0.3
	drynessIndexScale = 100.0
	bodyIndexScale    = 100.0
)

// Dryness gives the dryness index, 0 (sweet) to 100 (very dry), from the real
// degree of fermentation in % (ASBC, on the effective original extract) and
// the sweetness in g/L sucrose equivalents:
//
//	100 (0.45 (RDF - 45)/40 + 0.55 exp(-S/6 g/L)), each part held to 0..1
//
// The scale is ours.
func Dryness(rdfPct, sweetnessGL float64) float64 {
	byRDF := hold((rdfPct - rdfNotDryPct) / rdfSpanPct)
	bySweet := hold(math.Exp(-sweetnessGL / sweetnessScaleGL))
	return drynessIndexScale * (drynessByRDF*byRDF + drynessBySweet*bySweet)
}

// Weight is what a palate feels of the beer, g/L in terms of dextrin: dextrin,
// protein and the other extract that is no sugar, 0.4 of the sugars, and 0.3
// for each % of alcohol by volume.
func Weight(residue sugar.Spectrum, abvPct float64) float64 {
	return residue.Dextrin + residue.Other + bodySugar*residue.Sugars() + bodyGLPerPctABV*abvPct
}

// Body gives the body index, 0 (thin) to 100 (thick), from what is left in the
// beer (g/L by kind) and alcohol in % by volume:
//
//	100 W²/(W² + 50²), W as [Weight]
//
// The scale is ours; 50 g/L is where a panel first felt dextrin (Ragot 1989).
func Body(residue sugar.Spectrum, abvPct float64) float64 {
	w := Weight(residue, abvPct)
	if !(w > 0) { // no number as well
		return 0
	}
	if w > 1e6 { // far beyond any beer, before the square overflows
		return bodyIndexScale
	}
	return bodyIndexScale * w * w / (w*w + bodyHalfGL*bodyHalfGL)
}

// hold keeps x between 0 and 1; what is no number is 0.
func hold(x float64) float64 {
	if !(x > 0) {
		return 0
	}
	return min(x, 1)
}
