package glasstest

import (
	"skep/calc"
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/mash"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/sugar"
	"skep/calc/taste"
)

// Bought is a beer of which only original and final gravity are known, such as a
// bought one: taken as all malt, on the reference wort, with a strain that ends
// there.
func Bought(originalSG, finalSG float64) (taste.Glass, error) {
	const lowest, highest = 1.020, 1.130
	if !(originalSG >= lowest && originalSG <= highest) {
		return taste.Glass{}, message.NewError("the original gravity is {value}, expected {low} to {high}",
			quantity.Of(quantity.Gravity, originalSG), quantity.Of(quantity.Gravity, lowest), quantity.Of(quantity.Gravity, highest))
	}
	oe, ae := density.PlatoFromSG(originalSG), density.PlatoFromSG(finalSG)
	re := alcohol.RealExtract(oe, ae)
	share := alcohol.FermentedFromApparent(oe, alcohol.ApparentAttenuation(oe, ae))
	wort := mash.Reference()
	left := func(pct float64) *sugar.Spectrum {
		take := calc.TakeOf(pct)
		fermented := take.Fermented(wort)
		rest := wort.Plus(fermented.Times(-1))
		return &rest
	}
	// The residue's share falls as the attenuation rises.
	lo, hi := 10.0, 100.0
	if want := 1 - share; !(left(hi).Total() <= want && want <= left(lo).Total()) {
		return taste.Glass{}, message.NewError("no beer of malt alone that began at {original} ends at {final}: check the two figures",
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
	return taste.Glass{
		Residue: residue.Times(reGL / residue.Total()), ABVPct: alcohol.ABV(alcohol.ABW(oe, re), finalSG), RDFPct: alcohol.RDF(oe, re),
	}, nil
}
