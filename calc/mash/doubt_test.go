package mash

import (
	"math"
	"sort"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

func TestResponseQuantile(t *testing.T) {
	t.Parallel()
	before := -1.0
	for i := range 1001 {
		q := ResponseQuantile(float64(i) / 1000)
		if q <= before || q < responseLeast || q > responseMost {
			t.Fatalf("quantile of %g is %g after %g", float64(i)/1000, q, before)
		}
		before = q
	}
	// Gonum's triangle, an independent implementation.
	tri := distuv.NewTriangle(responseLeast, responseMost, responseLikeliest, nil)
	for _, p := range []float64{0.05, 0.1, 0.5, 0.9, 0.95} {
		if d := math.Abs(ResponseQuantile(p) - tri.Quantile(p)); d > 1e-12 {
			t.Errorf("quantile of %g off by %g", p, d)
		}
	}
	if ResponseQuantile(math.NaN()) != responseLeast {
		t.Error("NaN")
	}
}

func TestEffectiveTemperature(t *testing.T) {
	t.Parallel()
	for _, r := range []float64{0.1, 0.5, 1, 1.1} {
		d := Doubt{Response: r}
		if d.EffectiveC(52) != 52 || d.EffectiveC(64.9) != 64.9 {
			t.Errorf("response %g acts below 65 °C", r)
		}
		if got, want := d.EffectiveC(70), 66+r*4; math.Abs(got-want) > 0.51*math.Abs(1-r) {
			t.Errorf("response %g at 70 °C: %g, want %g", r, got, want)
		}
		for tC := 60.0; tC < 85; tC += 0.01 {
			if d.EffectiveC(tC+0.01) <= d.EffectiveC(tC) {
				t.Fatalf("response %g: falls at %g °C", r, tC)
			}
		}
	}
}

// The band holds the record, the laboratory rows and the pilot batches that
// contradict them alike: of the published limit attenuations about four in
// five lie between its 10th and 90th percentile; found 8 of 10, and 6 of the 8
// on the lever (58 to 72 °C). Rows: design notes, section
// 2, as in testdata/mash/rows.csv. The pilot batches (44 of them, means of 79
// to 86 % over 66.5 to 70 °C) are taken at the corners and the middle of their
// box, since the abstract tells no more.
//
// The doubts counted: malt to malt, response, and a rest known to 0.5 K (1 sd).
func TestBandHoldsTheRecord(t *testing.T) {
	t.Parallel()
	laboratory := []Grain{{MassKg: 0.9, ExtractPct: 80}, {MassKg: 0.1, ExtractPct: 75, Enzymes: EnzymesNone}}
	rows := []struct {
		name          string
		grain         []Grain
		tC, published float64
	}{
		{"greatest, 63 °C", malt(), 63, 87},
		{"laboratory 65 °C", laboratory, 65, 82},
		{"laboratory 70 °C", laboratory, 70, 70},
		{"laboratory 75 °C", laboratory, 75, 50},
		{"laboratory 80 °C", laboratory, 80, 30},
		{"pilot, cool and low", malt(), 66.5, 79},
		{"pilot, cool and high", malt(), 66.5, 86},
		{"pilot, hot and low", malt(), 70, 79},
		{"pilot, hot and high", malt(), 70, 86},
		{"pilot, middle", malt(), 68.25, 82.5},
	}
	normal := distuv.UnitNormal
	inside := 0
	for _, r := range rows {
		in := single(66, 60)
		in.Grain = r.grain
		tab, err := Tabulate(in, 0, 50, 84, 0.5)
		if err != nil {
			t.Fatal(err)
		}
		var draws []float64
		const n = 12
		for i := range n { // a grid of equal probabilities
			for j := range n {
				for k := range n {
					p := func(i int) float64 { return (float64(i) + 0.5) / n }
					w, _ := tab.At(r.tC+0.5*normal.Quantile(p(i)), Doubt{MaltSDPoints * normal.Quantile(p(j)), ResponseQuantile(p(k))})
					draws = append(draws, LimitAttenuationPct(w))
				}
			}
		}
		sort.Float64s(draws)
		low, mid, high := draws[len(draws)/10], draws[len(draws)/2], draws[len(draws)*9/10]
		in80 := r.published >= low && r.published <= high
		if in80 {
			inside++
		}
		t.Logf("%-20s published %.1f, band %.1f .. %.1f .. %.1f, inside %v", r.name, r.published, low, mid, high, in80)
		// On the lever none may lie outside everything drawn. At 80 °C one does:
		// the fit itself leaves 36.5 % there (rows.csv, attenuation-80).
		if r.tC <= 75 && (r.published < draws[0] || r.published > draws[len(draws)-1]) {
			t.Errorf("%s: %.1f lies outside all draws, %.1f to %.1f", r.name, r.published, draws[0], draws[len(draws)-1])
		}
	}
	t.Logf("coverage %d of %d", inside, len(rows))
	if inside < 7 || inside == len(rows) {
		t.Errorf("the 10 to 90 band holds %d of %d: it should hold about four in five", inside, len(rows))
	}
}
