package app

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/frames"
	"skep/app/look"
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
	b      *bench
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
}

func newFermentPlace(b *bench, do func(func())) *fermentPlace {
	p := &fermentPlace{b: b, now: time.Now, zone: time.Local, done: make(chan struct{})}
	p.moment = newFermentMoment(p)
	p.side = newFermentSide(p)
	p.picture = newCoursePicture(p)
	p.entry = newReadingEntry(p)
	p.list = newReadingList(p)
	p.content = container.New(&fermentLayout{p},
		p.moment.column.panel(), p.side.column.panel(), p.picture, p.entry.column.panel(), p.list.column.panel())
	p.worker = frames.New(newFermentLive().frame, func(_ fermentAsk, f *fermentFrame) { do(func() { p.answered(f) }) })
	p.logs = frames.New(p.readLog, func(ask logAsk, a logAnswer) { do(func() { p.logged(ask, a) }) })
	go p.minutes(do)
	return p
}

// refreshEvery is how often "now" moves on by itself.
const refreshEvery = time.Minute

// minutes keeps the honey moment live while the place is looked at.
func (p *fermentPlace) minutes(do func(func())) {
	tick := time.NewTicker(refreshEvery)
	defer tick.Stop()
	for {
		select {
		case <-p.done:
			return
		case <-tick.C:
			do(func() {
				if !p.b.closing && p.b.place() == p {
					p.post()
				}
			})
		}
	}
}

// close ends the place's goroutines.
func (p *fermentPlace) close() {
	close(p.done)
	p.worker.Close()
	p.logs.Close()
}

func (p *fermentPlace) object() fyne.CanvasObject { return p.content }

func (p *fermentPlace) greeting() string {
	return words.T("Write readings down as the instrument showed them: Skep corrects them. Point at the picture to read it.")
}

// focusFirst is ready for a gravity.
func (p *fermentPlace) focusFirst() { p.b.window.Canvas().Focus(p.entry.value) }

// update shows the design in all that needs no computation.
func (p *fermentPlace) update() {
	d := p.b.editor.Design()
	p.entry.sync(&d)
	p.list.sync(&d)
	p.side.sync(&d)
	p.relayout()
}

// show is for the shared worker's frames; this place has a worker of its own.
func (p *fermentPlace) show(*frame) {}

// minute is the end of the minute that it is: an unchanged design needs no
// update within it, and what was just written down is not later than now.
func (p *fermentPlace) minute() time.Time {
	return p.now().UTC().Truncate(time.Minute).Add(time.Minute)
}

// post asks the worker for the fermentation as it stands.
func (p *fermentPlace) post() {
	palette := look.PaletteOf(p.b.app.Settings().Theme(), p.b.app.Settings().ThemeVariant())
	d, doubts, used := p.b.taught(p.b.editor.Design())
	p.worker.Post(fermentAsk{
		design: d, doubts: doubts, lessons: len(used), now: p.minute(), moving: !p.b.settled, size: p.picture.wanted,
		palette: p.b.plotPalette(), course: p.course(palette.Warning, palette.Error), note: p.dayNote(),
	})
}

// course is the picture's words, units and colours.
func (p *fermentPlace) course(honey, warn color.NRGBA) plotting.Course {
	c := courseColours(honey, warn)
	c.Gravity = p.b.plotUnits().Outcome[0]
	c.GravityLabel = words.T("gravity")
	if u := p.b.say.Unit(quantity.Gravity); u != "" {
		c.GravityLabel = words.T("gravity, {{.Unit}}", map[string]any{"Unit": u})
	}
	c.Rate = paper.NewFormatter(p.b.say).Axis(says.Factor)
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
	if p.b.closing || p.b.place() != p {
		return
	}
	p.shown = f
	if f.err != nil {
		p.b.status.warn(f.err.Error())
		return
	}
	d := p.b.editor.Design()
	p.picture.show(f)
	p.moment.show(f)
	p.side.show(f)
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
func (p *fermentPlace) write(r design.Reading) bool {
	return p.b.edit(words.T("reading: {{.Name}}", map[string]any{"Name": readingName(r.What)}), "", func(d *design.Design) {
		d.Reading = append(d.Reading, r)
	})
}

// fermentLayout is the moment over what is known, the picture, and the
// readings: three columns.
type fermentLayout struct{ p *fermentPlace }

func (*fermentLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 480) }

func (l *fermentLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	left, right, edge, between := float32(312), float32(322), float32(16), float32(gap)
	if size.Width < narrow {
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
