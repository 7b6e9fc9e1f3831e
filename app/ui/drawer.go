package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui/layouts"
	"skep/app/words"
)

// Drawer is a small popup at the right edge under the bar, as high as what is
// in it and never higher than the window. Fyne's dialogs stand in the middle, over what
// one wants to see while one types.
type Drawer struct {
	host  Host
	pop   *widget.PopUp
	body  *fyne.Container
	view  *container.Scroll
	width float32
	open  bool
	gone  func()
}

const drawerEdge, drawerGap = 16, 8

func NewDrawer(b Host, title string, width float32, parts ...fyne.CanvasObject) *Drawer {
	d := &Drawer{host: b, width: width}
	closer := NewChoice("", false, d.Close)
	closer.Icon, closer.Name = look.IconClose(), words.T("close the drawer")
	head := container.NewBorder(nil, nil, NewCaption(title, look.TitleSize, true, InkFull), closer)
	d.body = container.New(&layouts.Stack{Width: width - 2*drawerEdge, Between: drawerGap}, append([]fyne.CanvasObject{head}, parts...)...)
	d.view = container.NewVScroll(d.body)
	d.pop = widget.NewPopUp(container.New(layout.NewCustomPaddedLayout(10, 12, drawerEdge, 6), d.view), b.Window().Canvas())
	d.open, d.gone = true, b.Over(false, d.Shown, d.Close)
	d.Fit()
	return d
}

// Close closes the drawer.
func (d *Drawer) Close() {
	if !d.open {
		return
	}
	d.open = false
	d.gone()
	d.pop.Hide()
}

// Shown says whether the drawer is open; a press beside it closes it too.
func (d *Drawer) Shown() bool { return d.open && d.pop.Visible() }

// Reveal scrolls what has the keyboard into view, with what stands above and below it.
func (d *Drawer) Reveal(o fyne.CanvasObject) {
	const around = 60
	Reveal(d.view, Position(o).Y-Position(d.body).Y, o.Size().Height, d.body.MinSize().Height, around)
}

// Reveal scrolls what stands so far down in what is scrolled, which is so tall, into
// view, with what stands above and below it.
func Reveal(view *container.Scroll, top, high, tall, around float32) {
	switch shown := view.Size().Height; {
	case top-around < view.Offset.Y:
		view.Offset.Y = max(top-around, 0)
	case top+high+around > view.Offset.Y+shown:
		view.Offset.Y = max(min(top+high+around, tall)-shown, 0)
	default:
		return
	}
	view.Refresh()
}

// Fit gives the drawer the height of what it has to say. One that is closed stays so:
// a field says what is wrong with it as it loses the keyboard, also by closing.
func (d *Drawer) Fit() {
	if !d.Shown() {
		return
	}
	window := d.host.Window().Canvas().Size()
	d.body.Refresh()
	size := fyne.NewSize(d.width, min(d.body.MinSize().Height+24, window.Height-BarHeight-FootHeight-8))
	d.pop.Resize(size)
	d.pop.ShowAtPosition(fyne.NewPos(window.Width-size.Width-drawerEdge, BarHeight+8))
	d.pop.Resize(size)
}

// FieldsLayout is names over their fields, two pairs in a row. Fyne's form has a pair in
// a row with the name beside its field, for which a drawer is too narrow.
type FieldsLayout struct{}

func (*FieldsLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	rows := (len(o)/2 + 1) / 2
	return fyne.NewSize(300, float32(rows)*(FieldHeight()+20+6))
}

func (*FieldsLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	high := FieldHeight()
	w := (size.Width - 16) / 2
	for i := 0; i+1 < len(o); i += 2 {
		x := float32(i/2%2) * (w + 16)
		y := float32(i/4) * (high + 20 + 6)
		Put(o[i], x+2, y+1, w-2, 17)
		field := w
		if c, ok := o[i+1].(*Choice); ok {
			field = min(c.MinSize().Width, w)
		}
		Put(o[i+1], x, y+19, field, high)
	}
}
