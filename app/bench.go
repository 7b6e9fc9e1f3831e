package app

import (
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/editor"
	"skep/app/frames"
	"skep/app/journal"
	"skep/app/look"
	"skep/app/quantity"
	"skep/app/words"
	"skep/assets"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/learn"
	"skep/plotting"
)

// bench is the window and all it holds. Its fields and methods belong to
// Fyne's goroutine; the worker sees only copies (view) and answers (frame).
type bench struct {
	app    fyne.App
	window fyne.Window
	prefs  *preferences

	editor    *editor.Editor
	keeper    *editor.Keeper // of the editor's work: journal, lock, previous version
	painter   *plotting.Painter
	worker    *frames.Worker[view, frame]
	plane     *frames.Worker[view, *landingFrame] // beside it, for the landing plane
	explainer *frames.Worker[explainAsk, explainAnswer]
	shown     frame

	say       quantity.Formatter
	read      quantity.Parser
	catalogue assets.Catalogue

	bar     *topBar
	taste   *tastePlace
	yeasts  *yeastsPlace
	ledger  *ledgerPlace
	learnt  *learn.Lessons // from the ledger; nil: nothing yet
	brew    *brewPlace
	ferment *fermentPlace
	places  []placeEntry
	at      int // the place that is shown
	status  *statusLine

	settled bool // no lever is being moved
	closing bool // the window is going: nothing more is shown
	closed  bool // and its workers have ended
	agreed  bool // the person closed the window and was asked about unsaved work
}

// newBench makes the window. do hands work from the worker over to Fyne's
// goroutine: fyne.Do, or a queue that a test empties itself.
func newBench(a fyne.App, p *preferences, state *journal.Store, do func(func())) *bench {
	b := &bench{app: a, prefs: p, window: a.NewWindow("Skep"), settled: true}
	b.setUnits()
	var err error
	if b.catalogue, err = assets.LoadCatalogue(); err != nil {
		fyne.LogError("the catalogue inside the program can't be read", err)
	}
	if b.editor, err = demo(assets.DemoMiddle); err != nil {
		// Only a broken build comes here; an empty bench would be worse.
		panic(err)
	}
	b.editor.Changed = b.changed
	b.keeper = editor.NewKeeper(b.editor, state, func(err error) { do(func() { b.troubled(err) }) })
	b.painter = plotting.NewPainter()
	b.status = newStatusLine(b)
	b.ferment = newFermentPlace(b, do)
	b.ledger = newLedgerPlace(b, do)
	b.fillPlaces()
	b.bar = newTopBar(b)
	l := newLive(b.painter)
	l.strains = newStrainsLive(b.yeasts.painter, l.temperaturesC)
	b.worker = frames.New(l.frame, func(v view, f frame) { do(func() { b.show(v.at, f) }) })

	b.plane = frames.New(newLandingLive().frame, func(v view, f *landingFrame) { do(func() { b.showLanding(v.at, f) }) })

	x := &explainLive{engine: calc.NewEngine()}
	b.explainer = frames.New(x.answer, func(_ explainAsk, a explainAnswer) { do(func() { b.explained(a) }) })

	b.window.SetContent(container.New(&benchLayout{}, append(append([]fyne.CanvasObject{b.bar}, b.placeObjects()...), b.status)...))
	b.window.SetPadded(false)
	b.window.SetMaster()
	b.window.Resize(fyne.NewSize(1280, 800))
	b.window.SetCloseIntercept(b.askClose)
	b.window.SetOnDropped(b.dropped)
	b.shortcuts()
	b.placeShortcuts()
	a.Settings().AddListener(func(fyne.Settings) { b.post() })
	return b
}

func demo(name string) (*editor.Editor, error) {
	src, err := assets.Demo(name)
	if err != nil {
		return nil, err
	}
	return editor.New(name, src)
}

// start opens what the person asked for, once the window is there.
func (b *bench) start(file string) {
	switch {
	case file != "":
		b.open(file)
	case b.prefs.last != "":
		b.reopen(b.prefs.last)
	}
	b.yeasts.offersSaid() // one's own strains are tuned among, too
	b.changed()
	b.place().focusFirst()
	b.offerLeft()
	if _, err := os.Stat(b.ledger.folder()); err == nil {
		b.ledger.read() // what this kit has taught is used from the start
	}
}

