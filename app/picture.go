package app

import (
	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/quantity"
	"skep/app/words"
	"skep/calc"
)

// picture is one of the four of the Taste place. A press on its heading opens
// where the number comes from.
type picture struct {
	framed
	t *tastePlace
}

func newPicture(t *tastePlace, o calc.Outcome) *picture {
	p := &picture{t: t}
	p.init(t.b, t.painter, o, look.TextSize)
	p.ExtendBaseWidget(p)
	return p
}

func outcomeName(o calc.Outcome) string {
	switch o {
	case calc.FinalGravity:
		return words.T("final gravity")
	case calc.Strength:
		return words.T("strength, % vol")
	case calc.Dryness:
		return words.T("dryness")
	}
	return words.T("body")
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

func outcomeKind(o calc.Outcome) quantity.Kind {
	switch o {
	case calc.FinalGravity:
		return quantity.Gravity
	case calc.Strength:
		return quantity.Strength
	}
	return quantity.Index
}

func (p *picture) show(f *tasteFrame) {
	p.blank = false
	k, v := outcomeKind(p.outcome), f.prediction.Four()[p.outcome]
	p.value.SetTexts(p.b.Say().BandNumber(k, v), words.T("{{.Mid}} ({{.Range}})", map[string]any{
		"Mid": p.b.Say().Number(k, v.Mid), "Range": p.b.Say().Number(k, v.Low) + "–" + p.b.Say().Number(k, v.High)}))
	p.raster.Refresh()
}

func (p *picture) Tapped(e *fyne.PointEvent) {
	if e.Position.Y < p.raster.Position().Y {
		p.t.explain(outcomeKey(p.outcome))
		return
	}
	p.moveTo(e.Position)
	p.b.EndMove()
}

var (
	_ fyne.Draggable  = (*picture)(nil)
	_ fyne.Tappable   = (*picture)(nil)
	_ fyne.Accessible = (*picture)(nil)
)

func (p *picture) AccessibilityLabel() string {
	return words.T("{{.Name}} against the mash rest: {{.Value}}", map[string]any{"Name": p.title.Text, "Value": p.value.Text})
}
