package plotting

import (
	"image"
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"skep/plotting/canvas"
	"skep/plotting/plotters"
	"skep/plotting/style"
)

// Landing is the picture on which a beer lands: dry at the left and sweet at
// the right, full above and light below, both an index of 0 to 100. The design
// is a point within its cloud, the outlines of the regions where 50 % and 80 %
// of the draws land; a dashed outline is all that the free levers can reach; a
// hollow dashed ring the design kept for comparison; a ring with a cross the
// pin, what is wanted, or a line across where one axis is left free; numbered
// rings the answers. An arrow shows what a natural step of a lever does: its
// direction is true, its length grows with the effect.
type Landing struct {
	Dryness, Body Range // the part that is seen

	Known             bool // there is a beer: without, only the grid is drawn
	Here              LandingPoint
	Half, Most, Reach Rings
	Arrows            []LandingArrow
	Ghost             LandingPoint
	GhostName         string
	Ghosted           bool
	Pin               Pin
	Ways              []LandingPoint // one below 0 keeps its number and isn't drawn

	Dry, Sweet, Full, Light string // the ends of the axes
}

// LandingPoint is a place: dryness and body, each an index of 0 to 100.
type LandingPoint struct{ Dryness, Body float64 }

// LandingArrow is what a natural step of a lever does. Words are set apart from
// frame to frame by their lever.
type LandingArrow struct {
	Lever, Word string
	To          LandingPoint
	Lit         bool
}

// Pin is what is wanted. On an axis left free it stands where the design does.
type Pin struct {
	Shown         bool
	At            LandingPoint
	Dryness, Body bool // on which axes
	Lit           bool
	Held          bool // no word makes way for it
}

// LandingColours are the colours of a landing.
type LandingColours struct {
	style.Palette
	Reach color.NRGBA // ground of what can be reached
	Pin   color.NRGBA
	Focus color.NRGBA // ring around a pin that is lit
	Frame color.NRGBA
}

// Rings are closed outlines without the first point repeated; a hole runs the
// other way round. They are a copy that keeps its memory.
type Rings struct {
	Points []LandingPoint
	Ends   []int
}

// farOut keeps wild numbers away from the rasteriser; far beyond any zoom.
const farOut = 1000

// Set copies outlines. Points that are no numbers are left out.
func (r *Rings) Set(from [][]LandingPoint) {
	r.Points, r.Ends = r.Points[:0], r.Ends[:0]
	for _, ring := range from {
		start := len(r.Points)
		for _, p := range ring {
			if plotters.Finite(p.Dryness) && plotters.Finite(p.Body) {
				r.Points = append(r.Points, LandingPoint{min(max(p.Dryness, -farOut), farOut), min(max(p.Body, -farOut), farOut)})
			}
		}
		if len(r.Points)-start < 3 {
			r.Points = r.Points[:start]
			continue
		}
		r.Ends = append(r.Ends, len(r.Points))
	}
}

// Sizes in pixels at scale 1.
const (
	LandingPointRadius = 6.5 // the design
	LandingPinRadius   = 10.5
	LandingGhostRadius = 6.5
	LandingBadgeRadius = 8.5 // an answer's number
	LandingFoot        = 24  // row of words below the plane

	landingWordPx = 12.0 // as captions in the window
	wordHigh      = 15.0
	wordInset     = 7
	tens          = 10 // index points between grid lines
)

// LandingDrawer draws landings again and again, and keeps what stays: the words
// hang where they did as long as they can. It belongs to one goroutine.
type LandingDrawer struct {
	canvas *canvas.Window
	layout LandingLayout
	key    landingKey
	plot   *plot.Plot
	data   draw.Canvas
	static *image.RGBA
	inks   landingInks
	list   []plot.Plotter
	tracer plotters.Tracer
	at     onLanding

	// Two take turns, so that one that was handed out is not written to while
	// it may still be read.
	images [2]*image.RGBA
	front  int
}

type landingKey struct {
	size                    Size
	colours                 LandingColours
	dryness, body           Range
	known                   bool
	dry, sweet, full, light string
}

// landingInks are the colours as gonum/plot wants them, made once.
type landingInks struct {
	ground, ink, muted, accent, tint, edge, ghost, reach, pin, focus color.Color
}

// NewLandingDrawer makes one.
func NewLandingDrawer() *LandingDrawer { return &LandingDrawer{canvas: canvas.NewWindow()} }

// Draw draws a landing as [LandingDrawer.Place] placed it last. The image is
// the caller's until the next but one.
func (d *LandingDrawer) Draw(l *Landing, size Size, c *LandingColours) *image.RGBA {
	size = size.sound()
	d.prepare(l, size, c)
	d.front = 1 - d.front
	img := buffer(d.images[d.front], size)
	d.images[d.front] = img
	copy(img.Pix, d.static.Pix)
	d.canvas.On(img, size.Scale)
	for _, p := range d.list {
		p.Plot(d.data, d.plot)
	}
	d.canvas.Release()
	return img
}

// prepare draws what stays when something in it changed, and sets up the rest.
func (d *LandingDrawer) prepare(l *Landing, size Size, c *LandingColours) {
	key := landingKey{size, *c, l.Dryness, l.Body, l.Known, l.Dry, l.Sweet, l.Full, l.Light}
	if d.plot == nil || d.key != key {
		d.key = key
		d.inks = landingInks{c.Ground, c.Ink, c.Muted, c.Accent, c.Tint, c.Edge, c.Ghost, c.Reach, c.Pin, c.Focus}
		d.static = buffer(d.static, size)
		d.canvas.On(d.static, size.Scale).Clear(c.Ground)
		on := draw.NewCanvas(d.canvas, size.wide(), size.high())
		d.plot = newLandingPlot(l, c)
		d.plot.Draw(on)
		d.data = d.plot.DataCanvas(on)
	}
	on := d.on(l)
	d.list = d.list[:0]
	if l.Known && d.layout.roomy() {
		d.list = append(d.list, (*landingGround)(on), (*landingArrows)(on), (*landingMarks)(on))
	}
}

