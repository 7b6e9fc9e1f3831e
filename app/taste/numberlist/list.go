// Package numberlist is every outcome in plain figures with its band, as a list in the
// third column of the Taste place. A prediction comes in; out goes the outcome whose
// origin is asked for. It must not know how a number comes about.
package numberlist

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"skep/app/figures"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
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
	for _, f := range figures.All(b) {
		n.Rows = append(n.Rows, newRow(f.Name, f.Show, func() { n.explain(f.Key) }, b.Hint))
	}
	cells := make([]fyne.CanvasObject, len(n.Rows))
	for i, r := range n.Rows {
		cells[i] = r
	}
	note := ui.NewCaption(words.T("10 to 90 % below; click one to open it"), look.CaptionSize, false, ui.InkQuiet)
	note.Yields, note.Short = true, words.T("10 to 90 % below")
	list := container.NewVScroll(container.New(layout.NewCustomPaddedLayout(4, 4, 0, 8), container.New(layout.NewCustomPaddedVBoxLayout(0), cells...)))
	n.Object = container.NewBorder(note, nil, nil, nil, list)
	return n
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
