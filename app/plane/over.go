package plane

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"

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
	lines := wrap(p.now.note, p.size.Width-24, len(t.note), p.measure)
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

// wrap breaks a text into lines; what does not fit ends in an ellipsis.
func wrap(text string, width float32, most int, measure func(string) fyne.Size) []string {
	var lines []string
	line := ""
	list := strings.Fields(text)
	for i, word := range list {
		longer := strings.TrimSpace(line + " " + word)
		if line == "" || measure(longer).Width <= width {
			line = longer
			continue
		}
		if len(lines) == most-1 {
			line += " " + strings.Join(list[i:], " ")
			break
		}
		lines, line = append(lines, line), word
	}
	if line == "" {
		return lines
	}
	return append(lines, shorten(line, width, measure))
}

func shorten(text string, width float32, measure func(string) fyne.Size) string {
	if measure(text).Width <= width {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		if short := strings.TrimRight(string(runes[:n]), " ") + "…"; measure(short).Width <= width {
			return short
		}
	}
	return ""
}
