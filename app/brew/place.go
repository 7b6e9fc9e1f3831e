// Package brew is the third place: the day from the crush to the closed bottle,
// with what goes in edited where it goes in, and the drawers of the vessel (boil-off
// and what stays behind), the calculations and the printed sheet.
//
// The design goes to a worker that plans the day; edits and readings come out. It
// must not know another place, nor the physics behind a number.
package brew

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/brew/vessel"
	"skep/app/frames"
	"skep/app/paper"
	"skep/app/table"
	"skep/app/ui"
	"skep/app/ui/layouts"
	"skep/app/words"
	"skep/calc/brewday"
)

// Place is the third place: the day's time line from the crush to the
// closed bottle. What goes in hangs from the step where it goes in and is
// edited there.
type Place struct {
	host    vessel.Window
	worker  *frames.Worker[dayAsk, *dayFrame]
	compare func() // shows the strains beside each other
	// BrewThis makes a dated batch of the design, BrewAgain a design of the batch;
	// nil does nothing.
	BrewThis, BrewAgain func()
	format              paper.Formatter
	parts               *table.Parts
	spine               *spine
	beer                *beer
	cards               []*stepCard
	column              *fyne.Container
	scroll              *container.Scroll
	tall                float32 // of the column
	room                float32 // for the scroll bar
	content             fyne.CanvasObject
	vessel              *vessel.Vessel // its drawers

	day     brewday.Day // as last worked out
	current int         // the step that is read now
	went    float32     // where the scroll stands by a click on the spine; -1: by hand

	// StartDay fills the window with the day, a step at a time; nil: no window does.
	StartDay func()

	now  func() time.Time // for readings
	zone *time.Location
}

// New makes the place. compare shows the strains beside each other.
func New(b vessel.Window, compare func()) *Place {
	p := &Place{host: b, compare: compare, now: time.Now, zone: time.Local, went: -1}
	p.format = paper.Formatter{Formatter: b.Say().Formatter}
	p.parts = &table.Parts{Host: b, Reveal: p.reveal, Relayout: p.relayout}
	p.vessel = vessel.New(b)
	p.makeCards()
	p.spine = newSpine(p)
	p.beer = newBeer(p)
	boxes := make([]fyne.CanvasObject, len(p.cards))
	for i, c := range p.cards {
		boxes[i] = c.box
	}
	p.column = container.New(&layouts.ByHand{Tall: &p.tall}, boxes...)
	p.scroll = container.NewVScroll(p.column)
	p.scroll.OnScrolled = func(fyne.Position) { p.scrolled() }
	p.content = container.New(&placeLayout{p}, ui.NewPanel(p.spine.object, 12), p.scroll, p.beer.object)
	l := &dayWorker{}
	p.worker = frames.New(l.day, func(_ dayAsk, f *dayFrame) { b.Do(func() { p.show(f) }) })
	return p
}

// Object is the place's own.
func (p *Place) Object() fyne.CanvasObject { return p.content }

// Idle waits for the worker.
func (p *Place) Idle() { p.worker.Idle() }

// Close ends it.
func (p *Place) Close() { p.worker.Close() }

// Greeting says how the place is used, or, if that is known only a moment later, is
// told then: that the design's copy of the kit is another than the kit.
func (p *Place) Greeting() string {
	text := words.T("Everything can be typed over where it stands, in any unit. Lines are dragged by their dots. Ctrl+P prints the day.")
	late, wanted := false, ui.Wanted(p.host)
	p.vessel.Differs(func(kit string) {
		text = words.T("This design's copy of “{kit}” differs from your kit: “Vessel and scaling” says in what, and takes either way.", kit)
		if late && wanted() {
			p.host.ShowMessage(text)
		}
	})
	late = true
	return text
}

// FocusFirst gives the keyboard to the step that is read now.
func (p *Place) FocusFirst() { ui.Focus(p.host, p.spine.items[p.current]) }

// Update shows the design in all that needs no computation.
func (p *Place) Update() {
	p.format = paper.Formatter{Formatter: p.host.Say().Formatter}
	d := p.host.Design()
	for _, c := range p.cards {
		c.sync(&d)
	}
	p.beer.sync(&d)
	p.spine.sync(&d)
	p.vessel.Sync()
	p.relayout()
}

// Post asks the worker for the day.
func (p *Place) Post() {
	taught := p.host.Taught()
	d := &taught.Design
	p.worker.Post(dayAsk{taught, p.beer.wide, p.host.Rest(d), p.host.Honey(d)})
}

