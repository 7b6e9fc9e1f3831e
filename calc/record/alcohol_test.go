package record_test

import (
	"math"
	"testing"

	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/honey"
	"skep/calc/record"
)

// alcohols is testdata/alcohol: package alcohol.
func alcohols() map[string]func(record.Given) float64 {
	real := func(g record.Given) float64 {
		return alcohol.RealExtract(g.Num("original_plato"), g.Num("apparent_plato"))
	}
	beer := func(g record.Given) (s alcohol.Result, kgL float64) {
		return alcohol.Strength(g.Num("wort_sg"), g.Num("beer_sg")), density.KgM3FromSG(g.Num("beer_sg")) / 1000
	}
	return map[string]func(record.Given) float64{
		"extract-per-ethanol": func(record.Given) float64 { return 1 + alcohol.CO2PerEthanol + alcohol.YeastPerEthanol },
		"alcohol-by-balling":  func(g record.Given) float64 { return alcohol.ABW(g.Num("original_plato"), real(g)) },
		"alcohol-by-cutaia": func(g record.Given) float64 {
			return alcohol.CutaiaABW(g.Num("original_plato"), g.Num("apparent_plato"))
		},
		"real-extract": real,
		"original-extract": func(g record.Given) float64 {
			return alcohol.OriginalExtract(g.Num("alcohol_pct_w"), g.Num("real_plato"))
		},
		"duty-strength": func(g record.Given) float64 {
			uncut, _, err := alcohol.DutyStrength(1+g.Num("degrees")/1000, 1)
			return orNaN(uncut, err)
		},
		"density-of-alcohol": func(g record.Given) float64 {
			return orNaN(alcohol.DensityKgM3(g.Num("mass_fraction"), g.Num("temperature_c")))
		},
		"alcohol-of-beer": func(g record.Given) float64 {
			s, kgL := beer(g)
			return s.ABWPct * kgL
		},
		"real-extract-of-beer": func(g record.Given) float64 {
			s, kgL := beer(g)
			return s.RealExtractPlato * kgL
		},
		"extract-of-wort": func(g record.Given) float64 {
			return density.GramsPerLitre(density.PlatoFromSG(g.Num("wort_sg"))) / 10
		},
		// The apparent extract does not matter to the factor.
		"alcohol-per-plato": func(g record.Given) float64 {
			oe := g.Num("original_plato")
			ae := oe / 4
			return alcohol.ABW(oe, alcohol.RealExtract(oe, ae)) / (oe - ae)
		},
	}
}

// TestTraps: misprints found in the wild must not come back.
func TestTraps(t *testing.T) {
	t.Parallel()
	// Wedmore's formula with the constant as printed, 1.73190, gives 900 %.
	if printed := (1.73190 - math.Log10(1.4940-1)) / 0.002243; printed < 800 {
		t.Errorf("the misprinted formula gives %v, which no longer shows the trap", printed)
	}
	if w, err := honey.MoisturePct(1.4940, 20); err != nil || math.Abs(w-17) > 0.03 {
		t.Errorf("moisture at 1.4940 is %v (%v), want 17.0 (Chataway)", w, err)
	}
	// CO2 quoted "from memory" as 1.054 g for a gram of ethanol.
	if math.Abs(alcohol.CO2PerEthanol-0.9565) > 1e-12 {
		t.Errorf("CO2 per gram of ethanol is %v, Balling has 0.9565", alcohol.CO2PerEthanol)
	}
	// The excise rule cuts, it does not round: 57.1 degrees are 7.4801 (7.4),
	// 10.4 are 1.3104 (1.3), 17.2 are 2.1844 (2.1, not 2.2).
	for degrees, want := range map[float64]float64{57.1: 7.4, 10.4: 1.3, 17.2: 2.1, 67.9: 8.9} {
		if _, declared, err := alcohol.DutyStrength(1+degrees/1000, 1); err != nil || declared != want {
			t.Errorf("declared strength of %v degrees is %v (%v), want %v", degrees, declared, err, want)
		}
	}
}
