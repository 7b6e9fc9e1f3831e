package plotting

import (
	"image"
	"runtime"
	"slices"
	"sync"

	"gonum.org/v1/plot/vg/draw"

	"skep/calc/parallel"
	"skep/plotting/canvas"
	"skep/plotting/style"
)

// Painter draws a set of pictures again and again, for a window.
//
// One goroutine calls Draw, normally a worker; another, the window's, calls
// Show, Image and Layout. There are three sets of buffers: one is shown, one
// is finished and waits, one is drawn into. Show swaps the first two, so an
// image got from Image is never written to before the next Show.
type Painter struct {
	drawing sync.Mutex // one Draw at a time
	lanes   []*lane    // guarded by drawing

	mu      sync.Mutex
	sets    [3]set
	shown   int
	waiting int // -1: nothing new since the last Show
}

// set is one finished drawing of all pictures.
type set struct {
	images  []*image.RGBA
	layouts []Layout
}

// NewPainter makes a painter.
func NewPainter() *Painter { return &Painter{waiting: -1} }

// Draw draws the pictures, side by side on all processors, and leaves them for
// the next Show. The last of sizes holds for all pictures beyond it; without
// any, nothing is drawn.
func (p *Painter) Draw(c style.Palette, pictures []Picture, sizes ...Size) {
	p.drawing.Lock()
	defer p.drawing.Unlock()
	if len(sizes) == 0 {
		return
	}
	for len(p.lanes) < len(pictures) {
		p.lanes = append(p.lanes, newLane())
	}
	p.mu.Lock()
	free := 0
	for free == p.shown || free == p.waiting {
		free++
	}
	into := &p.sets[free] // nobody else touches it until it waits
	p.mu.Unlock()

	into.fit(len(pictures))
	parallel.Each(runtime.GOMAXPROCS(0), len(pictures), func(_, i int) {
		size := sizes[min(i, len(sizes)-1)]
		into.images[i], into.layouts[i] = p.lanes[i].draw(into.images[i], &pictures[i], size, &c)
	})

	p.mu.Lock()
	p.waiting = free
	p.mu.Unlock()
}

// Show makes the newest finished drawing the one shown and says whether there
// was a new one.
func (p *Painter) Show() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.waiting < 0 {
		return false
	}
	p.shown, p.waiting = p.waiting, -1
	return true
}

// Image is picture i as shown, nil before the first Show. It must not be
// written to, and keeps its content until the next Show.
func (p *Painter) Image(i int) *image.RGBA {
	p.mu.Lock()
	defer p.mu.Unlock()
	if s := &p.sets[p.shown]; i >= 0 && i < len(s.images) {
		return s.images[i]
	}
	return nil
}

// Layout is the layout of picture i as shown.
func (p *Painter) Layout(i int) (Layout, bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if s := &p.sets[p.shown]; i >= 0 && i < len(s.layouts) {
		return s.layouts[i], true
	}
	return Layout{}, false
}

func (s *set) fit(n int) {
	for len(s.images) < n {
		s.images, s.layouts = append(s.images, nil), append(s.layouts, Layout{})
	}
	s.images, s.layouts = s.images[:n], s.layouts[:n]
}

// lane draws one picture of the set. It keeps what doesn't change: the plot,
// the pixels of its grid and axes, the letters as masks.
type lane struct {
	canvas *canvas.Window
	plot   *outcomePlot
	data   draw.Canvas
	static *image.RGBA
	layout Layout
	key    staticKey
	names  []nameKey
}

// staticKey is everything the static layer and the layout depend on, besides
// the names.
type staticKey struct {
	size         Size
	palette      style.Palette
	x, y         Range
	xUnit, yUnit string
	label        string
}

type nameKey struct {
	name string
	role Role
}

func newLane() *lane { return &lane{canvas: canvas.NewWindow()} }

func (n *lane) draw(img *image.RGBA, p *Picture, size Size, c *style.Palette) (*image.RGBA, Layout) {
	size = size.sound()
	n.refresh(p, size, c)
	img = buffer(img, size)
	copy(img.Pix, n.static.Pix)
	n.canvas.On(img, size.Scale)
	for _, d := range n.plot.plotters(p, c) {
		d.Plot(n.data, n.plot.Plot)
	}
	n.canvas.Release()
	return img, n.layout
}

// refresh draws the static layer when something in it changed.
func (n *lane) refresh(p *Picture, size Size, c *style.Palette) {
	key := staticKey{
		size: size, palette: *c,
		x: p.X.Range, y: p.Y.Range,
		xUnit: p.X.Unit.Name, yUnit: p.Y.Unit.Name,
		label: p.X.Label,
	}
	same := len(n.names) == len(p.Series)
	for i := 0; same && i < len(n.names); i++ {
		same = n.names[i] == nameKey{p.Series[i].Name, p.Series[i].Role}
	}
	if same && n.static != nil && n.key == key {
		return
	}
	n.key = key
	n.names = slices.Grow(n.names[:0], len(p.Series))
	for i := range p.Series {
		n.names = append(n.names, nameKey{p.Series[i].Name, p.Series[i].Role})
	}
	n.static = buffer(n.static, size)
	n.canvas.On(n.static, size.Scale).Clear(c.Ground)
	n.plot = newOutcomePlot(p, c, draw.NewCanvas(n.canvas, size.wide(), size.high()))
	n.plot.Draw(n.plot.canvas)
	n.data = n.plot.DataCanvas(n.plot.canvas)
	n.layout = n.plot.layout(size)
}

// buffer is img when it has the size, otherwise a new image.
func buffer(img *image.RGBA, size Size) *image.RGBA {
	if img != nil && img.Rect.Dx() == size.Width && img.Rect.Dy() == size.Height {
		return img
	}
	return image.NewRGBA(image.Rect(0, 0, size.Width, size.Height))
}
