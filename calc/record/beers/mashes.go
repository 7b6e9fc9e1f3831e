package beers

import (
	"skep/calc/doubt"
	"skep/calc/mash"
)

// Mashes are the published limit attenuations: the laboratory rows and the
// flat pilot batches that contradict them. Of the 44 batches (means of 79 to
// 86 % over 66.5 to 70 °C) the corners and the middle of their box are taken,
// since the source tells no more. The thermometer is taken as known to 0.5 K.
func Mashes() ([]Held, error) {
	laboratory := []mash.Grain{{MassKg: 0.9, ExtractPct: 80}, {MassKg: 0.1, ExtractPct: 75, Enzymes: mash.EnzymesNone}}
	malt := []mash.Grain{{MassKg: 5, ExtractPct: 80.5, MoisturePct: 4.5, Enzymes: mash.EnzymesOwn}}
	const (
		isothermal = "J. Chandrasekhar, isothermal mashes, lager yeast (second-hand)"
		pilot      = "44 pilot batches (read)"
		fitted     = "the middle is fitted to this row, the band is not"
		corner     = "a corner of a box: the laboratory rows want the opposite corner"
	)
	z := doubt.New(draws)
	var rows []Held
	for _, r := range []struct {
		what          string
		grain         []mash.Grain
		tC, published float64
		source, why   string
	}{
		{"limit attenuation at 63 °C, the greatest", malt, 63, 87, "greatest limit attenuation 86 to 88 % (memory)", fitted},
		{"limit attenuation at 65 °C", laboratory, 65, 82, isothermal, fitted},
		{"limit attenuation at 70 °C", laboratory, 70, 70, isothermal, fitted},
		{"limit attenuation at 75 °C", laboratory, 75, 50, isothermal, fitted},
		{"limit attenuation at 80 °C", laboratory, 80, 30, isothermal, "the fit itself leaves 36 % there, and no brewer mashes so hot"},
		{"pilot batches at 66.5 °C, their low end", malt, 66.5, 79, pilot, corner},
		{"pilot batches at 66.5 °C, their high end", malt, 66.5, 86, pilot, corner},
		{"pilot batches at 70 °C, their low end", malt, 70, 79, pilot, corner},
		{"pilot batches at 70 °C, their high end", malt, 70, 86, pilot, corner},
		{"pilot batches at 68.25 °C, their middle", malt, 68.25, 82.5, pilot, ""},
	} {
		table, err := allMalt(r.grain...)
		if err != nil {
			return nil, err
		}
		x := make([]float64, len(z))
		for i := range z {
			wort, _ := table.At(r.tC+0.5*z[i][doubt.Rest], maltDoubt(&z[i]))
			x[i] = mash.LimitAttenuationPct(wort)
		}
		h := Held{Group: "mashes", Quantity: r.what, Unit: "% apparent", Published: r.published, Source: r.source, Why: r.why}
		h.Low, h.Mid, h.High = doubt.Percentiles(x)
		rows = append(rows, h)
	}
	return rows, nil
}
