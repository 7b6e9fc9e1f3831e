package app

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/frames"
	"skep/app/paper"
	"skep/app/quantity"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/says"
	"skep/plotting"
)

// fermentPlace is the fourth place: the course of the fermentation with all
// that was measured on it, the honey moment, what is left to tune, and
// packaging.
type fermentPlace struct {
	b      ui.Host
	added  func() // a batch was put into the ledger
	worker *frames.Worker[fermentAsk, *fermentFrame]
	logs   *frames.Worker[logAsk, logAnswer]

	moment  *fermentMoment
	side    *fermentSide
	picture *coursePicture
	entry   *readingEntry
	list    *readingList
	content *fyne.Container

	asked *logDialog    // the log that is looked at; nil: none
	shown *fermentFrame // as last computed; nil at the start

	now  func() time.Time
	zone *time.Location
	done chan struct{} // ends the minutes

	ledgerFolder func() string // empty: the usual one
}

// fermentWindow is what this place asks of the window beside what every place
// does.
type fermentWindow interface {
	ui.Host
	LedgerFolder() string // empty: the usual one
}

// newFermentPlace makes the place. added is told when a batch was put into the
// ledger.
func newFermentPlace(b fermentWindow, added func()) *fermentPlace {
	p := &fermentPlace{b: b, added: added, ledgerFolder: b.LedgerFolder, now: time.Now, zone: time.Local, done: make(chan struct{})}
	p.moment = newFermentMoment(p)
	p.side = newFermentSide(p)
	p.picture = newCoursePicture(p)
	p.entry = newReadingEntry(p)
	p.list = newReadingList(p)
	p.content = container.New(&fermentLayout{p},
		p.moment.column.panel(), p.side.column.panel(), p.picture, p.entry.column.panel(), p.list.column.panel())
	p.worker = frames.New(newFermentLive().frame, func(_ fermentAsk, f *fermentFrame) { b.Do(func() { p.answered(f) }) })
	p.logs = frames.New(p.readLog, func(ask logAsk, a logAnswer) { b.Do(func() { p.logged(ask, a) }) })
	go p.minutes()
	return p
}

// refreshEvery is how often "now" moves on by itself.
const refreshEvery = time.Minute

// minutes keeps the honey moment live while the place is looked at.
func (p *fermentPlace) minutes() {
	tick := time.NewTicker(refreshEvery)
	defer tick.Stop()
	for {
		select {
		case <-p.done:
			return
		case <-tick.C:
			p.b.Do(func() {
				if p.content.Visible() {
					p.Post()
				}
			})
		}
	}
}

// Close ends the place's goroutines.
func (p *fermentPlace) Close() {
	close(p.done)
	p.worker.Close()
	p.logs.Close()
}

// Idle waits for the workers.
func (p *fermentPlace) Idle() {
	p.worker.Idle()
	p.logs.Idle()
}

// Object is the place's own.
func (p *fermentPlace) Object() fyne.CanvasObject { return p.content }

// Greeting says how the place is used.
func (p *fermentPlace) Greeting() string {
	return words.T("Write readings down as the instrument showed them: Skep corrects them. Point at the picture to read it.")
}

// FocusFirst is ready for a gravity.
func (p *fermentPlace) FocusFirst() { ui.Focus(p.b, p.entry.value) }

// Update shows the design in all that needs no computation.
func (p *fermentPlace) Update() {
	d := p.b.Design()
	p.entry.sync(&d)
	p.list.sync(&d)
	p.side.sync(&d)
	p.relayout()
}

// minute is the end of the minute that it is: an unchanged design needs no
// update within it, and what was just written down is not later than now.
func (p *fermentPlace) minute() time.Time {
	return p.now().UTC().Truncate(time.Minute).Add(time.Minute)
}

// Post asks the worker for the fermentation as it stands.
func (p *fermentPlace) Post() {
	palette := ui.PaletteOf(fyne.CurrentApp().Settings().Theme())
	p.worker.Post(fermentAsk{
		taught: p.b.Taught(), now: p.minute(), moving: p.b.Moving(), size: p.picture.wanted,
		palette: p.b.Palette(), course: p.course(palette.Warning, palette.Error), note: p.dayNote(),
	})
}

