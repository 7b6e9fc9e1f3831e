package app

import (
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/design"
)

// brewCard is one step of the day in a quiet panel.
type brewCard struct {
	p   *brewPlace
	key brewday.Key
	n   int // its number in the day

	box    *fyne.Container
	ground *panel
	title  *caption
	why    *para

	warnings *warningList
	numbers  *brewNumbers
	settings *settings
	tables   []*brewTable
	picture  dayPicture // nil: none
	events   *eventList
	doTitle  *caption
	do       *texts
	measures *measures
	cautions *texts

	usual string          // the title where the day has no such step
	drops map[string]bool // leading numbers that are settings here
}

// dayPicture is a part that is drawn from the day.
type dayPicture interface {
	part
	show(*brewFrame)
}

func (p *brewPlace) newCard(n int, key brewday.Key, title, why string) *brewCard {
	c := &brewCard{p: p, key: key, n: n, usual: title,
		ground:   newPanel(container.NewWithoutLayout(), 0),
		title:    newCaption("", look.HeadingSize-1, true, inkFull),
		why:      newPara(why, 13, inkQuiet),
		warnings: &warningList{p: p},
		numbers:  &brewNumbers{p: p},
		settings: p.newSettings(),
		events:   &eventList{p: p, title: heading("")},
		doTitle:  heading(words.T("To do")),
		do:       &texts{gap: 4, make: func() *para { t := newPara("", 13, inkFull); t.mark = "•"; return t }},
		measures: &measures{p: p, title: heading(words.T("Measured"))},
		cautions: &texts{gap: 3, make: func() *para { t := newPara("", look.CaptionSize, inkWarning); t.mark = "!"; return t }},
		drops:    map[string]bool{},
	}
	c.box = container.NewWithoutLayout(c.ground)
	c.setTitle(title)
	return c
}

func (c *brewCard) setTitle(text string) {
	c.usual = text
	c.title.SetText(words.T("{{.N}}  {{.Title}}", map[string]any{"N": strconv.Itoa(c.n), "Title": text}))
}

// sync shows the design in all that needs no computation.
func (c *brewCard) sync(d *design.Design) {
	c.settings.sync(d)
	for _, t := range c.tables {
		t.sync(d)
	}
	for _, l := range c.measures.lines[:c.measures.n] {
		l.sync()
	}
}

// show puts the day up.
func (c *brewCard) show(f *brewFrame) {
	s, ok := f.day.Step(c.key)
	if !ok {
		s = &brewday.Step{}
	} else {
		c.setTitle(s.Title)
		c.why.SetText(s.Why)
	}
	c.warnings.set(s.Warnings)
	var numbers []brewday.Number
	for _, n := range s.Numbers {
		if !c.drops[n.Label] {
			numbers = append(numbers, n)
		}
	}
	c.numbers.set(numbers)
	c.events.set(s.Events)
	do := make([]string, len(s.Do))
	for i, t := range s.Do {
		do[i] = t.In(c.p.format.Quantity)
	}
	c.do.set(do)
	c.measures.set(s.Blanks)
	c.cautions.set(s.Cautions)
	if c.picture != nil {
		c.picture.show(f)
	}
	d := c.p.b.editor.Design()
	for _, t := range c.tables { // what the additions give is the day's
		t.sync(&d)
	}
}

// parts are what the card is made of, in the order of reading and of Tab.
func (c *brewCard) objects() []fyne.CanvasObject {
	o := []fyne.CanvasObject{c.ground, c.title, c.why}
	add := func(p part) { o = append(o, p.objects()...) }
	add(c.warnings)
	add(c.numbers)
	add(c.settings)
	for _, t := range c.tables {
		add(t)
	}
	if c.picture != nil {
		add(c.picture)
	}
	add(c.events)
	if c.do.n > 0 {
		o = append(o, c.doTitle)
	}
	add(c.do)
	add(c.measures)
	add(c.cautions)
	return o
}

// update puts what there is to show into the window.
func (c *brewCard) update() {
	now := c.objects()
	if slices.Equal(now, c.box.Objects) {
		return
	}
	old := map[fyne.CanvasObject]bool{}
	for _, o := range c.box.Objects {
		old[o] = true
	}
	c.box.Objects = now
	for _, o := range now {
		if !old[o] {
			o.Refresh() // it may have missed a change of the theme
		}
	}
}

const cardInset = 16

// lay puts the card's parts at a width and says how high it is.
func (c *brewCard) lay(width float32) float32 {
	x, w := float32(cardInset), width-2*cardInset
	y := float32(cardInset - 3)
	t := c.title.MinSize()
	put(c.title, x, y, min(t.Width, w), t.Height)
	y += t.Height + 2
	y += c.why.lay(x, y, w)
	stack := func(gap float32, p part, x, y, w float32) float32 {
		h := p.lay(x, y+gap, w)
		if h == 0 {
			return 0
		}
		return h + gap
	}
	y += stack(10, c.warnings, x, y, w)
	side := float32(0)
	if c.picture != nil { // beside the numbers
		if wide := c.picture.lay(x, y+14, 0); wide > 0 {
			side = min(wide, w*0.42)
		}
	}
	top := y
	left := w
	if side > 0 {
		left = w - side - 24
	}
	y += stack(14, c.numbers, x, y, left)
	y += stack(14, c.settings, x, y, left)
	if side > 0 {
		h := c.picture.lay(x+w-side, top+14, side)
		y = max(y, top+14+h)
	}
	for _, t := range c.tables {
		y += stack(16, t, x, y, w)
	}
	y = c.columns(x, y, w, stack)
	y += stack(14, c.cautions, x, y, w)
	return y + cardInset
}

// columns are what to do at the left and what to measure at the right.
func (c *brewCard) columns(x, y, w float32, stack func(gap float32, p part, x, y, w float32) float32) float32 {
	const between = 28
	todo := c.do.n > 0 || c.events.n > 0
	half := (w - between) / 2
	lw, rx, rw := half, x+half+between, half
	switch {
	case c.measures.n == 0 && c.events.n > 0 && c.do.n > 0: // the time line beside what to do
	case c.measures.n == 0:
		lw = w
	case !todo:
		rx, rw = x, min(w, 460)
	default:
		rw = min(half, 420)
		lw = w - between - rw
		rx = x + lw + between
	}
	left, right := y, y
	left += stack(16, c.events, x, left, lw)
	if c.do.n > 0 {
		dx, dw, at := x, lw, &left
		if c.measures.n == 0 && c.events.n > 0 {
			dx, dw, at = rx, rw, &right
		}
		*at += 16
		t := c.doTitle.MinSize()
		put(c.doTitle, dx, *at, dw, t.Height)
		*at += t.Height + 5
		*at += c.do.lay(dx, *at, dw)
	}
	right += stack(16, c.measures, rx, right, rw)
	return max(left, right)
}
