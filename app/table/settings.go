package table

import (
	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// Choice is a choice that comes into view when it has the keyboard.
type Choice struct {
	ui.Choice
	p *Parts
}

func (p *Parts) Choice(text string, list bool, tap func()) *Choice {
	c := &Choice{p: p}
	c.Text, c.List, c.OnTap = text, list, tap
	c.TextSize, c.Ink, c.Height = look.CaptionSize, ui.InkQuiet, ui.ChoiceHeight
	c.Extend(c)
	return c
}

// FocusGained brings the choice into view.
func (c *Choice) FocusGained() {
	c.Choice.FocusGained()
	c.p.Reveal(c)
}

// Shown is a control that only shows.
type Shown struct {
	ui.Caption
	text func(d *design.Design) string
}

func NewShown(size float32, text func(d *design.Design) string) *Shown {
	t := &Shown{text: text}
	t.TextSize, t.Ink, t.Yields = size, ui.InkQuiet, true
	t.ExtendBaseWidget(t)
	return t
}

func (t *Shown) Sync(d *design.Design) { t.SetText(t.text(d)) }

// rowField is a row's value that is typed, under a key of its line.
func (p *Parts) rowField(r *Row, path func() string, what func() string) ui.Control {
	f := ui.NewField(p.Host, path, what)
	f.SetSeen(p.Reveal)
	f.Note = func(text string, _ bool) {
		r.Note.SetText(r.remarks.Note(f, text))
		p.Relayout()
	}
	column := len(r.Controls)
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
func (r *Row) named(what string) func() string {
	return func() string {
		d := r.t.p.Host.Design()
		return words.T("{what} of {name}", what, r.t.Name(&d, r.At))
	}
}

// Typed is a column of values that are typed.
func (p *Parts) Typed(head, what string, width float32, path func(r *Row) string) Column {
	return Column{Head: head, Width: width, Make: func(r *Row) ui.Control {
		return p.rowField(r, func() string { return path(r) }, r.named(what))
	}}
}

// Worded is a column of values that are one of a few words.
func (p *Parts) Worded(head, what string, width float32, path func(r *Row) string) Column {
	return Column{Head: head, Width: width, Make: func(r *Row) ui.Control {
		w := newWordChoice(p, func() string { return path(r) }, r.named(what))
		w.Choice.Name = what
		return w
	}}
}

// ShownOnly is a column that only shows.
func (p *Parts) ShownOnly(head string, width float32, text func(r *Row, d *design.Design) string) Column {
	return Column{Head: head, Width: width, Make: func(r *Row) ui.Control {
		return NewShown(13, func(d *design.Design) string { return text(r, d) })
	}}
}

// settings are a step's own values, each under its name, in rows.
type Settings struct {
	p     *Parts
	cells []*Setting
	Note  *ui.Paragraph

	remarks ui.Remarks
}

type Setting struct {
	label   *ui.Caption
	control ui.Control
	width   float32
	Shows   func(d *design.Design) bool
	hidden  bool
}

func (p *Parts) Settings() *Settings {
	return &Settings{p: p, Note: ui.NewParagraph("", look.CaptionSize, ui.InkWarning)}
}

// Field adds a value that is typed.
func (s *Settings) Field(label, what, path string, width float32) *Setting {
	f := ui.NewField(s.p.Host, func() string { return path }, func() string { return what })
	f.SetSeen(s.p.Reveal)
	f.Note = func(text string, _ bool) {
		s.Note.SetText(s.remarks.Note(f, text))
		s.p.Relayout()
	}
	return s.Add(label, f, width)
}

// Word adds a value that is one of a few words.
func (s *Settings) Word(label, what, path string, width float32) *Setting {
	w := newWordChoice(s.p, func() string { return path }, func() string { return what })
	w.Choice.Name = what
	return s.Add(label, w, width)
}

func (s *Settings) Add(label string, c ui.Control, width float32) *Setting {
	cell := &Setting{label: ui.NewCaption(label, look.CaptionSize, false, ui.InkQuiet), control: c, width: width}
	s.cells = append(s.cells, cell)
	return cell
}

// Shown are the controls that are on the screen.
func (s *Settings) Shown() (list []ui.Control) {
	for _, c := range s.cells {
		if !c.hidden {
			list = append(list, c.control)
		}
	}
	return list
}

// Sync brings the settings up to the design.
func (s *Settings) Sync(d *design.Design) {
	for _, c := range s.cells {
		c.hidden = c.Shows != nil && !c.Shows(d)
		if !c.hidden {
			c.control.Sync(d)
		}
	}
}

func (s *Settings) Objects() []fyne.CanvasObject {
	var o []fyne.CanvasObject
	for _, c := range s.cells {
		if !c.hidden {
			o = append(o, c.label, c.control)
		}
	}
	if s.Note.Text != "" {
		o = append(o, s.Note)
	}
	return o
}

// Width is that of the cells in one row.
func (s *Settings) Width() float32 {
	w := float32(0)
	for _, c := range s.cells {
		if !c.hidden {
			w += max(c.width, c.label.MinSize().Width+2) + 14
		}
	}
	return max(w-14, 0)
}

func (s *Settings) Lay(x, y, width float32) float32 {
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
	if s.Note.Text != "" {
		h += 3 + s.Note.Lay(x, y+h+3, width)
	}
	return h
}
