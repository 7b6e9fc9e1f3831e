// Package picker is the drawer in which one searches a list and takes one of it. A
// title and the items come in; what was taken does what its item says. It must not
// know what it lists.
package picker

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"skep/app/lever"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
)

// Item is something that can be taken from a list: what it is and how.
type Item struct {
	Name, Figures, Note string
	Take                func()
	Stay                bool // the drawer stays open: Take fills it anew
}

// Picker is the small drawer in which one searches a list and takes one of it. Fyne's
// select entry neither narrows its list while one types nor shows figures beside a name.
type Picker struct {
	// Own makes an item of what was typed and is not in the list; nil: it can't.
	Own func(name string) Item
	// Foot stands under the list; nil: nothing does.
	Foot fyne.CanvasObject

	Search *ui.Entry
	Found  []Item

	host  ui.Host
	all   []Item
	list  *pickList
	title *ui.Caption
	count *ui.Caption
	pop   *widget.PopUp
	gone  func() // nil: it is not shown
}

// New makes a picker of a list; holder says what may be searched for.
func New(h ui.Host, title, holder string, all []Item) *Picker {
	p := &Picker{host: h, all: all, title: ui.NewCaption(title, look.TitleSize, true, ui.InkFull)}
	p.title.Yields = true
	p.Search = ui.NewEntry(h)
	p.Search.SetPlaceHolder(holder)
	p.Search.OnChanged = p.Narrow
	p.Search.OnSubmitted = func(string) { p.Take(0) }
	p.Search.Down = func() { ui.Focus(h, p.list) }
	p.Search.Leave = p.Hide
	p.list = &pickList{escape: p.Hide}
	p.list.Length = func() int { return len(p.Found) }
	p.list.CreateItem = func() fyne.CanvasObject { return newPickLine() }
	p.list.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) { o.(*pickLine).fill(&p.Found[i]) }
	p.list.OnSelected = p.Take
	p.list.ExtendBaseWidget(p.list)
	p.count = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)
	p.Narrow("")
	return p
}

// Show opens the drawer.
func (p *Picker) Show() {
	head := container.NewVBox(
		container.NewBorder(nil, nil, nil, p.count, p.title),
		p.Search)
	content := container.NewBorder(head, p.Foot, nil, nil, p.list)
	window := p.host.Window().Canvas()
	p.pop = widget.NewPopUp(container.New(layout.NewCustomPaddedLayout(10, 10, 14, 14), content), window)
	size := fyne.NewSize(480, min(window.Size().Height-120, 520))
	p.pop.Resize(size)
	p.pop.ShowAtPosition(fyne.NewPos((window.Size().Width-size.Width)/2, (window.Size().Height-size.Height)/2))
	p.pop.Resize(size)
	p.gone = p.host.Over(false, p.Shown, p.Hide)
	ui.Focus(p.host, p.Search)
}

// Shown says whether the drawer is open; a press beside it closes it too.
func (p *Picker) Shown() bool { return p.gone != nil && p.pop.Visible() }

// Fill shows another list under another title.
func (p *Picker) Fill(title string, all []Item) {
	p.title.SetText(title)
	p.all = all
	p.Search.SetText("")
	p.Narrow("")
	ui.Focus(p.host, p.Search)
}

// Say tells what is on its way in the place of how many there are.
func (p *Picker) Say(text string) { p.count.SetText(text) }

// Hide closes it.
func (p *Picker) Hide() {
	if p.pop != nil && p.gone != nil {
		p.gone()
		p.gone = nil
		p.pop.Hide()
	}
}

// Narrow keeps what has every word of what was typed, and offers that as a name
// of one's own.
func (p *Picker) Narrow(text string) {
	p.Found = nil
	typed := strings.Fields(strings.ToLower(text))
next:
	for _, item := range p.all {
		in := strings.ToLower(item.Name + " " + item.Note)
		for _, w := range typed {
			if !strings.Contains(in, w) {
				continue next
			}
		}
		p.Found = append(p.Found, item)
	}
	n := len(p.Found)
	p.count.SetText(words.N("{count} to choose from", "{count} to choose from", n))
	if name := strings.TrimSpace(text); name != "" && p.Own != nil {
		p.Found = append(p.Found, p.Own(name))
	} else if n == 0 {
		p.count.SetText(words.T("nothing fits: try fewer letters"))
	}
	p.list.UnselectAll()
	p.list.Refresh()
	p.list.ScrollToTop()
}

// Take takes the i-th of what is found.
func (p *Picker) Take(i widget.ListItemID) {
	if i < 0 || i >= len(p.Found) {
		return
	}
	item := p.Found[i]
	if !item.Stay {
		p.Hide()
	}
	item.Take()
}

// pickList takes an item with Enter too, which the toolkit's lacks, and leaves
// with Escape.
type pickList struct {
	widget.List
	escape func()
}

func (l *pickList) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		l.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	case fyne.KeyEscape:
		l.escape()
	case fyne.KeyF1:
		lever.PassKey(l, k)
	default:
		l.List.TypedKey(k)
	}
}

// pickLine is one item of the list.
type pickLine struct {
	widget.BaseWidget
	name, figures, note *ui.Caption
}

func newPickLine() *pickLine {
	l := &pickLine{
		name:    ui.NewCaption("", look.CaptionSize+1, true, ui.InkFull),
		figures: ui.NewCaption("", look.CaptionSize, false, ui.InkFull),
		note:    ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet),
	}
	l.name.Yields, l.note.Yields = true, true
	l.figures.Align = fyne.TextAlignTrailing
	l.ExtendBaseWidget(l)
	return l
}

func (l *pickLine) fill(item *Item) {
	l.name.SetText(item.Name)
	l.figures.SetText(item.Figures)
	l.note.SetText(item.Note)
	l.Refresh()
}

// AccessibilityLabel reads the line out.
func (l *pickLine) AccessibilityLabel() string {
	return l.name.Text + ", " + l.figures.Text + ", " + l.note.Text
}

// AccessibilityRole is that of something to press.
func (l *pickLine) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

func (l *pickLine) CreateRenderer() fyne.WidgetRenderer {
	pad := theme.InnerPadding()
	return widget.NewSimpleRenderer(container.New(layout.NewCustomPaddedLayout(4, 4, pad, pad),
		container.New(layout.NewCustomPaddedVBoxLayout(2), container.NewBorder(nil, nil, nil, l.figures, l.name), l.note)))
}
