package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
)

// thirdColumn shows either where the beer lands or every number.
type thirdColumn struct {
	t       *tastePlace
	landing *landing
	numbers *numbers
	heads   [2]*ui.Choice
	at      int
	object  fyne.CanvasObject
}

func newThirdColumn(t *tastePlace) *thirdColumn {
	c := &thirdColumn{t: t, landing: newLanding(t), numbers: newNumbers(t)}
	for i, name := range []string{words.T("Where it lands"), words.T("In numbers")} {
		c.heads[i] = ui.NewChoice(name, false, func() { c.turn(i) })
		c.heads[i].TextSize = look.TextSize
	}
	head := container.NewHBox(c.heads[0], c.heads[1])
	c.object = container.NewBorder(head, nil, nil, nil, container.NewStack(c.landing.column, c.numbers.object))
	c.mark()
	return c
}

func (c *thirdColumn) planeShown() bool { return c.at == 0 }

// turn shows the other side.
func (c *thirdColumn) turn(i int) {
	if c.at == i {
		return
	}
	c.at = i
	c.mark()
	c.t.Post()
}

func (c *thirdColumn) mark() {
	for i, h := range c.heads {
		h.Current = i == c.at
		h.Refresh()
	}
	for i, o := range []fyne.CanvasObject{c.landing.column, c.numbers.object} {
		if i == c.at {
			o.Show()
		} else {
			o.Hide()
		}
	}
}

func (c *thirdColumn) show(f *tasteFrame) {
	if !c.planeShown() {
		c.numbers.show(f)
	}
}

// refuse takes every number away.
func (c *thirdColumn) refuse(why error) {
	c.landing.refuse(why)
	c.numbers.clear()
}
