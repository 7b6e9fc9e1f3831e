package sheet

import (
	"strings"

	"skep/calc/brewday"
	"skep/calc/message"
	"skep/calc/quantity"
)

// setter turns steps into rows of one column's width. Everything follows from the
// size of the body text.
type setter struct {
	ink
	setting
	c    *Content
	wide float64
}

func (s setter) leading() float64 { return 1.19 * s.em } // height of a line of body text

// air is an empty row.
func air(high float64) row { return row{high: high, draw: func(x, y float64) {}, gap: true} }

// step is all rows of a step.
func (s setter) step(n int, step *brewday.Step) []row {
	heading, leads := s.heading(n, step)
	rows := []row{air(0.55 * s.em), heading}
	if !step.Why.Empty() && s.why {
		rows = append(rows, keep(s.paragraph([]span{{s.c.say(step.Why), false}}, 0, 0.84*s.em, muted))...)
	}
	rows = append(rows, leads...)
	rows = append(rows, keep(s.numbers(unsaid(step)))...)
	rows = append(rows, keep([]row{air(0.2 * s.em)})...)
	for _, w := range step.Warnings {
		rows = append(rows, s.warning(w))
	}
	rows = append(rows, s.entries(step)...)
	for _, e := range step.Events {
		rows = append(rows, s.event(e))
	}
	if step.Key == brewday.Ferment {
		rows = append(rows, s.course()...)
	}
	for _, d := range step.Do {
		rows = append(rows, s.tick(s.sentence(d)))
	}
	var notes []span
	for _, note := range step.Notes {
		notes = append(append(notes, s.sentence(note)...), span{" ", false})
	}
	rows = append(rows, s.paragraph(notes, 1.4*s.em, 0.9*s.em, black)...)
	// What can hurt, and what to measure, stay with the last thing to do.
	rows[len(rows)-1].keep = true
	if len(step.Cautions) > 0 {
		rows = append(rows, keep([]row{air(0.15 * s.em), s.caution(step.Cautions)})...)
	}
	rows = append(rows, keep(s.blanks(step.Blanks))...)
	rows = append(rows, keep(s.table(step.Table))...)
	rows[len(rows)-1].keep = false
	return rows
}

// unsaid are the small numbers that stand nowhere else in the step: neither in
// what to do nor as what a blank wants.
func unsaid(step *brewday.Step) []brewday.Number {
	listed := map[quantity.Quantity]bool{}
	for _, d := range step.Do {
		d.Each(nil, func(string) {}, func(v any) {
			if q, ok := v.(quantity.Quantity); ok {
				listed[q.Plain()] = true
			}
		})
	}
	for _, b := range step.Blanks {
		listed[b.Expect.Plain()] = true
	}
	var out []brewday.Number
	for _, n := range step.Numbers {
		if !n.Lead && !listed[n.Plain()] {
			out = append(out, n)
		}
	}
	return out
}

// keep ties rows to what follows them.
func keep(rows []row) []row {
	for i := range rows {
		rows[i].keep = true
	}
	return rows
}

// sentence is a sentence as spans, its quantities bold.
func (s setter) sentence(t message.Message) []span {
	var out []span
	t.Each(s.c.Format.Translate, func(text string) { out = append(out, span{clean1(text), false}) },
		func(v any) { out = append(out, span{s.c.value(v), true}) })
	return out
}

// clean1 is clean that keeps a space at either end.
func clean1(t string) string {
	c := clean(t)
	if c == "" {
		if t != "" {
			return " "
		}
		return ""
	}
	if strings.HasPrefix(t, " ") {
		c = " " + c
	}
	if strings.HasSuffix(t, " ") {
		c += " "
	}
	return c
}

// nobreak keeps a number with its unit.
func nobreak(t string) string { return strings.ReplaceAll(t, " ", "\u00a0") }

// paragraph is wrapped text, a row a line.
func (s setter) paragraph(text []span, indent, size float64, shade int) []row {
	var rows []row
	for _, line := range s.wrap(text, size, s.wide-indent) {
		rows = append(rows, row{high: 1.2 * size, draw: func(x, y float64) {
			s.spans(x+indent, y+0.95*size, line, size, shade)
		}})
	}
	return rows
}

