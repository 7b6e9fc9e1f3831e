package mash

import (
	"math"
	"testing"
)

// TestAcidity: flat from pH 5.35 to 5.65, falling to both sides without a jump,
// and less than the doubt of the malt over the pH that a mash has (5.2 to 5.8).
func TestAcidity(t *testing.T) {
	t.Parallel()
	in := Input{Grain: []Grain{{MassKg: 1, ExtractPct: 80.5, MoisturePct: 4.5}}, Rests: []Rest{{66, 60}}}
	at := func(ph float64) Result {
		in.PH = ph
		r, err := Run(in)
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(r.Wort.Total() - 1); d > 1e-12 || r.Conversion > at0(t, in).Conversion+1e-12 {
			t.Errorf("pH %v: sum off by %g, conversion %v", ph, d, r.Conversion)
		}
		return r
	}
	best := LimitAttenuationPct(at(0).Wort)
	for _, ph := range []float64{5.35, 5.5, 5.65} {
		if got := LimitAttenuationPct(at(ph).Wort); math.Abs(got-best) > 1e-9 {
			t.Errorf("pH %v: %v %%, best %v", ph, got, best)
		}
	}
	for _, ph := range []float64{5.2, 5.8} {
		if lost := best - LimitAttenuationPct(at(ph).Wort); lost < 0.5 || lost > MaltSDPoints {
			t.Errorf("pH %v costs %v points", ph, lost)
		}
	}
	if LimitAttenuationPct(at(4.5).Wort) >= LimitAttenuationPct(at(5.0).Wort) || LimitAttenuationPct(at(6.5).Wort) >= LimitAttenuationPct(at(6.0).Wort) {
		t.Error("further from the best is not worse")
	}
	in.PH = 2
	if _, err := Run(in); err == nil {
		t.Error("pH 2 was mashed")
	}
}

func at0(t *testing.T, in Input) Result {
	t.Helper()
	in.PH = 0
	r, err := Run(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
