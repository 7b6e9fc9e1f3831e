package sheet

import (
	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/plotting"
)

// pictureTitle is what stands over an outcome's picture.
func pictureTitle(o calc.Outcome) message.Message {
	switch o {
	case calc.FinalGravity:
		return message.New("Final gravity")
	case calc.Strength:
		return message.New("Strength")
	case calc.Dryness:
		return message.New("Dryness")
	}
	return message.New("Body")
}

// head draws title, target, pictures and shopping list across the page and
// gives the y below them. With draw false it only measures.
func (s setter) head(x, y, wide float64, draw bool) float64 {
	s.wide = wide
	y = s.headline(x, y, draw)
	y = s.target(x, y, draw)
	y = s.pictures(x, y, draw)
	y = s.compare(x, y, draw)
	return s.shopping(x, y, draw)
}

// titleSizes are tried until the title takes two lines at most, then three at
// the smallest, then it is cut.
var titleSizes = []float64{22, 19, 16, 14}

func (s setter) headline(x, y float64, draw bool) float64 {
	var lines [][]span
	size := 0.0
	for _, size = range titleSizes {
		lines = s.wrap([]span{{s.c.title(), true}}, size, s.wide)
		if len(lines) <= 2 {
			break
		}
	}
	if len(lines) > 3 {
		rest := ""
		for _, p := range lines[2] {
			rest += p.text
		}
		lines = append(lines[:2:2], []span{{s.cut(rest+" …", size, true, s.wide-0.5*size) + "…", true}})
	}
	for _, line := range lines {
		if draw {
			s.spans(x, y+0.82*size, line, size, black)
		}
		y += 1.15 * size
	}
	sub := s.em
	for _, line := range s.wrap([]span{{s.c.subtitle(), false}}, sub, s.wide) {
		if draw {
			s.spans(x, y+0.9*sub, line, sub, black)
		}
		y += 1.2 * sub
	}
	return y + 0.5*s.em
}

// squeezed writes a text as small as its room asks, but readable still; what does
// not fit even then is cut.
func (s setter) squeezed(x, y float64, text string, size, room float64, shade int) {
	const least = 0.75
	if wide := s.width(text, size, false); wide > room {
		size *= max(least, 0.99*room/wide)
	}
	s.text(x, y, s.cut(text, size, false, room), size, false, shade)
}

// target is the headline's numbers in a row.
func (s setter) target(x, y float64, draw bool) float64 {
	list := s.c.targets()
	cell := s.wide / float64(len(list))
	big, small := 1.45*s.em, 0.78*s.em
	if draw {
		s.line(x, y, x+s.wide, y, 1.1, black)
	}
	y += 0.3 * s.em
	if draw {
		for i, t := range list {
			at := x + float64(i)*cell
			room := cell - 4
			s.squeezed(at, y+1.0*small, s.c.say(t.label), small, room, muted)
			value := s.c.Format.Quantity(t.Quantity)
			s.text(at, y+1.15*small+big, value, big, true, black)
			band := s.c.Format.Range(t.Quantity)
			if !t.word.Empty() {
				band = s.c.say(message.New("{word}, {range}", t.word, band))
			}
			s.squeezed(at, y+1.15*small+big+1.25*small, band, small, room, black)
		}
	}
	y += 1.15*small + big + 1.25*small + 0.9*s.em
	if t := s.c.taught(); t != "" {
		if draw {
			s.text(x, y+0.5*small, t, small, false, muted)
		}
		y += 1.4 * small
	}
	return y
}

