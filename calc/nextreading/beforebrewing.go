package nextreading

import (
	"math"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/doubt"
)

// Errors of what could be measured, 1 sd. All are ours.
const (
	moistureSD      = 0.3  // points: a honey refractometer
	iceC            = 0.1  // reading a thermometer in melting ice
	thermometerPart = 0.7  // of the variance of kit.rest_error_c: what stays from mash to mash
	maltSD          = 1.5  // points: the certificate's limit attenuation, or a small mash fermented out
	yieldSD         = 1.2  // points: one brew against the kit's own mean
	glassesSD       = 1.95 // of the palate's own sd: twenty pairs of glasses leave 0.89 of it (package glasstest's test)
)

// Rows are the draws of an engine.
func Rows(e *calc.Engine) doubt.Draws {
	if rows, _ := e.Measured(); rows != nil {
		return rows
	}
	return e.Own()
}

// inEvery is one physical input in every draw.
func inEvery(b *calc.Brew, rows doubt.Draws, of func(in *calc.Inputs) float64) []float64 {
	out := make([]float64, len(rows))
	for i := range rows {
		in := b.Inputs(&rows[i])
		out[i] = of(&in)
	}
	return out
}

// Lasting are the candidates that tell of things, not of this fermentation.
func Lasting(b *calc.Brew, rows doubt.Draws) []Candidate {
	var out []Candidate
	d := b.Design()
	for i := range d.Honey {
		if d.Honey[i].MassKg > 0 {
			out = append(out, Candidate{What: Moisture, SD: moistureSD,
				Shows: inEvery(b, rows, func(in *calc.Inputs) float64 { return in.MoisturePct })})
			break
		}
	}
	if error := d.Kit.RestErrorC; error > 0 && b.HasGrain() {
		// Ice tells of the thermometer, not of how the mash was kept.
		out = append(out, Candidate{What: Thermometer, SD: math.Hypot(iceC, error*math.Sqrt(thermometerPart*(1-thermometerPart))),
			Shows: inEvery(b, rows, func(in *calc.Inputs) float64 { return thermometerPart * in.RestErrorC })})
	}
	return out
}

// QualitiesOf are the four outcomes but body, draw by draw.
func QualitiesOf(finalSG, strengthPct, dryness []float64) []Quality {
	return []Quality{
		{Key: "final_gravity_sg", Values: finalSG}, {Key: "strength_pct", Values: strengthPct}, {Key: "dryness", Values: dryness},
	}
}

// BeforeBrewing is what could be measured before a design is brewed, the most
// telling first: of the kit, the malt, the honey and the palate.
func BeforeBrewing(e *calc.Engine, d design.Design) ([]Worth, error) {
	drawn, err := e.Drawn(d, 0)
	if err != nil {
		return nil, err
	}
	b, err := e.Brew(d, 0)
	if err != nil {
		return nil, err
	}
	rows := Rows(e)
	list := Lasting(b, rows)
	if b.HasGrain() {
		list = append(list,
			Candidate{What: Malt, SD: maltSD, Shows: inEvery(b, rows, func(in *calc.Inputs) float64 { return in.Malt.AttenuationPoints })},
			Candidate{What: Yield, SD: yieldSD, Shows: inEvery(b, rows, func(in *calc.Inputs) float64 { return in.EfficiencyPct })})
	}
	sweet := make([]float64, len(rows))
	for i := range rows {
		sweet[i] = rows[i][doubt.MaltSweet]
	}
	list = append(list, Candidate{What: Glasses, SD: glassesSD, Shows: sweet})
	return Rank(list, QualitiesOf(drawn.Values(calc.FinalGravity), drawn.Values(calc.Strength), drawn.Values(calc.Dryness))), nil
}
