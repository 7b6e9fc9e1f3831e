package taste

import (
	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/restpicture"
	"skep/app/words"
	"skep/calc"
)

// picture is one of the four of the Taste place. A press on its heading opens
// where the number comes from.
type picture struct {
	restpicture.Picture
	t *Place
}

func newPicture(t *Place, o calc.Outcome) *picture {
	p := &picture{t: t}
	p.Init(t, t.painter, o, look.TextSize)
	p.ExtendBaseWidget(p)
	return p
}

// outcomeKey is the number's name as the commands have it.
func outcomeKey(o calc.Outcome) string {
	switch o {
	case calc.FinalGravity:
		return "final_gravity_sg"
	case calc.Strength:
		return "strength_pct"
	case calc.Dryness:
		return "dryness"
	}
	return "body"
}

func (p *picture) show(f *Frame) {
	p.Blank = false
	k, v := p.Outcome.Kind(), f.Prediction.Four()[p.Outcome]
	p.SetValue(p.Host.Say().BandNumber(k, v), words.T("{mid} ({range})", p.Host.Say().Number(k, v.Mid), p.Host.Say().Number(k, v.Low)+"–"+p.Host.Say().Number(k, v.High)))
	p.Raster.Refresh()
}

func (p *picture) Tapped(e *fyne.PointEvent) {
	if e.Position.Y < p.Raster.Position().Y {
		p.t.explain(outcomeKey(p.Outcome))
		return
	}
	p.MoveTo(e.Position)
	p.Host.EndMove()
}

var (
	_ fyne.Draggable  = (*picture)(nil)
	_ fyne.Tappable   = (*picture)(nil)
	_ fyne.Accessible = (*picture)(nil)
)

func (p *picture) AccessibilityLabel() string {
	return words.T("{name} against the mash rest: {value}", p.Title.Text, p.Value.Text)
}
