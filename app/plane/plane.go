package plane

import (
	"image"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/words"
	"skep/plotting"
	"skep/plotting/style"
)

// Plane is the landing plane: plotting's picture with the gestures that Fyne's image has
// not. Make one with [New].
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

	ReducedMotion bool // the closer look jumps and does not slide

	now     landing
	wish    Wish
	palette look.Palette

	whole   bool // the person wants all of it
	moving  bool // the owner moves a lever: the axes keep still
	shown   window
	goal    window
	sliding *fyne.Animation
	placed  bool // there was a first landing to choose the window for

	size   fyne.Size // of the plane, which begins where the widget does
	drawer *plotting.LandingDrawer
	layout *plotting.LandingLayout
	sizes  map[string]fyne.Size
	drawn  image.Image // nil: to be drawn anew

	grip             grip
	chosen           string // the lever whose arrow the keys pull; empty: they move the pin
	over             target
	hovered, focused bool
	shift, pressed   bool
	down             fyne.KeyName
	hinted           string

	parts *parts
}

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
	p := &Plane{shown: wholePlane, goal: wholePlane, sizes: map[string]fyne.Size{}, drawer: plotting.NewLandingDrawer()}
	p.layout = p.drawer.Place(&p.now.Landing, 0, 0, true)
	p.speak()
	p.ExtendBaseWidget(p)
	return p
}

// speak words the ends of the axes, with their numbers where those are not 0
// and 100. While the axes slide the numbers are already those of the end.
func (p *Plane) speak() {
	n := &p.now
	n.Dry, n.Sweet, n.Full, n.Light = words.T("dry"), words.T("sweet"), words.T("full"), words.T("light")
	if w := p.goal; w != wholePlane {
		number := func(v float64) string { return " " + strconv.Itoa(int(v)) }
		n.Dry += number(w.dHigh)
		n.Sweet += number(w.dLow)
		n.Full += number(w.bHigh)
		n.Light += number(w.bLow)
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
	p.now.Ways = p.now.Ways[:0]
	for _, w := range at {
		if !known(w) {
			w = Point{Dryness: -1, Body: -1} // keeps its number, isn't drawn
		}
		p.now.Ways = append(p.now.Ways, w)
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
	if !p.now.Known {
		return e
	}
	e.add(p.now.Here)
	e.addAll(&p.now.Reach)
	e.addAll(&p.now.Most)
	if p.now.Ghosted {
		e.add(p.now.Ghost)
	}
	mid := p.now.Here
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
	if first := !p.placed; first || p.parts == nil || p.ReducedMotion {
		p.placed = p.placed || p.now.Known
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

// replace puts everything where it belongs and has it drawn. Words keep their
// places unless anew says that more than the pin has changed.
func (p *Plane) replace(anew bool) {
	if p.parts == nil {
		return
	}
	p.picture(anew)
	p.parts.move()
	p.redraw()
}

// redraw has the canvas ask for the picture again.
func (p *Plane) redraw() {
	p.drawn = nil
	p.parts.raster.Refresh()
}

// picture brings the picture up to date.
func (p *Plane) picture(anew bool) {
	n, v := &p.now, p.view()
	n.Dryness, n.Body = v.Dryness, v.Body
	n.Arrows = n.Arrows[:0]
	for i := range n.arrows {
		a := &n.arrows[i]
		n.Arrows = append(n.Arrows, plotting.LandingArrow{Lever: a.Lever, Word: a.Word, To: a.To, Lit: p.lit(a.Lever)})
	}
	n.Pin = p.pin()
	p.layout = p.drawer.Place(&n.Landing, v.Wide, v.High, anew)
}

// pin is what is wanted: on the design's own level on an axis that is left
// free, and under the pointer while it is held.
func (p *Plane) pin() plotting.Pin {
	w := p.wish
	pin := plotting.Pin{Shown: !w.Empty(), Held: p.grip.kind == onPin, Dryness: w.Dryness != nil, Body: w.Body != nil,
		Lit: p.grip.kind == onPin || p.over.kind == onPin || p.focused && p.chosen == ""}
	if p.grip.kind == onPin && !p.grip.keys {
		pin.At = p.grip.at
		return pin
	}
	pin.At = Point{Dryness: (p.shown.dLow + p.shown.dHigh) / 2, Body: (p.shown.bLow + p.shown.bHigh) / 2}
	if p.now.Known {
		pin.At = p.now.Here
	}
	if w.Dryness != nil {
		pin.At.Dryness = *w.Dryness
	}
	if w.Body != nil {
		pin.At.Body = *w.Body
	}
	return pin
}

// image is what the canvas asks for when it paints: after a change, or in
// another size. Both are its own goroutine's business, which is the window's.
func (p *Plane) image(w, h int) image.Image {
	w, h = max(w, 1), max(h, 1)
	if p.drawn != nil && p.drawn.Bounds().Dx() == w && p.drawn.Bounds().Dy() == h {
		return p.drawn
	}
	c := p.palette
	colours := plotting.LandingColours{Palette: style.Palette{
		Ground: c.Panel, Ink: c.Ink, Muted: c.Quiet, Grid: c.Grid, Accent: c.Accent,
		Tint: c.AccentSoft, Edge: look.Over(c.AccentEdge, c.Panel), Ghost: c.Ghost,
	}, Reach: c.Reach, Pin: c.Pin, Focus: c.Focus, Frame: c.PanelBorder}
	scale := float64(w) / max(float64(p.size.Width), 1)
	p.drawn = p.drawer.Draw(&p.now.Landing, plotting.Size{Width: w, Height: h, Scale: scale}, &colours)
	return p.drawn
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
