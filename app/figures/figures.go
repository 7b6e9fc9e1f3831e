// Package figures is the list of a prediction's numbers as a person reads them, for the
// places that show several. A prediction comes in, texts go out. It must not know who
// shows them, nor how a number comes about.
package figures

import (
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/taste"
)

// Figure is one number of a prediction with its band: its key as the commands have it,
// its name, and how a person reads both.
type Figure struct {
	Key, Name string
	Show      func(p *calc.Prediction) (value, band string)
}

// All are the numbers of a prediction, in the order in which they are read.
func All(h ui.Host) []Figure {
	measured := func(key, name string, k quantity.Kind, of func(p *calc.Prediction) calc.Band) Figure {
		return Figure{key, name, func(p *calc.Prediction) (string, string) {
			v := ui.Whole(k, of(p))
			return h.Say().Format(k, v.Mid), words.T("{low} to {high}", h.Say().Number(k, v.Low), h.Say().Number(k, v.High))
		}}
	}
	worded := func(key, name string, of func(p *calc.Prediction) (calc.Band, message.Message)) Figure {
		return Figure{key, name, func(p *calc.Prediction) (string, string) {
			v, word := of(p)
			return words.T("{word}, {value}", words.Print(word), h.Say().Number(quantity.Index, v.Mid)),
				words.T("{low} to {high}", h.Say().Number(quantity.Index, v.Low), h.Say().Number(quantity.Index, v.High))
		}}
	}
	return []Figure{
		worded("dryness", words.T("dryness"), func(p *calc.Prediction) (calc.Band, message.Message) {
			return p.Dryness, taste.WordOf(p.DrynessWord)
		}),
		worded("body", words.T("body"), func(p *calc.Prediction) (calc.Band, message.Message) { return p.Body, taste.WordOf(p.BodyWord) }),
		worded("honey_character", words.T("honey character"), func(p *calc.Prediction) (calc.Band, message.Message) {
			return p.HoneyCharacter, taste.CharacterWordOf(p.HoneyCharacterWord)
		}),
		measured("strength_pct", words.T("strength"), quantity.Strength, func(p *calc.Prediction) calc.Band { return p.StrengthPct }),
		measured("original_gravity_sg", words.T("original gravity"), quantity.Gravity, func(p *calc.Prediction) calc.Band { return p.OriginalGravitySG }),
		measured("effective_original_gravity_sg", words.T("with all honey"), quantity.Gravity, func(p *calc.Prediction) calc.Band { return p.EffectiveOriginalGravitySG }),
		measured("final_gravity_sg", words.T("final gravity"), quantity.Gravity, func(p *calc.Prediction) calc.Band { return p.FinalGravitySG }),
		measured("apparent_attenuation_pct", words.T("apparent attenuation"), quantity.Percent, func(p *calc.Prediction) calc.Band { return p.ApparentAttenuationPct }),
		measured("real_attenuation_pct", words.T("real attenuation"), quantity.Percent, func(p *calc.Prediction) calc.Band { return p.RealAttenuationPct }),
		measured("residual_sugar_g_l", words.T("sugar left"), quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.ResidualSugarGL }),
		measured("sweetness_g_l", words.T("sweetness"), quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.SweetnessGL }),
		measured("dextrin_g_l", words.T("dextrin"), quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.DextrinGL }),
		measured("real_extract_g_l", words.T("real extract"), quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.RealExtractGL }),
		measured("bitterness_ibu", words.T("bitterness"), quantity.Bitterness, func(p *calc.Prediction) calc.Band { return p.BitternessIBU }),
		measured("colour_ebc", words.T("colour"), quantity.Colour, func(p *calc.Prediction) calc.Band { return p.ColourEBC }),
		measured("height_hours", words.T("height of fermentation"), quantity.Hours, func(p *calc.Prediction) calc.Band { return p.HeightHours }),
		measured("finished_hours", words.T("finished"), quantity.Hours, func(p *calc.Prediction) calc.Band { return p.FinishedHours }),
	}
}
