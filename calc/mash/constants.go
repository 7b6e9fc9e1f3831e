package mash

import "skep/calc/sugar"

// fullYield is the grams of extract from 1 g of dry starch in the reference
// mash (one hour at 66 °C, all malt, 3 L/kg): it makes Conversion 1 there. A
// test runs the mash against it.
const fullYield = 1.04501

// Committed are the constants Skep computes with. Those marked "fitted" are
// fitted together to testdata/mash/rows.csv (package doc); a test fails when
// they and the rows disagree, and prints their uncertainty.
func Committed() Kinetics {
	return Kinetics{
		GelRate:   0.5635, // fitted
		GelE:      108.3,  // Brandam et al. 2003, above 60 °C (from memory)
		GelMidC:   57.85,  // fitted; 25 malts gelatinise from 58.5 to 64.3 °C by a faster heating (Patindol 2012)
		GelWidthC: 0.9557, // fitted
		GelThickC: 14.74,  // fitted
		GelTail:   0.4,    // ours: 62, 25, 10 and 4 % of the starch
		GelStepC:  1.929,  // fitted

		AlphaRate:  1.75,    // design notes, section 2: least squares on the laboratory rows
		AlphaE:     50,      // kJ/mol, as AlphaRate
		AlphaLoss:  0.00707, // half-life 98 min at 65 °C: Koljonen et al., J. Food Eng. 26:329, 1995, run (read)
		AlphaLossE: 224.2,   // Koljonen et al. 1995 (from memory)
		AlphaTrim:  0.001,   // design notes, section 2; refitted here it comes out the same

		BetaRate:        0.5988,  // fitted
		BetaE:           118,     // design notes, section 2
		BetaMaltotriose: 0.1305,  // fitted
		BetaLoss:        0.2426,  // fitted
		BetaLossE:       224.6,   // fitted
		BetaGuard:       0.06214, // fitted

		LimitRate:  0.0141, // fitted
		LimitE:     80,     // with the loss: most effect at 60 to 62.5 °C in the mash (Stenholm & Home 1999, from memory)
		LimitLoss:  0.04,
		LimitLossE: 285,

		YieldGlucose:     0.05551, // fitted
		YieldMaltose:     0.06,    // ours; between 0.02 and 0.1 the fit hardly changes
		YieldMaltotriose: 0.08125, // fitted
		YieldLimit:       0.3434,  // fitted
		// Design notes, section 2.
		TrimGlucose: 0.15, TrimMaltose: 0.45, TrimMaltotriose: 0.40,
	}
}

// Reference is the wort on which attenuation ranges are stated, as shares of
// its extract: one hour at 66 °C, 3 L/kg, all malt of 80.5 % extract and 4.5 %
// moisture. A test runs the mash against it.
func Reference() sugar.Spectrum {
	return sugar.Spectrum{
		Glucose: 0.076863, Fructose: maltFructose, Sucrose: maltSucrose, Maltose: 0.440529,
		Maltotriose: 0.129440, Dextrin: 0.208168, Other: maltOther,
	}
}
