// Package numberlist is every outcome in plain figures with its band, as a list in the
// third column of the Taste place. A prediction comes in; out goes the outcome whose
// origin is asked for. It must not know how a number comes about.
package numberlist

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/quantity"
	"skep/calc/taste"
)

// List is the list.
type List struct {
	host    ui.Host
	explain func(key string)
	Rows    []*Row
	Object  fyne.CanvasObject
}

// New is a list that shows nothing yet. explain opens where a number comes from.
func New(b ui.Host, explain func(key string)) *List {
	n := &List{host: b, explain: explain}
	quantityRow := func(name, key string, k quantity.Kind, of func(p *calc.Prediction) calc.Band) {
		n.add(name, key, func(p *calc.Prediction) (string, string) {
			v := ui.Whole(k, of(p))
			return b.Say().Format(k, v.Mid), words.T("{low} to {high}", b.Say().Number(k, v.Low), b.Say().Number(k, v.High))
		})
	}
	worded := func(name, key string, of func(p *calc.Prediction) (calc.Band, string)) {
		n.add(name, key, func(p *calc.Prediction) (string, string) {
			v, word := of(p)
			return words.T("{word}, {value}", words.Print(taste.WordOf(word)), b.Say().Number(quantity.Index, v.Mid)),
				words.T("{low} to {high}", b.Say().Number(quantity.Index, v.Low), b.Say().Number(quantity.Index, v.High))
		})
	}
	worded(words.T("dryness"), "dryness", func(p *calc.Prediction) (calc.Band, string) { return p.Dryness, p.DrynessWord })
	worded(words.T("body"), "body", func(p *calc.Prediction) (calc.Band, string) { return p.Body, p.BodyWord })
	worded(words.T("honey character"), "honey_character", func(p *calc.Prediction) (calc.Band, string) {
		return p.HoneyCharacter, p.HoneyCharacterWord
	})
	quantityRow(words.T("strength"), "strength_pct", quantity.Strength, func(p *calc.Prediction) calc.Band { return p.StrengthPct })
	quantityRow(words.T("original gravity"), "original_gravity_sg", quantity.Gravity, func(p *calc.Prediction) calc.Band { return p.OriginalGravitySG })
	quantityRow(words.T("with all honey"), "effective_original_gravity_sg", quantity.Gravity, func(p *calc.Prediction) calc.Band { return p.EffectiveOriginalGravitySG })
	quantityRow(words.T("final gravity"), "final_gravity_sg", quantity.Gravity, func(p *calc.Prediction) calc.Band { return p.FinalGravitySG })
	quantityRow(words.T("apparent attenuation"), "apparent_attenuation_pct", quantity.Percent, func(p *calc.Prediction) calc.Band { return p.ApparentAttenuationPct })
	quantityRow(words.T("real attenuation"), "real_attenuation_pct", quantity.Percent, func(p *calc.Prediction) calc.Band { return p.RealAttenuationPct })
	quantityRow(words.T("sugar left"), "residual_sugar_g_l", quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.ResidualSugarGL })
	quantityRow(words.T("sweetness"), "sweetness_g_l", quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.SweetnessGL })
	quantityRow(words.T("dextrin"), "dextrin_g_l", quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.DextrinGL })
	quantityRow(words.T("real extract"), "real_extract_g_l", quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.RealExtractGL })
	quantityRow(words.T("bitterness"), "bitterness_ibu", quantity.Bitterness, func(p *calc.Prediction) calc.Band { return p.BitternessIBU })
	quantityRow(words.T("colour"), "colour_ebc", quantity.Colour, func(p *calc.Prediction) calc.Band { return p.ColourEBC })
	quantityRow(words.T("height of fermentation"), "height_hours", quantity.Hours, func(p *calc.Prediction) calc.Band { return p.HeightHours })
	quantityRow(words.T("finished"), "finished_hours", quantity.Hours, func(p *calc.Prediction) calc.Band { return p.FinishedHours })

	var cells []fyne.CanvasObject
	for _, r := range n.Rows {
		cells = append(cells, r)
	}
	note := ui.NewCaption(words.T("10 to 90 % below; click one to open it"), look.CaptionSize, false, ui.InkQuiet)
	note.Yields, note.Short = true, words.T("10 to 90 % below")
	list := container.NewVScroll(container.New(layout.NewCustomPaddedLayout(4, 4, 0, 8), container.New(layout.NewCustomPaddedVBoxLayout(0), cells...)))
	n.Object = container.NewBorder(note, nil, nil, nil, list)
	return n
}

func (n *List) add(name, key string, fill func(p *calc.Prediction) (string, string)) {
	n.Rows = append(n.Rows, newRow(name, fill, func() { n.explain(key) }, n.host.Hint))
}

// Show puts a prediction into the rows.
func (n *List) Show(p *calc.Prediction) {
	for _, r := range n.Rows {
		r.show(p)
	}
}

// Clear takes the numbers away.
func (n *List) Clear() {
	for _, r := range n.Rows {
		r.value.SetText(ui.NoNumber)
		r.band.SetText("")
	}
}
