// Package ferment is the fourth place: the course of the fermentation with all that
// was measured on it, the honey moment, what is left to tune, and packaging.
//
// The design and its readings go to a worker that follows the batch; readings come
// out as edits, and the closed batch as a file. It must not know another place.
package ferment

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/frames"
	"skep/app/paper"
	"skep/app/ui"
	"skep/app/ui/layouts"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/quantity"
	"skep/plotting"
)

// Place is the fourth place: the course of the fermentation with all
// that was measured on it, the honey moment, what is left to tune, and
// packaging.
type Place struct {
	host  ui.Host
	added func() // a batch was closed, or put into the ledger
	// Save writes the open batch to its file, Open opens another; nil does nothing.
	Save   func(then func(error))
	Open   func(path string)
	worker *frames.Worker[ask, *frame]
	logs   *frames.Worker[logAsk, logAnswer]

	moment  *honeyMoment
	Side    *side
	picture *coursePicture
	entry   *readingEntry
	list    *readingList
	content *fyne.Container

	asked *logDialog // the log that is looked at; nil: none
	shown *frame     // as last computed; nil at the start

	Zone *time.Location
	done chan struct{} // ends the minutes

	ledgerFolder func() string // empty: the usual one
}

// Window is what this place asks of the window beside what every place
// does.
type Window interface {
	ui.Host
	LedgerFolder() string // empty: the usual one
}

// New makes the place. added is told when a batch was put into the
// ledger.
func New(b Window, added func()) *Place {
	p := &Place{host: b, added: added, ledgerFolder: b.LedgerFolder, Zone: time.Local, done: make(chan struct{})}
	p.moment = newHoneyMoment(p)
	p.Side = newSide(p)
	p.picture = newCoursePicture(p)
	p.entry = newReadingEntry(p)
	p.list = newReadingList(p)
	p.content = container.New(&layouts.Columns{Least: fyne.NewSize(900, 480), Divide: p.divide},
		p.moment.column.Panel(), p.Side.column.Panel(), p.picture, p.entry.column.Panel(), p.list.column.Panel())
	p.worker = frames.New(newFollower().frame, func(_ ask, f *frame) { b.Do(func() { p.answered(f) }) })
	p.logs = frames.New(p.readLog, func(ask logAsk, a logAnswer) { b.Do(func() { p.logged(ask, a) }) })
	go p.minutes()
	return p
}

// refreshEvery is how often "now" moves on by itself.
const refreshEvery = time.Minute

// minutes keeps the honey moment live while the place is looked at.
func (p *Place) minutes() {
	tick := time.NewTicker(refreshEvery)
	defer tick.Stop()
	for {
		select {
		case <-p.done:
			return
		case <-tick.C:
			p.host.Do(func() {
				if p.content.Visible() {
					p.Post()
				}
			})
		}
	}
}

// Close ends the place's goroutines.
func (p *Place) Close() {
	close(p.done)
	p.worker.Close()
	p.logs.Close()
}

// Idle waits for the workers.
func (p *Place) Idle() {
	p.worker.Idle()
	p.logs.Idle()
}

// Object is the place's own.
func (p *Place) Object() fyne.CanvasObject { return p.content }

// Greeting says how the place is used.
func (p *Place) Greeting() string {
	return words.T("Write readings down as the instrument showed them: Skep corrects them. Point at the picture to read it.")
}

// FocusFirst is ready for a gravity.
func (p *Place) FocusFirst() { ui.Focus(p.host, p.entry.value) }

// Update shows the design in all that needs no computation.
func (p *Place) Update() {
	d := p.host.Design()
	p.entry.sync(&d)
	p.list.sync(&d)
	p.Side.sync(&d)
	p.moment.demo.sync(&d)
	p.relayout()
}

// Post asks the worker for the fermentation as it stands.
func (p *Place) Post() {
	palette := ui.PaletteOf(fyne.CurrentApp().Settings().Theme())
	p.worker.Post(ask{
		taught: p.host.Taught(), size: p.picture.wanted,
		palette: p.host.Palette(), course: p.course(palette.Warning, palette.Error), note: p.dayNote(),
	})
}

