package plane

import (
	"image/color"

	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/words"
	"skep/plotting"
)

// move places what lies over the picture.
func (t *parts) move() {
	p := t.p
	t.moveZoom()
	t.moveNote()
	stroke := color.Color(color.Transparent)
	if p.focused {
		stroke = p.palette.Focus
	}
	if t.focus.StrokeColor != stroke {
		t.focus.StrokeColor = stroke
		t.focus.Refresh()
	}
}

// moveZoom puts the link between the words at the plane's foot.
func (t *parts) moveZoom() {
	p := t.p
	text := words.T("whole plane")
	if p.whole {
		text = words.T("closer look")
	}
	t.zoom.set(text, p.zoomSays())
	size := t.zoom.MinSize()
	left, right := p.measure(p.now.Dry).Width, p.measure(p.now.Sweet).Width
	show(t.zoom, p.now.Known && p.size.Width-left-right-16 >= size.Width && (p.whole || p.goal != wholePlane))
	t.zoom.Move(fyne.NewPos((p.size.Width+left-right-size.Width)/2, p.size.Height))
	t.zoom.Resize(fyne.NewSize(size.Width, plotting.LandingFoot))
}

// moveNote says in a few centred lines why there is nothing to see.
func (t *parts) moveNote() {
	p := t.p
	lines := look.Wrapped(p.now.note, p.size.Width-24, len(t.note), look.Widths(look.CaptionSize, false))
	high := p.measure("x").Height + 3
	y := (p.size.Height - high*float32(len(lines))) / 2
	for i, o := range t.note {
		text := ""
		if i < len(lines) && !p.now.Known && p.size.Height > 60 {
			text = lines[i]
		}
		t.place(o, text, fyne.NewPos((p.size.Width-p.measure(text).Width)/2, y+float32(i)*high), p.palette.Quiet)
	}
}
