package app

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"skep/app/lever"
	"skep/app/look"
	"skep/app/quantity"
	"skep/app/ui"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc/design"
)

// offer is a strain that can be set beside the others.
type offer struct {
	strain design.Yeast
	note   string
	own    bool // from the person's own file
	search string
}

// offers are a person's own strains and then the catalogue's. A file of their
// own that can't be read is said in words and left out.
func (y *yeastsPlace) offers() (list []offer, why string) {
	put := func(s design.Yeast, note string, own bool) {
		list = append(list, offer{s, note, own, strings.ToLower(s.Name + " " + note)})
	}
	own, err := userfile.LoadStrains(y.ownPath())
	y.ownRead = nil
	for _, s := range own {
		y.ownRead = append(y.ownRead, s.Yeast)
		put(s.Yeast, s.Note, true)
	}
	if err != nil {
		why = words.T("Your own strains are left out: {{.Why}}", map[string]any{"Why": err.Error()})
	}
	for _, s := range y.b.catalogue.Yeast {
		put(s.Yeast, s.Note, false)
	}
	return list, why
}

// offersSaid are the offers; a file that can't be read is said in the status line.
func (y *yeastsPlace) offersSaid() []offer {
	list, why := y.offers()
	if why != "" {
		y.b.status.warn(why)
	}
	return list
}

// ownPath is the file of a person's own strains.
func (y *yeastsPlace) ownPath() string {
	if y.ownFile != "" {
		return y.ownFile
	}
	return userfile.StrainsPath()
}

// matching are the offers in which every word of a search stands.
func matching(list []offer, search string) []offer {
	words := strings.Fields(strings.ToLower(search))
	if len(words) == 0 {
		return list
	}
	var found []offer
next:
	for _, o := range list {
		for _, w := range words {
			if !strings.Contains(o.search, w) {
				continue next
			}
		}
		found = append(found, o)
	}
	return found
}

// searchEntry is a field from which the arrow leads into the list below it.
type searchEntry struct {
	widget.Entry
	down, escape func()
}

func newSearchEntry() *searchEntry {
	e := &searchEntry{}
	e.ExtendBaseWidget(e)
	return e
}

// AccessibilityLabel says what is searched, and for what.
func (e *searchEntry) AccessibilityLabel() string {
	return words.T("{{.Name}}, {{.Value}}", map[string]any{"Name": e.PlaceHolder, "Value": e.Text})
}
func (e *searchEntry) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleText }

func (e *searchEntry) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyDown:
		e.down()
	case fyne.KeyEscape:
		e.escape()
	default:
		e.Entry.TypedKey(k)
	}
}

// TypedShortcut leaves the window its own.
func (e *searchEntry) TypedShortcut(s fyne.Shortcut) {
	if !lever.PassOn(fyne.CurrentApp().Driver().CanvasForObject(e), s) {
		e.Entry.TypedShortcut(s)
	}
}

// offerList takes a strain with Enter too, and leaves with Escape.
type offerList struct {
	widget.List
	escape func()
}

func (l *offerList) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		l.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	case fyne.KeyEscape:
		l.escape()
	default:
		l.List.TypedKey(k)
	}
}

// picker is the small drawer that offers strains.
type picker struct {
	y      *yeastsPlace
	pop    *widget.PopUp
	search *searchEntry
	list   *offerList
	beside []design.Yeast // what the design has already
	all    []offer
	found  []offer
	count  *ui.Caption
}

// openPicker offers the strains that can be set beside the others.
func (y *yeastsPlace) openPicker() { y.newPicker().show() }

func (y *yeastsPlace) newPicker() *picker {
	p := &picker{y: y}
	var why string
	p.all, why = y.offers()
	p.found = p.all
	p.search = newSearchEntry()
	p.search.SetPlaceHolder(words.T("name or what it is like"))
	p.search.OnChanged = p.narrow
	p.search.OnSubmitted = func(string) { p.take(0) }
	p.search.down = func() { y.b.window.Canvas().Focus(p.list) }
	p.search.escape = func() { p.pop.Hide() }
	p.beside = y.b.editor.Design().Yeast
	p.list = &offerList{escape: func() { p.pop.Hide() }}
	p.list.Length = func() int { return len(p.found) }
	p.list.CreateItem = func() fyne.CanvasObject { return newOfferLine() }
	p.list.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) { o.(*offerLine).fill(p, &p.found[i]) }
	p.list.OnSelected = p.take
	p.list.ExtendBaseWidget(p.list)
	p.count = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)

	define := widget.NewButton(words.T("Define one of your own…"), func() {
		p.pop.Hide()
		y.openForm(-1)
	})
	foot := container.NewVBox()
	if why != "" {
		warning := widget.NewLabel(why)
		warning.Wrapping = fyne.TextWrapWord
		warning.Importance = widget.WarningImportance
		foot.Add(warning)
	}
	foot.Add(container.NewBorder(nil, nil, define, nil, nil))
	head := container.NewVBox(
		container.NewBorder(nil, nil, ui.NewCaption(words.T("Add a strain"), look.TitleSize, true, ui.InkFull), p.count),
		p.search)
	content := container.NewBorder(head, foot, nil, nil, p.list)
	p.pop = widget.NewPopUp(container.New(layout.NewCustomPaddedLayout(10, 10, 14, 14), content), y.b.window.Canvas())
	p.tell()
	return p
}

