package brew

import (
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/table"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/design"
)

// stepCard is one step of the day in a quiet panel.
type stepCard struct {
	p   *Place
	key brewday.Key
	n   int // its number in the day

	box    *fyne.Container
	ground *ui.Panel
	title  *ui.Caption
	why    *ui.Paragraph

	warnings *warningList
	numbers  *stepNumbers
	settings *table.Settings
	tables   []*table.Table
	picture  dayPicture // nil: none
	drawn    func(*dayFrame)
	events   *eventList
	doTitle  *ui.Caption
	do       *ui.Texts
	measures *measures
	cautions *ui.Texts

	usual string          // the title where the day has no such step
	drops map[string]bool // leading numbers that are settings here
}

// dayPicture is a part that is drawn from the day.
type dayPicture interface {
	ui.Part
	Wide() float32 // what it needs; 0: as much as there is
}

func (p *Place) newCard(n int, key brewday.Key, title, why string) *stepCard {
	c := &stepCard{p: p, key: key, n: n, usual: title,
		ground:   ui.NewPanel(container.NewWithoutLayout(), 0),
		title:    ui.NewCaption("", look.HeadingSize-1, true, ui.InkFull),
		why:      ui.NewParagraph(why, 13, ui.InkQuiet),
		warnings: &warningList{p: p},
		numbers:  &stepNumbers{p: p},
		settings: p.parts.Settings(),
		events:   &eventList{p: p, title: ui.Heading("")},
		doTitle:  ui.Heading(words.T("To do")),
		do:       &ui.Texts{Gap: 4, Make: func() *ui.Paragraph { t := ui.NewParagraph("", 13, ui.InkFull); t.Mark = "•"; return t }},
		measures: &measures{p: p, title: ui.Heading(words.T("Measured"))},
		cautions: &ui.Texts{Gap: 3, Make: func() *ui.Paragraph {
			t := ui.NewParagraph("", look.CaptionSize, ui.InkWarning)
			t.Mark = "!"
			return t
		}},
		drops: map[string]bool{},
	}
	c.box = container.NewWithoutLayout(c.ground)
	c.setTitle(title)
	return c
}

func (c *stepCard) setTitle(text string) {
	c.usual = text
	c.title.SetText(words.T("{n}  {title}", strconv.Itoa(c.n), text))
}

// sync shows the design in all that needs no computation.
func (c *stepCard) sync(d *design.Design) {
	c.settings.Sync(d)
	for _, t := range c.tables {
		t.Sync(d)
	}
	for _, l := range c.measures.lines[:c.measures.n] {
		l.sync()
	}
}

// show puts the day up.
func (c *stepCard) show(f *dayFrame) {
	s, ok := f.day.Step(c.key)
	if !ok {
		s = &brewday.Step{}
	} else {
		c.setTitle(words.Print(s.Title))
		c.why.SetText(words.Print(s.Why))
	}
	c.warnings.set(s.Warnings)
	var numbers []brewday.Number
	for _, n := range s.Numbers {
		if !c.drops[n.Label.Text] {
			numbers = append(numbers, n)
		}
	}
	c.numbers.set(c.key, numbers)
	c.events.set(s.Events)
	do := make([]string, len(s.Do))
	for i, t := range s.Do {
		do[i] = c.p.host.Say().Sentence(t)
	}
	c.do.Set(do)
	c.measures.set(c.key, s.Blanks)
	care := make([]string, len(s.Cautions))
	for i, t := range s.Cautions {
		care[i] = c.p.host.Say().Sentence(t)
	}
	c.cautions.Set(care)
	if c.picture != nil {
		c.drawn(f)
	}
	d := c.p.host.Design()
	for _, t := range c.tables { // what the additions give is the day's
		t.Sync(&d)
	}
}

// objects are what the card is made of, in the order of reading and of Tab.
func (c *stepCard) objects() []fyne.CanvasObject {
	o := []fyne.CanvasObject{c.ground, c.title, c.why}
	add := func(p ui.Part) { o = append(o, p.Objects()...) }
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
	if c.do.N > 0 {
		o = append(o, c.doTitle)
	}
	add(c.do)
	add(c.measures)
	add(c.cautions)
	return o
}

