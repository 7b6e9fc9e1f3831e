package lever

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"skep/app/look"
	"skep/app/words"
)

// Measures, top to bottom: a row with name and value, the choice under the
// name if there is one, the track, and a foot with words. Without a choice
// that makes 67, with one of 24 it is 83.
const (
	header    = look.Control
	subTop    = 21 // under the name, which is then set at the top
	trackRow  = 25
	foot      = 14
	tickFoot  = 20
	zone      = look.Control // height that takes the pointer, across the track
	thumb     = 7.5          // radius
	ringGap   = 4            // from thumb to focus ring, outside to outside
	trackThin = 3
	trackFull = 4
	barFull   = 7 // between two handles: it can be taken hold of
	footSize  = 12
	tickSize  = 11
	leastBox  = 76
	editWidth = 118
)

// parts are the things drawn.
type parts struct {
	r                    *Rail
	name, low, high      *canvas.Text
	noteText             *canvas.Text
	box                  *box
	entry                *entry
	reset, lock          *iconButton
	empty, full, ring    *canvas.Rectangle
	thumbs               []*canvas.Circle
	marks                []*canvas.Rectangle
	markWords            []*canvas.Text
	objects              []fyne.CanvasObject
	objectsSub           fyne.CanvasObject
	drawn                [2]float64 // ends of the range as drawn
	boxWidth, nameHeight float32
}

// CreateRenderer is for Fyne.
func (r *Rail) CreateRenderer() fyne.WidgetRenderer {
	p := &parts{r: r, name: canvas.NewText("", color.Black), low: canvas.NewText("", color.Black),
		high: canvas.NewText("", color.Black), noteText: canvas.NewText("", color.Black),
		box: newBox(r), entry: newEntry(r),
		empty: canvas.NewRectangle(color.Black), full: canvas.NewRectangle(color.Black), ring: canvas.NewRectangle(color.Transparent)}
	p.reset = newIconButton(look.IconReset(), func() string {
		return words.T("put {name} back to where it began (Delete)", r.Name)
	}, func() { r.Focus(); r.Reset() }, r.hint)
	p.lock = newIconButton(look.IconUnlocked(), func() string {
		if r.spent != "" {
			return words.T("locked: {why}", r.spent)
		}
		if r.locked {
			return words.T("free {name} (L)", r.Name)
		}
		return words.T("keep {name} where it is (L)", r.Name)
	}, func() { r.Focus(); r.toggleLock() }, r.hint)
	for range r.values {
		p.thumbs = append(p.thumbs, canvas.NewCircle(color.Black))
	}
	p.name.TextStyle.Bold = true
	p.ring.StrokeWidth = 2
	r.parts = p
	p.Refresh()
	return p
}

// collect puts the objects in drawing order, anew when Sub or Ticks changed.
func (p *parts) collect() {
	r := p.r
	if len(p.marks) != len(r.Ticks) {
		p.marks, p.markWords = nil, nil
		for range r.Ticks {
			p.marks = append(p.marks, canvas.NewRectangle(color.Black))
			p.markWords = append(p.markWords, canvas.NewText("", color.Black))
		}
		p.objects = nil
	}
	if p.objects != nil && p.objectsSub == r.Sub {
		return
	}
	p.objectsSub = r.Sub
	p.objects = []fyne.CanvasObject{p.name, p.empty, p.full, p.low, p.high, p.noteText}
	for i := range p.marks {
		p.objects = append(p.objects, p.marks[i], p.markWords[i])
	}
	p.objects = append(p.objects, p.ring)
	for _, t := range p.thumbs {
		p.objects = append(p.objects, t)
	}
	// The choice comes before the box, so that Tab goes lever, choice, entry.
	if r.Sub != nil {
		p.objects = append(p.objects, r.Sub)
	}
	p.objects = append(p.objects, p.reset, p.box, p.entry, p.lock)
}

// Refresh takes up changed fields, units and colours.
func (p *parts) Refresh() {
	r := p.r
	p.collect()
	c := r.palette()
	ink, quiet := c.Ink, c.Quiet
	if r.disabled {
		ink, quiet = c.Disabled, c.Disabled
	}
	write := func(t *canvas.Text, text string, size float32, colour color.Color) {
		t.Text, t.TextSize, t.Color = text, size, colour
		t.Refresh()
	}
	write(p.name, r.Name, look.TextSize, ink)
	write(p.low, r.LowWord, footSize, quiet)
	write(p.high, r.HighWord, footSize, quiet)
	for i, t := range r.Ticks {
		write(p.markWords[i], t.Word, tickSize, quiet)
		p.marks[i].FillColor = c.Track
		p.marks[i].Refresh()
	}
	p.empty.FillColor = c.Track
	p.empty.CornerRadius = trackThin / 2.0
	p.empty.Refresh()
	p.nameHeight = p.name.MinSize().Height
	p.boxWidth = p.widestValue()
	p.box.style()
	p.reset.style()
	p.lock.style()
	p.move()
	p.Layout(r.Size())
}

