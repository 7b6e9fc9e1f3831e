package plane

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/plotting"
)

// MostCards is how many cards a [WayList] has.
const MostCards = 3

// WayList stacks up to three cards, and scrolls where they need more room than
// it has: the plane above must not change its size with their words. Make one
// with [NewWayList].
type WayList struct {
	widget.BaseWidget

	// OnUse tells which card's button was pressed, counted from 0.
	OnUse func(i int)
	// OnHint tells what a button does, or a text that had to be shortened.
	OnHint func(text string)

	cards  [MostCards]*WayCard
	shown  int
	stack  *fyne.Container
	scroll *container.Scroll
	// around outlives the renderer: it asks for no room, and the toolkit does not
	// lay out anew what asks for none.
	around *fyne.Container
}

const cardGap = 8

// NewWayList makes an empty list.
func NewWayList() *WayList {
	l := &WayList{stack: container.New(&stack{})}
	for i := range l.cards {
		l.cards[i] = newWayCard(Card{})
		l.cards[i].OnUse = func() {
			if l.OnUse != nil {
				l.OnUse(i)
			}
		}
		l.cards[i].OnHint = func(text string) {
			if l.OnHint != nil {
				l.OnHint(text)
			}
		}
		l.cards[i].Hide()
		l.stack.Add(l.cards[i])
	}
	l.scroll = container.NewVScroll(l.stack)
	l.around = container.New(layout.NewCustomPaddedLayout(-bled, -bled, -bled, -bled), l.scroll)
	l.ExtendBaseWidget(l)
	return l
}

// Set shows cards, at most [MostCards].
func (l *WayList) Set(cards []Card) {
	changed := l.shown != min(len(cards), MostCards)
	l.shown = min(len(cards), MostCards)
	for i, w := range l.cards {
		if i < l.shown && w.card != cards[i] {
			w.Set(cards[i])
			changed = true
		}
		show(w, i < l.shown)
	}
	if changed {
		l.scroll.Refresh()
	}
}

// Cards are those shown.
func (l *WayList) Cards() []Card {
	out := make([]Card, l.shown)
	for i := range out {
		out[i] = l.cards[i].card
	}
	return out
}

// CreateRenderer is for Fyne.
func (l *WayList) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(l.around)
}

// bled is how much larger than the list its scroller is: it would cut the cards'
// frames, half of which lie outside them.
const bled = 3

// MinSize is one card.
func (l *WayList) MinSize() fyne.Size { return fyne.NewSize(150, oneCard) }

// stack puts cards under each other, each as high as its words need at its width, which
// Fyne's box does not ask for.
type stack struct{ width float32 }

func (s *stack) Layout(o []fyne.CanvasObject, size fyne.Size) {
	s.width = max(size.Width-2*bled, 0)
	y := float32(bled)
	for _, c := range o {
		if c.Visible() {
			h := c.(*WayCard).HeightFor(s.width)
			c.Move(fyne.NewPos(bled, y))
			c.Resize(fyne.NewSize(s.width, h))
			y += h + cardGap
		}
	}
}

func (s *stack) MinSize(o []fyne.CanvasObject) fyne.Size {
	h := float32(0)
	for _, c := range o {
		if c.Visible() {
			h += c.(*WayCard).HeightFor(max(s.width, 150)) + cardGap
		}
	}
	return fyne.NewSize(150, max(h-cardGap, 0)+2*bled)
}

// Column lays out the third column of the Taste place: the plane above, as
// large as there is room and hardly higher than wide, then the wishes, then
// the ways. Fyne's border would give the plane all that is left. The objects are *Plane,
// *WishRow and *WayList, in this order;
// others before them keep their least height at the top.
type Column struct{}

const (
	columnGap  = 12
	leastPlane = 150
	goodPlane  = 200 // what is still good to drag on
	oneCard    = 56  // with one line each of title and detail
	// roomForWays is kept free below the wishes, or the plane would jump when
	// another way is found.
	roomForWays = MostCards*oneCard + (MostCards-1)*cardGap
)

// Layout is for Fyne.
func (c *Column) Layout(o []fyne.CanvasObject, s fyne.Size) {
	n := len(o)
	if n < 3 {
		return
	}
	y := float32(0)
	put := func(o fyne.CanvasObject, h float32) {
		o.Move(fyne.NewPos(0, y))
		o.Resize(fyne.NewSize(s.Width, h))
		y += h + columnGap
	}
	for _, top := range o[:n-3] {
		put(top, top.MinSize().Height)
	}
	wishes := o[n-2].MinSize().Height
	h := min(s.Height-y-wishes-roomForWays-2*columnGap, s.Width*1.2+plotting.LandingFoot)
	// In a low window the ways scroll rather than that the plane gets too small to
	// drag on.
	h = max(h, min(goodPlane, s.Height-y-wishes-oneCard-2*columnGap))
	put(o[n-3], max(h, leastPlane))
	put(o[n-2], wishes)
	put(o[n-1], max(s.Height-y, 0))
}

// MinSize is for Fyne.
func (c *Column) MinSize(o []fyne.CanvasObject) fyne.Size {
	n := len(o)
	if n < 3 {
		return fyne.Size{}
	}
	h := float32(leastPlane + 2*columnGap)
	for _, top := range o[:n-3] {
		h += top.MinSize().Height + columnGap
	}
	return fyne.NewSize(170, h+o[n-2].MinSize().Height+oneCard)
}
