package brew

import (
	"fyne.io/fyne/v2"

	"skep/app/table"
	"skep/app/ui"
)

// The look of the blanks; what they do is in brew_measure.go.

func (m *measures) Objects() []fyne.CanvasObject {
	if m.n == 0 {
		return nil
	}
	o := []fyne.CanvasObject{m.title}
	for _, l := range m.lines[:m.n] {
		o = append(o, l.Objects()...)
	}
	return o
}

func (l *blankLine) Objects() []fyne.CanvasObject {
	o := []fyne.CanvasObject{l.name, l.expect}
	switch {
	case l.what == "pitched":
		o = append(o, l.put)
	case l.what == "foam":
		o = append(o, l.foam)
	case l.gravity():
		o = append(o, l.value, l.at, l.warm, l.instrument, l.put)
	default:
		o = append(o, l.value, l.put)
	}
	if l.last.Text != "" {
		o = append(o, l.last, l.out)
	}
	if l.note.Text != "" {
		o = append(o, l.note)
	}
	return o
}

func (m *measures) Lay(x, y, width float32) float32 {
	if m.n == 0 {
		return 0
	}
	h := m.title.MinSize().Height
	ui.Put(m.title, x, y, width, h)
	h += 4
	for i, l := range m.lines[:m.n] {
		if i > 0 {
			h += 8
		}
		h += l.Lay(x, y+h, width)
	}
	return h
}

func (l *blankLine) Lay(x, y, width float32) float32 {
	high := ui.FieldHeight()
	name, expect := l.name.MinSize().Height, l.expect.MinSize()
	w := min(fyne.MeasureText(l.name.Text, l.name.TextSize, fyne.TextStyle{}).Width+1, width-expect.Width-8)
	ui.Put(l.name, x, y, w, name)
	ui.Put(l.expect, x+w+8, y+1, expect.Width, expect.Height)
	h := name + 3
	at := x
	field := func(e *ui.Entry, w float32) {
		ui.Put(e, at, y+h, w, high)
		at += w + 6
	}
	word := func(c *table.Choice) {
		m := c.MinSize()
		if at > x && at+m.Width > x+width {
			at, h = x, h+high+2
		}
		ui.Put(c, at-2, y+h+(high-m.Height)/2, m.Width, m.Height)
		at += m.Width + 2
	}
	switch {
	case l.what == "pitched":
		at = x - ui.ChoicePad + 2
		word(l.put)
	case l.what == "foam":
		at = x - ui.ChoicePad + 2
		word(l.foam)
	case l.gravity():
		field(l.value, 78)
		m := l.at.MinSize()
		ui.Put(l.at, at, y+h+(high-m.Height)/2, m.Width, m.Height)
		at += m.Width + 6
		field(l.warm, 66)
		word(l.instrument)
		word(l.put)
	default:
		field(l.value, 96)
		word(l.put)
	}
	h += high
	if l.last.Text != "" {
		w := min(fyne.MeasureText(l.last.Text, l.last.TextSize, fyne.TextStyle{}).Width+1, width-ui.ToolWidth)
		ui.Put(l.last, x, y+h+6, w, l.last.MinSize().Height)
		ui.Put(l.out, x+w, y+h, ui.ToolWidth, ui.ChoiceHeight)
		h += ui.ChoiceHeight
	}
	if l.note.Text != "" {
		h += 2 + l.note.Lay(x, y+h+2, width)
	}
	return h
}
