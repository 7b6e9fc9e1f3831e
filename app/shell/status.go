package shell

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// Status is the quiet line at the foot: a hint, or what just happened, and
// the person's units.
type Status struct {
	widget.BaseWidget
	s *Shell

	text  *ui.Caption
	units *ui.Caption
	mend  *ui.Choice
	day   *ui.Choice // a brew day that goes on in the background

	refusal string // for what the design is refused; empty: it is not
	message string // what stays when a hint goes
	bad     bool
}

func newStatus(shell *Shell) *Status {
	s := &Status{s: shell}
	s.text = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)
	s.text.Yields = true
	s.units = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)
	s.units.Align = fyne.TextAlignTrailing
	s.mend = ui.NewChoice(words.T("mend it"), false, nil)
	s.mend.Ink, s.mend.Name = ui.InkAccent, words.T("go to what the design is refused for")
	s.mend.Hide()
	s.day = ui.NewChoice("", false, nil)
	s.day.Ink, s.day.TextSize, s.day.Bold, s.day.Name = ui.InkAccent, 13, true, words.T("the brew day that is on its way")
	s.day.Hide()
	s.message = words.T("Drag a lever or a picture. Arrow keys move the lever in focus, with Shift a bigger step.")
	s.ExtendBaseWidget(s)
	s.update()
	return s
}

func (s *Status) update() {
	s.units.SetText(s.s.say.Summary())
	s.put(s.message, s.bad)
}

func (s *Status) put(text string, bad bool) {
	ink := ui.InkQuiet
	if bad {
		ink = ui.InkWarning
	}
	if s.text.Ink != ink {
		s.text.Ink = ink
		s.text.Refresh()
	}
	s.text.SetText(text)
}

// SetDay shows how a brew day stands that goes on in the background; a press shows it.
// An empty text takes the line away.
func (s *Status) SetDay(text string, tap func()) {
	s.day.OnTap = tap
	if s.day.Text == text {
		return
	}
	s.day.SetText(text)
	s.day.Hidden = text == ""
	s.Refresh()
}

// Day is what stands there of a brew day.
func (s *Status) Day() string { return s.day.Text }

// Shown is what stands there when no hint does, and whether it is a warning.
func (s *Status) Shown() (text string, bad bool) { return s.message, s.bad }

// Text is what stands there now.
func (s *Status) Text() string { return s.text.Text }

// Wait says what is waited for, until it has come.
func (s *Status) Wait(what string, waiting bool) {
	if waiting && s.refusal == "" {
		s.put(what, false)
		return
	}
	s.put(s.message, s.bad)
}

// hint shows what is under the pointer; an empty one gives back what was said.
func (s *Status) hint(text string) {
	if text == "" || s.refusal != "" {
		s.put(s.message, s.bad)
		return
	}
	s.put(text, false)
}

// show says what was done.
func (s *Status) show(text string) {
	if s.refusal != "" {
		s.warn(s.refusal) // is not told away
		return
	}
	s.message, s.bad = text, false
	s.put(text, false)
}

// warn says what could not be done, and why.
func (s *Status) warn(text string) {
	s.message, s.bad = text, true
	s.put(text, true)
}

// Refuse says for what the design is refused, with a way to it; nil: it is not. It
// stays whatever is told besides, as every place is without its numbers.
func (s *Status) Refuse(why *design.Finding) {
	if why == nil {
		if s.refusal != "" {
			s.refusal = ""
			s.mend.Hide()
			s.show(words.T("The design can be reckoned with again"))
		}
		return
	}
	key := why.Key
	s.mend.OnTap = func() { s.s.Mend(key) }
	s.mend.Show()
	s.refusal = ui.Refused(why.Message.Err())
	s.warn(s.refusal)
}

// CreateRenderer is the toolkit's. What a day says and the text stand in line with the
// bar above.
func (s *Status) CreateRenderer() fyne.WidgetRenderer {
	const edge = 24
	right := container.New(layout.NewCustomPaddedLayout(0, 0, 16, 0), container.New(layout.NewCustomPaddedHBoxLayout(20), s.mend, s.units))
	return widget.NewSimpleRenderer(container.New(layout.NewCustomPaddedLayout(0, 4, edge-4, edge),
		container.NewBorder(nil, nil, container.NewHBox(s.day), right, s.text)))
}

// MinSize is the height of the line.
func (s *Status) MinSize() fyne.Size { return fyne.NewSize(300, ui.FootHeight) }
