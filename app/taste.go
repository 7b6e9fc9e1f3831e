package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	"skep/plotting"
)

// tastePlace is the first place: levers, pictures, numbers and the sentence.
type tastePlace struct {
	b        *bench
	levers   *levers
	compared *compared
	pictures [calc.Outcomes]*picture
	third    *thirdColumn
	window   *windowLine
	sentence *sentence
	content  fyne.CanvasObject
}

func newTastePlace(b *bench) *tastePlace {
	t := &tastePlace{b: b}
	t.levers = newLevers(b)
	t.compared = newCompared(b)
	left := ui.NewPanel(container.New(&leverColumn{}, append(t.levers.objects(), t.compared.object)...), 16)

	middle := make([]fyne.CanvasObject, 0, calc.Outcomes)
	for o := range t.pictures {
		t.pictures[o] = newPicture(b, calc.Outcome(o))
		middle = append(middle, t.pictures[o])
	}
	t.sentence = newSentence(b)
	t.third = newThirdColumn(b)
	t.window = newWindowLine(b)
	t.content = container.New(&tasteLayout{}, left,
		container.New(&fourLayout{}, middle...),
		ui.NewPanel(t.sentence.object, 5),
		ui.NewPanel(t.third.object, 14),
		ui.NewPanel(t.window.object, 14))
	return t
}

func (t *tastePlace) object() fyne.CanvasObject { return t.content }

// focusFirst gives the mash rest the keyboard.
func (t *tastePlace) focusFirst() { t.levers.rest.Focus() }

// opened takes a newly opened design.
func (t *tastePlace) opened() {
	d := t.b.editor.Design()
	t.levers.opened(&d)
}

// update shows the design in all that needs no computation.
func (t *tastePlace) update() {
	d := t.b.editor.Design()
	t.levers.update(&d)
	t.compared.update(&d)
	t.third.landing.update(&d)
}

// show puts a frame's answers up.
func (t *tastePlace) show(f *frame) {
	for _, p := range t.pictures {
		p.show(f)
	}
	t.third.show(f)
	t.window.show(f)
	t.sentence.show(f)
	t.compared.show(f)
}

// ask wants the landing plane's part of a frame while it is shown.
func (t *tastePlace) ask(v *view) {
	if t.third.planeShown() {
		t.third.landing.ask(v)
	}
}

func (t *tastePlace) restIndex(d *design.Design) int { return t.levers.at.In(d).Rest }

func (t *tastePlace) pictureSizes() (sizes [calc.Outcomes]plotting.Size) {
	for i, p := range t.pictures {
		sizes[i] = p.wanted
	}
	return sizes
}
