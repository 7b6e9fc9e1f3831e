package day

import (
	"fyne.io/fyne/v2"

	"skep/app/ui"
)

// lowWindow is a height of the window below which it says less.
const lowWindow = 740

// lay puts everything in its place, and leaves out what has no room, which none of Fyne's
// containers does: at the left the step, its figures and what to do,
// at the right the clocks, what is measured and the answer; below the caution and the
// one large button.
func (s *screen) lay() {
	size := s.Size()
	if size.Width < 10 {
		return
	}
	s.ground.Resize(size)
	ui.Put(s.hour, size.Width-edge-120, 16, 120, titleSize*1.3)
	ui.Put(s.title, edge, 16, size.Width-2*edge-140, titleSize*1.3)
	y := float32(16 + titleSize*1.3)
	y += s.where.Lay(edge, y, size.Width-2*edge) + 6
	foot := s.layFoot(size)
	right := max(size.Width*0.4, 400)
	left := size.Width - right - 2*edge - 20
	s.layLeft(edge, y, left, foot)
	s.layRight(edge+left+20, y, right, foot)
	ui.Put(s.banner, edge-8, 10, size.Width-2*edge+16, 78)
}

// layFoot puts the button, the tools and the caution at the foot, and says where they
// begin.
func (s *screen) layFoot(size fyne.Size) float32 {
	y := size.Height - 44
	x := float32(edge)
	for _, c := range []*ui.Choice{s.back, s.ahead, s.undo, s.leave} {
		m := c.MinSize()
		ui.Put(c, x, y, m.Width, m.Height)
		x += m.Width + 16
	}
	m := s.abandon.MinSize()
	ui.Put(s.abandon, size.Width-edge-m.Width, y, m.Width, m.Height)
	width := size.Width - 2*edge
	if size.Height < lowWindow { // the words below say the same
		s.keys.SetText("")
	}
	y -= s.keys.HeightFor(width)
	layText(s.keys, edge, y, width)
	y -= 72
	ui.Put(s.next, edge-8, y, width+16, 66)
	h := s.caution.HeightFor(width)
	y -= h + 8
	layText(s.caution, edge, y, width)
	return y - 8
}

func (s *screen) layLeft(x, y, width, foot float32) {
	at := x
	line := y
	for _, f := range s.figures {
		if f.value.Text == "" {
			f.value.Hide()
			f.label.Hide()
			continue
		}
		f.value.Show()
		f.label.Show()
		w := max(f.value.MinSize().Width, f.label.MinSize().Width)
		if at > x && at+w > x+width {
			f.value.Hide() // what has no room stands among the items too
			f.label.Hide()
			continue
		}
		ui.Put(f.value, at, line, w, figureSize*1.2)
		ui.Put(f.label, at, line+figureSize*1.15, w, smallSize*1.4)
		at += w + 36
	}
	if at > x {
		y += figureSize*1.15 + smallSize*1.4 + 14
	}
	s.layItems(x, y, width, foot)
}

// layItems shows what to do from the last thing done on, as far as there is room.
func (s *screen) layItems(x, y, width, foot float32) {
	var shown []*itemLine
	next := 0
	for _, l := range s.lines {
		if l.text.Text != "" {
			if l.next {
				next = len(shown)
			}
			shown = append(shown, l)
		}
	}
	for _, l := range s.lines {
		l.Hide()
	}
	from := max(next-1, 0)
	room := foot - y
	all := float32(0)
	for _, l := range shown {
		all += l.heightFor(width)
	}
	if all <= room {
		from = 0
	}
	for i := from; i < len(shown); i++ {
		h := shown[i].heightFor(width)
		if y+h > foot-2 && i > next {
			break
		}
		ui.Put(shown[i], x, y, width, h)
		shown[i].Show()
		y += h
	}
}

func (s *screen) layRight(x, y, width, foot float32) {
	answered := s.means.Text != ""
	for _, c := range s.clocks {
		switch {
		case !c.shown:
		case answered || y > foot-120: // there is room for a line alone
			y = c.layShort(x, y, width)
		default:
			y = c.lay(x, y, width)
		}
	}
	if s.measure.Text != "" && !(answered && s.d.typed == "") {
		y += s.measure.Lay(x, y, width)
		s.measure.Show()
		s.typed.Show()
		ui.Put(s.typed, x, y-4, width, figureSize*1.2)
		y += figureSize * 1.2
	} else {
		s.measure.Hide()
		s.typed.Hide()
	}
	y += layText(s.message, x, y, width)
	s.dismiss.Hide()
	if !answered {
		s.means.Hide()
		return
	}
	s.means.Show()
	y += s.means.Lay(x, y, width) + 8
	for _, w := range s.ways {
		if w.text.Text == "" {
			w.Hide()
			continue
		}
		h := w.heightFor(width)
		w.Show()
		ui.Put(w, x, y, width, h)
		y += h + 8
	}
	if s.ways[0].text.Text == "" {
		return // there is nothing to put off
	}
	m := s.dismiss.MinSize()
	s.dismiss.Show()
	ui.Put(s.dismiss, x, y, m.Width, m.Height)
}

// layText puts a text at a place; an empty one is not shown, and takes no room.
func layText(p *ui.Paragraph, x, y, width float32) float32 {
	h := p.Lay(x, y, width)
	if p.Hidden = p.Text == ""; !p.Hidden {
		p.Refresh()
	}
	return h
}
