package calc

import (
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/doubt"
	"skep/calc/sugar"
	"skep/calc/taste"
)

// scratch holds the draws of one quantity after another, so that a frame
// allocates nothing.
type scratch [Outcomes][]float64

func newScratch(n int) *scratch {
	var s scratch
	for o := range s {
		s[o] = make([]float64, n)
	}
	return &s
}

func bandOf(x []float64) Band {
	low, mid, high := doubt.Percentiles(x)
	return Band{low, mid, high}
}

// outcomes are the four pictures' quantities at one temperature of the rest.
func (b *brew) outcomes(tempC float64, s *scratch) (bands [Outcomes]Band) {
	for i := range b.draws {
		r := b.at(tempC, &b.draws[i])
		s[FinalGravity][i] = r.fgSG
		s[Strength][i] = r.abvPct
		s[Dryness][i] = r.dryness
		s[Body][i] = r.body
	}
	for o := range bands {
		bands[o] = bandOf(s[o])
	}
	return bands
}

// predict fills in all that comes from the draws.
func (b *brew) predict(tempC float64) Prediction {
	var p Prediction
	beers := make([]beer, len(b.draws))
	for i := range b.draws {
		beers[i] = b.at(tempC, &b.draws[i])
	}
	x := make([]float64, len(beers))
	band := func(of func(r *beer) float64) Band {
		for i := range beers {
			x[i] = of(&beers[i])
		}
		return bandOf(x)
	}
	p.OriginalGravitySG = band(func(r *beer) float64 { return density.SGFromPlato(r.ogPlato) })
	p.EffectiveOriginalGravitySG = band(func(r *beer) float64 { return density.SGFromPlato(r.effectivePlato) })
	p.FinalGravitySG = band(func(r *beer) float64 { return r.fgSG })
	p.StrengthPct = band(func(r *beer) float64 { return r.abvPct })
	p.ApparentAttenuationPct = band(func(r *beer) float64 { return alcohol.ApparentAttenuation(r.effectivePlato, r.aePlato) })
	p.RealAttenuationPct = band(func(r *beer) float64 { return r.rdfPct })
	p.ResidualSugarGL = band(func(r *beer) float64 { return r.residue.Sugars() })
	p.SweetnessGL = band(func(r *beer) float64 { return r.sweetnessGL })
	p.DextrinGL = band(func(r *beer) float64 { return r.residue.Dextrin })
	p.RealExtractGL = band(func(r *beer) float64 { return r.reGL })
	p.Dryness = band(func(r *beer) float64 { return r.dryness })
	p.Body = band(func(r *beer) float64 { return r.body })
	p.EnergyKJPerL = band(func(r *beer) float64 { return alcohol.EnergyKJPerL(r.abwPct, r.rePlato, r.fgSG) })
	wort := func(of func(s *sugar.Spectrum) float64) Band {
		return band(func(r *beer) float64 { s := r.wortGL(); return of(&s) })
	}
	p.Wort = Wort{
		Glucose:     wort(func(s *sugar.Spectrum) float64 { return s.Glucose }),
		Fructose:    wort(func(s *sugar.Spectrum) float64 { return s.Fructose }),
		Sucrose:     wort(func(s *sugar.Spectrum) float64 { return s.Sucrose }),
		Maltose:     wort(func(s *sugar.Spectrum) float64 { return s.Maltose }),
		Maltotriose: wort(func(s *sugar.Spectrum) float64 { return s.Maltotriose }),
		Dextrin:     wort(func(s *sugar.Spectrum) float64 { return s.Dextrin }),
	}
	p.DrynessWord = taste.DrynessWord(p.Dryness.Mid)
	p.BodyWord = taste.BodyWord(p.Body.Mid)
	return p
}
