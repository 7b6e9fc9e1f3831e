package brew

import (
	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// stepChoice is a choice that comes into view when it has the keyboard.
type stepChoice struct {
	ui.Choice
	p *Place
}

func (p *Place) newChoice(text string, list bool, tap func()) *stepChoice {
	c := &stepChoice{p: p}
	c.Text, c.List, c.OnTap = text, list, tap
	c.TextSize, c.Ink, c.Height = look.CaptionSize, ui.InkQuiet, ui.ChoiceHeight
	c.ExtendBaseWidget(c)
	return c
}

// FocusGained brings the choice into view.
func (c *stepChoice) FocusGained() {
	c.Choice.FocusGained()
	c.p.reveal(c)
}

// told is a control that only shows.
type told struct {
	ui.Caption
	tell func(d *design.Design) string
}

func newTold(size float32, tell func(d *design.Design) string) *told {
	t := &told{tell: tell}
	t.TextSize, t.Ink, t.Yields = size, ui.InkQuiet, true
	t.ExtendBaseWidget(t)
	return t
}

func (t *told) Sync(d *design.Design) { t.SetText(t.tell(d)) }

// field is a row's value that is typed, under a key of its line.
func (p *Place) rowField(r *tableRow, path func() string, what func() string) ui.Control {
	f := ui.NewField(p.host, path, what)
	f.Seen = p.reveal
	f.Note = func(text string, bad bool) {
		r.note.SetText(text)
		if bad {
			p.host.Warn(text)
		}
		p.relayout()
	}
	column := len(r.controls)
	f.Keys = func(k fyne.KeyName) bool {
		by := map[fyne.KeyName]int{fyne.KeyUp: -1, fyne.KeyDown: 1}[k]
		if by == 0 || !f.Take() {
			return by != 0
		}
		r.shift(by, column)
		return true
	}
	return f
}

// named makes the name of a value of a row: "mass of Pale malt".
func (r *tableRow) named(what string) func() string {
	return func() string {
		d := r.t.p.host.Design()
		return words.T("{what} of {name}", what, r.t.name(&d, r.at))
	}
}

// typed is a column of values that are typed.
func (p *Place) typed(head, what string, width float32, path func(r *tableRow) string) tableColumn {
	return tableColumn{head: head, width: width, make: func(r *tableRow) ui.Control {
		return p.rowField(r, func() string { return path(r) }, r.named(what))
	}}
}

// worded is a column of values that are one of a few words.
func (p *Place) worded(head, what string, width float32, path func(r *tableRow) string) tableColumn {
	return tableColumn{head: head, width: width, make: func(r *tableRow) ui.Control {
		w := newWordChoice(p, func() string { return path(r) }, r.named(what))
		w.Choice.Name = what
		return w
	}}
}

// shownOnly is a column that only shows.
func (p *Place) shownOnly(head string, width float32, tell func(r *tableRow, d *design.Design) string) tableColumn {
	return tableColumn{head: head, width: width, make: func(r *tableRow) ui.Control {
		return newTold(13, func(d *design.Design) string { return tell(r, d) })
	}}
}

// settings are a step's own values, each under its name, in rows.
type settings struct {
	p     *Place
	cells []*setting
	note  *ui.Paragraph
}

type setting struct {
	label   *ui.Caption
	control ui.Control
	width   float32
	shows   func(d *design.Design) bool
	hidden  bool
}

func (p *Place) newSettings() *settings {
	return &settings{p: p, note: ui.NewParagraph("", look.CaptionSize, ui.InkWarning)}
}

// field adds a value that is typed.
func (s *settings) field(label, what, path string, width float32) *setting {
	f := ui.NewField(s.p.host, func() string { return path }, func() string { return what })
	f.Seen = s.p.reveal
	f.Note = func(text string, bad bool) {
		s.note.SetText(text)
		if bad {
			s.p.host.Warn(text)
		}
		s.p.relayout()
	}
	return s.add(label, f, width)
}

// word adds a value that is one of a few words.
func (s *settings) word(label, what, path string, width float32) *setting {
	w := newWordChoice(s.p, func() string { return path }, func() string { return what })
	w.Choice.Name = what
	return s.add(label, w, width)
}

func (s *settings) add(label string, c ui.Control, width float32) *setting {
	cell := &setting{label: ui.NewCaption(label, look.CaptionSize, false, ui.InkQuiet), control: c, width: width}
	s.cells = append(s.cells, cell)
	return cell
}

func (s *settings) sync(d *design.Design) {
	for _, c := range s.cells {
		c.hidden = c.shows != nil && !c.shows(d)
		if !c.hidden {
			c.control.Sync(d)
		}
	}
}

func (s *settings) Objects() []fyne.CanvasObject {
	var o []fyne.CanvasObject
	for _, c := range s.cells {
		if !c.hidden {
			o = append(o, c.label, c.control)
		}
	}
	if s.note.Text != "" {
		o = append(o, s.note)
	}
	return o
}

// width is that of the cells in one row.
func (s *settings) width() float32 {
	w := float32(0)
	for _, c := range s.cells {
		if !c.hidden {
			w += max(c.width, c.label.MinSize().Width+2) + 14
		}
	}
	return max(w-14, 0)
}

func (s *settings) Lay(x, y, width float32) float32 {
	high := ui.FieldHeight()
	label := ui.NewCaption("x", look.CaptionSize, false, ui.InkQuiet).MinSize().Height
	at, h, any := x, float32(0), false
	for _, c := range s.cells {
		if c.hidden {
			continue
		}
		w := max(c.width, c.label.MinSize().Width+2)
		if any && at+w > x+width {
			at, h = x, h+label+3+high+8
		}
		any = true
		ui.Put(c.label, at+2, y+h, w-2, label)
		ch := high
		if _, entry := c.control.(*ui.Field); !entry {
			ch = c.control.MinSize().Height
			ui.Put(c.control, at-3, y+h+label+3+(high-ch)/2, min(c.control.MinSize().Width, width), ch)
		} else {
			ui.Put(c.control, at, y+h+label+3, c.width, ch)
		}
		at += w + 14
	}
	if !any {
		return 0
	}
	h += label + 3 + high
	if s.note.Text != "" {
		h += 3 + s.note.Lay(x, y+h+3, width)
	}
	return h
}
