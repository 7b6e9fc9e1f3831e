package ferment

import (
	"math"
	"time"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/cautions"
	"skep/calc/follow"
	"skep/calc/quantity"
)

// honeyMoment is the honey moment, large: what every brewer of honey beer
// looks for first.
type honeyMoment struct {
	p      *Place
	column *ui.Column
	head   *ui.Head
	big    *ui.Head
	lines  *ui.Texts
	care   *ui.Texts
	demo   *demonstration
}

const momentSize = 26

func newHoneyMoment(p *Place) *honeyMoment {
	m := &honeyMoment{p: p}
	m.head = ui.NewHead(words.T("The honey moment"))
	m.head.Text.TextSize, m.head.Text.Bold, m.head.Text.Ink = look.CaptionSize+1, false, ui.InkQuiet
	m.big = ui.NewHead(words.T("working it out…"))
	m.big.Text.TextSize = momentSize
	m.lines = &ui.Texts{Gap: 2, Make: func() *ui.Paragraph { return ui.NewParagraph("", 13, ui.InkFull) }}
	m.care = &ui.Texts{Make: func() *ui.Paragraph {
		c := ui.NewParagraph("", look.CaptionSize, ui.InkWarning)
		c.Mark = "!"
		return c
	}}
	m.demo = newDemonstration(p)
	m.column = ui.NewColumn(m.demo.row, m.head, newPlain(m.big), m.lines, m.care)
	return m
}

// plainPart is a heading without the room that a heading takes above it.
type plainPart struct{ *ui.Head }

func newPlain(h *ui.Head) ui.Part { return &plainPart{h} }

func (m *honeyMoment) show(f *frame) {
	b := f.batch
	o := &b.Moment
	p := m.p
	word, ink := p.host.Say().Sentence(o.Phase.Message()), ui.InkFull
	var lines []string
	switch o.Phase {
	case follow.NoMoment:
		lines = append(lines, words.T("The window opens {opens} after pitching and closes after {closes}.",
			p.span(b.After.WindowHours[0]), p.span(b.After.WindowHours[1])))
	case follow.NotYet:
		lines = append(lines, words.T("The window opens {opens}, most likely {clock}.", p.fromNow(o.Opens), p.clockIn(o.Opens.Mid)))
	case follow.Now:
		ink = ui.InkAccent
		lines = append(lines, words.T("The window is open. It closes {closes}, most likely {clock}.", p.fromNow(o.Closes), p.clockIn(o.Closes.Mid)))
	case follow.Closing:
		ink = ui.InkWarning
		lines = append(lines, words.T("The window closes {closes}, most likely {clock}.", p.fromNow(o.Closes), p.clockIn(o.Closes.Mid)))
	default:
		lines = append(lines, words.T("The window closed {closes}.", p.fromNow(o.Closes)))
		if len(o.Planned) > 0 {
			lines = append(lines, words.T("Honey now needs time, and two equal readings days apart before bottling."))
		}
	}
	if o.Phase != follow.Past {
		if near := m.byHydrometer(b); near != "" {
			lines = append(lines, near)
		}
	}
	if o.Phase != follow.NoMoment && o.Phase != follow.Past {
		lines = append(lines, m.height(o.Height)+" "+m.chance(o.Open))
	}
	logged := len(b.Honey.Steps) > 0
	for _, h := range o.Planned {
		honey := b.Conditioned.Design.Honey[h.Place]
		mass := p.host.Say().Format(quantity.MassKg, honey.MassKg)
		switch {
		case o.Phase == follow.NoMoment:
		case h.From.Mid < -0.5:
			lines = append(lines, words.T("{mass} was planned for {when}.", mass, p.fromNow(h.From)))
		default:
			lines = append(lines, words.T("{mass} of honey as planned: {when}.", mass, p.fromNow(h.From)))
		}
	}
	if logged && len(o.Planned) == 0 {
		lines = append(lines, words.T("All honey is in."))
	}
	m.big.Text.Ink = ink
	m.big.Text.Text = word
	m.big.Text.Refresh()
	m.lines.Set(lines)
	m.care.Set(nil)
	if (o.Phase == follow.Now || o.Phase == follow.Closing) && len(o.Planned) > 0 {
		m.care.SetOne(p.host.Say().Sentence(cautions.HoneyFoam()))
	}
}

// byHydrometer is the window in gravities, which is what a brewer can read, as long as
// no honey is in.
func (m *honeyMoment) byHydrometer(b *follow.Batch) string {
	if len(b.Honey.Steps) > 0 {
		return ""
	}
	say := m.p.host.Say()
	return words.T("By the hydrometer it opens near {opens} and closes near {closes}.",
		say.Format(quantity.Gravity, b.After.WindowSG[0].Mid), say.Format(quantity.Gravity, b.After.WindowSG[1].Mid))
}

// refuse says why there is no moment.
func (m *honeyMoment) refuse(why string) {
	m.big.Text.Ink, m.big.Text.Text = ui.InkWarning, ui.NoNumber
	m.big.Text.Refresh()
	m.lines.SetOne(why)
	m.care.Set(nil)
}

// chance is how sure it is that the window is open, to what is known of it.
func (m *honeyMoment) chance(open float64) string {
	const sure, step = 0.95, 5
	switch {
	case open >= sure:
		return words.T("It is as good as sure that the window is open now.")
	case open <= 1-sure:
		return words.T("It is as good as sure that the window is not open now.")
	}
	return words.T("The chance that the window is open now is about {chance}.",
		m.p.host.Say().Format(quantity.Percent, step*math.Round(100*open/step)))
}

// height says when the height was or will be.
func (m *honeyMoment) height(h calc.Band) string {
	if h.Mid < 0 {
		return words.T("The height was {when}.", m.p.fromNow(h))
	}
	return words.T("The height is {when}.", m.p.fromNow(h))
}

// clockIn is the time of day so many hours from now, to the half hour: more
// would be false precision.
func (p *Place) clockIn(hours float64) string {
	at := follow.Minute(p.host.Now()).Add(time.Duration(hours * float64(time.Hour)))
	return p.clock(at.Round(30 * time.Minute))
}
