// Package taste is the first place: the levers, the four pictures, the landing
// plane with the ways to a taste, every number and the sentence.
//
// The design as this kit makes it goes to workers of its own; edits of the design
// and texts come out. It must not know another place, nor how the window saves.
package taste

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/frames"
	"skep/app/ghost"
	"skep/app/ui"
	"skep/app/ui/layouts"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/lever"
	"skep/plotting"
)

// Place is the first place: levers, pictures, numbers and the sentence.
type Place struct {
	Host
	painter   *plotting.Painter
	Worker    *frames.Worker[ask, Frame]
	plane     *frames.Worker[landingAsk, *landingFrame] // beside it, for the landing plane
	explainer *frames.Worker[explainAsk, explainAnswer]
	Shown     Frame

	Levers   *levers
	compared *compared
	Pictures [calc.Outcomes]*picture
	Third    *thirdColumn
	window   *windowLine
	next     *measureNext
	Card     *startCard
	column   fyne.CanvasObject // the levers
	begin    *ui.Choice        // over them, while a demonstration stands there as it was opened
	Sentence *sentence
	Content  fyne.CanvasObject
	refused  string // what the window was told of a typed text that was not taken
}

// Host is what this place asks of the window beside what every place does.
type Host interface {
	ui.Host
	SetAt(at lever.At)     // which rest and which honey the levers move
	WholePlane() bool      // the landing plane shows 0 to 100, not the closer look
	SetWholePlane(on bool) // keeps that for the next time
	// StrainNote is what a strain tastes of, as the person's own file or the
	// catalogue has it.
	StrainNote(name string) string
	// Demonstration says that nothing of the person's own stands in the window.
	Demonstration() bool
	StartAnew() // asks what the person has, after asking about unsaved changes
	// Start alters the design that is being started from what one has: all of it
	// is one step of undo.
	Start(alter func(*design.Design)) error
	// Teacher makes of any design what this kit makes of it, for a worker.
	Teacher() func(design.Design) ui.Taught
	// KeepKit keeps the kit of a new design among the person's own, and as the
	// one used last.
	KeepKit(k design.KitFile)
}

func New(h Host) *Place {
	t := &Place{Host: h, painter: plotting.NewPainter()}
	t.Levers = newLevers(t)
	t.compared = newCompared(t)
	t.begin = ui.NewChoice("", false, t.StartAnew)
	t.begin.Ink, t.begin.Bold, t.begin.Off, t.begin.OnHint = ui.InkAccent, true, true, t.Hint
	t.column = container.NewBorder(container.NewStack(t.begin), nil, nil, nil,
		container.New(&leverColumn{}, append(t.Levers.objects(), t.compared.object)...))
	t.Card = newStartCard(t)
	left := ui.NewPanel(container.NewStack(t.column, t.Card.object), 16)

	middle := make([]fyne.CanvasObject, 0, calc.Outcomes)
	for o := range t.Pictures {
		t.Pictures[o] = newPicture(t, calc.Outcome(o))
		middle = append(middle, t.Pictures[o])
	}
	t.Sentence = newSentence(t)
	t.Third = newThirdColumn(t)
	t.window = newWindowLine(t)
	t.Content = container.New(&layouts.Columns{Least: fyne.NewSize(960, 550), Divide: divide}, left,
		container.New(&layouts.Even{Columns: 2}, middle...),
		ui.NewPanel(t.Sentence.object, 5),
		ui.NewPanel(t.Third.object, 14),
		ui.NewPanel(t.window.object, 14))
	l := newWorker(t.painter)
	t.Worker = frames.New(l.frame, func(_ ask, f Frame) { t.Do(func() { t.show(&f) }) })
	t.plane = frames.New(NewLandingLive().Frame, func(_ landingAsk, f *landingFrame) { t.Do(func() { t.showLanding(f) }) })
	x := &explainLive{}
	t.explainer = frames.New(x.answer, func(_ explainAsk, a explainAnswer) { t.Do(func() { t.explained(a) }) })
	return t
}

// showLanding puts a landing on the plane.
func (t *Place) showLanding(f *landingFrame) {
	if t.Content.Visible() {
		t.Third.Landing.show(f)
	}
}

func (t *Place) Object() fyne.CanvasObject { return t.Content }

// FocusFirst gives the mash rest the keyboard, or the card that stands there.
func (t *Place) FocusFirst() {
	if t.Card.shown {
		t.Card.ask(t.Card.title)
		return
	}
	t.Levers.Rest.Focus()
}

