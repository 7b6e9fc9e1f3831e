package taste

import (
	"math"

	"skep/calc/cubic"
	"skep/calc/sugar"
)

// Dryness scale; see the package comment for why these.
const (
	drynessByRDF      = 0.45
	drynessBySweet    = 0.55
	rdfNotDryPct      = 45.0
	rdfSpanPct        = 40.0
	sweetnessScaleGL  = 6.0
	bodyHalfGL        = 57.0
	bodySugar         = 0.4
	alcoholLow        = 6.0 // g/L in terms of dextrin, at most
	alcoholMid        = 20.0
	alcoholHigh       = 34.0
	alcoholHalfPct    = 8.0 // % by volume that fill half of it
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
	bySweet := hold(notSweet(sweetnessGL))
	return drynessIndexScale * (drynessByRDF*byRDF + drynessBySweet*bySweet)
}

// The exponential of a prediction's draws as a table: the same to better than 1e-10 (a
// test shows it), in a fraction of the time.
const quickSweetGL, quickSweetStep = 64.0, 1.0 / 16

var quickSweet = cubic.Later(func() *cubic.Table {
	return cubic.New(0, quickSweetGL, quickSweetStep, func(s float64) (float64, float64) {
		v := math.Exp(-s / sweetnessScaleGL)
		return v, -v / sweetnessScaleGL
	})
})

// notSweet is exp(-S/6 g/L).
func notSweet(sweetnessGL float64) float64 {
	if !(sweetnessGL >= 0 && sweetnessGL <= quickSweetGL) {
		return math.Exp(-sweetnessGL / sweetnessScaleGL)
	}
	return quickSweet.Table().At(sweetnessGL)
}

// Fullness is what alcohol fills, as g/L of dextrin:
//
//	a A/(A + 8 %), a = 20 (6 to 34) g/L
//
// That is 1.9 for each % up to 2.8 %, 1.6 up to 4.5 %, and less and less beyond,
// where no panel was found. See the package comment for why, and why the band
// is so wide.
func Fullness(abvPct float64, w Weights) float64 { return w.fullness(abvPct) }

func (w *Weights) fullness(abvPct float64) float64 {
	if !(abvPct > 0) {
		return 0
	}
	return w.Alcohol * abvPct / (abvPct + alcoholHalfPct)
}

// Weight is what a palate feels of a beer's extract, as dextrin in the unit of the
// residue: malt's dextrin, protein and other extract that is no sugar; 0.4 of the
// sugars and of what honey left in the residue that no yeast takes (sugars of two and
// three rings, acids: as small as sugars).
func Weight(residue *sugar.Spectrum, honey float64) float64 {
	return residue.Dextrin + residue.Other - (1-bodySugar)*honey + bodySugar*residue.Sugars()
}

// Body gives the body index, 0 (thin) to 100 (thick), from what is left in the
// beer (g/L by kind, and what of it honey left) and alcohol in % by volume:
//
//	100 W²/(W² + 57²), W the [Weight] and the [Fullness]
//
// The scale is ours. 57 g/L are the 50 g/L of dextrin at which a panel first
// felt it (Ragot 1989), in a beer of some 4 %.
func Body(residue sugar.Spectrum, honeyGL, abvPct float64, w Weights) float64 {
	return w.Body(Weight(&residue, honeyGL), abvPct)
}

// Body is [Body] by the [Weight] in g/L.
func (w *Weights) Body(weightGL, abvPct float64) float64 {
	x := weightGL + w.fullness(abvPct)
	if !(x > 0) { // no number as well
		return 0
	}
	if x > 1e6 { // far beyond any beer, before the square overflows
		return bodyIndexScale
	}
	return bodyIndexScale * x * x / (x*x + bodyHalfGL*bodyHalfGL)
}

// hold keeps x between 0 and 1; what is no number is 0.
func hold(x float64) float64 {
	switch {
	case x >= 1:
		return 1
	case x > 0:
		return x
	}
	return 0
}
