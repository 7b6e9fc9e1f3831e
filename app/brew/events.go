package brew

import (
	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/table"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/quantity"
)

// eventList is a step's time line in words: when, and what.
type eventList struct {
	p     *Place
	title *ui.Caption
	lines []*eventLine
	n     int
}

type eventLine struct {
	when *ui.Caption
	what *ui.Paragraph
}

func (l *eventList) set(events []brewday.Event) {
	f := l.p.format
	for len(l.lines) < len(events) {
		e := &eventLine{when: ui.NewCaption("", 13, true, ui.InkFull), what: ui.NewParagraph("", 13, ui.InkFull)}
		e.when.Align = fyne.TextAlignTrailing
		l.lines = append(l.lines, e)
	}
	l.n = len(events)
	for i, e := range events {
		line := l.lines[i]
		line.when.SetText(f.Quantity(e.At.Plain()))
		text := l.p.host.Say().Sentence(e.What)
		if e.Amount.Kind != quantity.None {
			text = words.T("{amount} {what}", f.Quantity(e.Amount), text)
		}
		if e.Gives.Kind != quantity.None {
			text = words.T("{what}, gives {amount}", text, f.Quantity(e.Gives.Plain()))
		}
		if e.At.Banded() {
			text = words.T("{what} ({range})", text, f.Range(e.At))
		}
		line.what.SetText(text)
		if i == 0 {
			l.title.SetText(words.Print(e.Clock.Message()))
		}
	}
}

func (l *eventList) Objects() []fyne.CanvasObject {
	if l.n == 0 {
		return nil
	}
	o := []fyne.CanvasObject{l.title}
	for _, e := range l.lines[:l.n] {
		o = append(o, e.when, e.what)
	}
	return o
}

func (l *eventList) Lay(x, y, width float32) float32 {
	if l.n == 0 {
		return 0
	}
	h := l.title.MinSize().Height
	ui.Put(l.title, x, y, width, h)
	h += 5
	when := float32(0)
	for _, e := range l.lines[:l.n] {
		when = max(when, e.when.MinSize().Width)
	}
	for i, e := range l.lines[:l.n] {
		if i > 0 {
			h += 3
		}
		ui.Put(e.when, x, y+h+1, when, e.when.MinSize().Height)
		h += max(e.what.Lay(x+when+12, y+h, width-when-12), e.what.LineHeight())
	}
	return h
}

// warningList is what does not fit, each with a way to what can be changed.
type warningList struct {
	p     *Place
	lines []*warningLine
	n     int
}

type warningLine struct {
	text *ui.Paragraph
	go_  *table.Choice
}

func (l *warningList) set(list []brewday.Warning) {
	for len(l.lines) < len(list) {
		w := &warningLine{text: ui.NewParagraph("", 13, ui.InkWarning), go_: l.p.parts.Choice(words.T("change it"), false, nil)}
		w.text.Bar, w.text.Bold = true, true
		w.go_.Ink, w.go_.TextSize = ui.InkAccent, 13
		l.lines = append(l.lines, w)
	}
	l.n = len(list)
	for i, w := range list {
		line := l.lines[i]
		line.text.SetText(l.p.host.Say().Sentence(w.Message))
		line.go_.Name = words.T("change what this warning is about")
		keys := w.Keys
		line.go_.OnTap = func() { l.p.focusKeys(keys) }
	}
}

func (l *warningList) Objects() []fyne.CanvasObject {
	var o []fyne.CanvasObject
	for _, w := range l.lines[:l.n] {
		o = append(o, w.text, w.go_)
	}
	return o
}

func (l *warningList) Lay(x, y, width float32) float32 {
	h := float32(0)
	for i, w := range l.lines[:l.n] {
		if i > 0 {
			h += 6
		}
		m := w.go_.MinSize()
		ui.Put(w.go_, x+width-m.Width, y+h-5, m.Width, m.Height)
		h += max(w.text.Lay(x, y+h, width-m.Width-10), look.Control-8)
	}
	return h
}
