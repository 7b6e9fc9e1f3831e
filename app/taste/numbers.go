package taste

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/quantity"
	"skep/calc/taste"
)

// numbers is the third column: every outcome in plain figures with its band.
type numbers struct {
	t      *Place
	Rows   []*numberRow
	object fyne.CanvasObject
}

func newNumbers(t *Place) *numbers {
	b := t
	n := &numbers{t: t}
	quantityRow := func(name, key string, k quantity.Kind, of func(p *calc.Prediction) calc.Band) {
		n.add(name, key, func(f *Frame) (string, string) {
			v := ui.Whole(k, of(&f.Prediction))
			return b.Say().Format(k, v.Mid), words.T("{low} to {high}", b.Say().Number(k, v.Low), b.Say().Number(k, v.High))
		})
	}
	worded := func(name, key string, of func(p *calc.Prediction) (calc.Band, string)) {
		n.add(name, key, func(f *Frame) (string, string) {
			v, word := of(&f.Prediction)
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
	note.Yields = true
	list := container.NewVScroll(container.NewPadded(container.New(&numberLayout{}, cells...)))
	n.object = container.NewBorder(note, nil, nil, nil, list)
	return n
}

func (n *numbers) add(name, key string, fill func(f *Frame) (string, string)) {
	n.Rows = append(n.Rows, newNumberRow(name, fill, func() { n.t.explain(key) }, n.t.Hint))
}

func (n *numbers) show(f *Frame) {
	for _, r := range n.Rows {
		r.show(f)
	}
}

// clear takes the numbers away.
func (n *numbers) clear() {
	for _, r := range n.Rows {
		r.value.SetText(ui.NoNumber)
		r.band.SetText("")
	}
}

// numberLayout stacks the rows closely, and leaves room for the scroll bar.
type numberLayout struct{}

func (*numberLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(160, float32(len(o))*numberHeight)
}

func (*numberLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	for i, c := range o {
		c.Move(fyne.NewPos(-4, float32(i)*numberHeight))
		c.Resize(fyne.NewSize(size.Width, numberHeight))
	}
}

// windowLine says when the honey goes in.
type windowLine struct {
	b      ui.Host
	value  *ui.Choice
	object fyne.CanvasObject
}

func newWindowLine(t *Place) *windowLine {
	b := t
	w := &windowLine{b: t}
	name := ui.NewCaption(words.T("Honey window"), look.CaptionSize+1, false, ui.InkQuiet)
	since := ui.NewCaption(words.T("after pitching"), look.CaptionSize, false, ui.InkQuiet)
	w.value = ui.NewChoice("", false, func() { t.explain("honey_window_hours") })
	w.value.TextSize, w.value.Bold, w.value.Ink, w.value.Name = look.TitleSize, true, ui.InkAccent, words.T("Honey window")
	w.value.Hint, w.value.OnHint = words.T("Click to see where this number comes from"), b.Hint
	t.next = newMeasureNext(t)
	w.object = container.NewBorder(nil, t.next.object, container.NewCenter(container.NewVBox(name, since)), container.NewCenter(w.value))
	return w
}

func (w *windowLine) show(f *Frame) {
	opens, closes := ui.Whole(quantity.Hours, f.Prediction.HoneyWindowHours[0]), ui.Whole(quantity.Hours, f.Prediction.HoneyWindowHours[1])
	w.value.SetText(words.T("{from} to {to}", w.b.Say().Number(quantity.Hours, opens.Mid), w.b.Say().Format(quantity.Hours, closes.Mid)))
}
