package plotting

import (
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/plotting/canvas"

	"skep/plotting/style"
)

// The Plotters of a landing, from the ground up.
type (
	landingGround onLanding // what can be reached, the cloud, the ghost
	landingArrows onLanding // what the levers do
	landingMarks  onLanding // the design, the answers and the pin
)

// on gives a landing to a Plotter.
func (d *LandingDrawer) on(l *Landing) *onLanding {
	d.at = onLanding{d, l}
	return &d.at
}

// spot is a place of the layout on a canvas.
func spot(c *draw.Canvas, s Spot) vg.Point {
	return vg.Point{X: c.Min.X + vg.Length(s.X)*canvas.Px, Y: c.Max.Y - vg.Length(s.Y)*canvas.Px}
}

var (
	reachDash = [2]vg.Length{5 * canvas.Px, 4 * canvas.Px}
	ringDash  = [2]vg.Length{3.4 * canvas.Px, 2.6 * canvas.Px}
)

// Plot is for plot.Plotter.
func (g *landingGround) Plot(c draw.Canvas, p *plot.Plot) {
	t, l, ink := g.tracer.on(c, p), g.l, &g.inks
	t.rings(&l.Reach, ink.reach, ringStyle{ink.ghost, 1.5 * canvas.Px, reachDash})
	cloud := ringStyle{ink: ink.edge, width: 0.9 * canvas.Px}
	t.rings(&l.Most, ink.tint, cloud)
	t.rings(&l.Half, ink.tint, cloud)
	if l.Ghosted {
		at := t.to.At(l.Ghost.Dryness, l.Ghost.Body)
		t.glyph(disc, at, LandingGhostRadius*canvas.Px, ink.ground)
		t.ring(at, LandingGhostRadius*canvas.Px, ringStyle{ink.ghost, 1.6 * canvas.Px, ringDash})
		t.word(&c, g.layout.ghostWord(l), l.GhostName, ink.muted)
	}
}

// word writes a text into its box.
func (t *tracer) word(c *draw.Canvas, b Box, s string, ink color.Color) {
	at := spot(c, Spot{b.X0, (b.Y0+b.Y1)/2 + 0.36*landingWordPx})
	style.Write(c, at, s, landingWordPx, false, ink)
}

// ring strokes a circle. A dashed one has corners: its length must be known.
func (t *tracer) ring(at vg.Point, radius vg.Length, stroke ringStyle) {
	t.path = t.path[:0]
	if stroke.dash[0] == 0 {
		t.path.Move(vg.Point{X: at.X + radius, Y: at.Y})
		t.path.Arc(at, radius, 0, 2*math.Pi)
		t.path.Close()
		t.c.SetLineStyle(draw.LineStyle{Color: stroke.ink, Width: stroke.width})
		t.c.Stroke(t.path)
		return
	}
	const corners = 24
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		if q := (vg.Point{X: at.X + radius*vg.Length(cos), Y: at.Y + radius*vg.Length(sin)}); i == 0 {
			t.path.Move(q)
		} else {
			t.path.Line(q)
		}
	}
	t.path.Close()
	t.closed(t.path, stroke)
}

// Plot is for plot.Plotter.
func (g *landingMarks) Plot(c draw.Canvas, p *plot.Plot) {
	t, l, ink := g.tracer.on(c, p), g.l, &g.inks
	pin := spot(&c, g.layout.PinAt(&l.Pin))
	if l.Pin.Shown && l.Pin.Dryness != l.Pin.Body { // free on one axis: a line across the plane
		stroke := draw.LineStyle{Color: ink.pin, Width: 1.6 * canvas.Px}
		if l.Pin.Dryness {
			t.stroke(stroke, vg.Point{X: pin.X, Y: c.Min.Y}, vg.Point{X: pin.X, Y: c.Max.Y})
		} else {
			t.stroke(stroke, vg.Point{X: c.Min.X, Y: pin.Y}, vg.Point{X: c.Max.X, Y: pin.Y})
		}
	}
	here := t.to.At(l.Here.Dryness, l.Here.Body)
	t.glyph(disc, here, (LandingPointRadius+2)*canvas.Px, ink.ground)
	t.glyph(disc, here, LandingPointRadius*canvas.Px, ink.accent)
	for i := range g.layout.Badges {
		g.badge(t, i)
	}
	if !l.Pin.Shown {
		return
	}
	arm := vg.Length(LandingPinRadius) * canvas.Px
	cross := draw.LineStyle{Color: ink.pin, Width: 2.6 * canvas.Px}
	if l.Pin.Body {
		t.stroke(cross, vg.Point{X: pin.X - arm, Y: pin.Y}, vg.Point{X: pin.X + arm, Y: pin.Y})
	}
	if l.Pin.Dryness {
		t.stroke(cross, vg.Point{X: pin.X, Y: pin.Y - arm}, vg.Point{X: pin.X, Y: pin.Y + arm})
	}
	t.ring(pin, LandingPinRadius*canvas.Px, ringStyle{ink: ink.pin, width: 2 * canvas.Px})
	if l.Pin.Lit {
		t.ring(pin, (LandingPinRadius+4)*canvas.Px, ringStyle{ink: ink.focus, width: 2 * canvas.Px})
	}
}

// badge draws an answer's number, with a thread to its place where that is
// taken.
func (g *landingMarks) badge(t *tracer, i int) {
	b, ink := &g.layout.Badges[i], &g.inks
	if !b.Shown {
		return
	}
	at := spot(&t.c, b.At)
	if b.At != b.Place {
		place := spot(&t.c, b.Place)
		t.stroke(draw.LineStyle{Color: ink.ink, Width: canvas.Px}, place, at)
		t.glyph(disc, place, 2.2*canvas.Px, ink.ink)
	}
	t.glyph(disc, at, (LandingBadgeRadius+0.7)*canvas.Px, ink.ink)
	t.glyph(disc, at, (LandingBadgeRadius-0.7)*canvas.Px, ink.ground)
	number := strconv.Itoa(i + 1)
	wide := vg.Length(g.layout.width(number)*badgePx/landingWordPx) * canvas.Px
	style.Write(&t.c, at.Add(vg.Point{X: -wide / 2, Y: -0.36 * badgePx * canvas.Px}), number, badgePx, true, ink.ink)
}

const badgePx = 11.0
