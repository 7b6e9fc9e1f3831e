package brew

import (
	"image/color"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/calculations"
	"skep/app/lever"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// spine is the day in one line, top to bottom: where one is, where something
// does not fit, and the drawers below.
type spine struct {
	p     *Place
	items []*spineItem
	tools []*ui.Choice
	// brewThis makes a batch of a design, brewAgain a design of a batch.
	brewThis, brewAgain *ui.Choice
	object              fyne.CanvasObject
}

func newSpine(p *Place) *spine {
	s := &spine{p: p}
	title := ui.NewCaption(words.T("The day"), look.TitleSize, true, ui.InkFull)
	objects := []fyne.CanvasObject{title}
	for i, c := range p.cards {
		item := &spineItem{s: s, at: i, text: c.usual, current: i == p.current}
		item.ExtendBaseWidget(item)
		s.items = append(s.items, item)
		objects = append(objects, item)
	}
	tool := func(text, hint string, tap func()) *ui.Choice {
		c := ui.NewChoice(text, false, tap)
		c.Ink, c.TextSize, c.Hint, c.OnHint = ui.InkAccent, 13, hint, p.host.Hint
		s.tools = append(s.tools, c)
		objects = append(objects, c)
		return c
	}
	start := tool(words.T("Start the day"), words.T("One step at a time in large figures, with the clocks running (Ctrl+D)"), func() {
		if p.StartDay != nil {
			p.StartDay()
		}
	})
	start.Bold, start.TextSize = true, look.TitleSize
	s.brewThis = tool(words.T("Brew this"), words.T("Makes a batch of today: a file of its own, into which the measurements go; the design stays as it is"), func() {
		if p.BrewThis != nil {
			p.BrewThis()
		}
	})
	tool(words.T("Vessel and scaling"), words.T("What stays behind where; the same beer in another volume or strength"), func() { p.vessel.Open("") })
	tool(words.T("Calculations"), words.T("Gravity, strength, priming and the rest of the table, one at a time"), func() { calculations.Open(p.host) })
	tool(words.T("Print the day"), words.T("A sheet of one or two pages to brew from (Ctrl+P)"), p.Print)
	s.brewAgain = tool(words.T("Brew again"), words.T("Makes a new design of this batch, without its readings and with what was learnt"), func() {
		if p.BrewAgain != nil {
			p.BrewAgain()
		}
	})
	s.object = container.New(&spineLayout{s}, objects...)
	return s
}

// sync shows what can be made of the design. The two stand in places of their own: a
// second press where the first was must not undo it.
func (s *spine) sync(d *design.Design) {
	s.brewThis.SetOff(d.Batch.Brewed != "")
	s.brewAgain.SetOff(d.Batch.Brewed == "")
}

// show marks the steps that do not fit.
func (s *spine) show(f *dayFrame) {
	for i, c := range s.p.cards {
		item := s.items[i]
		n := 0
		if step, ok := f.day.Step(c.key); ok {
			n = len(step.Warnings)
		}
		if item.text != c.usual || item.warnings != n {
			item.text, item.warnings = c.usual, n
			item.Refresh()
		}
	}
}

// mark shows where one is.
func (s *spine) mark() {
	for i, item := range s.items {
		if now := i == s.p.current; item.current != now {
			item.current = now
			item.Refresh()
		}
	}
}

// spineLayout is the steps from the top, drawn in where the window is low, and the tools
// at the foot. Fyne's box leaves every row its least height.
type spineLayout struct{ s *spine }

// leastStep is the least height of a step: what can be pressed (WCAG 2.2, 2.5.8).
const leastStep = 24

func (l *spineLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(140, o[0].MinSize().Height+18+leastStep*float32(len(l.s.items))+ui.ChoiceHeight*float32(len(l.s.tools)))
}

func (l *spineLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	title := o[0].MinSize()
	ui.Put(o[0], 2, 0, size.Width-2, title.Height)
	y := title.Height + 8
	foot := float32(len(l.s.tools)) * ui.ChoiceHeight
	n := float32(len(l.s.items))
	row := min(max((size.Height-foot-10-y)/n, leastStep), 38)
	for _, i := range l.s.items {
		ui.Put(i, 0, y, size.Width, row)
		y += row
	}
	y = size.Height - foot
	for _, t := range l.s.tools {
		ui.Put(t, -ui.ChoicePad+2, y, min(t.MinSize().Width, size.Width+ui.ChoicePad), ui.ChoiceHeight)
		y += ui.ChoiceHeight
	}
}

// spineItem is one step on the line. Fyne's list draws no line through its rows, and its
// rows can't say that something does not fit.
type spineItem struct {
	widget.BaseWidget
	s        *spine
	at       int
	text     string
	warnings int
	current  bool

	focused, hovered bool
}

var (
	_ fyne.Focusable    = (*spineItem)(nil)
	_ fyne.Disableable  = (*spineItem)(nil)
	_ fyne.Tappable     = (*spineItem)(nil)
	_ desktop.Hoverable = (*spineItem)(nil)
	_ fyne.Accessible   = (*spineItem)(nil)
)

// Tapped goes to the step.
func (i *spineItem) Tapped(*fyne.PointEvent) {
	i.s.p.goToStep(i.at)
	ui.Focus(i.s.p.host, i)
}

func (i *spineItem) MouseIn(*desktop.MouseEvent) {
	i.hovered = true
	i.Refresh()
	if i.warnings > 0 {
		i.s.p.host.Hint(words.T("Something does not fit here: the step says what to change"))
	}
}
func (i *spineItem) MouseMoved(*desktop.MouseEvent) {}
func (i *spineItem) MouseOut() {
	i.hovered = false
	i.Refresh()
	i.s.p.host.Hint("")
}

// Disabled keeps all steps but the current one out of the Tab order: the line is one
// stop, and the arrows walk it.
func (i *spineItem) Disabled() bool { return !i.current && !i.focused }

// Enable and Disable do nothing: it is the scrolling that says which step is current.
func (i *spineItem) Enable()  {}
func (i *spineItem) Disable() {}

func (i *spineItem) FocusGained()   { i.focused = true; i.Refresh() }
func (i *spineItem) FocusLost()     { i.focused = false; i.Refresh() }
func (i *spineItem) TypedRune(rune) {}

// TypedKey walks the line; the steps go with it.
func (i *spineItem) TypedKey(k *fyne.KeyEvent) {
	to := i.at
	switch k.Name {
	case fyne.KeyUp:
		to--
	case fyne.KeyDown:
		to++
	case fyne.KeyHome:
		to = 0
	case fyne.KeyEnd:
		to = len(i.s.items) - 1
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
	case fyne.KeyPageDown, fyne.KeyPageUp:
		i.s.p.page(k.Name == fyne.KeyPageDown)
		return
	default:
		lever.PassKey(i, k)
		return
	}
	if to >= 0 && to < len(i.s.items) {
		i.s.p.goToStep(to)
		ui.Focus(i.s.p.host, i.s.items[to])
	}
}

// page scrolls by a view.
func (p *Place) page(down bool) {
	by := p.scroll.Size().Height - 60
	if !down {
		by = -by
	}
	p.scroll.Offset.Y = max(min(p.scroll.Offset.Y+by, p.tall-p.scroll.Size().Height), 0)
	p.scroll.Refresh()
	p.scrolled()
}

// AccessibilityLabel names the step.
func (i *spineItem) AccessibilityLabel() string {
	if i.warnings > 0 {
		return words.T("step {n}, {title}, something does not fit", strconv.Itoa(i.at+1), i.text)
	}
	return words.T("step {n}, {title}", strconv.Itoa(i.at+1), i.text)
}

// AccessibilityRole is a button.
func (i *spineItem) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

func (i *spineItem) CreateRenderer() fyne.WidgetRenderer {
	r := &spineItemRenderer{i: i, back: canvas.NewRectangle(color.Transparent), line: canvas.NewRectangle(color.Transparent),
		dot: canvas.NewCircle(color.Transparent), text: canvas.NewText("", color.Black), mark: canvas.NewText("!", color.Black)}
	r.back.CornerRadius = look.Corner
	r.mark.TextStyle.Bold = true
	r.Refresh()
	return r
}

type spineItemRenderer struct {
	i          *spineItem
	back, line *canvas.Rectangle
	dot        *canvas.Circle
	text, mark *canvas.Text
}

func (r *spineItemRenderer) MinSize() fyne.Size { return fyne.NewSize(120, look.Control) }

func (r *spineItemRenderer) Layout(size fyne.Size) {
	const x = 9
	ui.Put(r.back, 0, 0, size.Width, size.Height)
	top, high := float32(0), size.Height
	if r.i.at == 0 {
		top, high = size.Height/2, size.Height/2
	} else if r.i.at == len(r.i.s.items)-1 {
		high = size.Height / 2
	}
	ui.Put(r.line, x-0.75, top, 1.5, high)
	d := float32(9)
	if r.i.current {
		d = 12
	}
	ui.Put(r.dot, x-d/2, (size.Height-d)/2, d, d)
	m := r.text.MinSize()
	ui.Put(r.text, x+16, (size.Height-m.Height)/2, m.Width, m.Height)
	m = r.mark.MinSize()
	ui.Put(r.mark, size.Width-m.Width-7, (size.Height-m.Height)/2, m.Width, m.Height)
}

func (r *spineItemRenderer) Refresh() {
	i, p := r.i, ui.PaletteOf(r.i.Theme())
	r.line.FillColor = p.Track
	r.dot.StrokeWidth, r.dot.StrokeColor, r.dot.FillColor = 2, p.Track, p.Panel
	r.text.Text, r.text.TextSize, r.text.Color = i.text, 13.5, p.Quiet
	r.text.TextStyle = fyne.TextStyle{Bold: i.current}
	if i.current {
		r.dot.StrokeColor, r.dot.FillColor, r.text.Color = p.Accent, p.Accent, p.Ink
	}
	r.mark.Hidden = i.warnings == 0
	r.mark.Color, r.mark.TextSize = p.Warning, 15
	r.back.FillColor, r.back.StrokeColor, r.back.StrokeWidth = color.Transparent, color.Transparent, 0
	if i.hovered {
		r.back.FillColor = p.Hover
	}
	if i.focused {
		r.back.StrokeColor, r.back.StrokeWidth = p.Focus, 2
	}
	r.Layout(i.Size())
	for _, o := range r.Objects() {
		o.Refresh()
	}
}

func (r *spineItemRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.back, r.line, r.dot, r.text, r.mark}
}
func (r *spineItemRenderer) Destroy() {}
