package recipe

import (
	"fmt"

	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/water"
)

// heaviestSG is the highest gravity that a reading may have (design.ValueRange): a
// wort beyond it is a slip of the keyboard, syrup that no yeast works in, and nothing
// that a model of beer could say of it would hold.
const heaviestSG = 1.25

// Sound is the liquor of a design's day. Of one that its own check or too much extract
// refuses it is the reason, all findings in one error.
func Sound(d design.Design) (water.Plan, error) {
	var wrong []message.Message
	for _, f := range d.Validate() {
		if f.Severity == design.Error {
			wrong = append(wrong, f.Message)
		}
	}
	if err := message.Joined(wrong...).Err(); err != nil {
		return water.Plan{}, err
	}
	plan := Liquor(d)
	return plan, TooHeavy(&d, &plan)
}

// TooHeavy refuses a design with so much extract for so little water, above SG 1.25.
// plan is the liquor of its day.
func TooHeavy(d *design.Design, plan *water.Plan) error {
	grainKg, honeyKg := plan.GrainExtractKg*plan.KeptShare, 0.0
	key, most := "", 0.0
	for i, g := range d.Grain {
		if g.MassKg > most {
			key, most = fmt.Sprintf("grain.%d.mass_kg", i), g.MassKg
		}
	}
	for i, h := range d.Honey {
		kg := h.MassKg * (1 - h.MoisturePct/100)
		honeyKg += kg
		if kg > grainKg && kg > 0 {
			key, most = fmt.Sprintf("honey.%d.mass_kg", i), h.MassKg
		}
	}
	litres := d.Batch.IntoFermenterL
	sg := density.SGFromPlato(density.PlatoFromGramsPerLitre(1000 * (grainKg + honeyKg) / max(litres, plan.FermenterL)))
	if sg <= heaviestSG {
		return nil
	}
	return message.NewError("{key} = {kilos} kg is too much for {litres} L: all extract together would be heavier than SG {most}, which no yeast works in; take less of it, or more litres",
		key, fmt.Sprintf("%.4g", most), fmt.Sprintf("%.4g", litres), fmt.Sprintf("%.2f", heaviestSG))
}
