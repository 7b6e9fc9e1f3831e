package water

// Mash pH, at room temperature (0.2 to 0.35 lower in the mash). Every figure here is an estimate: sources for
// the pH of a pale mash in soft water run from 5.6 to 6.0 (J.-P. Hosom,
// article 18, quoting several), buffering from 30 to 45 mEq/(kg pH) (from
// memory), and no two malts are alike. Hence the band.
const (
	palePH         = 5.8   // distilled water, pale malt (Hosom 18)
	phPerEBC       = 0.004 // a darker malt is more acid (common practice, no source)
	darkestPH      = 4.7   // roasted malt (from memory)
	bufferMEqKgPH  = 37.0  // middle of 30 to 45 (from memory)
	phDoubt        = 0.15  // half the 10 to 90 band before water, ours
	bufferLow      = 30.0
	bufferHigh     = 45.0
	usualPaleEBC   = 5.0
	unknownMalts   = 0.05 // added per unit share of malt that is not base malt
	nonBaseFromEBC = 30.0
)

// MashPH predicts the pH of the mash, cooled to room temperature, as 10th,
// 50th and 90th percentile: of a grist in so many litres of liquor a kilogram,
// of a residual alkalinity less the acid added ([Ions.ResidualAlkalinityMEqL],
// [AcidMEqL]). ok is false where there is no grain.
func MashPH(grist []Malt, alkalinityMEqL, liquorLPerKg float64) (low, mid, high float64, ok bool) {
	grain := GristOf(grist...).MassKg
	if !(grain > 0) {
		return 0, 0, 0, false
	}
	malt, dark := 0.0, 0.0
	for _, g := range grist {
		malt += g.MassKg / grain * max(darkestPH, palePH-phPerEBC*max(0, g.ColourEBC-usualPaleEBC))
		if g.ColourEBC > nonBaseFromEBC {
			dark += g.MassKg / grain
		}
	}
	alkali := alkalinityMEqL * liquorLPerKg // mEq/kg
	at := func(buffer float64) float64 { return malt + alkali/buffer }
	a, b := at(bufferLow), at(bufferHigh)
	spread := phDoubt + unknownMalts*dark
	return clampPH(min(a, b) - spread), clampPH(at(bufferMEqKgPH)), clampPH(max(a, b) + spread), true
}

// clampPH keeps a linear buffer from leaving where it means anything.
func clampPH(ph float64) float64 { return min(max(ph, 3.5), 8.5) }