// show puts the day up.
func (p *Place) show(f *dayFrame) {
	if !p.content.Visible() {
		return
	}
	p.day = f.day
	for _, c := range p.cards {
		c.show(f)
	}
	p.spine.show(f)
	p.beer.show(f)
	p.relayout()
}

// relayout puts the cards below each other. What is read stays where it is.
func (p *Place) relayout() {
	width := p.scroll.Size().Width - p.room
	if width <= 0 {
		return
	}
	top, from := p.atTop()
	y := float32(0)
	for i, c := range p.cards {
		c.update()
		h := c.lay(width)
		ui.Put(c.box, 0, y, width, h)
		ui.Put(c.ground, 0, 0, width, h)
		if i == top && from > 0 && p.scroll.Offset.Y > 0 {
			p.scroll.Offset.Y = y + from
		}
		y += h + layouts.Gap
	}
	p.tall = y - layouts.Gap
	p.scroll.Refresh()
	p.scrolled()
}

// atTop is the card at the upper edge and how much of it is above.
func (p *Place) atTop() (i int, above float32) {
	for i, c := range p.cards {
		y := c.box.Position().Y
		if p.scroll.Offset.Y < y+c.box.Size().Height {
			return i, p.scroll.Offset.Y - y
		}
	}
	return len(p.cards) - 1, 0
}

// scrolled finds the step that is read now: the one a third down the view.
func (p *Place) scrolled() {
	if p.went >= 0 && p.scroll.Offset.Y == p.went {
		return
	}
	p.went = -1
	at := p.scroll.Offset.Y + p.scroll.Size().Height/3
	if p.scroll.Offset.Y <= 0 {
		at = 0
	}
	now := 0
	for i, c := range p.cards {
		if c.box.Position().Y <= at {
			now = i
		}
	}
	p.setCurrent(now)
}

func (p *Place) setCurrent(i int) {
	if p.current != i {
		p.current = i
		p.spine.mark()
	}
}

// goToStep scrolls a step to the top.
func (p *Place) goToStep(i int) {
	if i < 0 || i >= len(p.cards) {
		return
	}
	p.scroll.Offset.Y = max(min(p.cards[i].box.Position().Y, p.tall-p.scroll.Size().Height), 0)
	p.scroll.Refresh()
	p.went = p.scroll.Offset.Y
	p.setCurrent(i)
}

// reveal scrolls what has the keyboard into view.
func (p *Place) reveal(o fyne.CanvasObject) {
	for i, c := range p.cards {
		for _, in := range c.box.Objects {
			if in != o {
				continue
			}
			const around = 30
			ui.Reveal(p.scroll, c.box.Position().Y+o.Position().Y, o.Size().Height, p.tall, around)
			p.went = p.scroll.Offset.Y
			p.setCurrent(i)
			return
		}
	}
}

// controls are all that show a key of the design, with that key.
func (p *Place) controls(visit func(path string, c ui.Control) bool) {
	pathOf := func(c ui.Control) string {
		switch c := c.(type) {
		case *ui.Field:
			return c.Path()
		case interface{ Path() string }:
			return c.Path()
		}
		return ""
	}
	for _, c := range p.cards {
		for _, s := range c.settings.Shown() {
			if visit(pathOf(s), s) {
				return
			}
		}
		for _, t := range c.tables {
			if t.Hides {
				continue
			}
			for _, r := range t.Rows[:t.N] {
				for _, o := range r.Controls {
					if visit(pathOf(o), o) {
						return
					}
				}
			}
		}
	}
}

// focusPath gives the keyboard to the control of a key.
func (p *Place) focusPath(path string) bool {
	found := false
	p.controls(func(at string, c ui.Control) bool {
		if _, opens := c.(*table.Link); opens && at != "" && strings.HasPrefix(path, at+".") {
			at = path
		}
		if at != path && !strings.HasPrefix(at, path+".") {
			return false
		}
		f, ok := c.(fyne.Focusable)
		if !ok || !c.Visible() {
			return false
		}
		found = true
		p.host.Window().Canvas().Focus(f)
		p.reveal(c)
		return true
	})
	return found
}

// Mend gives the keyboard to where a key is changed.
func (p *Place) Mend(key string) { p.focusKeys([]string{key}) }

// focusKeys goes to the first of some keys that can be changed here, or opens
// the drawer of the vessel at it.
func (p *Place) focusKeys(keys []string) {
	for _, k := range keys {
		if p.focusPath(k) {
			return
		}
		if strings.HasPrefix(k, "kit.") {
			p.vessel.Open(k)
			return
		}
	}
	p.host.ShowMessage(words.T("Set {keys} in the design file", strings.Join(keys, ", ")))
}