// widestValue keeps the box from changing its width under the hand.
func (p *parts) widestValue() float32 {
	r := p.r
	w := float32(leastBox)
	ends := [][]float64{r.values, r.resets}
	if len(r.values) == 1 {
		middle := r.Scale.Snap((r.Scale.Min + r.Scale.Max) / 2)
		ends = append(ends, []float64{r.Scale.Min}, []float64{r.Scale.Max}, []float64{middle})
	} else {
		ends = append(ends, []float64{r.Scale.Min, r.Scale.Max})
	}
	for _, v := range ends {
		if v != nil {
			w = fyne.Max(w, measure(r.format(v), look.TextSize, false).Width+2*boxPad)
		}
	}
	return w
}

func measure(text string, size float32, bold bool) fyne.Size {
	return fyne.MeasureText(text, size, fyne.TextStyle{Bold: bold})
}

// MinSize lets the lever stand in a narrow column.
func (p *parts) MinSize() fyne.Size {
	r := p.r
	if p.boxWidth == 0 {
		p.boxWidth = p.widestValue()
	}
	name := measure(r.Name, look.TextSize, true).Width
	if r.Sub != nil {
		name = fyne.Max(name, r.Sub.MinSize().Width)
	}
	return fyne.NewSize(name+p.boxWidth+2*iconWidth+4, r.top()+trackRow+r.footHeight())
}

// top is the height above the track's row.
func (r *Rail) top() float32 {
	if r.Sub == nil || !r.Sub.Visible() {
		return header
	}
	return fyne.Max(header, subTop+r.Sub.MinSize().Height)
}

func (r *Rail) footHeight() float32 {
	if len(r.Ticks) > 0 {
		return tickFoot
	}
	return foot
}

func (r *Rail) trackY() float32 { return r.top() + trackRow/2 }

// Layout places what keeps its place while the lever moves.
func (p *parts) Layout(s fyne.Size) {
	r := p.r
	right := s.Width
	place := func(o fyne.CanvasObject, x, y, w, h float32) {
		o.Move(fyne.NewPos(x, y))
		o.Resize(fyne.NewSize(w, h))
	}
	place(p.lock, right-iconWidth+4, 0, iconWidth, header) // its picture ends at the column's edge
	right -= iconWidth
	place(p.box, right-p.boxWidth, 0, p.boxWidth, header)
	h := p.entry.MinSize().Height
	edit := fyne.Max(p.boxWidth, editWidth)
	place(p.entry, right-edit, (header-h)/2, edit, h)
	right -= p.boxWidth
	place(p.reset, right-iconWidth, 0, iconWidth, header)

	nameY := (header - p.nameHeight) / 2
	if r.Sub != nil && r.Sub.Visible() {
		nameY = (subTop + 3 - p.nameHeight) / 2
		m := r.Sub.MinSize()
		place(r.Sub, 0, subTop, fyne.Min(m.Width, right-iconWidth), m.Height)
	}
	place(p.name, 0, nameY, p.name.MinSize().Width, p.nameHeight)

	y := r.trackY()
	place(p.empty, 0, y-trackThin/2.0, s.Width, trackThin)
	footY := s.Height - foot
	p.layTicks(s.Width, y, footY)
	place(p.low, 0, footY, p.low.MinSize().Width, foot)
	w := p.high.MinSize().Width
	place(p.high, s.Width-w, footY, w, foot)
	place(p.noteText, 0, footY, s.Width, foot)
	p.move()
}

// layTicks centres each word under its mark, inside the column, and leaves out
// a word that would run into the one before.
func (p *parts) layTicks(width, y, footY float32) {
	taken := float32(-10)
	for i, t := range p.r.Ticks {
		x := p.r.x(t.Value)
		p.marks[i].Move(fyne.NewPos(x-0.5, y+thumb+2))
		p.marks[i].Resize(fyne.NewSize(1, 5))
		word := p.markWords[i]
		word.Text = t.Word
		w := word.MinSize().Width
		left := fyne.Max(0, fyne.Min(x-w/2, width-w))
		if left < taken+3 {
			word.Text = ""
			continue
		}
		word.Move(fyne.NewPos(left, footY))
		word.Resize(fyne.NewSize(w, foot))
		taken = left + w
	}
}

// Objects are in drawing order.
func (p *parts) Objects() []fyne.CanvasObject { return p.objects }

// Destroy forgets the drawing.
func (p *parts) Destroy() {
	if p.r.parts == p {
		p.r.parts = nil
	}
}