// update puts what there is to show into the window.
func (c *stepCard) update() {
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

// lay puts the card's parts at a width and says how high it is. There are two
// halves: numbers at the left, what is set and drawn at the right; below them
// what goes in takes the whole width; then what to do and what to measure.
func (c *stepCard) lay(width float32) float32 {
	x, w := float32(cardInset), width-2*cardInset
	y := float32(cardInset - 3)
	t := c.title.MinSize()
	ui.Put(c.title, x, y, min(t.Width, w), t.Height)
	if beside := x + t.Width + 14; measured(c.why) <= x+w-beside {
		c.why.Lay(beside, y+(t.Height-c.why.LineHeight())*0.7, x+w-beside)
		y += t.Height
	} else {
		y += t.Height + 1
		y += c.why.Lay(x, y, w)
	}
	y += stack(10, c.warnings, x, y, w)
	half := (w - halves) / 2
	rx, right := x+half+halves, y
	left := y
	right += stack(14, c.settings, rx, right, half)
	if c.picture != nil {
		if beside := c.settings.Width() + 40; c.picture.Wide() > 0 && beside+c.picture.Wide() <= half {
			right = max(right, y+14+c.picture.Lay(rx+beside, y+14, c.picture.Wide()))
		} else {
			right += stack(14, c.picture, rx, right, half)
		}
	}
	if right == y { // nothing is set here
		left += stack(14, c.numbers, x, left, w)
	} else {
		left += stack(14, c.numbers, x, left, half)
	}
	for _, t := range c.tables {
		if t.Slim {
			left += stack(16, t, x, left, half)
		}
	}
	if left == y { // there are no numbers: what is set goes first
		c.settings.Lay(x, y+14, half)
	}
	y = max(left, right)
	beside := x // of the last table's choice to add
	for _, t := range c.tables {
		if !t.Slim && !t.Bare() {
			y += stack(16, t, x, y, w)
			beside = x + t.AdderWidth()
		}
	}
	if beside == x {
		for _, t := range c.tables {
			if t.Bare() {
				y += 8 + ui.ChoiceHeight
				break
			}
		}
	}
	for _, t := range c.tables { // those that only offer to add, in a row
		if t.Bare() {
			t.Lay(beside, y-ui.ChoiceHeight, w)
			beside += t.AdderWidth()
		}
	}
	y = c.columns(x, y, w, half)
	y += stack(14, c.cautions, x, y, w)
	return y + cardInset
}

const halves = 32 // between them

// stack lays a part below another; one with nothing to show takes no gap.
func stack(gap float32, p ui.Part, x, y, w float32) float32 {
	h := p.Lay(x, y+gap, w)
	if h == 0 {
		return 0
	}
	return h + gap
}

// measured is how wide a paragraph is in one line.
func measured(p *ui.Paragraph) float32 {
	return fyne.MeasureText(p.Text, p.TextSize, p.Style()).Width + p.Indent() + 1
}

// columns are what to do at the left and what to measure at the right; without
// the one the other, and the time line beside what to do.
func (c *stepCard) columns(x, y, w, half float32) float32 {
	rx := x + half + halves
	left, right := y, y
	dx, at := x, &left
	lw := half
	switch {
	case c.measures.n == 0 && c.events.n > 0 && c.do.N > 0:
		dx, at = rx, &right
	case c.measures.n == 0:
		lw = w
	case c.do.N == 0 && c.events.n == 0:
		rx = x
	}
	left += stack(16, c.events, x, left, lw)
	if c.do.N > 0 {
		*at += 16
		t := c.doTitle.MinSize()
		ui.Put(c.doTitle, dx, *at, half, t.Height)
		*at += t.Height + 5
		*at += c.do.Lay(dx, *at, lw)
	}
	right += stack(16, c.measures, rx, right, half)
	return max(left, right)
}
