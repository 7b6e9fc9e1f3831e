package day

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/running"
)

// itemLine is a box and what to do, ticked by a press anywhere on it. Fyne's check does
// not wrap its text.
type itemLine struct {
	widget.BaseWidget
	text       *ui.Paragraph
	done, next bool
	tap        func()
}

func newItemLine() *itemLine {
	l := &itemLine{text: ui.NewParagraph("", textSize, ui.InkFull)}
	l.text.MayBold = true
	l.ExtendBaseWidget(l)
	return l
}

func (l *itemLine) set(text string, done, next bool, tap func()) {
	l.tap = tap
	l.Hidden = text == ""
	if l.text.Text == text && l.done == done && l.next == next {
		return
	}
	l.text.Ink, l.text.Bold = ui.InkFull, next
	if done {
		l.text.Ink = ui.InkQuiet
	}
	l.done, l.next = done, next
	l.text.SetText(text)
	l.Refresh()
}

const boxSide, boxRoom = 24, 38

// heightFor is how high the line is at a width.
func (l *itemLine) heightFor(width float32) float32 {
	return max(l.text.HeightFor(width-boxRoom)+8, 38)
}

func (l *itemLine) Tapped(*fyne.PointEvent) {
	if l.tap != nil {
		l.tap()
	}
}

// AccessibilityLabel is the text, and whether it is ticked.
func (l *itemLine) AccessibilityLabel() string {
	if l.done {
		return words.T("{what}, done", l.text.Text)
	}
	return l.text.Text
}
func (l *itemLine) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

func (l *itemLine) CreateRenderer() fyne.WidgetRenderer {
	r := &itemRenderer{l: l, box: canvas.NewRectangle(color.Transparent), bar: canvas.NewRectangle(color.Transparent), mark: canvas.NewImageFromResource(look.IconTick())}
	r.mark.FillMode = canvas.ImageFillContain
	r.Refresh()
	return r
}

type itemRenderer struct {
	l        *itemLine
	box, bar *canvas.Rectangle
	mark     *canvas.Image
}

func (r *itemRenderer) MinSize() fyne.Size { return fyne.NewSize(200, 38) }
func (r *itemRenderer) Layout(size fyne.Size) {
	r.bar.Resize(size)
	r.box.Move(fyne.NewPos(6, 7))
	r.box.Resize(fyne.NewSquareSize(boxSide))
	r.mark.Move(fyne.NewPos(8, 9))
	r.mark.Resize(fyne.NewSquareSize(boxSide - 4))
	r.l.text.Lay(boxRoom, 4, size.Width-boxRoom)
}
func (r *itemRenderer) Refresh() {
	p := ui.PaletteOf(r.l.Theme())
	r.box.StrokeColor, r.box.StrokeWidth, r.box.CornerRadius = p.Ink, 2, 3
	if r.l.done {
		r.box.StrokeColor = p.Quiet
	}
	r.bar.FillColor = color.Transparent
	r.bar.CornerRadius = 6
	if r.l.next {
		r.bar.FillColor = p.AccentSoft
	}
	r.mark.Hidden = !r.l.done
	r.box.Refresh()
	r.bar.Refresh()
	r.mark.Refresh()
	r.Layout(r.l.Size())
	r.l.text.Refresh()
}
func (r *itemRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.bar, r.box, r.mark, r.l.text}
}
func (r *itemRenderer) Destroy() {}

// bigButton is pressed with a wet hand: what Space does, and what rings. Fyne's button has
// one size of text and does not wrap it.
type bigButton struct {
	widget.BaseWidget
	text, key string
	loud      bool
	tap       func()
}

func newBigButton(tap func()) *bigButton {
	b := &bigButton{tap: tap}
	b.ExtendBaseWidget(b)
	return b
}

func (b *bigButton) set(text, key string) {
	if b.text != text || b.key != key {
		b.text, b.key = text, key
		b.Refresh()
	}
}

func (b *bigButton) Tapped(*fyne.PointEvent)                { b.tap() }
func (b *bigButton) AccessibilityLabel() string             { return b.text }
func (b *bigButton) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

