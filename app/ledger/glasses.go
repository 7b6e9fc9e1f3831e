package ledger

import (
	"cmp"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/doubt"
	"skep/calc/glasstest"
	"skep/calc/learn"
	"skep/calc/quantity"
)

// glasses is the panel of the glass test: what it has told, and how to go on.
func (p *Place) glasses() fyne.CanvasObject {
	head := ui.NewCaption(words.T("The glass test"), look.CaptionSize+1, true, ui.InkFull)
	box := container.NewVBox(container.New(layout.NewCustomPaddedLayout(4, 0, 7, 7), head))
	say := func(text string) {
		l := widget.NewLabel(text)
		l.Wrapping = fyne.TextWrapWord
		box.Add(l)
	}
	tastings, err := p.host.Glasses()
	if err != nil {
		say(p.host.Say().Why(err))
		return box
	}
	palate := p.host.Palate()
	if palate.Pairs == 0 {
		say(words.T("How sweet malt's sugars taste to you is the widest doubt of dryness. Two beers in two glasses without a name, poured by somebody else: which is drier, which is fuller?"))
	}
	for _, text := range p.palateWords(palate) {
		say(text)
	}
	for _, text := range p.triangleWords(tastings.Triangles()) {
		say(text)
	}
	link := func(text string, tap func()) *ui.Choice {
		c := ui.NewChoice(text, false, tap)
		c.Ink = ui.InkAccent
		return c
	}
	row := container.NewHBox()
	if palate.Pairs > 0 {
		on := ui.NewCheck(words.T("use it"), nil)
		on.SetChecked(!p.host.LessonOff(learn.GlassTest))
		on.OnChanged = func(use bool) {
			p.host.UseLesson(learn.GlassTest, use)
			p.host.Post()
		}
		row.Add(on)
	}
	row.Add(layout.NewSpacer())
	row.Add(link(words.T("Two glasses…"), func() { p.StartTest(false) }))
	row.Add(link(words.T("Three glasses…"), func() { p.StartTest(true) }))
	box.Add(row)
	return box
}

// palateWords say what the pairs have told.
func (p *Place) palateWords(x glasstest.Palate) []string {
	if x.Pairs == 0 {
		return nil
	}
	text := []string{words.N("From {count} pair of glasses.", "From {count} pairs of glasses.", x.Pairs)}
	switch {
	case x.Pairs < glasstest.Settled:
		text[0] += " " + words.T("Under ten pairs it moves a little, no more.")
	case x.Guessed > 0.5:
		text[0] += " " + words.T("Most of the answers look like guesses, so they count for little.")
	}
	switch {
	case isLearnt(x.Malt) && x.Malt.Mean > 0:
		text = append(text, words.T("What malt leaves tastes sweeter to you than to most."))
	case isLearnt(x.Malt):
		text = append(text, words.T("What malt leaves tastes less sweet to you than to most."))
	default:
		text = append(text, words.T("Whether malt tastes sweeter to you than to others can't be said yet."))
	}
	switch {
	case isLearnt(x.Alcohol) && x.Alcohol.Mean > 0:
		text = append(text, words.T("Alcohol fills a beer more for you than for most."))
	case isLearnt(x.Alcohol):
		text = append(text, words.T("Alcohol fills a beer less for you than for most."))
	default:
		text = append(text, words.T("Whether alcohol fills more for you than for others can't be said yet."))
	}
	if without, with, ok := p.drynessWith(x); ok {
		text = append(text, words.T("The band of this design's dryness is {with} points wide with it, {without} without.", p.host.Say().Plain(with, 1), p.host.Say().Plain(without, 1)))
	}
	return text
}

// isLearnt is whether the band of a score leaves nought out.
func isLearnt(s glasstest.Score) bool { return math.Abs(s.Mean) > doubt.Z90*s.SD }

// drynessWith is how wide the band of the open design's dryness is without and with
// what the glass test has told.
func (p *Place) drynessWith(x glasstest.Palate) (without, with float64, ok bool) {
	e := calc.NewEngine()
	width := func(doubts calc.Doubts) (float64, bool) {
		if e.SetDoubts(doubts) != nil {
			return 0, false
		}
		b, err := e.PredictBeer(p.host.Saved(), 0)
		return b.Dryness.High - b.Dryness.Low, err == nil
	}
	if without, ok = width(calc.Doubts{}); !ok {
		return 0, 0, false
	}
	with, ok = width(calc.Doubts{MaltSweet: calc.Score{Mean: x.Malt.Mean, SD: x.Malt.SD}})
	return without, with, ok
}

// triangleWords say of each two beers what the triangles prove.
func (p *Place) triangleWords(all map[[2]string]glasstest.Triangles) []string {
	beers := make([][2]string, 0, len(all))
	for b := range all {
		beers = append(beers, b)
	}
	slices.SortFunc(beers, func(a, b [2]string) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	var out []string
	for _, b := range beers {
		t := all[b]
		chance := p.host.Say().Format(quantity.Percent, math.Round(1000*t.ByChance())/10)
		if t.ByChance() <= glasstest.Proof {
			out = append(out, words.T("{first} and {second}: the odd glass was found in {right} of {trials}. You can tell them apart (by chance {chance}).", b[0], b[1], t.Right, t.Trials, chance))
			continue
		}
		text := words.T("{first} and {second}: the odd glass was found in {right} of {trials}. That proves nothing yet (by chance {chance}).", b[0], b[1], t.Right, t.Trials, chance)
		if t.Trials < glasstest.Enough {
			text += " " + words.T("Few trials show little: it takes {n} to find even a clear difference four times in five.", glasstest.Enough)
		}
		out = append(out, text)
	}
	return out
}
