package app

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/brew"
	"skep/app/day"
	"skep/app/disk"
	"skep/app/editor"
	"skep/app/ferment"
	"skep/app/ledger"
	"skep/app/recovery"
	"skep/app/safetext"
	"skep/app/savefile"
	"skep/app/shell"
	"skep/app/taste"
	"skep/app/userfile"
	"skep/app/words"
	"skep/app/yeasts"
)

// bench is the window with its places: what is on it belongs to Fyne's
// goroutine; each place has workers of its own, which see only copies.
type bench struct {
	*shell.Shell
	keeper *editor.Keeper // of the editor's work: recovery file, lock, previous version

	bar     *topBar
	taste   *taste.Place
	yeasts  *yeasts.Place
	ledger  *ledger.Place
	brew    *brew.Place
	ferment *ferment.Place
	day     *day.Day // the brew day that is on its way
	places  []placeEntry
	at      int // the place that is shown

	demoBeer   bool   // the club's fermentation is shown
	beforeDemo string // the file that was open before it; empty: none

	openings  int      // counts what was asked to be opened: the newest wins
	saving    bool     // a save is on its way
	afterSave []func() // what waits for it

	closed bool // the workers have ended
	agreed bool // the person closed the window and was asked about unsaved work
}

// newBench makes the window. do hands work from the workers over to Fyne's
// goroutine: fyne.Do, or a queue that a test empties itself.
func newBench(a fyne.App, p *shell.Preferences, state *recovery.Store, do func(func())) *bench {
	b := &bench{Shell: shell.New(a, p, do)}
	b.keeper = editor.NewKeeper(b.Editor, state, func(err error) { b.Do(func() { b.troubled(err) }) })
	b.keeper.Beside = func(j editor.Job, then func(error)) {
		b.Disk().Ask(disk.Design, words.T("Waiting for the disk of the design…"), func() func() {
			end := j()
			return func() { then(end()) }
		})
	}
	b.fillPlaces()
	b.fillDay(state)
	b.bar = newTopBar(b)
	b.OnChanged, b.OnPost, b.OnStart, b.OnMend = b.show, b.post, b.askNew, b.mend

	w := b.Window()
	w.SetContent(container.New(&benchLayout{}, append(append([]fyne.CanvasObject{b.bar}, b.placeObjects()...), b.day.Object(), b.Status)...))
	w.SetPadded(false)
	w.SetMaster()
	w.Resize(fyne.NewSize(1280, 800))
	w.SetCloseIntercept(b.askClose)
	w.SetOnDropped(b.dropped)
	b.shortcuts()
	b.placeShortcuts()
	a.Settings().AddListener(func(fyne.Settings) { b.Post() })
	return b
}

// start opens what the person asked for, once the window is there.
func (b *bench) start(file string) {
	switch {
	case file != "":
		b.open(file)
	case b.Prefs.Last != "":
		b.reopen(b.Prefs.Last)
	}
	b.Offers(func(_ []userfile.Offer, err error) { // one's own strains are tuned among, too
		if err != nil {
			b.Warn(b.Say().Why(err))
		}
	})
	b.ReadGlasses(b.Post)
	b.Changed()
	b.place().FocusFirst()
	b.offerLeft(func() {})
	b.day.Left(b.day.Resume)
	folder := b.ledger.Folder()
	b.Disk().Ask(folder, words.T("Reading {file}…", folder), func() func() {
		there := savefile.IsThere(folder)
		return func() {
			if there {
				b.ledger.Read() // what this kit has taught is used from the start
			}
		}
	})
}

// close ends the workers; no goroutine outlives the window.
func (b *bench) close() {
	if b.closed {
		return
	}
	b.closed = true
	b.Closing = true
	for _, p := range b.places {
		p.place.Close()
	}
	done := make(chan struct{})
	go func() {
		defer close(done)
		b.day.Close()
		b.Disk().Close(lastPatience)
		if err := b.keeper.Close(b.agreed); err != nil {
			fyne.LogError("the unsaved work could not be kept", err)
		}
	}()
	select {
	case <-done:
	case <-time.After(2 * lastPatience): // a disk that does not answer holds no window up
	}
}

// show brings everything that shows the design up to date. What is costly goes
// to the place's worker.
func (b *bench) show() {
	b.setTitle()
	b.bar.update()
	b.Status.Refuse(b.Editor.Refused())
	b.ledger.Recheck()
	b.place().Update()
	b.day.Update()
	b.Post()
}

// post asks the place that is shown for a picture of the state as it is now.
func (b *bench) post() { b.place().Post() }

// lastPatience is how long a window that is closed waits for a disk that does not
// answer.
const lastPatience = 5 * time.Second

// opened takes a newly opened design.
func (b *bench) opened() {
	b.demoBeer = false
	b.MoveOn()
	b.taste.Opened()
	b.ledger.Relearn()
}

func (b *bench) setTitle() {
	title := b.Editor.Title() + " – Skep"
	if b.Editor.Unsaved() {
		title = "• " + title
	}
	b.Window().SetTitle(safetext.Line(title))
}
