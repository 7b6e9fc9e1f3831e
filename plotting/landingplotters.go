package plotting

import (
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/plotting/canvas"
	"skep/plotting/plotters"
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
	t, l, ink := g.tracer.On(c, p), g.l, &g.inks
	rings(t, &l.Reach, ink.reach, ringStyle{ink.ghost, 1.5 * canvas.Px, reachDash})
	cloud := ringStyle{ink: ink.edge, width: 0.9 * canvas.Px}
	rings(t, &l.Most, ink.tint, cloud)
	rings(t, &l.Half, ink.tint, cloud)
	if l.Ghosted {
		at := t.To.At(l.Ghost.Dryness, l.Ghost.Body)
		t.Glyph(plotters.Disc, at, LandingGhostRadius*canvas.Px, ink.ground)
		ring(t, at, LandingGhostRadius*canvas.Px, ringStyle{ink.ghost, 1.6 * canvas.Px, ringDash})
		writeWord(&c, g.layout.ghostWord(l), l.GhostName, ink.muted)
	}
}

// writeWord writes a text into its box.
func writeWord(c *draw.Canvas, b Box, s string, ink color.Color) {
	at := spot(c, Spot{b.X0, (b.Y0+b.Y1)/2 + 0.36*landingWordPx})
	style.Write(c, at, s, landingWordPx, false, ink)
}

// ring strokes a circle. A dashed one has corners: its length must be known.
func ring(t *plotters.Tracer, at vg.Point, radius vg.Length, stroke ringStyle) {
	t.Path = t.Path[:0]
	if stroke.dash[0] == 0 {
		t.Path.Move(vg.Point{X: at.X + radius, Y: at.Y})
		t.Path.Arc(at, radius, 0, 2*math.Pi)
		t.Path.Close()
		t.C.SetLineStyle(draw.LineStyle{Color: stroke.ink, Width: stroke.width})
		t.C.Stroke(t.Path)
		return
	}
	const corners = 24
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		if q := (vg.Point{X: at.X + radius*vg.Length(cos), Y: at.Y + radius*vg.Length(sin)}); i == 0 {
			t.Path.Move(q)
		} else {
			t.Path.Line(q)
		}
	}
	t.Path.Close()
	closed(t, t.Path, stroke)
}

// Plot is for plot.Plotter.
func (g *landingMarks) Plot(c draw.Canvas, p *plot.Plot) {
	t, l, ink := g.tracer.On(c, p), g.l, &g.inks
	pin := spot(&c, g.layout.PinAt(&l.Pin))
	if l.Pin.Shown && l.Pin.Dryness != l.Pin.Body { // free on one axis: a line across the plane
		stroke := draw.LineStyle{Color: ink.pin, Width: 1.6 * canvas.Px}
		if l.Pin.Dryness {
			t.Stroke(stroke, vg.Point{X: pin.X, Y: c.Min.Y}, vg.Point{X: pin.X, Y: c.Max.Y})
		} else {
			t.Stroke(stroke, vg.Point{X: c.Min.X, Y: pin.Y}, vg.Point{X: c.Max.X, Y: pin.Y})
		}
	}
	here := t.To.At(l.Here.Dryness, l.Here.Body)
	t.Glyph(plotters.Disc, here, (LandingPointRadius+2)*canvas.Px, ink.ground)
	t.Glyph(plotters.Disc, here, LandingPointRadius*canvas.Px, ink.accent)
	for i := range g.layout.Badges {
		g.badge(t, i)
	}
	if !l.Pin.Shown {
		return
	}
	arm := vg.Length(LandingPinRadius) * canvas.Px
	cross := draw.LineStyle{Color: ink.pin, Width: 2.6 * canvas.Px}
	if l.Pin.Body {
		t.Stroke(cross, vg.Point{X: pin.X - arm, Y: pin.Y}, vg.Point{X: pin.X + arm, Y: pin.Y})
	}
	if l.Pin.Dryness {
		t.Stroke(cross, vg.Point{X: pin.X, Y: pin.Y - arm}, vg.Point{X: pin.X, Y: pin.Y + arm})
	}
	ring(t, pin, LandingPinRadius*canvas.Px, ringStyle{ink: ink.pin, width: 2 * canvas.Px})
	if l.Pin.Lit {
		ring(t, pin, (LandingPinRadius+4)*canvas.Px, ringStyle{ink: ink.focus, width: 2 * canvas.Px})
	}
}

// badge draws an answer's number, with a thread to its place where that is
// taken.
func (g *landingMarks) badge(t *plotters.Tracer, i int) {
	b, ink := &g.layout.Badges[i], &g.inks
	if !b.Shown {
		return
	}
	at := spot(&t.C, b.At)
	if b.At != b.Place {
		place := spot(&t.C, b.Place)
		t.Stroke(draw.LineStyle{Color: ink.ink, Width: canvas.Px}, place, at)
		t.Glyph(plotters.Disc, place, 2.2*canvas.Px, ink.ink)
	}
	t.Glyph(plotters.Disc, at, (LandingBadgeRadius+0.7)*canvas.Px, ink.ink)
	t.Glyph(plotters.Disc, at, (LandingBadgeRadius-0.7)*canvas.Px, ink.ground)
	number := strconv.Itoa(i + 1)
	wide := vg.Length(g.layout.width(number)*badgePx/landingWordPx) * canvas.Px
	style.Write(&t.C, at.Add(vg.Point{X: -wide / 2, Y: -0.36 * badgePx * canvas.Px}), number, badgePx, true, ink.ink)
}

const badgePx = 11.0
