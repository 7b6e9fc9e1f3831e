package plane

import (
	"image/color"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"skep/app/words"
)

// move places all that lies over the picture. It runs at each step of a drag
// and touches only what differs.
func (t *parts) move() {
	p := t.p
	v := p.view()
	small := v.width < 60 || v.height < 60
	t.moveWords(v, small)
	t.moveNote(v)
	show(t.point, p.now.known && !small)
	put(t.point, v.at(p.now.here), pointRadius)
	t.movePin(v, small)
	t.moveBadges(v, small)

	stroke := color.Color(color.Transparent)
	if p.focused {
		stroke = p.palette.Focus
	}
	if t.focus.StrokeColor != stroke {
		t.focus.StrokeColor = stroke
		t.focus.Refresh()
	}
}

func (t *parts) moveWords(v view, small bool) {
	p, c := t.p, t.p.palette
	w := p.words
	if small {
		w = axisWords{}
	}
	high := p.measure(w.dry).Height
	foot := v.top + v.height + (foot-high)/2
	t.place(t.full, w.full, fyne.NewPos(v.left+wordInset, v.top+4), c.Quiet)
	t.place(t.light, w.light, fyne.NewPos(v.left+wordInset, v.top+v.height-high-4), c.Quiet)
	t.place(t.dry, w.dry, fyne.NewPos(v.left, foot), c.Quiet)
	t.place(t.sweet, w.sweet, fyne.NewPos(v.left+v.width-p.measure(w.sweet).Width, foot), c.Quiet)

	name := ""
	if p.now.ghosted && !small {
		name = p.now.ghost.Name
	}
	t.place(t.ghostName, name, p.ghostWord(v, v.at(p.now.ghost.At)), c.Quiet)
	for i, o := range t.names {
		if i >= len(p.marks) || small {
			show(o, false)
			continue
		}
		ink := c.Ink
		if p.lit(i) {
			ink = c.Accent
		}
		t.place(o, p.now.arrows[i].Word, p.marks[i].wordAt, ink)
	}

	text := words.T("whole plane")
	if p.whole {
		text = words.T("closer look")
	}
	t.zoom.set(text, p.zoomSays())
	size := t.zoom.MinSize()
	between := p.measure(w.dry).Width + p.measure(w.sweet).Width + 16
	show(t.zoom, !small && p.now.known && v.width-between >= size.Width && (p.whole || p.goal != wholePlane))
	middle := v.left + (v.width+p.measure(w.dry).Width-p.measure(w.sweet).Width)/2
	t.zoom.Move(fyne.NewPos(middle-size.Width/2, v.top+v.height))
	t.zoom.Resize(fyne.NewSize(size.Width, 24))
}

// ghostWord is where the name of the ghost stands.
func (p *Plane) ghostWord(v view, at fyne.Position) fyne.Position {
	size := p.measure(p.now.ghost.Name)
	x := at.X + ghostRadius + 5
	if x+size.Width > v.left+v.width-3 {
		x = max(v.left+3, at.X-ghostRadius-5-size.Width)
	}
	return fyne.NewPos(x, at.Y-size.Height/2)
}

// moveNote says in a few centred lines why there is nothing to see.
func (t *parts) moveNote(v view) {
	p := t.p
	lines := wrap(p.now.note, v.width-24, len(t.note), p.measure)
	high := p.measure("x").Height + 3
	y := v.top + (v.height-high*float32(len(lines)))/2
	for i, o := range t.note {
		text := ""
		if i < len(lines) && !p.now.known && v.height > 60 {
			text = lines[i]
		}
		t.place(o, text, fyne.NewPos(v.left+(v.width-p.measure(text).Width)/2, y+float32(i)*high), p.palette.Quiet)
	}
}

// wrap breaks a text into lines; what does not fit ends in an ellipsis.
func wrap(text string, width float32, most int, measure func(string) fyne.Size) []string {
	var lines []string
	line := ""
	list := strings.Fields(text)
	for i, word := range list {
		longer := strings.TrimSpace(line + " " + word)
		if line == "" || measure(longer).Width <= width {
			line = longer
			continue
		}
		if len(lines) == most-1 {
			line += " " + strings.Join(list[i:], " ")
			break
		}
		lines, line = append(lines, line), word
	}
	if line == "" {
		return lines
	}
	return append(lines, shorten(line, width, measure))
}

func shorten(text string, width float32, measure func(string) fyne.Size) string {
	if measure(text).Width <= width {
		return text
	}
	runes := []rune(text)
	for n := len(runes) - 1; n > 0; n-- {
		if short := strings.TrimRight(string(runes[:n]), " ") + "…"; measure(short).Width <= width {
			return short
		}
	}
	return ""
}