// left shows the card in the place of the levers, or the levers again.
func (t *Place) left(card bool) {
	if card {
		t.column.Hide()
		t.Card.object.Show()
	} else {
		t.Card.object.Hide()
		t.column.Show()
	}
}

// Opened takes a newly opened design.
func (t *Place) Opened() {
	d := t.Design()
	if t.Card.shown {
		t.Card.shown = false
		t.left(false)
	}
	t.Levers.opened(&d)
	t.begin.Hidden = !t.Demonstration()
	t.column.Refresh()
}

// Update shows the design in all that needs no computation.
func (t *Place) Update() {
	d := t.Design()
	t.Levers.update()
	if on := t.Demonstration(); on == t.begin.Off || on && t.begin.Hidden {
		t.offerStart(on)
	}
	t.compared.update(&d)
	t.Third.Landing.update(&d)
}

// offerStart leads from a demonstration to one's own design. The line's room is kept
// when it goes, which it does with the first move of a lever, until another design is
// opened: no lever moves from under the pointer.
func (t *Place) offerStart(on bool) {
	text := ""
	t.begin.Hint = ""
	if on {
		t.begin.Hint = words.T("A design of your own from your kit, your honey and your yeast, in a minute")
		text = words.T("Start from what you have (Ctrl+N)")
		t.begin.Show()
	}
	t.begin.SetText(text)
	t.begin.SetOff(!on)
	t.column.Refresh()
}

// Post asks the workers for the numbers and pictures, and for the landing plane
// while that is shown.
func (t *Place) Post() {
	ask := t.ask()
	t.Worker.Post(ask)
	if ask.settled {
		t.next.worker.Post(nextAsk{ask.taught})
	}
	if t.Third.planeShown() {
		t.plane.Post(t.Third.Landing.Ask(ask.taught))
	}
}

// ask is the state as it is now, for the worker.
func (t *Place) ask() ask {
	taught := t.Taught()
	d := &taught.Design
	ask := ask{
		taught:        taught,
		rest:          t.Rest(d),
		units:         t.Say().PlotUnits(),
		say:           t.Say(),
		palette:       t.Palette(),
		sizes:         t.pictureSizes(),
		labels:        [2]string{words.T("now"), words.T("before")},
		settled:       !t.Moving(),
		reducedMotion: t.ReducedMotion(),
	}
	ask.finish = ask.settled || !t.Third.planeShown()
	if g, ok := ghost.Design(*d); ok {
		ask.ghost = &g
	}
	return ask
}

// show puts a frame's answers up.
func (t *Place) show(f *Frame) {
	if !t.Content.Visible() {
		return
	}
	t.Shown = *f
	if f.err != nil {
		t.refuse(f.err)
		return
	}
	t.painter.Show()
	for _, p := range t.Pictures {
		p.show(f)
	}
	t.Levers.showMoment(f)
	t.Third.show(f)
	t.window.show(f)
	t.Sentence.show(f)
	t.compared.show(f)
	if f.gliding {
		t.Post()
	}
}

// refuse takes every number away: those of another design must not stand
// beside this one's levers.
func (t *Place) refuse(why error) {
	text := ui.Refused(why)
	for _, p := range t.Pictures {
		p.Clear()
	}
	t.Third.refuse(why)
	t.window.value.SetText(ui.NoNumber)
	t.next.show(nil)
	t.Sentence.set(text)
	t.compared.second.SetText("")
}

// Greeting is also what stands there at the start.
func (t *Place) Greeting() string {
	return words.T("Drag a lever or a picture. Arrow keys move the lever in focus, with Shift a bigger step.")
}

// Idle waits for the workers.
func (t *Place) Idle() {
	t.Worker.Idle()
	t.plane.Idle()
	t.explainer.Idle()
	t.next.worker.Idle()
	if t.Card.worker != nil {
		t.Card.worker.Idle()
	}
}

// Close ends them.
func (t *Place) Close() {
	t.Worker.Close()
	t.plane.Close()
	t.explainer.Close()
	t.next.worker.Close()
	if t.Card.worker != nil {
		t.Card.worker.Close()
	}
}

func (t *Place) pictureSizes() (sizes [calc.Outcomes]plotting.Size) {
	for i, p := range t.Pictures {
		sizes[i] = p.Wanted
	}
	return sizes
}
