package taste

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/taste/numberlist"
	"skep/app/ui"
	"skep/app/words"
)

// thirdColumn shows either where the beer lands or every number.
type thirdColumn struct {
	t       *Place
	Landing *landing
	Numbers *numberlist.List
	heads   [2]*ui.Choice
	at      int
	object  fyne.CanvasObject
}

func newThirdColumn(t *Place) *thirdColumn {
	c := &thirdColumn{t: t, Landing: newLanding(t), Numbers: numberlist.New(t, t.explain)}
	for i, name := range []string{words.T("Where it lands"), words.T("In numbers")} {
		c.heads[i] = ui.NewChoice(name, false, func() { c.Turn(i) })
		c.heads[i].TextSize = look.TextSize
	}
	head := container.NewHBox(c.heads[0], c.heads[1])
	c.object = container.NewBorder(head, nil, nil, nil, container.NewStack(c.Landing.column, c.Numbers.Object))
	c.mark()
	return c
}

func (c *thirdColumn) planeShown() bool { return c.at == 0 }

// Turn shows the other side.
func (c *thirdColumn) Turn(i int) {
	if c.at == i {
		return
	}
	c.at = i
	if !c.t.Shown.finish {
		c.Numbers.Clear() // those of an earlier beer
	} else {
		c.show(&c.t.Shown)
	}
	c.mark()
	c.t.Post()
}

func (c *thirdColumn) mark() {
	for i, h := range c.heads {
		h.Current = i == c.at
		h.Refresh()
	}
	for i, o := range []fyne.CanvasObject{c.Landing.column, c.Numbers.Object} {
		if i == c.at {
			o.Show()
		} else {
			o.Hide()
		}
	}
}

func (c *thirdColumn) show(f *Frame) {
	if !c.planeShown() && f.finish { // else a whole one is on its way
		c.Numbers.Show(&f.Prediction)
	}
}

// refuse takes every number away.
func (c *thirdColumn) refuse(why error) {
	c.Landing.refuse(why)
	c.Numbers.Clear()
}