// course is the picture's words, units and colours.
func (p *Place) course(honey, warn color.NRGBA) plotting.Course {
	c := courseColours(honey, warn)
	c.Gravity = p.host.Say().PlotUnits().Outcome[0]
	c.GravityLabel = words.T("gravity")
	if u := p.host.Say().Unit(quantity.Gravity); u != "" {
		c.GravityLabel = words.T("gravity, {unit}", u)
	}
	c.Rate = paper.Formatter{Formatter: p.host.Say().Formatter}.Axis(quantity.Factor)
	c.RateLabel = words.T("CO2 given off, g a litre and hour")
	c.HoursLabel = words.T("hours after pitching")
	say := p.host.Say()
	c.TemperatureText = func(v float64) string { return say.Format(quantity.Temperature, v) }
	c.Names = plotting.CourseNames{
		Before: words.T("as planned"), Height: words.T("height"), Window: words.T("honey window"),
		Finished: words.T("finished by"), Now: words.T("now"),
	}
	return c
}

// dayNote writes the day below an hour, where a day begins a new one.
func (p *Place) dayNote() func(time.Time, float64) string {
	zone := p.Zone
	return func(pitched time.Time, hour float64) string {
		return words.Date(pitched.Add(time.Duration(hour*float64(time.Hour))).In(zone), "2 Jan")
	}
}

// answered puts a frame up, if the place is still looked at.
func (p *Place) answered(f *frame) {
	if !p.content.Visible() {
		return
	}
	p.shown = f
	if f.err != nil {
		p.refuse(f.err)
		return
	}
	d := p.host.Design()
	p.picture.show(f)
	p.moment.show(f)
	p.Side.show(f)
	p.list.sync(&d)
	p.relayout()
}

// refuse takes every number away: those of another design must not stand
// beside this one's readings.
func (p *Place) refuse(why error) {
	text := ui.Refused(why)
	d := p.host.Design()
	p.picture.clear()
	p.moment.refuse(text)
	p.Side.refuse(text)
	p.list.sync(&d)
	p.relayout()
}

func (p *Place) relayout() {
	for _, c := range []*ui.Column{p.moment.column, p.Side.column, p.entry.column, p.list.column} {
		c.Relayout()
	}
	p.content.Refresh()
}

// Batch is the batch as last followed; nil where there is none yet.
func (p *Place) Batch() *follow.Batch {
	if p.shown == nil {
		return nil
	}
	return p.shown.batch
}

// CloseBatch is the button that closes the batch.
func (p *Place) CloseBatch() { p.Side.finish.closeBatch() }

// pitchedAt is when the yeast went in, zero if it has not.
func (p *Place) pitchedAt() time.Time {
	if p.shown == nil || p.shown.batch == nil {
		return time.Time{}
	}
	return p.shown.batch.Timeline.PitchedAt
}

// write puts a reading into the design.
func (p *Place) write(r design.Reading) error {
	return p.host.Edit(words.T("reading: {name}", readingName(r.What)), func(d *design.Design) {
		d.Reading = append(d.Reading, r)
	})
}

// divide is the moment over what is known, the picture, and the readings: three
// columns, of which the outer ones give their upper part what it has to say.
func (p *Place) divide(size fyne.Size) []layouts.Strip {
	left, right := float32(312), float32(322)
	if size.Width < layouts.Narrow {
		left, right = 252, 276
	}
	outer := func(width float32, upper *ui.Column) layouts.Strip {
		const inset = 2 * 13
		return layouts.Strip{Width: width, Heights: []float32{min(upper.TallAt(width-inset)+inset, size.Height*0.55), 0}}
	}
	return []layouts.Strip{outer(left, p.moment.column), {Heights: []float32{0}}, outer(right, p.entry.column)}
}
