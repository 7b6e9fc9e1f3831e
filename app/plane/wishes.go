package plane

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/words"
)

// The keys of the wishes, as the design's taste has them.
const (
	DrynessKey  = "dryness"
	BodyKey     = "body"
	StrengthKey = "strength_pct"
	HoneyKey    = "honey"
	AtHandKey   = "honey_at_hand_kg"
)

// WishRow is "I want" with a box each for dryness, body, strength and the honey's
// character; an empty box is any. Under them stands the honey at hand, which is no
// wish but what the ways keep to. Fyne's form has one pair in a row. Make one with
// [NewWishRow].
type WishRow struct {
	widget.BaseWidget

	// Format writes a wish, Parse reads what was typed and says how it read it;
	// an error is shown. Both get the key.
	Format func(key string, value float64) string
	Parse  func(key, text string) (value float64, echo string, err error)
	// OnWish comes when a person has typed, stepped or taken away a wish; nil
	// is any.
	OnWish func(key string, value *float64)
	// OnHint tells what a box does, for a status line.
	OnHint func(text string)
	// OnNote tells how a typed text was read, or why not, and nothing when what it
	// told holds no more.
	OnNote func(text string, bad bool)

	boxes   [5]*wishBox
	title   *canvas.Text
	note    string
	bad     bool
	noted   *canvas.Text
	created bool
}

// NewWishRow makes a row that wants nothing yet.
func NewWishRow(format func(key string, value float64) string, parse func(key, text string) (float64, string, error)) *WishRow {
	r := &WishRow{Format: format, Parse: parse,
		title: canvas.NewText("", color.Black), noted: canvas.NewText("", color.Black)}
	r.boxes = [5]*wishBox{
		newWishBox(r, DrynessKey, 1, 100), newWishBox(r, BodyKey, 1, 100), newWishBox(r, StrengthKey, 0.1, 20),
		newWishBox(r, HoneyKey, 1, 100), newWishBox(r, AtHandKey, 0.05, 50)}
	r.ExtendBaseWidget(r)
	return r
}

// Set shows a wish; nil is any. It tells nobody. A box that is being typed
// into keeps its text.
func (r *WishRow) Set(key string, value *float64) {
	for _, b := range r.boxes {
		if b.key == key {
			b.set(value)
		}
	}
}

// Value is a wish as it stands.
func (r *WishRow) Value(key string) *float64 {
	for _, b := range r.boxes {
		if b.key == key && b.value != nil {
			v := *b.value
			return &v
		}
	}
	return nil
}

// Focus begins typing the first wish.
func (r *WishRow) Focus() { r.boxes[0].edit("") }

func (r *WishRow) hint(text string) {
	if r.OnHint != nil {
		r.OnHint(text)
	}
}

// show shows how a text was read, or why not.
func (r *WishRow) show(text string, bad bool) {
	r.note, r.bad = text, bad
	if r.created {
		r.layNote()
	}
	if r.OnNote != nil {
		r.OnNote(text, bad)
	}
}

// forget takes the row's own line away, and leaves the window what it was told.
func (r *WishRow) forget() {
	r.note = ""
	if r.created {
		r.layNote()
	}
}

func nameOf(key string) string {
	switch key {
	case DrynessKey:
		return words.T("dryness")
	case BodyKey:
		return words.T("body")
	case HoneyKey:
		return words.T("honey character")
	case AtHandKey:
		return words.T("honey at hand")
	}
	return words.T("strength")
}

const (
	wishTitle = 22
	wishName  = 18
	wishGap   = 10
	wishLine  = 6 // between the two lines of boxes
	// firstLine is how many boxes stand in the first line, three to its width; the
	// two of the second share it.
	firstLine = 3
)

// CreateRenderer is for Fyne.
func (r *WishRow) CreateRenderer() fyne.WidgetRenderer {
	r.created = true
	w := &wishRenderer{r: r}
	for i, b := range r.boxes {
		w.names[i] = canvas.NewText("", color.Black)
		w.objects = append(w.objects, w.names[i], b)
	}
	w.objects = append(w.objects, r.title, r.noted)
	w.Refresh()
	return w
}

type wishRenderer struct {
	r       *WishRow
	names   [5]*canvas.Text
	objects []fyne.CanvasObject
}

func (w *wishRenderer) Layout(s fyne.Size) {
	w.r.title.Move(fyne.NewPos(0, 0))
	w.r.title.Resize(w.r.title.MinSize())
	for i, b := range w.r.boxes {
		in, at, y := float32(firstLine), i, float32(wishTitle)
		if i >= firstLine {
			in, at, y = float32(len(w.r.boxes)-firstLine), i-firstLine, y+wishName+look.Control+wishLine
		}
		cell := max((s.Width-(in-1)*wishGap)/in, 0)
		x := float32(at) * (cell + wishGap)
		w.names[i].Move(fyne.NewPos(x, y))
		w.names[i].Resize(fyne.NewSize(cell, wishName))
		w.fitName(i, cell)
		b.Move(fyne.NewPos(x, y+wishName))
		b.Resize(fyne.NewSize(cell, look.Control))
	}
	w.r.layNote()
}

// fitName sets a box's name smaller where the box is narrower.
func (w *wishRenderer) fitName(i int, width float32) {
	const least = 0.75
	n := w.names[i]
	n.TextSize = look.CaptionSize
	for n.TextSize > least*look.CaptionSize && fyne.MeasureText(n.Text, n.TextSize, n.TextStyle).Width > width {
		n.TextSize -= 0.25 // a text is not as much narrower as its size is less
	}
	n.Refresh()
}

// layNote puts the note beside the title, shortened to the room there.
func (r *WishRow) layNote() {
	c := paletteOf(r)
	ink := c.Quiet
	if r.bad {
		ink = c.Error
	}
	left := r.title.MinSize().Width + 12
	text := look.Shortened(r.note, max(r.Size().Width-left, 0), look.Widths(look.CaptionSize, false))
	write(r.noted, text, ink, false, look.CaptionSize)
	size := r.noted.MinSize()
	r.noted.Move(fyne.NewPos(r.Size().Width-size.Width, 2))
	r.noted.Resize(size)
}

func (w *wishRenderer) MinSize() fyne.Size {
	return fyne.NewSize(firstLine*50+(firstLine-1)*wishGap, wishTitle+2*(wishName+look.Control)+wishLine)
}

func (w *wishRenderer) Refresh() {
	c := paletteOf(w.r)
	write(w.r.title, words.T("I want"), c.Quiet, false, look.TextSize)
	for i, b := range w.r.boxes {
		write(w.names[i], nameOf(b.key), c.Quiet, false, look.CaptionSize)
		w.fitName(i, max(b.Size().Width, 1))
		b.style()
	}
	w.r.layNote()
}

func (w *wishRenderer) Objects() []fyne.CanvasObject { return w.objects }
func (w *wishRenderer) Destroy()                     {}

// paletteOf is what a widget draws with.
func paletteOf(w fyne.Widget) look.Palette {
	th := fyne.CurrentApp().Settings().Theme()
	if t, ok := w.(interface{ Theme() fyne.Theme }); ok {
		th = t.Theme()
	}
	return look.PaletteOf(th, fyne.CurrentApp().Settings().ThemeVariant())
}