// numbers are the rest, two beside each other where they fit.
func (s setter) numbers(numbers []brewday.Number) []row {
	type cell struct {
		label, value, band string
		wide               float64
	}
	size, small := s.em, 0.84*s.em
	var cells []cell
	for _, n := range numbers {
		c := cell{label: s.c.say(n.Label), value: s.c.Format.Quantity(n.Quantity)}
		if n.Banded() {
			c.band = s.c.Format.Range(n.Quantity)
		}
		c.wide = s.width(c.label, small, false) + 0.45*s.em + s.width(c.value, size, true)
		if c.band != "" {
			c.wide += 0.4*s.em + s.width("("+c.band+")", small, false)
		}
		cells = append(cells, c)
	}
	one := func(c cell) func(x, y float64) {
		return func(x, y float64) {
			base := y + 0.95*size
			s.text(x, base, c.label, small, false, muted)
			x += s.width(c.label, small, false) + 0.45*s.em
			s.text(x, base, c.value, size, true, black)
			if c.band != "" {
				s.text(x+s.width(c.value, size, true)+0.4*s.em, base, "("+c.band+")", small, false, muted)
			}
		}
	}
	var rows []row
	const gutter = 8
	for i := 0; i < len(cells); i++ {
		left := one(cells[i])
		r := row{high: s.leading(), draw: left}
		if i+1 < len(cells) && cells[i].wide+cells[i+1].wide+gutter <= s.wide {
			at := max(s.wide/2, cells[i].wide+gutter)
			if at+cells[i+1].wide > s.wide {
				at = s.wide - cells[i+1].wide
			}
			right := one(cells[i+1])
			r.draw = func(x, y float64) { left(x, y); right(x+at, y) }
			i++
		}
		rows = append(rows, r)
	}
	return rows
}

// tick is a box and what to do.
func (s setter) tick(text []span) row {
	indent := 1.45 * s.em
	lines := s.wrap(text, s.em, s.wide-indent)
	return row{high: s.leading()*float64(len(lines)) + 0.14*s.em, draw: func(x, y float64) {
		s.box(x, y+0.95*s.em, 0.92*s.em)
		for i, line := range lines {
			s.spans(x+indent, y+0.95*s.em+s.leading()*float64(i), line, s.em, black)
		}
	}}
}

// warning is what does not fit, framed so that it is not overlooked.
func (s setter) warning(w brewday.Warning) row {
	pad := 0.45 * s.em
	text := append([]span{{s.c.text("Check:") + " ", true}}, s.sentence(w.Message)...)
	lines := s.wrap(text, s.em, s.wide-2*pad)
	high := s.leading()*float64(len(lines)) + 1.3*pad
	return row{high: high + 0.3*s.em, draw: func(x, y float64) {
		s.doc.SetDrawColor(black, black, black)
		s.doc.SetLineWidth(1.6)
		s.doc.Rect(x+0.8, y+0.8, s.wide-1.6, high-1.6, "D")
		for i, line := range lines {
			s.spans(x+pad, y+pad*0.6+0.95*s.em+s.leading()*float64(i), line, s.em, black)
		}
	}}
}

// caution is what can hurt: a heavy bar beside it.
func (s setter) caution(of []message.Message) row {
	texts := make([]string, len(of))
	for i := range of {
		texts[i] = s.c.say(of[i])
	}
	text := strings.Join(texts, " ")
	size, indent := 0.88*s.em, 0.8*s.em
	lines := s.wrap([]span{{text, true}}, size, s.wide-indent)
	return row{high: 1.2*size*float64(len(lines)) + 0.25*s.em, draw: func(x, y float64) {
		s.doc.SetFillColor(black, black, black)
		s.doc.Rect(x, y+0.1*size, 0.28*s.em, 1.2*size*float64(len(lines))-0.1*size, "F")
		for i, line := range lines {
			s.spans(x+indent, y+0.95*size+1.2*size*float64(i), line, size, black)
		}
	}}
}
