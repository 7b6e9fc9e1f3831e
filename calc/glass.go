package calc

import (
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/mash"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/sugar"
	"skep/calc/taste"
)

// Glass is a finished beer as far as dryness and body go.
type Glass struct {
	Residue     sugar.Spectrum // g/L left in the beer
	HoneyLeftGL float64        // of Residue, what honey left
	ABVPct      float64        // % by volume
	RDFPct      float64        // real degree of fermentation, ASBC
}

// Glass is what a beer tastes by.
func (r *Beer) Glass() Glass { return Glass{r.Residue, r.HoneyLeftGL, r.ABVPct, r.RDFPct} }

// Taste are the indices of dryness and body to a palate, as the scores of
// [taste.Draw] have it.
func (g *Glass) Taste(malt, simple float64) (dryness, body float64) {
	w := taste.Draw(malt, simple)
	return taste.Dryness(g.RDFPct, taste.SweetnessGL(g.Residue, w)), taste.Body(g.Residue, g.HoneyLeftGL, g.ABVPct, w)
}

// GlassOf is a beer of which only original and final gravity are known, such as a
// bought one: taken as all malt, on the reference wort, with a strain that ends
// there.
func GlassOf(originalSG, finalSG float64) (Glass, error) {
	const lowest, highest = 1.020, 1.130
	if !(originalSG >= lowest && originalSG <= highest) {
		return Glass{}, message.NewError("the original gravity is {value}, expected {low} to {high}",
			quantity.Of(quantity.Gravity, originalSG), quantity.Of(quantity.Gravity, lowest), quantity.Of(quantity.Gravity, highest))
	}
	oe, ae := density.PlatoFromSG(originalSG), density.PlatoFromSG(finalSG)
	re := alcohol.RealExtract(oe, ae)
	share := alcohol.FermentedFromApparent(oe, alcohol.ApparentAttenuation(oe, ae))
	wort := mash.Reference()
	left := func(pct float64) sugar.Spectrum {
		take := TakeOf(pct)
		fermented := take.Fermented(wort)
		return wort.Plus(fermented.Times(-1))
	}
	// The residue's share falls as the attenuation rises.
	lo, hi := 10.0, 100.0
	if want := 1 - share; !(left(hi).Total() <= want && want <= left(lo).Total()) {
		return Glass{}, message.NewError("no beer of malt alone that began at {original} ends at {final}: check the two figures",
			quantity.Of(quantity.Gravity, originalSG), quantity.Of(quantity.Gravity, finalSG))
	}
	for range 50 {
		if mid := (lo + hi) / 2; left(mid).Total() > 1-share {
			lo = mid
		} else {
			hi = mid
		}
	}
	residue := left((lo + hi) / 2)
	reGL := re / 100 * density.KgM3FromSG(finalSG)
	return Glass{
		Residue: residue.Times(reGL / residue.Total()), ABVPct: alcohol.ABV(alcohol.ABW(oe, re), finalSG), RDFPct: alcohol.RDF(oe, re),
	}, nil
}

// OriginalGravitySG is what a hydrometer shows at pitching.
func (r *Beer) OriginalGravitySG() float64 { return density.QuickSG(r.OriginalPlato) }
