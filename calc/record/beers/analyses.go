package beers

import (
	"fmt"
	"math"

	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/doubt"
	"skep/calc/mash"
	"skep/calc/sugar"
	"skep/calc/yeast"
)

const bulletin = "USDA Bulletin 493, 1917 (read)"

// draws is how many draws a band here is made of.
const draws = 1024

// restSDK is how well the mash temperature of a brewery of 1911 is known to us:
// not at all; 1 sd about 66 °C (ours).
const restSDK = 2.0

// analysisError is what an analysis of 1911 may be off, as 10 to 90 (design
// notes, section 14b: allow 5 %).
const analysisError = 0.05

// allMalt is the mash over temperature that the old analyses are taken to be
// from: one hour, all malt, 3 L/kg.
func allMalt(grain ...mash.Grain) (*mash.Table, error) {
	if grain == nil {
		grain = []mash.Grain{{MassKg: 5, ExtractPct: 80.5, MoisturePct: 4.5, Enzymes: mash.EnzymesOwn}}
	}
	return mash.Tabulate(mash.Input{Grain: grain, Rests: []mash.Rest{{TemperatureC: 66, Minutes: 60}}, LiquorLPerKg: 3}, 0, 50, 86, 0.5)
}

func maltDoubt(z *[doubt.Inputs]float64) mash.Doubt {
	return mash.Doubt{AttenuationPoints: mash.MaltSDPoints * z[doubt.Malt], Response: mash.ResponseQuantile(doubt.Uniform(z[doubt.Response]))}
}

// Analyses are the beers of 1911. Neither mash nor strain is told: given how
// far each had fermented, what is left must be sugar and dextrin in the
// measured proportion. The degree of fermentation is taken from the analysis,
// so only the composition is checked. Reducing sugar counts a gram of glucose
// or fructose as 1.6, maltotriose 0.68, dextrin 0.15 of maltose (from memory,
// as in package mash/calibration).
func Analyses() ([]Held, error) {
	table, err := allMalt()
	if err != nil {
		return nil, err
	}
	z := doubt.New(draws)
	// left is the residue of each draw at a share fermented, as shares of it.
	left := func(share float64) []sugar.Spectrum {
		apparent := alcohol.ApparentFromFermented(alcohol.ReferencePlato, share)
		out := make([]sugar.Spectrum, len(z))
		for i := range z {
			wort, _ := table.At(66+restSDK*z[i][doubt.Rest], maltDoubt(&z[i]))
			s := wort.Plus(yeast.FromAttenuation(apparent, wort).Fermented(wort).Times(-1))
			out[i] = s.Times(1 / s.Total())
		}
		return out
	}
	band := func(h Held, residues []sugar.Spectrum, of func(sugar.Spectrum) float64) Held {
		x := make([]float64, len(residues))
		for i, s := range residues {
			x[i] = of(s)
		}
		h.Low, h.Mid, h.High = doubt.Percentiles(x)
		// The analysis errs too, independently of our doubt.
		h.Low = h.Mid - math.Hypot(h.Mid-h.Low, analysisError*h.Published)
		h.High = h.Mid + math.Hypot(h.High-h.Mid, analysisError*h.Published)
		return h
	}
	dextrin := func(s sugar.Spectrum) float64 { return s.Dextrin }
	reducing := func(s sugar.Spectrum) float64 {
		return 1.6*(s.Glucose+s.Fructose) + s.Maltose + 0.68*s.Maltotriose + 0.15*s.Dextrin
	}
	scaled := func(by float64, of func(sugar.Spectrum) float64) func(sugar.Spectrum) float64 {
		return func(s sugar.Spectrum) float64 { return by * of(s) }
	}
	var rows []Held
	for _, r := range tableIX {
		oe := alcohol.OriginalExtract(r.alcohol, r.extract)
		residues := left(fermentedShare(oe, r.extract))
		const source = bulletin + ", Table IX"
		rows = append(rows,
			band(Held{Group: "analyses of 1911", Quantity: "dextrin of beer " + r.beer, Unit: "% w/w", Published: r.dextrin, Source: source, Why: dextrinWhy}, residues, scaled(r.extract, dextrin)),
			band(Held{Group: "analyses of 1911", Quantity: "reducing sugar of beer " + r.beer, Unit: "% w/w as maltose", Published: r.reducing, Source: source, Why: reducingWhy}, residues, scaled(r.extract, reducing)))
	}
	for _, r := range tableI {
		kgL := density.KgM3FromSG(r.beer) / 1000
		oe := alcohol.OriginalExtract(r.alcohol/kgL, r.extract/kgL)
		rows = append(rows, band(Held{Group: "analyses of 1911", Quantity: fmt.Sprintf("dextrin of the beer of %.4f from wort of %.4f", r.beer, r.wort), Unit: "g/100 mL",
			Published: r.dextrin, Source: bulletin + ", Table I", Why: dextrinWhy}, left(fermentedShare(oe, r.extract/kgL)), scaled(r.extract, dextrin)))
	}
	return rows, nil
}

const (
	dextrinWhy  = "the mash of the brewery is not told; a hotter or shorter one leaves more dextrin for the same degree of fermentation"
	reducingWhy = "the mash of the brewery is not told; and what copper reduces besides sugar is from memory"
)

// fermentedShare is the share of the original extract that has fermented.
func fermentedShare(oePlato, rePlato float64) float64 {
	ae := alcohol.ApparentExtract(oePlato, rePlato)
	return alcohol.FermentedFromApparent(oePlato, alcohol.ApparentAttenuation(oePlato, ae))
}

// tableIX: all-malt beers, % w/w.
var tableIX = []struct {
	beer                                string
	alcohol, extract, reducing, dextrin float64
}{
	{"22017-D", 3.83, 5.06, 1.32, 2.30}, {"22018-D", 3.90, 5.06, 1.34, 2.03}, {"22020-D", 3.69, 5.12, 1.57, 2.20},
	{"22021-D", 3.63, 5.54, 1.82, 2.15}, {"16289-C", 3.00, 5.88, 1.33, 2.68}, {"20714-D", 3.07, 5.80, 1.45, 2.64},
	{"23571-E", 3.68, 4.44, 1.06, 1.67}, {"23528-E", 3.28, 6.36, 1.62, 2.74}, {"23537-E", 3.80, 7.26, 2.51, 2.95},
	{"23538-E", 3.13, 6.61, 2.13, 2.82}, {"14004-H", 3.07, 5.55, 1.59, 2.64},
}

// tableI: all-malt, gravities at 15.6/15.6 °C (the difference to 20/20 is
// below the other errors), g/100 mL.
var tableI = []struct{ wort, beer, alcohol, extract, dextrin float64 }{
	{1.0518, 1.0125, 3.85, 5.16, 2.33}, {1.0517, 1.0124, 3.91, 5.16, 2.06},
	{1.0517, 1.0130, 3.72, 5.22, 2.23}, {1.0515, 1.0147, 3.66, 5.66, 2.18},
	{1.0454, 1.0180, 2.87, 6.16, 2.82},
}
