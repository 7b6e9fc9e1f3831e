package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"skep/app/look"
	"skep/app/quantity"
	"skep/app/words"
	"skep/calc/design"
)

// compared is the earlier state kept beside the design, the pictures' dashed
// lines: what differs, and how to change places, forget it or keep another.
type compared struct {
	b *bench

	head          *caption
	name          *choice
	first, second *caption
	swap, forget  *choice
	keep          *choice
	object        fyne.CanvasObject
}

func newCompared(b *bench) *compared {
	c := &compared{b: b}
	c.head = newCaption(words.T("Compared with"), look.CaptionSize, false, inkQuiet)
	c.name = newChoice("", false, b.showSideBySide)
	c.name.size, c.name.bold, c.name.ink = look.CaptionSize+1, true, inkFull
	c.name.name = words.T("compared with")
	c.name.hint, c.name.onHint = words.T("List all that differs, and name it"), b.status.hint
	c.first = newCaption("", look.CaptionSize, false, inkQuiet)
	c.second = newCaption("", look.CaptionSize, false, inkQuiet)
	for _, line := range []*caption{c.first, c.second} {
		line.yields = true
	}
	c.swap = newChoice(words.T("swap"), false, func() {
		b.edit(words.T("swap with the earlier state"), "", swapGhost)
	})
	c.swap.ink = inkAccent
	c.swap.hint, c.swap.onHint = words.T("Change places with the earlier state"), b.status.hint
	c.forget = newChoice("", false, func() {
		b.edit(words.T("forget the earlier state"), "", func(d *design.Design) { d.Ghost = nil })
	})
	c.forget.icon, c.forget.name = look.IconClose(), words.T("forget the earlier state")
	c.forget.hint, c.forget.onHint = words.T("Forget the earlier state"), b.status.hint
	c.keep = newChoice(words.T("Keep this one to compare with"), false, func() {
		b.edit(words.T("keep for comparison"), "", func(d *design.Design) { keepGhost(d, words.T("as kept")) })
	})
	c.keep.ink = inkAccent
	c.keep.hint, c.keep.onHint = words.T("Keep the levers as they stand, as dashed lines in the pictures"), b.status.hint

	line := container.NewBorder(nil, nil, nil, container.NewHBox(c.swap, c.forget), container.NewHBox(c.name))
	c.object = container.New(&comparedLayout{}, c.head, line, c.first, c.second, c.keep)
	return c
}

// update shows what is kept.
func (c *compared) update(d *design.Design) {
	on := d.Ghost != nil
	c.swap.setOff(!on)
	c.name.setOff(!on)
	c.forget.setOff(!on)
	if !on {
		c.name.SetText(words.T("nothing yet"))
		c.first.SetText("")
		c.second.SetText("")
		return
	}
	name := d.Ghost.Name
	if name == "" {
		name = words.T("an earlier state")
	}
	c.name.SetText(firstUpper(name))
	g, ok := ghostDesign(*d)
	if !ok {
		c.first.SetText(words.T("its settings no longer fit this design"))
		return
	}
	c.first.SetText(c.b.difference(d, &g))
}

// difference is the first thing that the levers of the earlier state hold
// otherwise, and how many more there are.
func (b *bench) difference(now, ghost *design.Design) string {
	var texts []string
	if i := b.taste.restIndex(now); i < len(ghost.Mash.Rest) {
		was, is := ghost.Mash.Rest[i], now.Mash.Rest[i]
		if was.TemperatureC != is.TemperatureC {
			texts = append(texts, words.T("rest {{.Was}} instead of {{.Is}}", map[string]any{
				"Was": b.say.Format(quantity.Temperature, was.TemperatureC), "Is": b.say.Number(quantity.Temperature, is.TemperatureC)}))
		}
		if was.Minutes != is.Minutes {
			texts = append(texts, words.T("{{.Was}} instead of {{.Is}}", map[string]any{
				"Was": b.say.Format(quantity.Minutes, was.Minutes), "Is": b.say.Number(quantity.Minutes, is.Minutes)}))
		}
	}
	if was, is := ghost.Yeast[0], now.Yeast[0]; was.AttenuationLowPct != is.AttenuationLowPct || was.AttenuationHighPct != is.AttenuationHighPct {
		texts = append(texts, words.T("attenuation {{.Was}}", map[string]any{
			"Was": b.say.FormatRange(quantity.Percent, was.AttenuationLowPct, was.AttenuationHighPct)}))
	}
	if was, is := b.taste.levers.honeyOf(ghost), b.taste.levers.honeyOf(now); was != is {
		if was.MassKg != is.MassKg {
			texts = append(texts, words.T("honey {{.Was}}", map[string]any{"Was": b.say.Format(quantity.MassG, 1000*was.MassKg)}))
		}
		if was.Moment != is.Moment || was.HoursAfterHeight != is.HoursAfterHeight {
			texts = append(texts, words.T("honey at {{.Was}}", map[string]any{"Was": b.taste.levers.momentText(&was)}))
		}
	}
	switch len(texts) {
	case 0:
		return words.T("the levers stand as they did")
	case 1:
		return texts[0]
	}
	return texts[0] + ", " + texts[1]
}

// show says where the earlier state would land.
func (c *compared) show(f *frame) {
	if f.ghost == nil {
		c.second.SetText("")
		return
	}
	c.second.SetText(words.T("final gravity {{.Gravity}}, dryness {{.Dryness}}", map[string]any{
		"Gravity": c.b.say.Format(quantity.Gravity, f.ghost.FinalGravitySG.Mid),
		"Dryness": c.b.say.Number(quantity.Index, f.ghost.Dryness.Mid)}))
}

// comparedLayout stacks the lines closely.
type comparedLayout struct{}

func (*comparedLayout) heights(o []fyne.CanvasObject) (total float32) {
	for _, c := range o {
		total += c.MinSize().Height + 1
	}
	return total
}

func (l *comparedLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(180, l.heights(o))
}

func (*comparedLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for i, c := range o {
		h := c.MinSize().Height
		w, x := size.Width, float32(0)
		switch i {
		case len(o) - 1:
			w, x = c.MinSize().Width, -choicePad
		case 1:
			w, x = size.Width+choicePad, -choicePad // its name is a choice too: line it up
		}
		c.Move(fyne.NewPos(x, y))
		c.Resize(fyne.NewSize(w, h))
		y += h + 1
	}
}
