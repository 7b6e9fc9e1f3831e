package taste

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"skep/app/ghost"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/quantity"
)

// compared is the earlier state kept beside the design, the pictures' dashed
// lines: what differs, and how to change places, forget it or keep another.
type compared struct {
	b *Place

	head          *ui.Caption
	name          *ui.Choice
	first, second *ui.Caption
	swap, forget  *ui.Choice
	keep          *ui.Choice
	object        fyne.CanvasObject

	kept string // its name; empty: it has none
}

func newCompared(b *Place) *compared {
	c := &compared{b: b}
	c.head = ui.NewCaption(words.T("Compared with"), look.CaptionSize, false, ui.InkQuiet)
	c.name = ui.NewChoice("", false, func() { b.ShowSideBySide() })
	c.name.TextSize, c.name.Bold, c.name.Ink = look.CaptionSize+1, true, ui.InkFull
	c.name.Name = words.T("compared with")
	c.name.Hint, c.name.OnHint = words.T("List all that differs, and name it"), b.Hint
	c.first = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)
	c.second = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)
	for _, line := range []*ui.Caption{c.first, c.second} {
		line.Yields = true
	}
	c.swap = ui.NewChoice(words.T("swap"), false, func() {
		ui.Change(b, words.T("swap with the earlier state"), ghost.Swap)
	})
	c.swap.Ink = ui.InkAccent
	c.swap.Hint, c.swap.OnHint = words.T("Change places with the earlier state"), b.Hint
	c.forget = ui.NewChoice("", false, func() {
		ui.Change(b, words.T("forget the earlier state"), func(d *design.Design) { d.Ghost = nil })
	})
	c.forget.Icon, c.forget.Name = look.IconClose(), words.T("forget the earlier state")
	c.forget.Hint, c.forget.OnHint = words.T("Forget the earlier state"), b.Hint
	c.keep = ui.NewChoice(words.T("Keep this one to compare with"), false, func() {
		ui.Change(b, words.T("keep for comparison"), func(d *design.Design) { ghost.Keep(d, words.T("as kept")) })
	})
	c.keep.Ink = ui.InkAccent
	c.keep.Hint, c.keep.OnHint = words.T("Keep the levers as they stand, as dashed lines in the pictures"), b.Hint

	line := container.NewBorder(nil, nil, nil, container.NewHBox(c.swap, c.forget), container.NewHBox(c.name))
	// What can be pressed begins where the texts do.
	out := func(o fyne.CanvasObject) fyne.CanvasObject {
		return container.New(layout.NewCustomPaddedLayout(0, 0, -ui.ChoicePad, 0), o)
	}
	c.object = container.New(layout.NewCustomPaddedVBoxLayout(1), c.head, out(line), c.first, c.second, out(container.NewHBox(c.keep)))
	return c
}

// update shows what is kept.
func (c *compared) update(d *design.Design) {
	on := d.Ghost != nil
	c.kept = ""
	c.swap.SetOff(!on)
	c.name.SetOff(!on)
	c.forget.SetOff(!on)
	if !on {
		c.name.SetText(words.T("nothing yet"))
		c.first.SetText("")
		c.second.SetText("")
		return
	}
	name := d.Ghost.Name
	c.kept = name
	if name == "" {
		name = words.T("an earlier state")
	}
	c.name.SetText(ui.FirstUpper(name))
	g, ok := ghost.Design(*d)
	if !ok {
		c.first.SetText(words.T("it no longer fits this design"))
		return
	}
	c.first.SetTexts(c.b.difference(d, &g))
}

// difference is the first two things that the levers of the earlier state hold
// otherwise, and the first alone where there is little room.
func (b *Place) difference(now, ghost *design.Design) (two, one string) {
	var texts []string
	if i := b.Rest(now); i < len(ghost.Mash.Rest) {
		was, is := ghost.Mash.Rest[i], now.Mash.Rest[i]
		if was.TemperatureC != is.TemperatureC {
			texts = append(texts, words.T("rest {was} instead of {is}", b.Say().Format(quantity.Temperature, was.TemperatureC), b.Say().Number(quantity.Temperature, is.TemperatureC)))
		}
		if was.Minutes != is.Minutes {
			texts = append(texts, words.T("{was} instead of {is}", b.Say().Format(quantity.Minutes, was.Minutes), b.Say().Number(quantity.Minutes, is.Minutes)))
		}
	}
	if was, is := ghost.Yeast[0], now.Yeast[0]; was.AttenuationLowPct != is.AttenuationLowPct || was.AttenuationHighPct != is.AttenuationHighPct {
		texts = append(texts, words.T("attenuation {was}", b.Say().FormatRange(quantity.Percent, was.AttenuationLowPct, was.AttenuationHighPct)))
	}
	if was, is := b.At().HoneyOf(ghost), b.At().HoneyOf(now); was != is {
		if was.MassKg != is.MassKg {
			texts = append(texts, words.T("honey {was}", b.Say().Format(quantity.MassG, 1000*was.MassKg)))
		}
		if was.Moment != is.Moment || was.HoursAfterHeight != is.HoursAfterHeight {
			texts = append(texts, words.T("honey at {was}", b.Levers.momentText(&was)))
		}
	}
	switch len(texts) {
	case 0:
		return words.T("the levers stand as they did"), ""
	case 1:
		return texts[0], ""
	}
	return texts[0] + ", " + texts[1], texts[0]
}

// show says where the earlier state would land.
func (c *compared) show(f *Frame) {
	if f.Ghost == nil {
		c.second.SetText("")
		return
	}
	c.second.SetText(words.T("final gravity {gravity}, dryness {dryness}", c.b.Say().Format(quantity.Gravity, f.Ghost.FinalGravitySG.Mid), c.b.Say().Number(quantity.Index, f.Ghost.Dryness.Mid)))
}
