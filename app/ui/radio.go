package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// Radio asks for one of a few answers that all stand there. The toolkit's keeps Escape
// to itself, so that a drawer could not be left from it.
type Radio struct {
	Box      *fyne.Container
	At       int // which answer is chosen; -1: none yet
	Answers  []string
	OnChange func(at int)

	choices []*Choice
}

// NewRadio makes a question's answers, in a row or one below the other.
func NewRadio(answers []string, at int, row bool, changed func(at int)) *Radio {
	r := &Radio{At: at, Answers: answers, Box: container.NewVBox()}
	if row {
		r.Box = container.NewHBox()
	}
	for i, a := range answers {
		c := NewChoice(a, false, func() { r.Choose(i) })
		c.Ink, c.IconFirst = InkFull, true
		r.choices = append(r.choices, c)
		r.Box.Add(c)
	}
	r.show()
	r.OnChange = changed
	return r
}

// Choose takes an answer, as a press does.
func (r *Radio) Choose(i int) {
	if i == r.At {
		return
	}
	r.At = i
	r.show()
	if r.OnChange != nil {
		r.OnChange(i)
	}
}

func (r *Radio) show() {
	for i, c := range r.choices {
		c.Icon, c.Chosen = theme.RadioButtonIcon(), i == r.At
		if c.Chosen {
			c.Icon = theme.RadioButtonCheckedIcon()
		}
		c.Refresh()
	}
}
