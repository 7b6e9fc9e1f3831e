package brew

import (
	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// stepTable is what goes in at a step, one row each, edited where it stands.
type stepTable struct {
	p       *Place
	title   *ui.Caption
	columns []tableColumn
	heads   []*ui.Caption
	rows    []*tableRow
	n       int
	empty   *ui.Paragraph // what to say where there is none
	adds    []*stepChoice

	which func(d *design.Design) []int // the places in the design's list, in the order to show them
	name  func(d *design.Design, at int) string
	drop  func(at int)              // nil: rows can't be taken out
	move  func(at, by int) bool     // by so many rows; nil: rows have no order of their own
	mayGo func(at, by int) bool     // whether a move would do anything
	least int                       // so many must stay
	shows func(*design.Design) bool // nil: always
	hides bool
	slim  bool // takes half the width

	line ui.DropLine
	by   int // the rows that the dragged one would move by
}

// tableColumn is one column: a fixed width, or what the others leave.
type tableColumn struct {
	head  string
	width float32
	flex  bool
	wide  bool // left out where there is little room
	make  func(r *tableRow) ui.Control
}

// tableRow is one row.
type tableRow struct {
	t        *stepTable
	k        int // place in the table
	at       int // place in the design's list
	controls []ui.Control
	grip     *rowGrip
	up, down *stepChoice
	out      *stepChoice
	note     *ui.Paragraph

	top, bottom float32
}

func (p *Place) newTable(title, empty string, columns ...tableColumn) *stepTable {
	t := &stepTable{p: p, title: ui.Heading(title), columns: columns, empty: ui.NewParagraph(empty, look.CaptionSize+1, ui.InkQuiet), line: ui.NewDropLine()}
	for _, c := range columns {
		h := ui.NewCaption(c.head, look.CaptionSize, false, ui.InkQuiet)
		h.Yields = true
		t.heads = append(t.heads, h)
	}
	return t
}

// adder puts a choice for another row under the table.
func (t *stepTable) adder(text, name string, tap func(under fyne.CanvasObject)) {
	c := t.p.newChoice(text, false, nil)
	c.Icon, c.Ink, c.TextSize, c.Name = look.IconPlus(), ui.InkAccent, 13, name
	c.OnTap = func() { tap(c) }
	t.adds = append(t.adds, c)
}

func (t *stepTable) newRow() *tableRow {
	r := &tableRow{t: t, k: len(t.rows), note: ui.NewParagraph("", look.CaptionSize, ui.InkWarning)}
	for _, c := range t.columns {
		r.controls = append(r.controls, c.make(r))
	}
	tool := func(icon fyne.Resource, tap func()) *stepChoice {
		c := t.p.newChoice("", false, tap)
		c.Icon, c.OnHint = icon, t.p.host.Hint
		return c
	}
	r.grip = newRowGrip(r)
	r.up = tool(look.IconUp(), func() { r.shift(-1, -1) })
	r.down = tool(look.IconDown(), func() { r.shift(1, -1) })
	r.out = tool(look.IconClose(), func() { t.drop(r.at) })
	return r
}

// sync brings the rows up to the design.
func (t *stepTable) sync(d *design.Design) {
	t.hides = t.shows != nil && !t.shows(d)
	var which []int
	if !t.hides {
		which = t.which(d)
	}
	for len(t.rows) < len(which) {
		t.rows = append(t.rows, t.newRow())
	}
	t.n = len(which)
	for _, r := range t.rows[t.n:] {
		r.note.SetText("")
		for _, c := range r.controls {
			if f, ok := c.(*ui.Field); ok {
				f.Forget()
			}
		}
	}
	for k, at := range which {
		r := t.rows[k]
		if r.at != at {
			r.at = at
			r.note.SetText("")
		}
		for _, c := range r.controls {
			c.Sync(d)
		}
		r.grip.name = t.name(d, at)
		label := func(c *stepChoice, text string, off bool) {
			c.Name, c.Hint = text, text
			c.SetOff(off)
		}
		label(r.up, words.T("move {name} up", r.grip.name), t.mayGo == nil || !t.mayGo(at, -1))
		label(r.down, words.T("move {name} down", r.grip.name), t.mayGo == nil || !t.mayGo(at, 1))
		r.grip.setOff(r.up.Off && r.down.Off)
		label(r.out, words.T("take {name} out", r.grip.name), t.n <= t.least)
	}
}

// shift moves a row; the keyboard goes with it, in column c, or on the button.
func (r *tableRow) shift(by, c int) {
	t := r.t
	if t.move == nil || t.mayGo == nil || !t.mayGo(r.at, by) || !t.move(r.at, by) {
		return
	}
	k := r.k + by
	if k < 0 || k >= t.n {
		return
	}
	to := t.rows[k]
	focus := fyne.Focusable(to.up)
	if by > 0 {
		focus = to.down
	}
	if c >= 0 {
		focus, _ = to.controls[c].(fyne.Focusable)
	} else if d, ok := focus.(fyne.Disableable); ok && d.Disabled() {
		focus = to.up
		if by < 0 {
			focus = to.down
		}
	}
	if focus != nil {
		t.p.host.Window().Canvas().Focus(focus)
	}
}

// bare says that there is only the choice to add.
func (t *stepTable) bare() bool { return !t.hides && t.n == 0 && t.empty.Text == "" }

func (t *stepTable) adderWidth() float32 {
	w := float32(0)
	for _, a := range t.adds {
		w += a.MinSize().Width + 12
	}
	return w
}

func (t *stepTable) Objects() []fyne.CanvasObject {
	if t.hides {
		return nil
	}
	var o []fyne.CanvasObject
	if t.n > 0 || t.empty.Text != "" {
		o = append(o, t.title)
	}
	if t.n == 0 {
		if t.empty.Text != "" {
			o = append(o, t.empty)
		}
	} else {
		for c := range t.columns {
			o = append(o, t.heads[c])
		}
	}
	for _, r := range t.rows[:t.n] {
		for _, c := range r.controls {
			o = append(o, c)
		}
		if t.move != nil {
			o = append(o, r.grip, r.up, r.down)
		}
		if t.drop != nil {
			o = append(o, r.out)
		}
		if r.note.Text != "" {
			o = append(o, r.note)
		}
	}
	for _, a := range t.adds {
		o = append(o, a)
	}
	return append(o, t.line.Rectangle)
}
