package numberlist

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/lever"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
)

// Row is one line of the numbers: a name, a value and under it its band.
// Pressing it opens where the number comes from. A row of Fyne's list is no Tab stop, and
// says nothing while the pointer is on it.
type Row struct {
	widget.BaseWidget
	Name, value, band *ui.Caption
	fill              func(p *calc.Prediction) (value, band string)
	open              func()
	onHint            func(string)

	back             *canvas.Rectangle
	focused, hovered bool
}

const (
	numberHeight = 36
	numberLine   = 17
)

func newRow(name string, fill func(p *calc.Prediction) (string, string), open func(), hint func(string)) *Row {
	r := &Row{
		Name:  ui.NewCaption(name, look.CaptionSize, false, ui.InkQuiet),
		value: ui.NewCaption("", look.CaptionSize+1, true, ui.InkFull),
		band:  ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet),
		fill:  fill, open: open, onHint: hint,
	}
	r.value.Align, r.band.Align = fyne.TextAlignTrailing, fyne.TextAlignTrailing
	r.Name.Yields, r.band.Yields = true, true
	r.ExtendBaseWidget(r)
	return r
}

var (
	_ fyne.Focusable    = (*Row)(nil)
	_ fyne.Tappable     = (*Row)(nil)
	_ desktop.Hoverable = (*Row)(nil)
	_ fyne.Accessible   = (*Row)(nil)
)

func (r *Row) show(p *calc.Prediction) {
	value, band := r.fill(p)
	r.value.SetText(value)
	r.band.SetText(band)
}

func (r *Row) Tapped(*fyne.PointEvent) { r.open() }

func (r *Row) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		r.open()
	default:
		lever.PassKey(r, k)
	}
}
func (r *Row) TypedRune(rune) {}
func (r *Row) FocusGained()   { r.focused = true; r.Refresh() }
func (r *Row) FocusLost()     { r.focused = false; r.Refresh() }

func (r *Row) MouseIn(*desktop.MouseEvent) {
	r.hovered = true
	r.onHint(words.T("Click to see where this number comes from"))
	r.Refresh()
}
func (r *Row) MouseMoved(*desktop.MouseEvent) {}
func (r *Row) MouseOut() {
	r.hovered = false
	r.onHint("")
	r.Refresh()
}

func (r *Row) AccessibilityLabel() string {
	return r.Name.Text + ", " + r.value.Text + ", " + r.band.Text
}
func (r *Row) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleButton }

func (r *Row) CreateRenderer() fyne.WidgetRenderer {
	r.back = canvas.NewRectangle(color.Transparent)
	r.back.CornerRadius = look.Corner
	p := &rowRenderer{r}
	p.Refresh()
	return p
}

type rowRenderer struct{ r *Row }

func (p *rowRenderer) MinSize() fyne.Size { return fyne.NewSize(160, numberHeight) }

func (p *rowRenderer) Layout(size fyne.Size) {
	r := p.r
	r.back.Resize(size)
	right := size.Width - 4
	value := min(max(r.value.MinSize().Width, 70), right*0.7)
	name, below, first, band := right-value-10, float32(2), right*0.3, right
	if r.Name.LeastWidth() > name { // the name takes the first line for itself
		name, below, first, band = right-4, 2+numberLine-1, 4, right-value-8
	}
	r.Name.Move(fyne.NewPos(4, 3))
	r.Name.Resize(fyne.NewSize(name, numberLine))
	r.value.Move(fyne.NewPos(right-value, below))
	r.value.Resize(fyne.NewSize(value, numberLine))
	r.band.Move(fyne.NewPos(first, 2+numberLine-1))
	r.band.Resize(fyne.NewSize(band-first, numberLine-2))
}

func (p *rowRenderer) Refresh() {
	c := ui.PaletteOf(p.r.Theme())
	b := p.r.back
	b.FillColor, b.StrokeColor, b.StrokeWidth = color.Transparent, color.Transparent, 0
	if p.r.hovered {
		b.FillColor = c.Hover
	}
	if p.r.focused {
		b.StrokeColor, b.StrokeWidth = c.Focus, 2
	}
	p.Layout(p.r.Size())
	b.Refresh()
}

func (p *rowRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{p.r.back, p.r.Name, p.r.value, p.r.band}
}
func (p *rowRenderer) Destroy() {}
