package app

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
)

// topBar is the design's name, the places and what there is to do. Fyne's tabs have no
// room beside them, and its border gives the sides all that they ask for: here the places
// stay in the middle and the name gives way.
type topBar struct {
	widget.BaseWidget
	b *bench

	title            *ui.Choice // opens the title and the notes
	mark             *ui.Caption
	places           []*ui.Choice
	undo, redo, more *ui.Choice
}

func newTopBar(b *bench) *topBar {
	t := &topBar{b: b}
	t.title = ui.NewChoice("", false, b.editTitle)
	t.title.TextSize, t.title.Bold, t.title.Ink, t.title.Height = look.HeadingSize, true, ui.InkFull, 40
	t.title.Name, t.title.OnHint = words.T("title and notes of the design"), b.Hint
	t.mark = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)
	for i, p := range b.places {
		c := ui.NewChoice(p.name, false, func() { b.goTo(i) })
		c.TextSize, c.Height = look.TitleSize, 40
		t.places = append(t.places, c)
	}
	tool := func(icon fyne.Resource, name string, tap func()) *ui.Choice {
		c := ui.NewChoice("", false, tap)
		c.Icon, c.Name, c.Hint = icon, name, name
		c.OnHint = b.Hint
		return c
	}
	t.undo = tool(look.IconUndo(), words.T("Undo"), b.Undo)
	t.redo = tool(look.IconRedo(), words.T("Redo"), b.Redo)
	t.more = tool(look.IconMore(), words.T("File and settings"), b.menu)
	t.ExtendBaseWidget(t)
	return t
}

// update shows the design's name and what can be undone.
func (t *topBar) update() {
	t.title.Hint = words.T("Title and notes: press to change them")
	mark := t.b.batchMark()
	if t.b.Editor.Unsaved() {
		if mark != "" {
			mark += "   "
		}
		mark += words.T("•  not saved")
	}
	t.mark.SetText(mark)
	step := func(c *ui.Choice, name string, ok bool, verb string) {
		c.Hint = verb
		if ok {
			c.Hint = words.T("{verb}: {step}", verb, name)
		}
		c.SetOff(!ok)
	}
	name, ok := t.b.Editor.UndoName()
	step(t.undo, name, ok, words.T("Undo"))
	name, ok = t.b.Editor.RedoName()
	step(t.redo, name, ok, words.T("Redo"))
	for i, p := range t.places {
		p.Current = i == t.b.at
		p.Refresh()
	}
	t.Refresh()
}

func (t *topBar) CreateRenderer() fyne.WidgetRenderer {
	r := &topBarRenderer{t: t, line: canvas.NewRectangle(color.Transparent)}
	r.Refresh()
	return r
}

type topBarRenderer struct {
	t    *topBar
	line *canvas.Rectangle
}

func (r *topBarRenderer) Layout(size fyne.Size) {
	t := r.t
	const edge, roomForName = 24, 300
	middle := func(o fyne.CanvasObject, x, w float32) {
		h := o.MinSize().Height
		o.Move(fyne.NewPos(x, (ui.BarHeight-h)/2))
		o.Resize(fyne.NewSize(w, h))
	}
	places := float32(0)
	for _, p := range t.places {
		places += p.MinSize().Width + 18
	}
	// In the middle, but in a narrow window as far to the right as leaves the name its room.
	x := (size.Width - places) / 2
	tools := edge + t.more.MinSize().Width + t.redo.MinSize().Width + t.undo.MinSize().Width
	x = max(x, min(roomForName, size.Width-tools-places))
	start := x
	for _, p := range t.places {
		w := p.MinSize().Width
		middle(p, x, w)
		x += w + 18
	}
	mark := t.mark.MinSize().Width
	t.title.SetText(look.Shortened(t.b.Editor.Title(), start-edge-mark-24-ui.ChoicePad, look.Widths(look.HeadingSize, true)))
	title := t.title.MinSize().Width - 2*ui.ChoicePad
	middle(t.title, edge-ui.ChoicePad, title+2*ui.ChoicePad)
	middle(t.mark, edge+title+10, mark)
	x = size.Width - edge + 8
	for _, o := range []*ui.Choice{t.more, t.redo, t.undo} {
		w := o.MinSize().Width
		x -= w
		middle(o, x, w)
		x -= 4
	}
	r.line.Move(fyne.NewPos(0, ui.BarHeight-1))
	r.line.Resize(fyne.NewSize(size.Width, 1))
}

func (r *topBarRenderer) MinSize() fyne.Size { return fyne.NewSize(600, ui.BarHeight) }

func (r *topBarRenderer) Refresh() {
	r.line.FillColor = ui.PaletteOf(r.t.Theme()).PanelBorder
	r.line.Refresh()
	r.Layout(r.t.Size())
}

func (r *topBarRenderer) Objects() []fyne.CanvasObject {
	o := []fyne.CanvasObject{r.line, r.t.title, r.t.mark}
	for _, p := range r.t.places {
		o = append(o, p)
	}
	return append(o, r.t.undo, r.t.redo, r.t.more)
}
func (r *topBarRenderer) Destroy() {}
