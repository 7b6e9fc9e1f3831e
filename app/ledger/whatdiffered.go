package ledger

import (
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"skep/app/batches"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/nextreading"
	"skep/calc/quantity"
	"skep/calc/whatdiffered"
)

// Differed is why a batch came out otherwise than planned, worked out beside the
// window.
type Differed struct {
	title  string
	again  design.Design // the next brew of it
	Misses []whatdiffered.Miss
	next   []nextreading.Worth
	err    error
}

// differed works one out.
func differed(title string, d design.Design) Differed {
	a := Differed{title: title}
	if a.Misses, a.err = whatdiffered.Of(d); a.err != nil {
		return a
	}
	plan := batches.Again(d)
	e := calc.NewEngine()
	if p, err := e.Predict(plan); err == nil {
		a.again = Again(plan, &p)
	}
	a.next, _ = nextreading.BeforeBrewing(e, plan) // without it nothing is said
	return a
}

// Again is the next brew of a plan: what it was to be is what is wanted, where
// nothing was, so that the ways to it are offered with what was learnt since.
func Again(plan design.Design, p *calc.Prediction) design.Design {
	d := plan.Clone()
	d.Title = words.T("{title}, again", d.Title)
	d.Ghost = nil
	round := func(v, step float64) *float64 { v = math.Round(v/step) * step; return &v }
	if t := &d.Taste; t.Dryness == nil && t.Body == nil && t.StrengthPct == nil {
		t.Dryness, t.Body, t.StrengthPct = round(p.Dryness.Mid, 1), round(p.Body.Mid, 1), round(p.StrengthPct.Mid, 0.1)
	}
	return d
}

// ShowDiffered asks the worker for one batch.
func (p *Place) ShowDiffered(e *batches.Entry) {
	p.host.ShowMessage(words.T("Working out what went differently…"))
	p.differs.Post(differsAsk{e.Title, e.Design})
}

type differsAsk struct {
	title  string
	design design.Design
}

// showDiffered puts the answer up.
func (p *Place) showDiffered(a Differed) {
	p.Differed = a
	if a.err != nil {
		p.host.Warn(p.host.Say().Why(a.err))
		return
	}
	p.host.ShowMessage(p.Greeting())
	box := container.NewVBox()
	text := func(text string) {
		l := widget.NewLabel(text)
		l.Wrapping = fyne.TextWrapWord
		box.Add(l)
	}
	if len(a.Misses) == 0 {
		text(words.T("Nothing was measured that could be set against the plan."))
	}
	for i := range a.Misses {
		m := &a.Misses[i]
		box.Add(ui.Heading(p.missHead(m)))
		for _, line := range p.missLines(m) {
			text(line)
		}
	}
	if len(a.next) > 0 && a.next[0].Most().Share() >= nextreading.Least {
		box.Add(ui.Heading(words.T("Before the next brew")))
		text(ui.SentenceOf(p.host.Say().Sentence(nextreading.Text(a.next))))
	}
	scroll := container.NewVScroll(box)
	scroll.SetMinSize(fyne.NewSize(620, 420))
	d := dialog.NewCustomWithoutButtons(words.T("What went differently: {title}", a.title), scroll, p.host.Window())
	again := ui.NewButton(words.T("Brew it again with what was learnt"), func() {
		d.Hide()
		p.brewAgain(a.again)
	})
	done := ui.NewButton(words.T("Done"), d.Hide)
	done.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{again, done})
	ui.ShowModal(p.host, d, d.Hide)
	ui.Focus(p.host, done)
}

// missHead is a quality with its two figures.
func (p *Place) missHead(m *whatdiffered.Miss) string {
	kind := ledgerKind(m.Key)
	return words.T("{name}: {measured}, planned {planned}", ui.FirstUpper(comparedName(m.Key)), p.host.Say().Format(kind, m.Measured), p.host.Say().Format(kind, m.Planned))
}

// missLines say where a miss comes from, and what can't be told apart.
func (p *Place) missLines(m *whatdiffered.Miss) []string {
	if p.amount(m.Key, m.By()) == p.amount(m.Key, 0) {
		return []string{words.T("As planned.")}
	}
	var parts []string
	small := 0.0
	for _, x := range m.Parts {
		if text := p.amount(m.Key, x.By); math.Abs(x.By) >= 0.1*math.Abs(m.By()) && text != p.amount(m.Key, 0) {
			parts = append(parts, words.T("{cause} {amount}", causeName(x.Cause), text))
			continue
		}
		small += x.By
	}
	if text := p.amount(m.Key, small); text != p.amount(m.Key, 0) { // so that what stands there sums to the miss
		parts = append(parts, words.T("smaller causes {amount}", text))
	}
	lines := []string{words.T("{amount}: {parts}.", p.amount(m.Key, m.By()), strings.Join(parts, ", "))}
	if len(m.Together) > 1 {
		var names []string
		for _, c := range m.Together {
			names = append(names, causeName(c))
		}
		lines = append(lines, words.T("Can't be told apart from these readings: {causes}; together {amount}.", strings.Join(names, ", "), p.amount(m.Key, m.ByTogether)))
	}
	return lines
}

// amount is a part of a miss with its sign.
func (p *Place) amount(key string, v float64) string {
	say := p.host.Say()
	scale, unit := 1.0, ""
	switch ledgerKind(key) {
	case quantity.Gravity:
		scale, unit = say.GravityStep()
	case quantity.Strength:
		unit = words.T("%")
	}
	return ui.WithUnit(ui.Signed(say.Plain(math.Abs(scale*v), 1), v), unit)
}

func causeName(c whatdiffered.Cause) string {
	switch c {
	case whatdiffered.Done:
		return words.T("litres and rests as they were")
	case whatdiffered.HoneyAdded:
		return words.T("the honey that went in, and when")
	case whatdiffered.Yield:
		return words.T("the yield of the mash")
	case whatdiffered.Malt:
		return words.T("the malt")
	case whatdiffered.Thermometer:
		return words.T("the thermometer")
	case whatdiffered.Strain:
		return words.T("the strain")
	case whatdiffered.Honey:
		return words.T("the honey's water and sugars")
	case whatdiffered.Palate:
		return words.T("your palate")
	}
	return words.T("the instruments")
}
