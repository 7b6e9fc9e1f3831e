package plane

import (
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/words"
)

// Plane is the landing plane. Make one with [New].
type Plane struct {
	widget.BaseWidget

	// OnPin comes while the pin moves; nil is an axis left free, both nil that
	// the wish was taken away. Whole index points.
	OnPin func(dryness, body *float64)
	// OnPinEnd comes once when that is over, also after Escape has put the pin
	// back.
	OnPinEnd func()
	// OnArrow comes while an arrow is pulled: natural steps from where its
	// lever stood when the pull began, 0 when Escape gives it up.
	OnArrow func(lever string, steps float64)
	// OnArrowEnd comes once when that is over.
	OnArrowEnd func(lever string)
	// OnHint tells what is under the pointer or chosen by the keys, for a
	// status line; empty for nothing.
	OnHint func(text string)
	// OnZoom tells that a person went from the closer look to the whole plane
	// or back, for the settings.
	OnZoom func(whole bool)

	now     landing
	ways    []Point
	wish    Wish
	palette look.Palette

	whole   bool // the person wants all of it
	moving  bool // the owner moves a lever: the axes keep still
	shown   window
	goal    window
	sliding *fyne.Animation
	placed  bool // there was a first landing to choose the window for

	frame              box // of the plane, within the widget
	marks, marksBefore []arrowMark
	boxes              []box
	sizes              map[string]fyne.Size
	words              axisWords
	painter            painter
	stale              bool

	grip             grip
	chosen           string // the lever whose arrow the keys pull; empty: they move the pin
	over             target
	hovered, focused bool
	shift, pressed   bool
	down             fyne.KeyName
	hinted           string

	parts *parts
}

type axisWords struct{ dry, sweet, full, light string }

// The gestures that the plane takes part in.
var (
	_ fyne.Focusable     = (*Plane)(nil)
	_ fyne.Draggable     = (*Plane)(nil)
	_ fyne.Tappable      = (*Plane)(nil)
	_ fyne.Accessible    = (*Plane)(nil)
	_ desktop.Keyable    = (*Plane)(nil)
	_ desktop.Mouseable  = (*Plane)(nil)
	_ desktop.Hoverable  = (*Plane)(nil)
	_ desktop.Cursorable = (*Plane)(nil)
)

// New makes an empty plane.
func New() *Plane {
	p := &Plane{shown: wholePlane, goal: wholePlane, sizes: map[string]fyne.Size{}, stale: true}
	p.speak()
	p.ExtendBaseWidget(p)
	return p
}

// speak words the ends of the axes, with their numbers where those are not 0
// and 100. While the axes slide the numbers are already those of the end.
func (p *Plane) speak() {
	p.words = axisWords{dry: words.T("dry"), sweet: words.T("sweet"), full: words.T("full"), light: words.T("light")}
	if w := p.goal; w != wholePlane {
		number := func(v float64) string { return " " + strconv.Itoa(int(v)) }
		p.words.dry += number(w.dHigh)
		p.words.sweet += number(w.dLow)
		p.words.full += number(w.bHigh)
		p.words.light += number(w.bLow)
	}
}

// Set shows a landing. The plane takes a copy; the slices remain the caller's.
// Like everything here it is for Fyne's goroutine.
func (p *Plane) Set(d Data) {
	p.now.set(&d)
	p.aim()
	p.replace(true)
}

// SetWays shows where the answers land, numbered from 1.
func (p *Plane) SetWays(at []Point) {
	p.ways = p.ways[:0]
	for _, w := range at {
		if !w.finite() {
			w = Point{-1, -1} // keeps its number, isn't drawn
		}
		p.ways = append(p.ways, w)
	}
	p.aim()
	p.replace(false)
}

// SetPin shows the wish. It is the programme's way and tells nobody; while a
// person drags the pin it is ignored.
func (p *Plane) SetPin(w Wish) {
	w = w.clean()
	if p.grip.kind == onPin || p.wish.equal(w) {
		return
	}
	p.wish = w
	p.aim()
	p.replace(true) // words keep off the pin
}

// Pin is the wish as it stands.
func (p *Plane) Pin() Wish { return p.wish.clean() }

// SetMoving says that a lever is being moved: until it is said to be over the
// axes keep still, except outwards when something would leave the plane.
func (p *Plane) SetMoving(moving bool) {
	if p.moving == moving {
		return
	}
	p.moving = moving
	p.aim()
}

// SetWhole chooses between the whole plane and the closer look at what the
// levers can reach, without telling OnZoom.
func (p *Plane) SetWhole(whole bool) {
	if p.whole == whole {
		return
	}
	p.whole = whole
	p.aim()
	p.replace(false)
}

// needed is what the closer look must hold.
func (p *Plane) needed() extent {
	e := nowhere()
	if !p.now.known {
		return e
	}
	e.add(p.now.here)
	e.addAll(&p.now.reach)
	e.addAll(&p.now.most)
	if p.now.ghosted {
		e.add(p.now.ghost.At)
	}
	mid := p.now.here
	if p.wish.Dryness != nil {
		mid.Dryness = *p.wish.Dryness
	}
	if p.wish.Body != nil {
		mid.Body = *p.wish.Body
	}
	e.add(mid)
	return extent{clampIndex(e.dLow), clampIndex(e.dHigh), clampIndex(e.bLow), clampIndex(e.bHigh)}
}

// aim chooses what part of the plane is seen, and goes there smoothly.
func (p *Plane) aim() {
	to := wholePlane
	if !p.whole {
		busy := p.placed && (p.moving || p.grip.kind != onNothing)
		to = p.goal.next(p.needed(), busy)
	}
	if to == p.goal && p.placed {
		return
	}
	p.goal = to
	p.speak()
	if p.sliding != nil {
		p.sliding.Stop()
		p.sliding = nil
	}
	if first := !p.placed; first || p.parts == nil {
		p.placed = p.placed || p.now.known
		p.show(to)
		return
	}
	from := p.shown
	p.sliding = fyne.NewAnimation(160*time.Millisecond, func(at float32) { p.show(from.between(to, float64(at))) })
	p.sliding.Curve = fyne.AnimationEaseInOut
	p.sliding.Start()
}

func (p *Plane) show(w window) {
	p.shown = w
	p.replace(true)
}

func (p *Plane) view() view {
	return view{p.shown, p.frame.x0, p.frame.y0, p.frame.x1 - p.frame.x0, p.frame.y1 - p.frame.y0}
}

// replace puts everything where it belongs; redraw is for when the picture
// under it has changed too.
func (p *Plane) replace(redraw bool) {
	if p.parts == nil {
		return
	}
	if redraw {
		p.layArrows()
		p.stale = true
	}
	p.parts.move()
	if redraw {
		p.parts.raster.Refresh()
	}
}

// measure remembers the sizes of the few words there are.
func (p *Plane) measure(text string) fyne.Size {
	if s, ok := p.sizes[text]; ok {
		return s
	}
	if len(p.sizes) > 200 { // ghosts are named at will
		clear(p.sizes)
	}
	s := fyne.MeasureText(text, look.CaptionSize, fyne.TextStyle{})
	p.sizes[text] = s
	return s
}
