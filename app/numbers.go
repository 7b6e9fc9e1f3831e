package app

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/quantity"
	"skep/app/words"
	"skep/calc"
)

// numbers is the third column: every outcome in plain figures with its band.
type numbers struct {
	b      *bench
	rows   []*numberRow
	object fyne.CanvasObject
}

// numberRow is one line: a name, a value, its band.
type numberRow struct {
	name, value, band *caption
	fill              func(f *frame) (value, band string)
}

func newNumbers(b *bench) *numbers {
	n := &numbers{b: b}
	quantityRow := func(name string, k quantity.Kind, of func(p *calc.Prediction) calc.Band) {
		n.add(name, func(f *frame) (string, string) {
			v := whole(k, of(&f.prediction))
			return b.say.Format(k, v.Mid), words.T("{{.Low}} to {{.High}}", map[string]any{"Low": b.say.Number(k, v.Low), "High": b.say.Number(k, v.High)})
		})
	}
	worded := func(name string, of func(p *calc.Prediction) (calc.Band, string)) {
		n.add(name, func(f *frame) (string, string) {
			v, word := of(&f.prediction)
			return words.T("{{.Word}}, {{.Value}}", map[string]any{"Word": b.word(word), "Value": b.say.Number(quantity.Index, v.Mid)}),
				words.T("{{.Low}} to {{.High}}", map[string]any{"Low": b.say.Number(quantity.Index, v.Low), "High": b.say.Number(quantity.Index, v.High)})
		})
	}
	worded(words.T("dryness"), func(p *calc.Prediction) (calc.Band, string) { return p.Dryness, p.DrynessWord })
	worded(words.T("body"), func(p *calc.Prediction) (calc.Band, string) { return p.Body, p.BodyWord })
	worded(words.T("honey character"), func(p *calc.Prediction) (calc.Band, string) {
		return p.HoneyCharacter, p.HoneyCharacterWord
	})
	quantityRow(words.T("strength"), quantity.Strength, func(p *calc.Prediction) calc.Band { return p.StrengthPct })
	quantityRow(words.T("original gravity"), quantity.Gravity, func(p *calc.Prediction) calc.Band { return p.OriginalGravitySG })
	quantityRow(words.T("with all honey"), quantity.Gravity, func(p *calc.Prediction) calc.Band { return p.EffectiveOriginalGravitySG })
	quantityRow(words.T("final gravity"), quantity.Gravity, func(p *calc.Prediction) calc.Band { return p.FinalGravitySG })
	quantityRow(words.T("apparent attenuation"), quantity.Percent, func(p *calc.Prediction) calc.Band { return p.ApparentAttenuationPct })
	quantityRow(words.T("real attenuation"), quantity.Percent, func(p *calc.Prediction) calc.Band { return p.RealAttenuationPct })
	quantityRow(words.T("sugar left"), quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.ResidualSugarGL })
	quantityRow(words.T("sweetness"), quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.SweetnessGL })
	quantityRow(words.T("dextrin"), quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.DextrinGL })
	quantityRow(words.T("real extract"), quantity.GramsPerLitre, func(p *calc.Prediction) calc.Band { return p.RealExtractGL })
	quantityRow(words.T("bitterness"), quantity.Bitterness, func(p *calc.Prediction) calc.Band { return p.BitternessIBU })
	quantityRow(words.T("colour"), quantity.Colour, func(p *calc.Prediction) calc.Band { return p.ColourEBC })
	quantityRow(words.T("height of fermentation"), quantity.Hours, func(p *calc.Prediction) calc.Band { return p.HeightHours })
	quantityRow(words.T("finished"), quantity.Hours, func(p *calc.Prediction) calc.Band { return p.FinishedHours })

	var cells []fyne.CanvasObject
	for _, r := range n.rows {
		cells = append(cells, r.name, r.value, r.band)
	}
	note := newCaption(words.T("middle, and 10 to 90 %; tasters differ"), look.CaptionSize, false, inkQuiet)
	note.yields = true
	list := container.NewVScroll(container.New(&numberLayout{}, cells...))
	n.object = container.NewBorder(note, nil, nil, nil, list)
	return n
}

// whole rounds hours and percentages: their bands leave nothing behind the
// point that a person should trust.
func whole(k quantity.Kind, v calc.Band) calc.Band {
	if k == quantity.Hours || k == quantity.Percent {
		return calc.Band{Low: math.Round(v.Low), Mid: math.Round(v.Mid), High: math.Round(v.High)}
	}
	return v
}

func (n *numbers) add(name string, fill func(f *frame) (string, string)) {
	r := &numberRow{
		name:  newCaption(name, look.CaptionSize, false, inkQuiet),
		value: newCaption("", look.CaptionSize+1, true, inkFull),
		band:  newCaption("", look.CaptionSize, false, inkQuiet),
		fill:  fill,
	}
	r.value.align, r.band.align = fyne.TextAlignTrailing, fyne.TextAlignTrailing
	r.name.yields, r.band.yields = true, true
	n.rows = append(n.rows, r)
}

func (n *numbers) show(f *frame) {
	for _, r := range n.rows {
		value, band := r.fill(f)
		r.value.SetText(value)
		r.band.SetText(band)
	}
}

// numberLayout puts name and value on one line, the band under the value.
type numberLayout struct{}

const (
	numberHeight = 36
	numberLine   = 17
)

func (*numberLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(160, float32(len(o)/3)*numberHeight)
}

func (*numberLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	for i := 0; i+2 < len(o); i += 3 {
		y := float32(i/3) * numberHeight
		right := size.Width - 8 // room for the scroll bar
		value := min(max(o[i+1].MinSize().Width, 70), right*0.7)
		o[i].Move(fyne.NewPos(0, y+4))
		o[i].Resize(fyne.NewSize(right-value-6, numberLine))
		o[i+1].Move(fyne.NewPos(right-value, y+3))
		o[i+1].Resize(fyne.NewSize(value, numberLine))
		o[i+2].Move(fyne.NewPos(right*0.3, y+3+numberLine-1))
		o[i+2].Resize(fyne.NewSize(right*0.7, numberLine-2))
	}
}

// windowLine says when the honey goes in.
type windowLine struct {
	b           *bench
	name, value *caption
	object      fyne.CanvasObject
}

func newWindowLine(b *bench) *windowLine {
	w := &windowLine{b: b,
		name:  newCaption(words.T("Honey window"), look.CaptionSize+1, false, inkQuiet),
		value: newCaption("", look.TitleSize, true, inkAccent),
	}
	w.value.align = fyne.TextAlignTrailing
	w.object = container.NewBorder(nil, nil, w.name, nil, w.value)
	return w
}

func (w *windowLine) show(f *frame) {
	opens, closes := whole(quantity.Hours, f.prediction.HoneyWindowHours[0]), whole(quantity.Hours, f.prediction.HoneyWindowHours[1])
	w.value.SetText(words.T("{{.From}} to {{.To}}", map[string]any{
		"From": w.b.say.Number(quantity.Hours, opens.Mid), "To": w.b.say.Format(quantity.Hours, closes.Mid)}))
}
