package plane

import (
	"image/color"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/words"
)

// CardKind is what a card tells.
type CardKind uint8

// The kinds of card.
const (
	WayThere    CardKind = iota // a way that reaches the wish
	Searching                   // still looking
	NoneAsked                   // nothing is wished for, or nothing may move
	Unreachable                 // the nearest that can be had
)

// Card is what a [WayCard] shows.
type Card struct {
	Kind CardKind
	// Number ties the card to its ring on the plane; 0 for none.
	Number int
	// Title is what to do: "2.5 °C cooler, same yeast". Where it is empty a
	// word for the kind stands.
	Title string
	// Detail is what it gives up: "lands within 1; 0.3 % stronger".
	Detail string
	// Use is the word on the button; empty is "use" on a way and no button on
	// the others.
	Use string
}

func (c Card) title() string {
	if c.Title != "" {
		return c.Title
	}
	switch c.Kind {
	case Searching:
		return words.T("Looking for a way…")
	case NoneAsked:
		return words.T("Drag the pin, or type what you want")
	case Unreachable:
		return words.T("Out of reach")
	}
	return ""
}

func (c Card) use() string {
	if c.Use == "" && c.Kind == WayThere {
		return words.T("use")
	}
	return c.Use
}

// WayCard is one answer: in words, with what it costs, and a button that takes
// it. Fyne's card does not wrap its title. Make one with [newWayCard].
type WayCard struct {
	widget.BaseWidget

	// OnUse comes when the button is pressed.
	OnUse func()
	// OnHint tells the whole text where it had to be shortened.
	OnHint func(text string)

	card   Card
	ground *canvas.Rectangle
	ring   *canvas.Circle
	number *canvas.Text
	lines  [titleLines + detailLines]*canvas.Text
	button *useButton
}

var (
	_ fyne.Accessible   = (*WayCard)(nil)
	_ desktop.Hoverable = (*WayCard)(nil)
)

const (
	cardPad                 = 10
	titleLines, detailLines = 6, 9 // at most
	cardGapIn               = 3    // between them
	cardRing                = 8.5
)

// newWayCard makes a card.
func newWayCard(card Card) *WayCard {
	w := &WayCard{card: card, ground: canvas.NewRectangle(color.Transparent), ring: canvas.NewCircle(color.Transparent),
		number: canvas.NewText("", color.Black)}
	for i := range w.lines {
		w.lines[i] = canvas.NewText("", color.Black)
	}
	w.ground.CornerRadius = look.PanelCorner
	w.button = newUseButton(func() {
		if w.OnUse != nil {
			w.OnUse()
		}
	}, func(text string) {
		if w.OnHint != nil {
			w.OnHint(text)
		}
	})
	w.ExtendBaseWidget(w)
	return w
}

// Set shows another card.
func (w *WayCard) Set(card Card) {
	if w.card == card {
		return
	}
	w.card = card
	w.Refresh()
}

// Card is what is shown.
func (w *WayCard) Card() Card { return w.card }

// HeightFor is the height that the card's text needs at a width.
func (w *WayCard) HeightFor(width float32) float32 {
	title, detail := w.broken(width)
	return cardHeight(len(title), len(detail))
}

func cardHeight(title, detail int) float32 {
	h := 2*cardPad + float32(title)*lineHeight(look.TextSize) + float32(detail)*lineHeight(look.CaptionSize)
	if title > 0 && detail > 0 {
		h += cardGapIn
	}
	return max(h, look.Control+8)
}

func lineHeight(size float32) float32 {
	return fyne.MeasureText("x", size, fyne.TextStyle{}).Height + 1
}

// broken is the text in lines for a width.
func (w *WayCard) broken(width float32) (title, detail []string) {
	room := width - 2*cardPad - w.indent()
	titled := room
	if w.card.use() != "" {
		titled -= w.buttonWidth() + 2
	}
	return look.Wrapped(w.card.title(), max(titled, 20), titleLines, look.Widths(look.TextSize, w.bold())),
		look.Wrapped(w.card.Detail, max(room, 20), detailLines, look.Widths(look.CaptionSize, false))
}

func (w *WayCard) bold() bool { return w.card.Kind == WayThere || w.card.Kind == Unreachable }

func (w *WayCard) indent() float32 {
	if w.card.Number > 0 {
		return 2*cardRing + 7
	}
	return 0
}

func (w *WayCard) buttonWidth() float32 {
	return fyne.MeasureText(w.card.use(), look.TextSize, fyne.TextStyle{}).Width + 2*linkPad
}

