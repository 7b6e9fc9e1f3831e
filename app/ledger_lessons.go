package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/learn"
)

// teach lists the lessons, each with its evidence and a switch.
func (p *ledgerPlace) teach() {
	p.lessons.Add(p.using)
	shown := 0
	for i := range p.answer.lessons.Lessons {
		l := &p.answer.lessons.Lessons[i]
		if !heard(l) {
			continue
		}
		shown++
		p.lessons.Add(ui.NewPanel(p.lesson(l), 10))
	}
	if p.using.Hidden = shown == 0; p.using.Hidden {
		l := widget.NewLabel(words.T("Nothing yet: the usual figures stand. One batch moves them a little, ten make them this kit's."))
		l.Wrapping = fyne.TextWrapWord
		p.lessons.Add(l)
	}
	p.sayUsed()
	p.lessons.Refresh()
}

// sayUsed says how many of the lessons new predictions use.
func (p *ledgerPlace) sayUsed() {
	used := p.b.Taught().Lessons
	in := map[string]bool{}
	for _, key := range used {
		in[key] = true
	}
	all, n := 0, 0
	for i := range p.answer.lessons.Lessons {
		if l := &p.answer.lessons.Lessons[i]; heard(l) {
			all++
			if in[l.Key] {
				n++
			}
		}
	}
	text := words.T("New predictions use all of these lessons.")
	switch {
	case n == 0:
		text = words.T("New predictions use none of these lessons.")
	case n < all:
		text = words.T("New predictions use {{.Used}} of these {{.All}} lessons; the others are switched off, or of strains that the design has not.", map[string]any{"Used": n, "All": all})
	}
	if p.using.Text != text {
		p.using.SetText(text)
	}
}

// heard tells whether any batch had a say in a lesson.
func heard(l *learn.Lesson) bool { return len(l.Evidence) > 0 || l.Borrowed > 0 }

func (p *ledgerPlace) lesson(l *learn.Lesson) fyne.CanvasObject {
	name := p.b.Say().Sentence(l.Name) // a strain's lesson bears the strain's name
	head := ui.NewCaption(name, look.CaptionSize+1, true, ui.InkFull)
	head.Yields = true
	more := ui.NewChoice(words.T("its batches"), false, func() { p.evidence(name, l) })
	more.Ink, more.Name = ui.InkAccent, words.T("the batches behind {{.Lesson}}", map[string]any{"Lesson": name})
	more.Hint, more.OnHint = words.T("Show which batches say so"), p.b.Hint
	on := widget.NewCheck(words.T("use it"), nil)
	on.SetChecked(!p.b.LessonOff(l.Key))
	on.OnChanged = func(use bool) {
		p.b.UseLesson(l.Key, use)
		p.sayUsed()
		p.b.Post()
	}
	says := widget.NewLabel(ui.SentenceOf(p.b.Say().Sentence(l.Found())))
	says.Wrapping = fyne.TextWrapWord
	return container.NewVBox(container.New(layout.NewCustomPaddedLayout(4, 0, 7, 7), head), says, container.NewHBox(on, layout.NewSpacer(), more))
}

// evidence lists the batches behind a lesson.
func (p *ledgerPlace) evidence(name string, l *learn.Lesson) {
	cells := []fyne.CanvasObject{cell(words.T("batch"), false), cell(words.T("measured"), true), cell(words.T("off the lesson"), true)}
	for _, e := range l.Evidence {
		value, off := l.Of(e)
		cells = append(cells, cell(words.T("{{.Title}}, {{.Date}}", map[string]any{"Title": e.Title, "Date": dateOf(e.At)}), false),
			cell(p.b.Say().Quantity(value), true), cell(p.b.Say().Signed(off), true))
	}
	list := container.NewVScroll(container.New(&pairLayout{columns: 3}, cells...))
	list.SetMinSize(fyne.NewSize(560, 300))
	dialog.NewCustom(name, words.T("Done"), list, p.b.Window()).Show()
}