// pictures are the four, small, beside each other.
func (s setter) pictures(x, y float64, draw bool) float64 {
	if !s.setting.pictures || len(s.c.Lines) == 0 || len(s.c.Design.Mash.Rest) == 0 {
		return y
	}
	const high = 74.0
	gutter := 8.0
	cell := (s.wide - 3*gutter) / 4
	small := 0.84 * s.em
	if draw {
		lines := make([]plotting.Line, len(s.c.Lines))
		for i, l := range s.c.Lines {
			l.Name = "" // there is no room at the lines' ends: the legend names them
			lines[i] = l
		}
		units := plotting.Units{Temperature: s.c.Format.Axis(quantity.Temperature)}
		for o := range calc.Outcomes {
			units.Outcome[o] = s.c.Format.Axis(o.Kind())
		}
		set := plotting.Four(lines, s.c.Design.Mash.Rest[0].TemperatureC, s.c.Ranges, units)
		page := plotting.OnPDF(s.doc)
		for o := range set {
			at := x + float64(o)*(cell+gutter)
			s.text(at, y+small, s.c.say(pictureTitle(calc.Outcome(o))), small, true, black)
			page.Draw(&set[o], plotting.Place{X: at, Y: y + 1.35*small, Width: cell, Height: high, PointsPerPx: pictureScale}, paperPalette())
		}
	}
	y += 1.35*small + high
	unit := s.c.Format.Unit(quantity.Temperature)
	legend := s.c.say(message.New("Against the first mash rest, {unit}. Point: this design; shaded: four brews in five.", unit))
	for _, l := range s.c.Lines {
		if l.Role == plotting.Before && l.Name != "" {
			legend = s.c.say(message.New("Against the first mash rest, {unit}. Point: this design; shaded: four brews in five; dashed: {name}.", unit, clean(l.Name)))
		}
	}
	if draw {
		s.text(x, y+0.9*small, s.cut(legend, 0.8*s.em, false, s.wide), 0.8*s.em, false, muted)
	}
	return y + 1.2*small + 0.4*s.em
}

// shopping is the list with boxes, in columns across the page.
func (s setter) shopping(x, y float64, draw bool) float64 {
	items := s.c.Day.Shopping
	if len(items) == 0 {
		return y
	}
	const columns = 3
	gutter := 1.2 * s.em
	t := s
	t.wide = (s.wide - gutter*(columns-1)) / columns
	t.em = 0.94 * s.em
	if draw {
		s.line(x, y+0.1*s.em, x+s.wide, y+0.1*s.em, 1.1, black)
		s.doc.Bookmark(s.c.text("To buy and weigh"), 0, y)
		s.text(x, y+1.25*s.em, s.c.text("To buy and weigh"), 1.15*s.em, true, black)
	}
	y += 1.75 * s.em
	rows := make([]row, len(items))
	total := 0.0
	for i, item := range items {
		rows[i] = t.tick(t.item(item))
		total += rows[i].high
	}
	// The shortest columns that hold all, in order.
	high := total / columns
	for ; ; high += 1 {
		if _, used := flow(rows, func(i int) frame { return frame{page: i, y: 0, bottom: high + 0.01} }); used <= columns {
			break
		}
	}
	if draw {
		all, _ := flow(rows, func(i int) frame { return frame{page: i, y: 0, bottom: high + 0.01} })
		for _, p := range all {
			p.draw(x+float64(p.page)*(t.wide+gutter), y+p.y)
		}
	}
	return y + high + 0.3*s.em
}

// item is a line of the shopping list.
func (s setter) item(i brewday.Item) []span {
	out := s.goesIn(i.Amount, s.c.say(i.Name), quantity.Quantity{})
	if !i.Note.Empty() {
		out = append(out, span{", ", false})
		for _, p := range s.sentence(i.Note) {
			p.bold = false
			out = append(out, p)
		}
	}
	return out
}

// compare is the table of yeasts.
func (s setter) compare(x, y float64, draw bool) float64 {
	if len(s.c.Compare) == 0 {
		return y
	}
	head := []string{s.c.text("Yeast"), s.c.text("final gravity"), s.c.text("strength"), s.c.text("dryness"), s.c.text("body")}
	at := []float64{0, 0.28, 0.48, 0.69, 0.85}
	put := func(cells []string, bold bool, shade int) {
		for i, c := range cells {
			end := 1.0
			if i+1 < len(at) {
				end = at[i+1]
			}
			if draw {
				s.text(x+at[i]*s.wide, y+0.95*s.em, s.cut(c, 0.94*s.em, bold, (end-at[i])*s.wide-4), 0.94*s.em, bold, shade)
			}
		}
		y += s.leading()
	}
	if draw {
		s.line(x, y, x+s.wide, y, 1.1, black)
	}
	y += 0.3 * s.em
	put(head, false, muted)
	for i := range s.c.Compare {
		p := &s.c.Compare[i]
		cell := func(k quantity.Kind, b calc.Band) string {
			q := quantity.Quantity{Kind: k, Value: b.Mid, Low: b.Low, High: b.High}
			return s.c.Format.Quantity(q) + " (" + s.c.Format.Range(q) + ")"
		}
		put([]string{
			clean(p.Yeast), cell(quantity.Gravity, p.FinalGravitySG), cell(quantity.Strength, p.StrengthPct),
			cell(quantity.Index, p.Dryness), cell(quantity.Index, p.Body),
		}, i == 0, black)
	}
	return y + 0.4*s.em
}
