package taste

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/quantity"
)

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
	w.object.Refresh() // the figure has another width
}