// MouseIn gives the whole text where it had to be shortened.
func (w *WayCard) MouseIn(*desktop.MouseEvent) {
	title, detail := w.broken(w.Size().Width)
	if w.OnHint != nil && (strings.Join(title, " ") != w.card.title() || strings.Join(detail, " ") != w.card.Detail) {
		w.OnHint(w.AccessibilityLabel())
	}
}

// MouseMoved is of no interest.
func (w *WayCard) MouseMoved(*desktop.MouseEvent) {}

// MouseOut takes the hint back.
func (w *WayCard) MouseOut() {
	if w.OnHint != nil {
		w.OnHint("")
	}
}

// AccessibilityLabel is the whole text.
func (w *WayCard) AccessibilityLabel() string {
	text := w.card.title()
	if w.card.Number > 0 {
		text = words.T("way {number}: {title}", w.card.Number, text)
	}
	if w.card.Detail != "" {
		text += ", " + w.card.Detail
	}
	return text
}

// AccessibilityRole is a container: its button is named by itself.
func (w *WayCard) AccessibilityRole() fyne.AccessibleRole { return fyne.AccessibleRoleContainer }

// CreateRenderer is for Fyne.
func (w *WayCard) CreateRenderer() fyne.WidgetRenderer {
	r := &cardRenderer{w: w, objects: []fyne.CanvasObject{w.ground, w.ring, w.number}}
	for _, l := range w.lines {
		r.objects = append(r.objects, l)
	}
	r.objects = append(r.objects, w.button)
	r.Refresh()
	return r
}

type cardRenderer struct {
	w       *WayCard
	objects []fyne.CanvasObject
}

// Layout breaks the text for the width and sets it in the middle of the
// height.
func (r *cardRenderer) Layout(s fyne.Size) {
	w := r.w
	c := paletteOf(w)
	w.ground.Resize(s)
	title, detail := w.broken(s.Width)
	y := max((s.Height-cardHeight(len(title), len(detail)))/2, 0) + cardPad
	first := y + lineHeight(look.TextSize)/2
	ink := c.Ink
	if !w.bold() {
		ink = c.Quiet
	}
	set := func(i int, lines []string, k int, size float32, bold bool, ink color.NRGBA) {
		l := w.lines[i]
		text := ""
		if k < len(lines) {
			text = lines[k]
		}
		write(l, text, ink, bold, size)
		show(l, text != "")
		if text == "" {
			return
		}
		l.Move(fyne.NewPos(cardPad+w.indent(), y))
		l.Resize(l.MinSize())
		y += lineHeight(size)
	}
	for k := range titleLines {
		set(k, title, k, look.TextSize, w.bold(), ink)
	}
	y += cardGapIn
	for k := range detailLines {
		set(titleLines+k, detail, k, look.CaptionSize, false, c.Quiet)
	}
	numbered := w.card.Number > 0
	show(w.ring, numbered)
	show(w.number, numbered)
	middle := fyne.NewPos(cardPad+cardRing, first)
	put(w.ring, middle, cardRing)
	write(w.number, strconv.Itoa(w.card.Number), c.Ink, true, 11)
	size := w.number.MinSize()
	w.number.Move(middle.SubtractXY(size.Width/2, size.Height/2))
	w.number.Resize(size)

	show(w.button, w.card.use() != "")
	w.button.Resize(fyne.NewSize(w.buttonWidth(), look.Control))
	w.button.Move(fyne.NewPos(s.Width-cardPad-w.buttonWidth()+linkPad, first-look.Control/2))
}

func (r *cardRenderer) MinSize() fyne.Size {
	width := r.w.Size().Width
	if width < 120 {
		width = 120
	}
	return fyne.NewSize(120, r.w.HeightFor(width))
}

func (r *cardRenderer) Refresh() {
	w := r.w
	c := paletteOf(w)
	w.ground.FillColor, w.ground.StrokeColor, w.ground.StrokeWidth = c.Field, c.PanelBorder, 1
	w.ring.FillColor, w.ring.StrokeColor, w.ring.StrokeWidth = c.Panel, c.Ink, 1.4
	w.ground.Refresh()
	w.ring.Refresh()
	w.button.set(w.card.use(), words.T("set the levers so: {title} (undo takes it back)", w.card.title()))
	w.button.Refresh()
	r.Layout(w.Size())
}

func (r *cardRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *cardRenderer) Destroy()                     {}
