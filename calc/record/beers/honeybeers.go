package beers

import (
	"fmt"
	"math"

	"skep/calc"
	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/honey"
	"skep/calc/record"
)

// oneBrew is an ordinary brew of the middle kit with one strain, all malt or
// with honey, whose effective original gravity is brought to a value.
type oneBrew struct {
	restC, litres  float64
	low, high      float64 // attenuation of the strain
	honeyShare     float64 // of the extract, 0 to 1
	moment         string
	hoursAfter     float64
	effectivePlato float64
	restErrorC     float64
}

// predict finds the grist and honey that give the gravity, and predicts.
func (o oneBrew) predict(e *calc.Engine) (calc.Prediction, error) {
	d := design.New()
	d.Batch.IntoFermenterL = o.litres
	d.Kit.RestErrorC = o.restErrorC
	rest := design.NewRest()
	rest.TemperatureC, rest.Minutes = o.restC, 60
	d.Mash.Rest = []design.Rest{rest}
	grain := design.NewGrain()
	strain := design.NewYeast()
	strain.AttenuationLowPct, strain.AttenuationHighPct = o.low, o.high
	d.Yeast = []design.Yeast{strain}
	if o.honeyShare > 0 {
		h := design.NewHoney()
		h.MoisturePct, h.Moment, h.HoursAfterHeight, h.Raw = honey.SurveyedMoistureMeanPct, o.moment, o.hoursAfter, false
		d.Honey = []design.Honey{h}
	}
	grain.MassKg = o.litres * density.GramsPerLitre(o.effectivePlato) / 1000 * (1 - o.honeyShare)
	var p calc.Prediction
	for range 8 {
		d.Grain = []design.Grain{grain}
		if o.honeyShare > 0 {
			kept := calc.Liquor(d).KeptShare
			kg := grain.MassKg * grain.ExtractPct / 100 * (1 - grain.MoisturePct/100) * d.Kit.MashEfficiencyPct / 100 * kept
			kg *= o.honeyShare / (1 - o.honeyShare) / (1 - d.Honey[0].MoisturePct/100)
			if o.moment == design.MomentBoil {
				kg /= kept
			}
			d.Honey[0].MassKg = kg
		}
		var err error
		if p, err = e.Predict(d); err != nil {
			return p, err
		}
		got := density.PlatoFromSG(p.EffectiveOriginalGravitySG.Mid)
		if math.Abs(got-o.effectivePlato) < 1e-3 {
			return p, nil
		}
		grain.MassKg *= o.effectivePlato / got
	}
	return p, fmt.Errorf("no grist of %+v comes to its gravity", o)
}

// HoneyBeers are beers in which honey took the place of malt extract. The
// original extract is not told: it is taken from the beer without honey, which
// is therefore not counted; the strain as an ordinary neutral one, the malt
// extract as the reference wort.
func HoneyBeers() ([]Held, error) {
	const source = "Oliveira et al. 2015 (read)"
	e := calc.NewEngineDraws(draws)
	brew := oneBrew{restC: 66, litres: 15, low: 73, high: 79, moment: design.MomentBoil, restErrorC: 0.7, effectivePlato: 12}
	const control = 4.86
	for range 8 {
		p, err := brew.predict(e)
		if err != nil {
			return nil, err
		}
		brew.effectivePlato *= control / p.StrengthPct.Mid
	}
	var rows []Held
	for _, r := range []struct {
		share, published float64
		why              string
	}{
		{0.10, 5.21, ""},
		{0.20, 5.76, "at one original extract no fermentable share of honey gives 19 % more alcohol for a fifth of the extract (100 % would give 11); the series itself falls again at 30 %, so its scatter is some 0.3 %"},
		{0.30, 5.57, ""},
	} {
		brew.honeyShare = r.share
		p, err := brew.predict(e)
		if err != nil {
			return nil, err
		}
		rows = append(rows, Held{Group: "honey beers", Quantity: fmt.Sprintf("strength with %.0f %% of the malt extract replaced by honey, 4.86 without", 100*r.share), Unit: "% vol",
			Published: r.published, Source: source, Low: p.StrengthPct.Low, Mid: p.StrengthPct.Mid, High: p.StrengthPct.High, Why: r.why})
	}
	return rows, nil
}

// HoneyAles are the two honey ales of one brewer (checks, 14e). Neither strain
// nor honey is told: a neutral to attenuating ale strain of 70 to 80 %, honey 15 %
// of the extract, the gravity with the honey counted in.
func HoneyAles() ([]Held, error) {
	const source = "two honey ales of one brewer, a hobby record (read)"
	e := calc.NewEngineDraws(draws)
	var rows []Held
	for _, r := range []struct {
		what      string
		restC     float64
		moment    string
		hours     float64
		published float64
	}{
		{"final gravity from 1.049, mashed at 68.9 °C, honey a day past the height", 68.9, design.MomentFermenting, 24, 1.013},
		{"final gravity from 1.049, mashed at 67.2 °C, honey at the end of the boil", 67.2, design.MomentBoil, 0, 1.010},
	} {
		p, err := oneBrew{restC: r.restC, litres: 15, low: 70, high: 80, honeyShare: 0.15, moment: r.moment, hoursAfter: r.hours,
			effectivePlato: density.PlatoFromSG(1.049), restErrorC: 0.7}.predict(e)
		if err != nil {
			return nil, err
		}
		rows = append(rows, Held{Group: "honey beers", Quantity: r.what, Unit: "SG", Published: r.published, Source: source,
			Low: p.FinalGravitySG.Low, Mid: p.FinalGravitySG.Mid, High: p.FinalGravitySG.High})
	}
	return rows, nil
}

// Mixtures are the rows of section 5 of the design notes: apparent attenuation
// of a beer whose malt attenuates 75 % apparent and whose honey 93 % real.
func Mixtures() []record.Row {
	var rows []record.Row
	for _, r := range []struct{ share, published float64 }{{0, 75.0}, {0.1, 78.8}, {0.2, 82.7}, {0.3, 86.5}, {0.4, 90.4}} {
		malt := alcohol.FermentedFromApparent(alcohol.ReferencePlato, 75)
		share := (1-r.share)*malt + r.share*honey.FermentableShareMid
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("apparent attenuation with %.0f %% of the extract from honey", 100*r.share), Unit: "%",
			Published: r.published, Source: "design notes, section 5 (derived: real attenuation over 0.8192)",
			Ours: alcohol.ApparentFromFermented(alcohol.ReferencePlato, share), Tolerance: 0.5,
			Why: "the row leaves out the mass that fermentation takes away, which ours has",
		})
	}
	return rows
}