// newLandingPlot is the plane without a beer.
func newLandingPlot(l *Landing, c *LandingColours) *plot.Plot {
	p := style.NewPlot(&c.Palette)
	p.HideAxes()
	p.X.Scale = plot.InvertedScale{Normalizer: plot.LinearScale{}} // dry at the left
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = l.Dryness.Low, l.Dryness.High, l.Body.Low, l.Body.High
	p.X.Padding, p.Y.Padding = LandingFoot*canvas.Px, 0
	var ticks plot.ConstantTicks
	for v := tens; v < 100; v += tens {
		ticks = append(ticks, plot.Tick{Value: float64(v), Label: " "})
	}
	p.X.Tick.Marker, p.Y.Tick.Marker = ticks, ticks
	for _, a := range [...]*plot.Axis{&p.X, &p.Y} { // the grid alone: a text of no size is not drawn
		a.Tick.Label.Font.Size, a.Label.TextStyle.Font.Size = 0, 0
	}
	p.Add(landingFrame{l, c})
	return p
}

// landingFrame is the plane's edge, and the words for the ends of its axes.
type landingFrame struct {
	l *Landing
	c *LandingColours
}

// Plot is for plot.Plotter.
func (f landingFrame) Plot(c draw.Canvas, p *plot.Plot) {
	t := plotters.Tracer{}
	t.On(c, p)
	edge := draw.LineStyle{Color: f.c.Frame, Width: canvas.Px}
	in, out := c.Min.Add(vg.Point{X: canvas.Px / 2, Y: canvas.Px / 2}), c.Max.Sub(vg.Point{X: canvas.Px / 2, Y: canvas.Px / 2})
	t.Stroke(edge, in, vg.Point{X: out.X, Y: in.Y})
	t.Stroke(edge, vg.Point{X: in.X, Y: out.Y}, out)
	t.Stroke(edge, in, vg.Point{X: in.X, Y: out.Y})
	t.Stroke(edge, vg.Point{X: out.X, Y: in.Y}, out)
	if !roomyFor(float32((c.Max.X-c.Min.X)/canvas.Px), float32((c.Max.Y-c.Min.Y)/canvas.Px)) {
		return
	}
	muted := color.Color(f.c.Muted)
	left, top := c.Min.X+wordInset*canvas.Px, c.Max.Y-(4+0.8*wordHigh)*canvas.Px
	style.Write(&c, vg.Point{X: left, Y: top}, f.l.Full, landingWordPx, false, muted)
	style.Write(&c, vg.Point{X: left, Y: c.Min.Y + 8*canvas.Px}, f.l.Light, landingWordPx, false, muted)
	foot := c.Min.Y - (LandingFoot/2+0.36*landingWordPx)*canvas.Px
	style.Write(&c, vg.Point{X: c.Min.X, Y: foot}, f.l.Dry, landingWordPx, false, muted)
	right := c.Max.X - vg.Length(style.Width(f.l.Sweet, landingWordPx, false))*canvas.Px
	style.Write(&c, vg.Point{X: right, Y: foot}, f.l.Sweet, landingWordPx, false, muted)
}

// onLanding is a drawer with the landing at hand; its Plotters are kinds of it.
type onLanding struct {
	*LandingDrawer
	l *Landing
}

// ringStyle strokes outlines; a dash is stretched so that the last meets the
// first.
type ringStyle struct {
	ink   color.Color
	width vg.Length
	dash  [2]vg.Length
}

// rings fills outlines with one colour and strokes them with another.
func rings(t *plotters.Tracer, r *Rings, fill color.Color, style ringStyle) {
	if len(r.Ends) == 0 {
		return
	}
	t.Path = t.Path[:0]
	start := 0
	for _, end := range r.Ends {
		for i, p := range r.Points[start:end] {
			if q := t.To.At(p.Dryness, p.Body); i == 0 {
				t.Path.Move(q)
			} else {
				t.Path.Line(q)
			}
		}
		t.Path.Close()
		start = end
	}
	t.C.SetColor(fill)
	t.C.Fill(t.Path)
	first := 0
	for i := range t.Path {
		if t.Path[i].Type == vg.CloseComp {
			closed(t, t.Path[first:i+1], style)
			first = i + 1
		}
	}
}

// closed strokes a closed path of straight lines.
func closed(t *plotters.Tracer, path vg.Path, style ringStyle) {
	line := draw.LineStyle{Color: style.ink, Width: style.width}
	if style.dash[0] > 0 {
		round := 0.0
		for i := 1; i < len(path); i++ {
			a, b := path[i-1].Pos, path[i].Pos
			if path[i].Type == vg.CloseComp {
				b = path[0].Pos
			}
			round += math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
		}
		pieces := math.Round(round / float64(style.dash[0]+style.dash[1]))
		if pieces < 1 || !(round < 1e5) {
			return
		}
		k := vg.Length(round/pieces) / (style.dash[0] + style.dash[1])
		t.Dash = append(t.Dash[:0], style.dash[0]*k, style.dash[1]*k)
		line.Dashes = t.Dash
	}
	t.C.SetLineStyle(line)
	t.C.Stroke(path)
}
