package sheet

import (
	"skep/calc/brewday"
	"skep/calc/message"
	"skep/calc/quantity"
)

// entries are what goes in at a step, where neither its time line nor a large
// number says so. The grain is ticked off in the list of what to weigh.
func (s setter) entries(step *brewday.Step) []row {
	if step.Key == brewday.Crush {
		return nil
	}
	listed := map[string]bool{}
	for _, e := range step.Events {
		listed[e.Path] = true
	}
	large := map[quantity.Quantity]bool{}
	for _, n := range step.Numbers {
		large[n.Plain()] = n.Lead
	}
	var rows []row
	for _, e := range step.Goes {
		if !listed[e.Path] && !large[e.Amount.Plain()] {
			rows = append(rows, s.tick(s.goesIn(e.Amount, s.c.say(e.Name), e.Gives)))
		}
	}
	return rows
}

// goesIn is amount, name and what it gives.
func (s setter) goesIn(amount quantity.Quantity, name string, gives quantity.Quantity) []span {
	var out []span
	if amount.Kind != quantity.None {
		out = append(out, span{nobreak(s.c.Format.Quantity(amount)), true}, span{" ", false})
	}
	out = append(out, span{clean(name), false})
	if gives.Kind != quantity.None {
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
	if e.Path != "" && e.Amount.Kind != quantity.None {
		text = append(s.goesIn(e.Amount, "", quantity.Quantity{}), text...)
		text = append(text, s.goesIn(quantity.Quantity{}, "", e.Gives)...)
	}
	if hour := s.c.hourOf(&e); hour != "" {
		text = append(text, span{"  " + nobreak(hour), true})
	}
	if e.At.Banded() {
		text = append(text, span{" (" + nobreak(s.c.Format.Range(e.At)) + ")", false})
	}
	lines := s.wrap(text, s.em, s.wide-box-time)
	return row{high: s.leading()*float64(max(1, len(lines))) + 0.14*s.em, draw: func(x, y float64) {
		base := y + 0.95*s.em
		s.box(x, base, 0.92*s.em)
		s.right(x+box+time-0.6*s.em, base, when, s.em, true, black)
		for i, line := range lines {
			s.spans(x+box+time, base+s.leading()*float64(i), line, s.em, black)
		}
	}}
}

// table is what to do where a measurement is off, a case a row.
func (s setter) table(table []brewday.Correction) []row {
	var rows []row
	size, at := 0.9*s.em, 4.1*s.em
	for _, c := range table {
		reads := s.c.Format.Quantity(c.Reads)
		lines := s.wrap(s.sentence(c.Either()), size, s.wide-at)
		rows = append(rows, row{high: 1.17 * size * float64(len(lines)), draw: func(x, y float64) {
			s.right(x+at-0.5*s.em, y+0.95*size, reads, size, true, black)
			for i, line := range lines {
				s.spans(x+at, y+0.95*size+1.17*size*float64(i), line, size, black)
			}
		}})
	}
	return rows
}

// blank is a line to write on, with the width it needs.
type blank struct {
	label, unit, expect string
	need                float64
}

// blanks are lines to write on, beside each other as long as they fit.
func (s setter) blanks(blanks []brewday.Blank) []row {
	const most = 3 // in a row
	gutter := 0.9 * s.em
	var lines [][]blank
	used := 0.0
	for _, b := range blanks {
		c := s.blank(b)
		n := len(lines) - 1
		if n < 0 || len(lines[n]) == most || used+gutter+c.need > s.wide {
			lines, used = append(lines, []blank{c}), c.need
			continue
		}
		lines[n] = append(lines[n], c)
		used += gutter + c.need
	}
	var rows []row
	for _, line := range lines {
		rows = append(rows, row{high: 1.66 * s.em, draw: func(x, y float64) {
			spare := s.wide - gutter*float64(len(line)-1)
			for _, c := range line {
				spare -= c.need
			}
			for _, c := range line {
				wide := c.need + spare/float64(len(line))
				s.drawBlank(c, x, y, wide)
				x += wide + gutter
			}
		}})
	}
	return rows
}

func (s setter) blank(b brewday.Blank) blank {
	c := blank{label: s.c.say(b.Label), unit: s.c.Format.Unit(b.Kind)}
	if b.Expect.Kind != quantity.None {
		c.expect = s.c.say(message.New("want {value}", b.Expect))
		c.unit = "" // said behind the blank already
	}
	room := 3.3 * s.em
	if b.Kind == quantity.Moment {
		room = 4.5 * s.em
	}
	c.need = s.width(c.label, s.em, false) + 0.4*s.em + room
	for _, t := range []string{c.unit, c.expect} {
		if t != "" {
			c.need += 0.35*s.em + s.width(t, 0.82*s.em, false)
		}
	}
	return c
}

func (s setter) drawBlank(c blank, x, y, wide float64) {
	base, end, small := y+1.3*s.em, x+wide, 0.82*s.em
	s.text(x, base, c.label, s.em, false, black)
	for _, t := range []string{c.expect, c.unit} {
		if t != "" {
			s.right(end, base, t, small, false, black)
			end -= s.width(t, small, false) + 0.35*s.em
		}
	}
	s.line(x+s.width(c.label, s.em, false)+0.4*s.em, base+1.5, end, base+1.5, 0.7, black)
}
