package sheet

import (
	"strconv"

	"skep/calc/brewday"
)

// heading is number and title under a rule, with the large numbers at its right
// end where they fit; rest are the rows of those that do not.
func (s setter) heading(n int, step *brewday.Step) (heading row, rest []row) {
	size, title := 1.3*s.em, s.c.say(step.Title)
	number := strconv.Itoa(n)
	titleAt := max(1.45*s.em, s.width(number, size, true)+0.5*s.em)
	hour := s.c.stepHour(step)
	hourAt := titleAt + s.width(title, size, true) + 0.55*s.em
	taken := titleAt + s.width(title, size, true) + 1.2*s.em
	if hour != "" {
		taken = hourAt + s.width(hour, s.em, true) + 1.2*s.em
	}
	lines := s.leads(step.Numbers)
	var beside []lead
	if len(lines) == 1 && taken+span1(lines[0]) <= s.wide {
		beside, lines = lines[0], nil
	}
	heading = row{high: 1.8 * s.em, keep: true, draw: func(x, y float64) {
		base := y + 1.42*s.em
		s.line(x, y, x+s.wide, y, 1.1, black)
		s.doc.Bookmark(number+"  "+title, 0, y)
		s.text(x, base, number, size, true, black)
		s.text(x+titleAt, base, title, size, true, black)
		s.text(x+hourAt, base, hour, s.em, true, muted)
		s.drawLeads(x+s.wide-span1(beside), base, beside)
	}}
	for _, line := range lines {
		rest = append(rest, row{high: 1.14 * s.big(), keep: true, draw: func(x, y float64) {
			s.drawLeads(x, y+0.86*s.big(), line)
		}})
	}
	return heading, rest
}

// lead is a large number with its label behind it.
type lead struct {
	value, label string
	at           float64 // of the label
	wide         float64
}

func (s setter) big() float64     { return 1.55 * s.em }
func (s setter) leadAir() float64 { return 1.0 * s.em } // between two

// span1 is how wide a line of leads is.
func span1(line []lead) float64 {
	sum := 0.0
	for _, l := range line {
		sum += l.wide
	}
	return sum
}

// leads are the large numbers in lines of the column's width.
func (s setter) leads(numbers []brewday.Number) [][]lead {
	small := 0.86 * s.em
	var lines [][]lead
	used := 0.0
	for _, n := range numbers {
		if !n.Lead {
			continue
		}
		c := lead{value: s.c.Format.Quantity(n.Quantity), label: clean(s.c.say(n.Label))}
		c.at = s.width(c.value, s.big(), true) + 0.3*s.em
		if n.Banded() { // the range where it costs no line
			long := c.label + " (" + s.c.Format.Range(n.Quantity) + ")"
			if used+s.leadAir()+c.at+s.width(long, small, false) <= s.wide {
				c.label = long
			}
		}
		c.label = s.cut(c.label, small, false, s.wide-c.at)
		c.wide = c.at + s.width(c.label, small, false)
		if used > 0 && used+s.leadAir()+c.wide <= s.wide {
			c.wide += s.leadAir() // on its left
		} else {
			lines, used = append(lines, nil), 0
		}
		lines[len(lines)-1] = append(lines[len(lines)-1], c)
		used += c.wide
	}
	return lines
}

func (s setter) drawLeads(x, base float64, line []lead) {
	for i, c := range line {
		if i > 0 {
			x += s.leadAir()
			c.wide -= s.leadAir()
		}
		s.text(x, base, c.value, s.big(), true, black)
		s.text(x+c.at, base, c.label, 0.86*s.em, false, black)
		x += c.wide
	}
}