func (p *picker) show() {
	canvas := p.y.b.window.Canvas().Size()
	size := fyne.NewSize(480, min(canvas.Height-120, 520))
	p.pop.Resize(size)
	p.pop.ShowAtPosition(fyne.NewPos((canvas.Width-size.Width)/2, (canvas.Height-size.Height)/2))
	p.pop.Resize(size)
	p.y.b.window.Canvas().Focus(p.search)
}

// narrow keeps the offers that fit what was typed.
func (p *picker) narrow(text string) {
	p.found = matching(p.all, text)
	p.list.UnselectAll()
	p.list.Refresh()
	p.list.ScrollToTop()
	p.tell()
}

func (p *picker) tell() {
	n := len(p.found)
	if n == 0 {
		p.count.SetText(words.T("nothing fits: try fewer letters"))
		return
	}
	p.count.SetText(words.N("{{.Count}} to choose from", n, map[string]any{"Count": p.y.b.say.Number(quantity.MassG, float64(n))}))
}

// take sets the chosen strain beside the others.
func (p *picker) take(i widget.ListItemID) {
	if i < 0 || i >= len(p.found) {
		return
	}
	strain := p.found[i].strain
	p.pop.Hide()
	if p.y.add(strain) {
		p.y.focusRow(len(p.y.shown) - 1)
	}
}

// offerLine is one strain of the list.
type offerLine struct {
	widget.BaseWidget
	name, figures, note *ui.Caption
}

func newOfferLine() *offerLine {
	l := &offerLine{
		name:    ui.NewCaption("", look.CaptionSize+1, true, ui.InkFull),
		figures: ui.NewCaption("", look.CaptionSize, false, ui.InkFull),
		note:    ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet),
	}
	l.name.Yields, l.note.Yields = true, true
	l.figures.Align = fyne.TextAlignTrailing
	l.ExtendBaseWidget(l)
	return l
}

func (l *offerLine) fill(p *picker, o *offer) {
	l.name.SetText(orUnnamed(o.strain.Name))
	l.figures.SetText(p.y.figures(&o.strain))
	var notes []string
	if o.own {
		notes = append(notes, words.T("your own"))
	}
	if slices.Contains(p.beside, o.strain) {
		notes = append(notes, words.T("stands there already"))
	}
	if o.note != "" {
		notes = append(notes, o.note)
	}
	l.note.SetText(strings.Join(notes, "; "))
	l.Refresh()
}

// figures are a strain's range and temperature in few words.
func (y *yeastsPlace) figures(s *design.Yeast) string {
	return y.b.say.FormatRange(quantity.Percent, s.AttenuationLowPct, s.AttenuationHighPct) + ", " +
		y.b.say.Format(quantity.Temperature, s.TemperatureC)
}

// AccessibilityLabel reads the line out.
func (l *offerLine) AccessibilityLabel() string {
	return l.name.Text + ", " + l.figures.Text + ", " + l.note.Text
}

// AccessibilityRole is that of something to press.
func (l *offerLine) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

func (l *offerLine) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(&offerLayout{}, l.name, l.figures, l.note))
}

type offerLayout struct{}

func (*offerLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(300, 40) }

func (*offerLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	pad := theme.InnerPadding()
	figures := o[1].MinSize()
	put := func(c fyne.CanvasObject, x, y, w float32) {
		c.Move(fyne.NewPos(x, y))
		c.Resize(fyne.NewSize(w, c.MinSize().Height))
	}
	put(o[0], pad, 4, size.Width-figures.Width-3*pad)
	put(o[1], size.Width-figures.Width-pad, 5, figures.Width)
	put(o[2], pad, 21, size.Width-2*pad)
}
