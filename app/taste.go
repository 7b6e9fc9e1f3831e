package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/frames"
	"skep/app/ghost"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/plotting"
)

// tastePlace is the first place: levers, pictures, numbers and the sentence.
type tastePlace struct {
	b         *bench
	painter   *plotting.Painter
	worker    *frames.Worker[tasteAsk, tasteFrame]
	plane     *frames.Worker[landingAsk, *landingFrame] // beside it, for the landing plane
	explainer *frames.Worker[explainAsk, explainAnswer]
	shown     tasteFrame

	levers   *levers
	compared *compared
	pictures [calc.Outcomes]*picture
	third    *thirdColumn
	window   *windowLine
	sentence *sentence
	content  fyne.CanvasObject
}

func newTastePlace(b *bench) *tastePlace {
	t := &tastePlace{b: b, painter: plotting.NewPainter()}
	t.levers = newLevers(b)
	t.compared = newCompared(b)
	left := ui.NewPanel(container.New(&leverColumn{}, append(t.levers.objects(), t.compared.object)...), 16)

	middle := make([]fyne.CanvasObject, 0, calc.Outcomes)
	for o := range t.pictures {
		t.pictures[o] = newPicture(t, calc.Outcome(o))
		middle = append(middle, t.pictures[o])
	}
	t.sentence = newSentence(b)
	t.third = newThirdColumn(t)
	t.window = newWindowLine(t)
	t.content = container.New(&tasteLayout{}, left,
		container.New(&fourLayout{}, middle...),
		ui.NewPanel(t.sentence.object, 5),
		ui.NewPanel(t.third.object, 14),
		ui.NewPanel(t.window.object, 14))
	l := newTasteLive(t.painter)
	t.worker = frames.New(l.frame, func(_ tasteAsk, f tasteFrame) { b.Do(func() { t.show(&f) }) })
	t.plane = frames.New(newLandingLive().frame, func(_ landingAsk, f *landingFrame) { b.Do(func() { t.showLanding(f) }) })
	x := &explainLive{engine: calc.NewEngine()}
	t.explainer = frames.New(x.answer, func(_ explainAsk, a explainAnswer) { b.Do(func() { t.explained(a) }) })
	return t
}

// showLanding puts a landing on the plane.
func (t *tastePlace) showLanding(f *landingFrame) {
	if t.content.Visible() {
		t.third.landing.show(f)
	}
}

func (t *tastePlace) Object() fyne.CanvasObject { return t.content }

// FocusFirst gives the mash rest the keyboard.
func (t *tastePlace) FocusFirst() { t.levers.rest.Focus() }

// Opened takes a newly opened design.
func (t *tastePlace) Opened() {
	d := t.b.Design()
	t.levers.opened(&d)
}

// Update shows the design in all that needs no computation.
func (t *tastePlace) Update() {
	d := t.b.Design()
	t.levers.update(&d)
	t.compared.update(&d)
	t.third.landing.update(&d)
}

// Post asks the workers for the numbers and pictures, and for the landing plane
// while that is shown.
func (t *tastePlace) Post() {
	ask := t.ask()
	t.worker.Post(ask)
	if t.third.planeShown() {
		t.plane.Post(t.third.landing.ask(ask.taught))
	}
}

// ask is the state as it is now, for the worker.
func (t *tastePlace) ask() tasteAsk {
	taught := t.b.Taught()
	d := &taught.Design
	ask := tasteAsk{
		taught:  taught,
		rest:    t.b.Rest(d),
		units:   t.b.Say().PlotUnits(),
		palette: t.b.Palette(),
		sizes:   t.pictureSizes(),
		labels:  [2]string{words.T("now"), words.T("before")},
		settled: !t.b.Moving(),
	}
	if g, ok := ghost.Design(*d); ok {
		ask.ghost = &g
	}
	return ask
}

// show puts a frame's answers up.
func (t *tastePlace) show(f *tasteFrame) {
	if !t.content.Visible() {
		return
	}
	t.shown = *f
	if f.err != nil {
		t.refuse(f.err)
		return
	}
	t.painter.Show()
	for _, p := range t.pictures {
		p.show(f)
	}
	t.third.show(f)
	t.window.show(f)
	t.sentence.show(f)
	t.compared.show(f)
	if f.gliding {
		t.Post()
	}
}

// refuse takes every number away: those of another design must not stand
// beside this one's levers.
func (t *tastePlace) refuse(why error) {
	text := ui.Refused(why)
	t.b.Warn(text)
	for _, p := range t.pictures {
		p.Clear()
	}
	t.third.refuse(why)
	t.window.value.SetText(ui.NoNumber)
	t.sentence.set(text)
	t.compared.second.SetText("")
}

// Greeting is also what stands there at the start.
func (t *tastePlace) Greeting() string {
	return words.T("Drag a lever or a picture. Arrow keys move the lever in focus, with Shift a bigger step.")
}

// Idle waits for the workers.
func (t *tastePlace) Idle() {
	t.worker.Idle()
	t.plane.Idle()
	t.explainer.Idle()
}

// Close ends them.
func (t *tastePlace) Close() {
	t.worker.Close()
	t.plane.Close()
	t.explainer.Close()
}

func (t *tastePlace) pictureSizes() (sizes [calc.Outcomes]plotting.Size) {
	for i, p := range t.pictures {
		sizes[i] = p.Wanted
	}
	return sizes
}
