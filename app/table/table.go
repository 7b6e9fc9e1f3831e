// Package table has the one table whose rows are edited where they stand, dragged
// and taken out, and the settings that stand in rows under their names. In come
// keys of the design and what a place does when a row moves or goes; out go the
// edits, through the host. It must not know which place or step it stands in.
package table

import (
	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// Parts makes tables, settings and choices for one place.
type Parts struct {
	Host     ui.Host
	Reveal   func(fyne.CanvasObject) // scrolls to what has the keyboard
	Relayout func()                  // when a note comes or goes
}

// Table is what goes in at a step, one row each, edited where it stands. Rows of Fyne's
// table can't be dragged, and its cells are made anew as they scroll, under what is typed.
type Table struct {
	p       *Parts
	title   *ui.Caption
	columns []Column
	heads   []*ui.Caption
	Rows    []*Row
	N       int
	empty   *ui.Paragraph // what to say where there is none
	adds    []*Choice

	Which func(d *design.Design) []int // the places in the design's list, in the order to show them
	Name  func(d *design.Design, at int) string
	Drop  func(at int)              // nil: rows can't be taken out
	Move  func(at, by int) bool     // by so many rows; nil: rows have no order of their own
	MayGo func(at, by int) bool     // whether a move would do anything
	Least int                       // so many must stay
	Shows func(*design.Design) bool // nil: always
	Hides bool
	Slim  bool // takes half the width

	Line ui.DropLine // where a dragged row would go
	by   int         // the rows that the dragged one would move by
}

// Column is one column: a fixed width, or what the others leave.
type Column struct {
	Head  string
	Width float32
	Flex  bool
	Wide  bool // left out where there is little room
	Make  func(r *Row) ui.Control
}

// Row is one row.
type Row struct {
	t        *Table
	K        int // place in the table
	At       int // place in the design's list
	Controls []ui.Control
	Grip     *rowGrip
	Up, Down *Choice
	Out      *Choice
	Note     *ui.Paragraph
	remarks  ui.Remarks

	Top, Bottom float32 // of the row as it is laid out
}

func (p *Parts) Table(title, empty string, columns ...Column) *Table {
	t := &Table{p: p, title: ui.Heading(title), columns: columns, empty: ui.NewParagraph(empty, look.CaptionSize+1, ui.InkQuiet), Line: ui.NewDropLine()}
	for _, c := range columns {
		h := ui.NewCaption(c.Head, look.CaptionSize, false, ui.InkQuiet)
		h.Yields = true
		t.heads = append(t.heads, h)
	}
	return t
}

// Add puts a choice for another row under the table.
func (t *Table) Add(text, name string, tap func(under fyne.CanvasObject)) {
	c := t.p.Choice(text, false, nil)
	c.Icon, c.Ink, c.TextSize, c.Name = look.IconPlus(), ui.InkAccent, 13, name
	c.OnTap = func() { tap(c) }
	t.adds = append(t.adds, c)
}

func (t *Table) newRow() *Row {
	r := &Row{t: t, K: len(t.Rows), Note: ui.NewParagraph("", look.CaptionSize, ui.InkWarning)}
	for _, c := range t.columns {
		r.Controls = append(r.Controls, c.Make(r))
	}
	tool := func(icon fyne.Resource, tap func()) *Choice {
		c := t.p.Choice("", false, tap)
		c.Icon, c.OnHint = icon, t.p.Host.Hint
		return c
	}
	r.Grip = newRowGrip(r)
	r.Up = tool(look.IconUp(), func() { r.shift(-1, -1) })
	r.Down = tool(look.IconDown(), func() { r.shift(1, -1) })
	r.Out = tool(look.IconClose(), func() { t.Drop(r.At) })
	return r
}

// Sync brings the rows up to the design.
func (t *Table) Sync(d *design.Design) {
	t.Hides = t.Shows != nil && !t.Shows(d)
	var which []int
	if !t.Hides {
		which = t.Which(d)
	}
	for len(t.Rows) < len(which) {
		t.Rows = append(t.Rows, t.newRow())
	}
	t.N = len(which)
	for _, r := range t.Rows[t.N:] {
		r.Note.SetText("")
		for _, c := range r.Controls {
			if f, ok := c.(*ui.Field); ok {
				f.Forget()
			}
		}
	}
	for k, at := range which {
		r := t.Rows[k]
		if r.At != at {
			r.At = at
			r.Note.SetText("")
		}
		for _, c := range r.Controls {
			c.Sync(d)
		}
		r.Grip.Name = t.Name(d, at)
		label := func(c *Choice, text string, off bool) {
			c.Name, c.Hint = text, text
			c.SetOff(off)
		}
		label(r.Up, words.T("move {name} up", r.Grip.Name), t.MayGo == nil || !t.MayGo(at, -1))
		label(r.Down, words.T("move {name} down", r.Grip.Name), t.MayGo == nil || !t.MayGo(at, 1))
		r.Grip.setOff(r.Up.Off && r.Down.Off)
		label(r.Out, words.T("take {name} out", r.Grip.Name), t.N <= t.Least)
	}
}

// shift moves a row; the keyboard goes with it, in column c, or on the button.
func (r *Row) shift(by, c int) {
	t := r.t
	if t.Move == nil || t.MayGo == nil || !t.MayGo(r.At, by) || !t.Move(r.At, by) {
		return
	}
	k := r.K + by
	if k < 0 || k >= t.N {
		return
	}
	to := t.Rows[k]
	focus := fyne.Focusable(to.Up)
	if by > 0 {
		focus = to.Down
	}
	if c >= 0 {
		focus, _ = to.Controls[c].(fyne.Focusable)
	} else if d, ok := focus.(fyne.Disableable); ok && d.Disabled() {
		focus = to.Up
		if by < 0 {
			focus = to.Down
		}
	}
	if focus != nil {
		t.p.Host.Window().Canvas().Focus(focus)
	}
}

// Bare says that there is only the choice to add.
func (t *Table) Bare() bool { return !t.Hides && t.N == 0 && t.empty.Text == "" }

func (t *Table) AdderWidth() float32 {
	w := float32(0)
	for _, a := range t.adds {
		w += a.MinSize().Width + 12
	}
	return w
}

func (t *Table) Objects() []fyne.CanvasObject {
	if t.Hides {
		return nil
	}
	var o []fyne.CanvasObject
	if t.N > 0 || t.empty.Text != "" {
		o = append(o, t.title)
	}
	if t.N == 0 {
		if t.empty.Text != "" {
			o = append(o, t.empty)
		}
	} else {
		for c := range t.columns {
			o = append(o, t.heads[c])
		}
	}
	for _, r := range t.Rows[:t.N] {
		for _, c := range r.Controls {
			o = append(o, c)
		}
		if t.Move != nil {
			o = append(o, r.Grip, r.Up, r.Down)
		}
		if t.Drop != nil {
			o = append(o, r.Out)
		}
		if r.Note.Text != "" {
			o = append(o, r.Note)
		}
	}
	for _, a := range t.adds {
		o = append(o, a)
	}
	return append(o, t.Line.Rectangle)
}
