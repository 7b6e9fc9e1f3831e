package calc

import (
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/doubt"
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
	row := make([]mashCell, len(b.draws))
	b.fill(tempC, row)
	return b.outcomesOf(row, s)
}

// outcomesOf is outcomes with the mash of every draw at hand. It allocates
// nothing.
func (b *brew) outcomesOf(row []mashCell, s *scratch) (bands [Outcomes]Band) {
	var r beer
	for i := range b.draws {
		b.ferment(&row[i], &b.draws[i], &b.honeys[i], &r)
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

// quantity is one drawn quantity of a prediction.
type quantity struct {
	key  string // as published
	of   func(r *beer) float64
	band func(p *Prediction) *Band
}

// quantities are all that come from the draws, in the order of the prediction.
var quantities = []quantity{
	{"original_gravity_sg", func(r *beer) float64 { return density.QuickSG(r.ogPlato) }, func(p *Prediction) *Band { return &p.OriginalGravitySG }},
	{"effective_original_gravity_sg", func(r *beer) float64 { return density.QuickSG(r.effectivePlato) }, func(p *Prediction) *Band { return &p.EffectiveOriginalGravitySG }},
	{"final_gravity_sg", func(r *beer) float64 { return r.fgSG }, func(p *Prediction) *Band { return &p.FinalGravitySG }},
	{"strength_pct", func(r *beer) float64 { return r.abvPct }, func(p *Prediction) *Band { return &p.StrengthPct }},
	{"apparent_attenuation_pct", func(r *beer) float64 { return alcohol.ApparentAttenuation(r.effectivePlato, r.aePlato) }, func(p *Prediction) *Band { return &p.ApparentAttenuationPct }},
	{"real_attenuation_pct", func(r *beer) float64 { return r.rdfPct }, func(p *Prediction) *Band { return &p.RealAttenuationPct }},
	{"residual_sugar_g_l", func(r *beer) float64 { return r.residue.Sugars() }, func(p *Prediction) *Band { return &p.ResidualSugarGL }},
	{"sweetness_g_l", func(r *beer) float64 { return r.sweetnessGL }, func(p *Prediction) *Band { return &p.SweetnessGL }},
	{"dextrin_g_l", func(r *beer) float64 { return r.residue.Dextrin }, func(p *Prediction) *Band { return &p.DextrinGL }},
	{"real_extract_g_l", func(r *beer) float64 { return r.reGL }, func(p *Prediction) *Band { return &p.RealExtractGL }},
	{"dryness", func(r *beer) float64 { return r.dryness }, func(p *Prediction) *Band { return &p.Dryness }},
	{"body", func(r *beer) float64 { return r.body }, func(p *Prediction) *Band { return &p.Body }},
	{"energy_kj_per_l", func(r *beer) float64 { return alcohol.EnergyKJPerL(r.abwPct, r.rePlato, r.fgSG) }, func(p *Prediction) *Band { return &p.EnergyKJPerL }},
	{"wort.glucose", func(r *beer) float64 { return r.wort.Glucose * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Glucose }},
	{"wort.fructose", func(r *beer) float64 { return r.wort.Fructose * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Fructose }},
	{"wort.sucrose", func(r *beer) float64 { return r.wort.Sucrose * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Sucrose }},
	{"wort.maltose", func(r *beer) float64 { return r.wort.Maltose * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Maltose }},
	{"wort.maltotriose", func(r *beer) float64 { return r.wort.Maltotriose * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Maltotriose }},
	{"wort.dextrin", func(r *beer) float64 { return r.wort.Dextrin * r.wortGLPerKg() }, func(p *Prediction) *Band { return &p.Wort.Dextrin }},
}

// predict fills in all that comes from the draws.
func (b *brew) predict(tempC float64) Prediction {
	var p Prediction
	beers := make([]beer, len(b.draws))
	for i := range b.draws {
		beers[i] = b.at(tempC, &b.draws[i])
	}
	x := make([]float64, len(beers))
	for _, q := range quantities {
		for i := range beers {
			x[i] = q.of(&beers[i])
		}
		*q.band(&p) = bandOf(x)
	}
	middle := b.at(tempC, &b.mid)
	p.Residue = middle.residue
	p.DrynessWord = taste.DrynessWord(p.Dryness.Mid)
	p.BodyWord = taste.BodyWord(p.Body.Mid)
	return p
}
