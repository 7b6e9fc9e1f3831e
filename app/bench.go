package app

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"skep/app/begin"
	"skep/app/brew"
	"skep/app/day"
	"skep/app/ferment"
	"skep/app/ledger"
	"skep/app/opensave"
	"skep/app/recovery"
	"skep/app/safetext"
	"skep/app/savefile"
	"skep/app/shell"
	"skep/app/taste"
	"skep/app/ui"
	"skep/app/userfile"
	"skep/app/words"
	"skep/app/yeasts"
	"skep/calc/design"
	"skep/calc/start"
)

// bench is the window with its places: what is on it belongs to Fyne's
// goroutine; each place has workers of its own, which see only copies.
type bench struct {
	*shell.Shell
	*opensave.Files

	bar     *topBar
	taste   *taste.Place
	yeasts  *yeasts.Place
	ledger  *ledger.Place
	brew    *brew.Place
	ferment *ferment.Place
	day     *day.Day // the brew day that is on its way
	places  []placeEntry
	at      int // the place that is shown

	closed bool // the workers have ended
}

// newBench makes the window. do hands work from the workers over to Fyne's
// goroutine: fyne.Do, or a queue that a test empties itself.
func newBench(a fyne.App, p *shell.Preferences, state *recovery.Store, do func(func())) *bench {
	b := &bench{Shell: shell.New(a, p, do)}
	b.Files = opensave.New(b.Shell, state)
	b.Hooks = opensave.Hooks{Opened: b.opened, Saved: b.saved, ToTaste: func() { b.goTo(0) },
		Focus: func() { b.place().FocusFirst() }, Card: func(c begin.Choices, a start.Answers, kit design.KitFile) { b.taste.Card.Open(c, a, kit) }}
	b.fillPlaces()
	b.fillDay(state)
	b.bar = newTopBar(b)
	b.OnChanged, b.OnPost, b.OnStart, b.OnMend = b.show, b.post, b.AskNew, b.mend

	w := b.Window()
	w.SetContent(container.NewStack(container.NewVBox(b.bar),
		container.New(layout.NewCustomPaddedLayout(ui.BarHeight, ui.FootHeight, 0, 0), b.placeObjects()...),
		container.New(layout.NewCustomPaddedLayout(0, ui.FootHeight, 0, 0), b.day.Object()),
		container.NewVBox(layout.NewSpacer(), b.Status)))
	w.SetPadded(false)
	w.SetMaster()
	w.Resize(fyne.NewSize(1280, 800))
	w.SetCloseIntercept(b.AskClose)
	w.SetOnDropped(b.Dropped)
	b.shortcuts()
	b.placeShortcuts()
	a.Settings().AddListener(func(fyne.Settings) { b.Post() })
	return b
}

// open opens what the person asked for, or what was open last.
func (b *bench) open(file string) {
	switch {
	case file != "":
		b.Open(file)
	case b.Prefs.Last != "":
		b.Reopen(b.Prefs.Last)
	}
}

// start is once the window is there.
func (b *bench) start() {
	b.Offers(func(_ []userfile.Offer, err error) { // one's own strains are tuned among, too
		if err != nil {
			b.Warn(b.Say().Why(err))
		}
	})
	b.ReadGlasses(b.Post)
	b.Changed()
	b.place().FocusFirst()
	b.OfferLeft(func() {})
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
		if err := b.Keeper.Close(b.Agreed()); err != nil {
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
func (b *bench) post() {
	b.place().Post()
	b.day.CatchUp()
}

// lastPatience is how long a window that is closed waits for a disk that does not
// answer.
const lastPatience = 5 * time.Second

// opened takes a newly opened design.
func (b *bench) opened() {
	b.taste.Opened()
	b.ledger.Relearn()
}

// saved takes up that the design is on the disk.
func (b *bench) saved() {
	b.day.Saved()
	b.ledger.Relearn()
}

func (b *bench) setTitle() {
	title := b.Editor.Title() + " – Skep"
	if b.Editor.Unsaved() {
		title = "• " + title
	}
	b.Window().SetTitle(safetext.Line(title))
}
