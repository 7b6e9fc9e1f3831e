package sheet

import (
	"skep/calc/brewday"
)

// entries are what goes in at a step, where neither its time line nor a large
// number says so. The grain is ticked off in the list of what to weigh.
func (s setter) entries(step *brewday.Step) []row {
	if step.Key == brewday.Crush {
		return nil
	}
	said := map[string]bool{}
	for _, e := range step.Events {
		said[e.Path] = true
	}
	large := map[brewday.Quantity]bool{}
	for _, n := range step.Numbers {
		large[n.Plain()] = n.Lead
	}
	var rows []row
	for _, e := range step.Goes {
		if !said[e.Path] && !large[e.Amount.Plain()] {
			rows = append(rows, s.tick(s.goesIn(e.Amount, e.Name, e.Gives)))
		}
	}
	return rows
}

// goesIn is amount, name and what it gives.
func (s setter) goesIn(amount brewday.Quantity, name string, gives brewday.Quantity) []span {
	var out []span
	if amount.Kind != brewday.None {
		out = append(out, span{nobreak(s.c.Format.Quantity(amount)), true}, span{" ", false})
	}
	out = append(out, span{clean(name), false})
	if gives.Kind != brewday.None {
		out = append(out, span{"  " + nobreak(s.c.Format.Quantity(gives)), false})
		if gives.Banded() {
			out = append(out, span{" (" + nobreak(s.c.Format.Range(gives)) + ")", false})
		}
	}
	return out
}

// event is a moment on a time line: box, time, what.
func (s setter) event(e brewday.Event) row {
	when := s.c.Format.Quantity(e.At)
	box, time := 1.45*s.em, 3.9*s.em
	text := s.sentence(e.What)
	if e.Path != "" && e.Amount.Kind != brewday.None {
		text = append(s.goesIn(e.Amount, "", brewday.Quantity{}), text...)
		text = append(text, s.goesIn(brewday.Quantity{}, "", e.Gives)...)
	}
	if e.At.Banded() {
		text = append(text, span{" (" + nobreak(s.c.Format.Range(e.At)) + ")", false})
	}
	lines := s.wrap(text, s.em, s.wide-box-time)
	return row{high: s.lead()*float64(max(1, len(lines))) + 0.14*s.em, draw: func(x, y float64) {
		base := y + 0.95*s.em
		s.box(x, base, 0.92*s.em)
		s.right(x+box+time-0.6*s.em, base, when, s.em, true, black)
		for i, line := range lines {
			s.spans(x+box+time, base+s.lead()*float64(i), line, s.em, black)
		}
	}}
}

// blanks are lines to write on, two beside each other where they fit.
func (s setter) blanks(blanks []brewday.Blank) []row {
	size, small, room := 0.9*s.em, 0.8*s.em, 3.4*s.em
	type cell struct {
		label, unit, expect string
		wide                float64
	}
	var cells []cell
	for _, b := range blanks {
		c := cell{label: b.Label, unit: s.c.Format.Unit(b.Kind)}
		if b.Expect.Kind != brewday.None {
			c.expect = "want " + s.c.Format.Quantity(b.Expect)
			c.unit = "" // said behind the blank already
		}
		c.wide = s.width(c.label, size, false) + room + 1.2*s.em
		if c.unit != "" {
			c.wide += s.width(c.unit, size, false)
		}
		if c.expect != "" {
			c.wide += s.width(c.expect, small, false) + 0.4*s.em
		}
		cells = append(cells, c)
	}
	one := func(c cell, wide float64) func(x, y float64) {
		return func(x, y float64) {
			base, end := y+1.3*s.em, x+wide
			s.text(x, base, c.label, size, false, black)
			if c.expect != "" {
				s.right(end, base, c.expect, small, false, muted)
				end -= s.width(c.expect, small, false) + 0.4*s.em
			}
			if c.unit != "" {
				s.right(end, base, c.unit, size, false, black)
				end -= s.width(c.unit, size, false) + 0.3*s.em
			}
			s.line(x+s.width(c.label, size, false)+0.4*s.em, base+1.5, end, base+1.5, 0.7, black)
		}
	}
	var rows []row
	gutter := s.em
	for i := 0; i < len(cells); i++ {
		r := row{high: 1.68 * s.em, draw: one(cells[i], s.wide)}
		if half := (s.wide - gutter) / 2; i+1 < len(cells) && max(cells[i].wide, cells[i+1].wide) <= half {
			left, right := one(cells[i], half), one(cells[i+1], half)
			r.draw = func(x, y float64) { left(x, y); right(x+half+gutter, y) }
			i++
		}
		rows = append(rows, r)
	}
	return rows
}