// course is the picture's words, units and colours.
func (p *fermentPlace) course(honey, warn color.NRGBA) plotting.Course {
	c := courseColours(honey, warn)
	c.Gravity = p.b.Say().PlotUnits().Outcome[0]
	c.GravityLabel = words.T("gravity")
	if u := p.b.Say().Unit(quantity.Gravity); u != "" {
		c.GravityLabel = words.T("gravity, {{.Unit}}", map[string]any{"Unit": u})
	}
	c.Rate = paper.NewFormatter(p.b.Say().Formatter).Axis(says.Factor)
	c.RateLabel = words.T("CO2 given off, g a litre and hour")
	c.HoursLabel = words.T("hours after pitching")
	c.Names = plotting.CourseNames{
		Before: words.T("as planned"), Height: words.T("height"), Window: words.T("honey window"),
		Finished: words.T("finished by"), Now: words.T("now"),
	}
	return c
}

// dayNote writes the day below an hour, where a day begins a new one.
func (p *fermentPlace) dayNote() func(time.Time, float64) string {
	zone := p.zone
	return func(pitched time.Time, hour float64) string {
		return pitched.Add(time.Duration(hour * float64(time.Hour))).In(zone).Format("2 Jan")
	}
}

// answered puts a frame up, if the place is still looked at.
func (p *fermentPlace) answered(f *fermentFrame) {
	if !p.content.Visible() {
		return
	}
	p.shown = f
	if f.err != nil {
		p.refuse(f.err)
		return
	}
	d := p.b.Design()
	p.picture.show(f)
	p.moment.show(f)
	p.side.show(f)
	p.list.sync(&d)
	p.relayout()
}

// refuse takes every number away: those of another design must not stand
// beside this one's readings.
func (p *fermentPlace) refuse(why error) {
	text := ui.Refused(why)
	p.b.Warn(text)
	d := p.b.Design()
	p.picture.clear()
	p.moment.refuse(text)
	p.side.refuse(text)
	p.list.sync(&d)
	p.relayout()
}

func (p *fermentPlace) relayout() {
	for _, c := range []*partColumn{p.moment.column, p.side.column, p.entry.column, p.list.column} {
		c.relayout()
	}
	p.content.Refresh()
}

// pitchedAt is when the yeast went in, zero if it has not.
func (p *fermentPlace) pitchedAt() time.Time {
	if p.shown == nil || p.shown.batch == nil {
		return time.Time{}
	}
	return p.shown.batch.Timeline.PitchedAt
}

// write puts a reading into the design.
func (p *fermentPlace) write(r design.Reading) error {
	return p.b.Edit(words.T("reading: {{.Name}}", map[string]any{"Name": readingName(r.What)}), func(d *design.Design) {
		d.Reading = append(d.Reading, r)
	})
}

// fermentLayout is the moment over what is known, the picture, and the
// readings: three columns.
type fermentLayout struct{ p *fermentPlace }

func (*fermentLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 480) }

func (l *fermentLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	left, right, edge, between := float32(312), float32(322), float32(16), float32(ui.Gap)
	if size.Width < ui.Narrow {
		left, right, edge, between = 252, 276, 10, 8
	}
	top, height := between, size.Height-between
	stack := func(x, w float32, upper, lower fyne.CanvasObject, c *partColumn) {
		const inset = 2 * 13
		ui.Put(upper, x, top, w, max(upper.Size().Height, 60)) // for its width
		c.relayout()
		h := min(c.tall+inset, height*0.55)
		ui.Put(upper, x, top, w, h)
		ui.Put(lower, x, top+h+between, w, height-h-between)
	}
	stack(edge, left, o[0], o[1], l.p.moment.column)
	x := edge + left + between
	w := size.Width - x - between - right - edge
	ui.Put(o[2], x, top, w, height)
	stack(x+w+between, right, o[3], o[4], l.p.entry.column)
}
