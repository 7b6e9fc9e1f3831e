package day

import (
	"time"

	"fyne.io/fyne/v2"

	"skep/app/frames"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/running"
)

// Day is the brew day in the window. Its methods belong to Fyne's goroutine.
type Day struct {
	host   ui.Host
	store  *Store
	worker *frames.Worker[question, *frame]
	screen *screen

	// Foot shows a line at the foot of the window while a day runs in the background;
	// empty: none does.
	Foot func(text string)
	// Shown says that the day fills the window now, or has left it.
	Shown func(open bool)
	// Notify calls through the desktop.
	Notify func(title, text string)
	// Save saves the batch when the day is over.
	Save func()

	now  func() time.Time
	zone *time.Location
	stop chan struct{} // of the ticker; nil: it stands

	state   *running.State // nil: no day is on its way
	frame   *frame         // nil: not worked out yet
	looking brewday.Key    // at this step; it may not be the one at hand
	open    bool
	typed   string
	message string // what could not be read, or what was done
	// skipping is the measurement that one more press leaves out.
	skipping string
	answer   *answered
	answers  int
	rings    []running.Ring // not seen yet
	undo     []before
	mended   bool // the design has what the day measured
	changed  bool // and is not what was asked about
}

// answered is an answer that is on the screen.
type answered struct {
	measured string // what, and what it is
	reply    brewday.Answer
	n        int
	beers    []string // what each way makes of the beer
}

// before is how things were before something was done.
type before struct {
	state   running.State
	looking brewday.Key
	edits   int // steps of the design's own undo
	name    string
}

// mostUndo is how many steps can be taken back.
const mostUndo = 100

// New makes the day. Nothing runs until Start or Resume.
func New(h ui.Host, store *Store) *Day {
	d := &Day{host: h, store: store, now: h.Now, zone: time.Local,
		Foot: func(string) {}, Shown: func(bool) {}, Save: func() {},
		Notify: func(title, text string) { go ring(title, text) }} // the desktop may take its time
	w := &worker{}
	d.worker = frames.New(w.work, func(_ question, f *frame) { h.Do(func() { d.show(f) }) })
	d.screen = newScreen(d)
	d.screen.Hide()
	return d
}

// Object fills the window while the day is shown.
func (d *Day) Object() fyne.CanvasObject { return d.screen }

// Idle waits for the worker.
func (d *Day) Idle() { d.worker.Idle() }

// Close ends what runs in the background; the day itself goes on on the disk.
func (d *Day) Close() {
	d.halt()
	if d.state != nil {
		d.keep()
	}
	d.worker.Close()
	d.store.Close()
}

// Running says that a day is on its way.
func (d *Day) Running() bool { return d.state != nil }

// Open says that it fills the window.
func (d *Day) Open() bool { return d.open }

// Start begins the day of the open design, or shows the one that is on its way.
func (d *Day) Start() {
	if d.state == nil {
		taught := d.host.Taught()
		day := brewday.Plan(taught.Design, calc.Prediction{})
		st := running.Begin(d.host.Title(), d.host.Path(), &day, d.now())
		d.begin(st)
		d.Post()
		d.keep()
	}
	d.Enter()
}

// begin takes a state up.
func (d *Day) begin(st running.State) {
	d.state, d.looking, d.undo, d.answer, d.rings, d.typed, d.message = &st, st.Step, nil, nil, nil, "", ""
	d.frame, d.mended = nil, true
	d.run()
}

// Resume takes up a day that a window left behind, in the background. The design that
// belongs to it is the open one, or will be.
func (d *Day) Resume(st running.State) {
	if d.state != nil {
		return
	}
	d.begin(st)
	d.mended = false
	d.Update()
	d.Tick()
}

// Left reads the days that were left behind and hands the newest over.
func (d *Day) Left(take func(st running.State)) {
	d.host.Disk().Ask(d.store.folder, words.T("Reading {file}…", d.store.folder), func() func() {
		all := d.store.Load()
		if len(all) == 0 {
			return nil
		}
		return func() { take(all[0]) }
	})
}