// pinAt is where the ring of the pin stands: on the design's own level on an
// axis that is left free.
func (p *Plane) pinAt(v view) (fyne.Position, bool) {
	if p.grip.kind == onPin && !p.grip.keys {
		return v.at(p.grip.at), !p.wish.Empty()
	}
	if p.wish.Empty() {
		return fyne.Position{}, false
	}
	at := Point{(v.dLow + v.dHigh) / 2, (v.bLow + v.bHigh) / 2}
	if p.now.known {
		at = p.now.here
	}
	if p.wish.Dryness != nil {
		at.Dryness = *p.wish.Dryness
	}
	if p.wish.Body != nil {
		at.Body = *p.wish.Body
	}
	return v.at(at), true
}

func (t *parts) movePin(v view, small bool) {
	p := t.p
	at, there := p.pinAt(v)
	// A pin out of sight stands at the border that it lies behind.
	at.X = min(max(at.X, v.left), v.left+v.width)
	at.Y = min(max(at.Y, v.top), v.top+v.height)
	there = there && !small
	show(t.ring, there)
	put(t.ring, at, pinRadius)
	arm := float32(pinRadius - 1)
	d, b := p.wish.Dryness != nil, p.wish.Body != nil
	// Free on one axis: a line across the plane, and only its own arm of the cross.
	show(t.across, there && b)
	show(t.down, there && d)
	lineTo(t.across, at.SubtractXY(arm, 0), at.AddXY(arm, 0))
	lineTo(t.down, at.SubtractXY(0, arm), at.AddXY(0, arm))
	show(t.free, there && d != b)
	if d {
		lineTo(t.free, fyne.NewPos(at.X, v.top), fyne.NewPos(at.X, v.top+v.height))
	} else {
		lineTo(t.free, fyne.NewPos(v.left, at.Y), fyne.NewPos(v.left+v.width, at.Y))
	}
	lit := there && (p.grip.kind == onPin || p.over.kind == onPin || p.focused && p.chosen == "")
	show(t.chosen, lit)
	put(t.chosen, at, pinRadius+4)
}

const spokes = 12

// moveBadges puts each answer's number where it lands, or on the nearest free
// side of that place, with a thread to it.
func (t *parts) moveBadges(v view, small bool) {
	p := t.p
	taken := append(p.boxes[:0], square(v.at(p.now.here), pointRadius+2)) // first: see vacant
	if at, ok := p.pinAt(v); ok {
		taken = append(taken, square(at, pinRadius+2))
	}
	for i := range p.marks {
		taken = append(taken, boxAt(p.marks[i].wordAt, p.marks[i].wordSize))
	}
	for i := range t.badges {
		b := &t.badges[i]
		on := i < len(p.ways) && !small && p.ways[i].Dryness >= 0
		show(b.ring, on)
		show(b.number, on)
		if !on {
			show(b.thread, false)
			show(b.dot, false)
			continue
		}
		place := v.at(p.ways[i])
		b.at = t.vacant(v, place, taken, &b.spoke)
		away := b.at != place
		show(b.thread, away)
		show(b.dot, away)
		put(b.dot, place, 2.2)
		lineTo(b.thread, place, b.at)
		put(b.ring, b.at, badgeRadius)
		number := strconv.Itoa(i + 1)
		write(b.number, number, p.palette.Ink, true, 11)
		size := fyne.MeasureText(number, 11, fyne.TextStyle{Bold: true})
		b.number.Move(b.at.SubtractXY(size.Width/2, size.Height/2))
		b.number.Resize(size)
		taken = append(taken, square(b.at, badgeRadius+1))
	}
	p.boxes = taken
}

// vacant is a place for a badge: its own, the side it had, or the next free one.
func (t *parts) vacant(v view, place fyne.Position, taken []box, spoke *int) fyne.Position {
	clear := func(at fyne.Position) bool {
		b := square(at, badgeRadius)
		for _, o := range taken {
			if b.overlap(o) > 0 {
				return false
			}
		}
		// A thread across the design would look like an arrow.
		if taken[0].holds(fyne.NewPos((at.X+place.X)/2, (at.Y+place.Y)/2)) {
			return false
		}
		return b.x0 >= v.left && b.y0 >= v.top && b.x1 <= v.left+v.width && b.y1 <= v.top+v.height
	}
	if clear(place) {
		return place
	}
	for _, reach := range []float32{25, 38} {
		for k := range spokes {
			// To the sides in turn, from where it was: 0, 1, -1, 2, -2 ...
			turn := (k + 1) / 2
			if k%2 == 0 {
				turn = -turn
			}
			s := (*spoke + turn + spokes) % spokes
			sin, cos := math.Sincos(2*math.Pi*float64(s)/spokes - math.Pi/4)
			at := place.AddXY(reach*float32(cos), reach*float32(sin))
			if clear(at) {
				*spoke = s
				return at
			}
		}
	}
	return place
}