func (b *bigButton) CreateRenderer() fyne.WidgetRenderer {
	r := &bigRenderer{b: b, back: canvas.NewRectangle(color.Transparent), key: canvas.NewText("", color.Black)}
	r.Refresh()
	return r
}

type bigRenderer struct {
	b     *bigButton
	back  *canvas.Rectangle
	key   *canvas.Text
	lines []*canvas.Text
}

func (r *bigRenderer) size() float32 {
	if r.b.loud {
		return 28
	}
	return 22
}

func (r *bigRenderer) MinSize() fyne.Size { return fyne.NewSize(200, 56) }

func (r *bigRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	key := r.key.MinSize()
	r.key.Move(fyne.NewPos(size.Width-key.Width-18, (size.Height-key.Height)/2))
	letters := r.size()
	for letters > 15 && len(look.Wrapped(r.b.text, size.Width-key.Width-60, 0, look.Widths(letters, true))) > 2 {
		letters--
	}
	lines := look.Wrapped(r.b.text, size.Width-key.Width-60, 2, look.Widths(letters, true))
	for len(r.lines) < len(lines) {
		r.lines = append(r.lines, canvas.NewText("", color.Black))
	}
	high := letters * 1.3
	y := (size.Height - high*float32(len(lines))) / 2
	for i, t := range r.lines {
		t.Text = ""
		if i < len(lines) {
			t.Text = lines[i]
		}
		t.TextSize, t.TextStyle, t.Color = letters, fyne.TextStyle{Bold: true}, r.key.Color
		t.Move(fyne.NewPos(20, y+high*float32(i)))
		t.Resize(t.MinSize())
	}
}

func (r *bigRenderer) Refresh() {
	p := ui.PaletteOf(r.b.Theme())
	r.back.FillColor, r.back.CornerRadius = p.Accent, 8
	r.key.Color = p.OnAccent
	if r.b.loud {
		r.back.FillColor, r.key.Color = p.Warning, p.Background
	}
	r.key.Text, r.key.TextSize = r.b.key, smallSize
	r.back.Refresh()
	r.key.Refresh()
	r.Layout(r.b.Size())
	for _, t := range r.lines {
		t.Refresh()
	}
}

func (r *bigRenderer) Objects() []fyne.CanvasObject {
	o := []fyne.CanvasObject{r.back, r.key}
	for _, t := range r.lines {
		o = append(o, t)
	}
	return o
}
func (r *bigRenderer) Destroy() {}

// wayLine is one thing that can still be done, and what it makes of the beer: a button of
// two texts that wrap, which Fyne's does not.
type wayLine struct {
	widget.BaseWidget
	text, beer *ui.Paragraph
	tap        func()
}

func newWayLine(tap func()) *wayLine {
	w := &wayLine{text: ui.NewParagraph("", textSize, ui.InkAccent), beer: ui.NewParagraph("", smallSize, ui.InkQuiet), tap: tap}
	w.text.Bold = true
	w.ExtendBaseWidget(w)
	return w
}

func (w *wayLine) set(text, beer string) {
	w.Hidden = text == ""
	w.text.SetText(text)
	w.beer.SetText(beer)
}

func (w *wayLine) heightFor(width float32) float32 {
	return w.text.HeightFor(width-24) + w.beer.HeightFor(width-24) + 14
}

func (w *wayLine) Tapped(*fyne.PointEvent) { w.tap() }
func (w *wayLine) AccessibilityLabel() string {
	return words.T("{way}; {beer}", w.text.Text, w.beer.Text)
}
func (w *wayLine) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }
func (w *wayLine) FocusGained()                           { w.Refresh() }
func (w *wayLine) FocusLost()                             { w.Refresh() }
func (w *wayLine) TypedRune(rune)                         {}
func (w *wayLine) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeySpace || k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter {
		w.tap()
	}
}

