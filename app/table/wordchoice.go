package table

import (
	"fyne.io/fyne/v2"

	"skep/app/ui"
	"skep/calc/design"
)

// WordChoice is a value of the design that is one of a few words. Fyne's select is a
// field's box, has no name for a screen reader and does not come into view with the
// keyboard.
type WordChoice struct {
	Choice
	host ui.Host
	path func() string
}

func newWordChoice(p *Parts, path, what func() string) *WordChoice {
	w := &WordChoice{host: p.Host, path: path}
	w.p = p
	w.List, w.Ink, w.TextSize, w.Height = true, ui.InkFull, 13, ui.ChoiceHeight
	w.OnTap = func() { w.open(what()) }
	w.Extend(w)
	return w
}

// Sync shows the design's word.
func (w *WordChoice) Sync(d *design.Design) {
	text, err := d.Get(w.path())
	if err != nil {
		return
	}
	w.SetText(ui.WordText(w.path(), text))
}

// Path is the value's key.
func (w *WordChoice) Path() string { return w.path() }

func (w *WordChoice) open(what string) {
	d := w.host.Design()
	now, _ := d.Get(w.path())
	k, _ := design.KeyOf(w.path())
	options := k.Words
	if k.Kind == design.Switch {
		options = []string{"true", "false"}
	}
	var items []*fyne.MenuItem
	for _, o := range options {
		m := fyne.NewMenuItem(ui.WordText(w.path(), o), func() {
			if err := ui.SetKey(w.host, what, w.path(), o); err != nil {
				w.host.Warn(w.host.Say().Why(err))
			}
		})
		m.Checked = o == now
		items = append(items, m)
	}
	ui.PopUp(w.host, w, items...)
}
