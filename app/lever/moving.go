package lever

import (
	"image/color"

	"fyne.io/fyne/v2"

	"skep/app/look"
)

// move places what moves: run at each step of a drag, it touches only what
// differs.
func (p *parts) move() {
	r := p.r
	c := r.palette()
	p.drawn = [2]float64{r.Scale.Min, r.Scale.Max}
	p.box.set(r.shown())
	if r.canReset() && !p.entry.open {
		p.reset.Show()
	} else {
		p.reset.Hide()
	}
	if r.kept() {
		p.lock.set(look.IconLocked(), true)
	} else {
		p.lock.set(look.IconUnlocked(), false)
	}
	if r.disabled {
		p.lock.Hide()
	} else {
		p.lock.Show()
	}
	p.moveHandles(c)
	p.showNote(c)
}

func (p *parts) moveHandles(c look.Palette) {
	r := p.r
	y := r.trackY()
	colour := c.Accent
	switch {
	case r.disabled:
		colour = c.Disabled
	case r.kept():
		colour = c.Quiet
	}
	first, last := float32(0), r.x(r.values[0])
	thick := float32(trackFull)
	if len(r.values) == 2 {
		first, last, thick = last, r.x(r.values[1]), barFull
	}
	if p.full.FillColor != colour {
		p.full.FillColor = colour
		p.full.Refresh()
	}
	p.full.CornerRadius = trackFull / 2
	p.full.Move(fyne.NewPos(first, y-thick/2))
	p.full.Resize(fyne.NewSize(fyne.Max(0, last-first), thick))

	for i, t := range p.thumbs {
		fill, strokeWidth := color.Color(colour), float32(0)
		if len(p.thumbs) == 2 || r.fixed() {
			fill, strokeWidth = c.Panel, 3 // a ring: two handles, or one that won't move
		}
		if t.FillColor != fill || t.StrokeColor != colour || t.StrokeWidth != strokeWidth {
			t.FillColor, t.StrokeColor, t.StrokeWidth = fill, colour, strokeWidth
			t.Refresh()
		}
		t.Move(fyne.NewPos(r.x(r.values[i])-thumb, y-thumb))
		t.Resize(fyne.NewSquareSize(2 * thumb))
	}
	p.moveRing(c, y)
}

func (p *parts) moveRing(c look.Palette, y float32) {
	r := p.r
	p.ring.StrokeColor = color.Transparent
	switch {
	case r.focused:
		p.ring.StrokeColor = c.Focus
	case r.hovered && !r.fixed():
		p.ring.StrokeColor = c.AccentSoft
	}
	first, last := r.x(r.values[0]), r.x(r.values[len(r.values)-1])
	if len(r.values) == 2 && r.active != bothHandles {
		first = r.x(r.values[r.active])
		last = first
	}
	const out = thumb + ringGap
	p.ring.CornerRadius = out
	p.ring.Move(fyne.NewPos(first-out, y-out))
	p.ring.Resize(fyne.NewSize(last-first+2*out, 2*out))
	p.ring.Refresh()
}

func (p *parts) showNote(c look.Palette) {
	r := p.r
	ends := r.note == ""
	for _, o := range []fyne.CanvasObject{p.low, p.high} {
		show(o, ends && len(r.Ticks) == 0)
	}
	for _, o := range p.markWords {
		show(o, ends)
	}
	show(p.noteText, !ends)
	if ends {
		return
	}
	colour := c.Quiet
	if r.noteBad {
		colour = c.Error
	}
	const smallest = 9 // of 220 pixels
	size := float32(footSize)
	for size > smallest && measure(r.note, size, false).Width > r.Size().Width {
		size--
	}
	text := look.Shortened(r.note, r.Size().Width, look.Widths(size, false))
	if p.noteText.Text != text || p.noteText.Color != colour || p.noteText.TextSize != size {
		p.noteText.Text, p.noteText.Color, p.noteText.TextSize = text, colour, size
		p.noteText.Refresh()
	}
}

func show(o fyne.CanvasObject, visible bool) {
	if visible != o.Visible() {
		if visible {
			o.Show()
		} else {
			o.Hide()
		}
	}
}