func (w *wayLine) CreateRenderer() fyne.WidgetRenderer {
	r := &wayRenderer{w: w, back: canvas.NewRectangle(color.Transparent)}
	r.Refresh()
	return r
}

type wayRenderer struct {
	w    *wayLine
	back *canvas.Rectangle
}

func (r *wayRenderer) MinSize() fyne.Size { return fyne.NewSize(200, 44) }
func (r *wayRenderer) Layout(size fyne.Size) {
	r.back.Resize(size)
	h := r.w.text.Lay(12, 7, size.Width-24)
	r.w.beer.Lay(12, 7+h, size.Width-24)
}
func (r *wayRenderer) Refresh() {
	p := ui.PaletteOf(r.w.Theme())
	r.back.FillColor, r.back.StrokeColor, r.back.StrokeWidth, r.back.CornerRadius = p.Panel, p.Accent, 2, 8
	r.back.Refresh()
	r.Layout(r.w.Size())
	r.w.text.Refresh()
	r.w.beer.Refresh()
}
func (r *wayRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.back, r.w.text, r.w.beer}
}
func (r *wayRenderer) Destroy() {}

// clockPanel is a clock that runs, with what can be done to it.
type clockPanel struct {
	d     *Day
	timer string
	title string
	name  *ui.Paragraph
	left  *ui.Caption
	note  *ui.Paragraph
	tools []*ui.Choice
	shown bool
}

func newClockPanel(d *Day) *clockPanel {
	c := &clockPanel{d: d, name: ui.NewParagraph("", textSize, ui.InkFull), left: ui.NewCaption("", figureSize, true, ui.InkFull), note: ui.NewParagraph("", smallSize, ui.InkQuiet)}
	c.name.Bold = true
	tool := func(text string, tap func()) {
		t := ui.NewChoice(text, false, func() { tap(); d.refocus() })
		t.TextSize, t.Height, t.Ink = smallSize, 40, ui.InkAccent
		c.tools = append(c.tools, t)
	}
	tool(words.T("hold"), func() { d.Hold(c.timer) })
	tool("−1", func() { d.Shift(c.timer, -1) })
	tool("+1", func() { d.Shift(c.timer, 1) })
	tool(words.T("end"), func() { d.End(c.timer) })
	return c
}

func (c *clockPanel) objects() []fyne.CanvasObject {
	o := []fyne.CanvasObject{c.name, c.left, c.note}
	for _, t := range c.tools {
		o = append(o, t)
	}
	return o
}

func (c *clockPanel) fill(k *running.Clock) {
	c.shown = k != nil
	for _, o := range c.objects() {
		if c.shown {
			o.Show()
		} else {
			o.Hide()
		}
	}
	if k == nil {
		return
	}
	c.timer = k.Timer
	now := c.d.now()
	if t := c.d.timer(k.Step, k.Timer); t != nil {
		c.title = c.d.print(t.Name)
	}
	c.left.SetText(leftText(k, now))
	c.note.SetText(c.d.clockNote(k, now))
	hold := words.T("hold")
	if k.IsHeld() {
		hold = words.T("go on")
	}
	c.tools[0].SetText(hold)
}

// layShort puts the clock into a line.
func (c *clockPanel) layShort(x, y, width float32) float32 {
	for _, o := range c.objects() {
		o.Hide()
	}
	c.name.Show()
	c.name.SetText(words.T("{clock} {left}", c.title, c.left.Text))
	return y + c.name.Lay(x, y, width) + 6
}

// lay puts the clock at a place and says where it ends.
func (c *clockPanel) lay(x, y, width float32) float32 {
	c.name.SetText(c.title)
	y += c.name.Lay(x, y, width)
	ui.Put(c.left, x, y-6, width, figureSize*1.2)
	at := x + width
	for i := len(c.tools) - 1; i >= 0; i-- {
		m := c.tools[i].MinSize()
		at -= m.Width + 4
		ui.Put(c.tools[i], at, y+8, m.Width, m.Height)
	}
	y += figureSize*1.2 - 6
	return y + c.note.Lay(x, y, width) + 12
}