// close ends the worker; no goroutine outlives the window.
func (b *bench) close() {
	if b.closed {
		return
	}
	b.closed = true
	b.closing = true
	b.worker.Close()
	b.plane.Close()
	b.explainer.Close()
	b.ledger.worker.Close()
	if err := b.keeper.Close(b.agreed); err != nil {
		fyne.LogError("the unsaved work could not be kept", err)
	}
	b.ferment.close()
}

// setUnits makes the one formatter and the one parser for the chosen units.
func (b *bench) setUnits() {
	b.say = quantity.NewFormatter(b.prefs.units, words.T)
	b.read = quantity.NewParser(b.prefs.units, words.T)
}

// edit is a person's change of the design: one step of undo, or part of one
// while the gesture goes on.
func (b *bench) edit(name, gesture string, alter func(*design.Design)) bool {
	if why := b.editor.ReadOnly(); why != "" {
		b.status.warn(why)
		b.changed() // puts the control back
		return false
	}
	if err := b.editor.Change(name, gesture, alter); err != nil {
		b.status.warn(err.Error())
		b.changed()
		return false
	}
	return true
}

// moving is edit for a lever on its way: the axes hold still until it ends.
func (b *bench) moving(name, gesture string, alter func(*design.Design)) {
	b.settled = false
	b.edit(name, gesture, alter)
}

// ended says that the gesture is over.
func (b *bench) ended() {
	b.editor.EndGesture()
	b.settled = true
	b.post()
}

// changed brings everything that shows the design up to date. What is dear
// goes to the worker.
func (b *bench) changed() {
	if b.closing {
		return
	}
	b.setTitle()
	b.bar.update()
	b.ledger.recheck()
	b.place().update()
	b.post()
}

func (b *bench) setTitle() {
	title := b.editor.Title() + " – Skep"
	if b.editor.Unsaved() {
		title = "• " + title
	}
	b.window.SetTitle(title)
}

// post asks the worker for a frame of the state as it is now.
func (b *bench) post() {
	if b.closing {
		return
	}
	if b.place() == b.ferment {
		b.ferment.post() // it has a worker of its own
		return
	}
	v := b.view()
	b.worker.Post(v)
	if v.landing != nil {
		b.plane.Post(v)
	}
}

func (b *bench) view() view {
	d, doubts, lessons := b.taught(b.editor.Design())
	v := view{
		doubts: doubts, lessons: len(lessons),
		design:  d,
		rest:    b.taste.restIndex(&d),
		units:   b.plotUnits(),
		palette: b.plotPalette(),
		sizes:   b.taste.pictureSizes(),
		labels:  [2]string{words.T("now"), words.T("before")},
		settled: b.settled,
	}
	v.at = b.at
	if a, ok := b.place().(asker); ok {
		a.ask(&v)
	}
	if d.Ghost != nil {
		if g, ok := ghostDesign(d); ok {
			v.ghost = &g
		}
	}
	return v
}

// show puts a finished frame of a place on the screen, if that is still shown.
func (b *bench) show(at int, f frame) {
	if b.closing || at != b.at {
		return
	}
	b.shown = f
	if f.err != nil {
		b.status.warn(f.err.Error())
		return
	}
	b.painter.Show()
	b.place().show(&f)
	if f.gliding {
		b.post()
	}
}

// showLanding puts a landing on the plane, if that is still shown.
func (b *bench) showLanding(at int, f *landingFrame) {
	if !b.closing && at == b.at {
		b.taste.third.landing.show(f)
	}
}

// plotPalette is the pictures' palette on the panels' own ground.
func (b *bench) plotPalette() plotting.Palette {
	l := look.PaletteOf(b.app.Settings().Theme(), b.app.Settings().ThemeVariant())
	p := plotting.Light()
	if l.Dark {
		p = plotting.Dark()
	}
	p.Ground, p.Ink, p.Muted, p.Grid, p.Accent, p.Ghost = l.Panel, l.Ink, l.Quiet, l.Grid, l.Accent, l.Ghost
	return p
}