// ours says that the open design is the one of the day.
func (d *Day) ours() bool {
	if d.state.File != "" || d.host.Path() != "" {
		return d.state.File == d.host.Path()
	}
	return d.state.Title == d.host.Title()
}

// Elsewhere is the file of the day's design, where another design is open.
func (d *Day) Elsewhere() (path string, other bool) {
	if d.state == nil || d.ours() || d.state.File == "" {
		return "", false
	}
	return d.state.File, true
}

// Update takes a changed design up.
func (d *Day) Update() {
	if d.state == nil {
		return
	}
	if d.ours() && !d.mended {
		d.mended = true
		d.mend()
	}
	d.changed = true
	d.CatchUp()
}

// CatchUp asks for what has changed. While a lever moves, a day that is not shown
// waits until it rests.
func (d *Day) CatchUp() {
	if d.changed && (d.open || !d.host.Moving()) {
		d.changed = false
		d.Post()
	}
}

// Saved tells where the design of the day lies now.
func (d *Day) Saved() {
	if d.state != nil && d.state.File == "" && d.state.Title == d.host.Title() && d.host.Path() != "" {
		d.state.File = d.host.Path()
		d.keep()
	}
}

// Post asks the worker for the day as it stands.
func (d *Day) Post() {
	if d.state == nil || !d.ours() {
		return
	}
	q := question{taught: d.host.Taught(), answer: d.answers}
	if d.answer != nil {
		q.ways = d.answer.reply.Ways
	}
	d.worker.Post(q)
}

// show takes what was worked out.
func (d *Day) show(f *frame) {
	if d.state == nil {
		return
	}
	d.state.Follow(&f.day)
	d.frame = f
	if a := d.answer; a != nil && a.n == f.answer {
		a.beers = a.beers[:0]
		for i := range f.ways {
			a.beers = append(a.beers, d.beerWords(&f.ways[i]))
		}
	}
	d.keep()
	d.Tick()
}

// Enter fills the window with the step at hand.
func (d *Day) Enter() {
	if d.state == nil {
		return
	}
	d.open, d.looking = true, d.state.Step
	d.CatchUp()
	d.screen.Show()
	d.Shown(true)
	d.screen.fill()
	d.focus()
	d.foot()
}

// Leave gives the window back; the day goes on.
func (d *Day) Leave() {
	d.open = false
	d.screen.Hide()
	d.Shown(false)
	d.foot()
}

func (d *Day) focus() { ui.Focus(d.host, d.screen) }

func (d *Day) keep() { d.store.Keep(*d.state) }

// run looks at the clocks every second.
func (d *Day) run() {
	if d.stop != nil {
		return
	}
	stop := make(chan struct{})
	d.stop = stop
	go func() {
		every := time.NewTicker(time.Second)
		defer every.Stop()
		for {
			select {
			case <-every.C:
				d.host.Do(d.Tick)
			case <-stop:
				return
			}
		}
	}()
}

func (d *Day) halt() {
	if d.stop != nil {
		close(d.stop)
		d.stop = nil
	}
}

// Tick looks at the clock on the wall; a day that is on its way does so every second.
func (d *Day) Tick() {
	if d.state == nil {
		return
	}
	now := d.now()
	if back := d.state.Meet(now); back > time.Minute {
		d.message = words.T("The computer's clock was set back by {minutes} min: the clocks here go on as they were.", int(back.Minutes()+0.5))
		d.keep()
	}
	if d.frame != nil {
		if due := d.state.Due(&d.frame.day, now); len(due) > 0 {
			d.keep()
			for _, r := range due {
				d.ring(r, now)
			}
		}
	}
	d.foot()
	if d.open {
		d.screen.fill()
	}
}

// ring calls out: through the desktop, and on the screen until it is seen.
func (d *Day) ring(r running.Ring, now time.Time) {
	d.rings = append(d.rings, r)
	title, text := d.ringWords(&r, now)
	d.Notify(title, text)
	if !d.open {
		d.host.Warn(text)
	}
}
