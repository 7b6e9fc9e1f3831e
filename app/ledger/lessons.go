package ledger

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/ui/layouts"
	"skep/app/words"
	"skep/calc/learn"
)

// teach lists the lessons, each with its evidence and a switch.
func (p *Place) teach() {
	p.Lessons.Add(p.Using)
	if p.tastings == nil {
		p.tastings = ui.NewPanel(p.glasses(), 10)
	}
	p.Lessons.Add(p.tastings) // the palate is the widest doubt: first
	shown := 0
	for i := range p.Answer.Lessons.Lessons {
		l := &p.Answer.Lessons.Lessons[i]
		if !heard(l) {
			continue
		}
		shown++
		p.Lessons.Add(ui.NewPanel(p.lesson(l), 10))
	}
	if p.Using.Hidden = shown == 0; p.Using.Hidden {
		l := widget.NewLabel(words.T("Nothing yet: the usual figures stand. One batch moves them a little, ten make them this kit's."))
		l.Wrapping = fyne.TextWrapWord
		p.Lessons.Add(l)
	}
	p.sayUsed()
	p.Lessons.Refresh()
}

// sayUsed says how many of the lessons new predictions use.
func (p *Place) sayUsed() {
	used := p.host.Taught().Lessons
	in := map[string]bool{}
	for _, key := range used {
		in[key] = true
	}
	all, n := 0, 0
	for i := range p.Answer.Lessons.Lessons {
		if l := &p.Answer.Lessons.Lessons[i]; heard(l) {
			all++
			if in[l.Key] {
				n++
			}
		}
	}
	text := words.T("New predictions use all of these lessons.")
	switch {
	case p.Answer.Demo:
		text = words.T("What these batches would have taught the club. Your own predictions use none of it.")
	case n == 0:
		text = words.T("New predictions use none of these lessons.")
	case n < all:
		text = words.T("New predictions use {used} of these {all} lessons; the others are switched off, or of strains that the design has not.", n, all)
	}
	if p.Using.Text != text {
		p.Using.SetText(text)
	}
}

// heard tells whether any batch had a say in a lesson.
func heard(l *learn.Lesson) bool { return len(l.Evidence) > 0 || l.Borrowed > 0 }

func (p *Place) lesson(l *learn.Lesson) fyne.CanvasObject {
	name := p.host.Say().Sentence(l.Name) // a strain's lesson bears the strain's name
	head := ui.NewCaption(name, look.CaptionSize+1, true, ui.InkFull)
	head.Yields = true
	more := ui.NewChoice(words.T("its batches"), false, func() { p.evidence(name, l) })
	more.Ink, more.Name = ui.InkAccent, words.T("the batches behind {lesson}", name)
	more.Hint, more.OnHint = words.T("Show which batches say so"), p.host.Hint
	on := ui.NewCheck(words.T("use it"), nil)
	on.SetChecked(!p.host.LessonOff(l.Key))
	on.OnChanged = func(use bool) {
		p.host.UseLesson(l.Key, use)
		p.sayUsed()
		p.host.Post()
	}
	if p.Answer.Demo { // the club's lessons are no switches of the person's own
		on.Hide()
	}
	found := widget.NewLabel(ui.SentenceOf(p.host.Say().Sentence(l.Found())))
	found.Wrapping = fyne.TextWrapWord
	return container.NewVBox(container.New(layout.NewCustomPaddedLayout(4, 0, 7, 7), head), found, container.NewHBox(on, layout.NewSpacer(), more))
}

// evidence lists the batches behind a lesson.
func (p *Place) evidence(name string, l *learn.Lesson) {
	cells := []fyne.CanvasObject{ui.Cell(words.T("batch"), false), ui.Cell(words.T("measured"), true), ui.Cell(words.T("off the lesson"), true)}
	for _, e := range l.Evidence {
		value, off := l.Of(e)
		cells = append(cells, ui.Cell(words.T("{title}, {date}", e.Title, dateOf(e.At)), false),
			ui.Cell(p.host.Say().Quantity(value), true), ui.Cell(p.host.Say().Signed(off), true))
	}
	list := container.NewVScroll(container.New(&layouts.Table{Columns: 3}, cells...))
	list.SetMinSize(fyne.NewSize(560, 300))
	ui.ShowRead(p.host, dialog.NewCustomWithoutButtons(name, list, p.host.Window()))
}
