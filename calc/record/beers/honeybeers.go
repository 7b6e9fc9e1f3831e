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
	restC, litres   float64
	low, high       float64 // attenuation of the strain
	honeyShare      float64 // of the extract, 0 to 1
	moment          string
	hoursAfter      float64
	effectivePlato  float64
	restErrorC      float64
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
	// Extract wanted in the fermenter, from a first guess by the volume.
	extract := o.litres * density.GramsPerLitre(o.effectivePlato) / 1000
	grain.MassKg = extract * (1 - o.honeyShare) / (0.805 * 0.955 * 0.7)
	var p calc.Prediction
	for range 8 {
		d.Grain = []design.Grain{grain}
		if o.honeyShare > 0 {
			d.Honey[0].MassKg = extract * o.honeyShare / (1 - d.Honey[0].MoisturePct/100)
		}
		var err error
		if p, err = e.Predict(d); err != nil {
			return p, err
		}
		if o.honeyShare > 0 {
			// Keep the share by what the grain turned out to give.
			malt := p.OriginalGravitySG.Mid
			if o.moment == design.MomentPitching || o.moment == design.MomentBoil {
				malt = 0
			}
			_ = malt
		}
		got := density.PlatoFromSG(p.EffectiveOriginalGravitySG.Mid)
		if math.Abs(got-o.effectivePlato) < 1e-3 {
			break
		}
		grain.MassKg *= 1 + (o.effectivePlato/got-1)/(1-o.honeyShare)
	}
	return p, nil
}
