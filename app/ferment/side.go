package ferment

import (
	"math"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/message"
	"skep/calc/nextreading"
	"skep/calc/quantity"
)

// side is what is known of the beer: how it stands, its honey, what the
// readings changed, what is left to tune, the bottle and the end.
type side struct {
	p      *Place
	column *ui.Column

	tabs  [4]*ui.Choice
	tab   int
	pages [4][]ui.Part

	state, taught    *ui.Texts
	advice, doubts   *ui.Texts
	next             *ui.Texts // what to measure next
	notes            *ui.Texts
	honeyHead        *ui.Head
	honey            *ui.Texts
	changedHead      *ui.Head
	changed          *ui.Grid
	left             *retune
	bottle           *ui.Texts
	reasons, careful *ui.Texts
	finish           *finish
	programme        *programme
}

func newSide(p *Place) *side {
	s := &side{p: p}
	plain := func(k ui.Ink) *ui.Texts {
		return &ui.Texts{Gap: 3, Make: func() *ui.Paragraph { return ui.NewParagraph("", 13, k) }}
	}
	marked := func(k ui.Ink, mark string) *ui.Texts {
		return &ui.Texts{Gap: 3, Make: func() *ui.Paragraph { t := ui.NewParagraph("", 13, k); t.Mark = mark; return t }}
	}
	s.state = &ui.Texts{Make: func() *ui.Paragraph { t := ui.NewParagraph("", look.TextSize, ui.InkFull); t.Bold = true; return t }}
	s.advice, s.notes, s.taught = marked(ui.InkFull, "•"), plain(ui.InkQuiet), plain(ui.InkQuiet)
	s.next = plain(ui.InkFull)
	s.doubts = &ui.Texts{Gap: 4, Make: func() *ui.Paragraph { t := ui.NewParagraph("", 13, ui.InkWarning); t.Bar = true; return t }}
	s.honeyHead, s.honey = ui.NewHead(words.T("With the honey")), plain(ui.InkFull)
	s.changedHead, s.changed = ui.NewHead(words.T("What the readings changed")), &ui.Grid{Columns: 3, Shares: []float32{0.22, 0.33, 0.45}}
	s.left = newRetune(p)
	s.bottle = &ui.Texts{Make: func() *ui.Paragraph { t := ui.NewParagraph("", look.TextSize, ui.InkFull); t.Bold = true; return t }}
	s.reasons, s.careful = marked(ui.InkFull, "•"), marked(ui.InkWarning, "!")
	s.finish = newFinish(p)
	s.programme = newProgramme(p)
	for i, name := range []string{words.T("State"), words.T("Re-tune"), words.T("Package"), words.T("Yeast")} {
		s.tabs[i] = ui.NewChoice(name, false, func() { s.Turn(i) })
		s.tabs[i].TextSize, s.tabs[i].Name = 13, ""
	}
	head := ui.NewFlow(s.tabs[0], s.tabs[1], s.tabs[3], s.tabs[2])
	s.pages[0] = []ui.Part{head, s.state, s.taught, s.doubts, s.advice, s.next, s.honeyHead, s.honey, s.changedHead, s.changed, s.notes}
	s.pages[1] = append([]ui.Part{head}, s.left.parts()...)
	s.pages[2] = append([]ui.Part{head, s.bottle, s.reasons, s.careful}, s.finish.parts()...)
	s.pages[3] = append([]ui.Part{head}, s.programme.parts()...)
	s.column = ui.NewColumn(s.pages[0]...)
	s.mark()
	return s
}

// Turn shows another page.
func (s *side) Turn(i int) {
	s.tab = i
	s.column.Parts = s.pages[i]
	s.column.Scroll.Offset.Y = 0
	s.mark()
	s.p.relayout()
}

func (s *side) mark() {
	for i, t := range s.tabs {
		t.Current = i == s.tab
		t.Refresh()
	}
}

// sync shows what needs no computation.
func (s *side) sync(d *design.Design) {
	s.left.sync(d)
	s.finish.sync(d)
	s.programme.sync(d)
}

// show puts a batch up.
func (s *side) show(f *frame) {
	b := f.batch
	say := s.p.host.Say()
	s.state.Set([]string{ui.SentenceOf(say.Sentence(b.State.Text))})
	s.advice.Set(say.Sentences(b.State.Advice))
	var doubts []message.Message
	for _, d := range b.Doubts {
		doubts = append(doubts, d.Text)
	}
	s.doubts.Set(say.Sentences(doubts))
	s.notes.Set(say.Sentences(b.Notes))
	s.next.Set([]string{ui.SentenceOf(say.Sentence(nextreading.Text(f.next)))})
	s.taught.Set(nil)
	if f.lessons > 0 {
		s.taught.Set([]string{words.T("With what this kit has taught.")})
	}
	s.showHoney(b)
	s.showChanged(b)
	s.left.show(f)
	s.programme.show(b)
	s.showBottle(b)
}

// refuse says why nothing is known.
func (s *side) refuse(why string) {
	s.state.Set([]string{why})
	for _, t := range []*ui.Texts{s.advice, s.next, s.doubts, s.notes, s.taught, s.honey, s.bottle, s.reasons, s.careful} {
		t.Set(nil)
	}
	s.honeyHead.Off = true
	s.changedHead.Text.SetText("")
	s.changed.Set(nil)
	s.left.refuse()
	s.programme.refuse()
}

// showHoney says what honey in the fermenter changes in the reckoning.
func (s *side) showHoney(b *follow.Batch) {
	h, p := &b.Honey, s.p
	s.honeyHead.Off = len(h.Steps) == 0
	s.honey.Set(nil)
	if s.honeyHead.Off {
		return
	}
	var lines []string
	for _, x := range h.Steps {
		lines = append(lines, words.T("{mass} went in {hours} after pitching: from {before} up to {after}.", p.host.Say().Format(quantity.MassKg, x.MassKg), p.host.Say().Format(quantity.Hours, x.Hours), p.host.Say().Format(quantity.Gravity, x.BeforeSG.Mid), p.host.Say().Format(quantity.Gravity, x.AfterSG.Mid)))
	}
	lines = append(lines,
		words.T("Effective original gravity {og}, strength {strength}.", p.host.Say().Band(quantity.Gravity, h.EffectiveOriginalGravitySG), p.host.Say().Band(quantity.Strength, h.StrengthPct)),
		words.T("A plain before-and-after reckoning leaves the honey out: it would say {plain}, too low by {missed}.", p.host.Say().Format(quantity.Strength, h.PlainStrengthPct.Mid), p.host.Say().Format(quantity.Strength, h.MissedPct.Mid)))
	s.honey.Set(lines)
}

// showChanged sets the bands beside each other, before and after.
func (s *side) showChanged(b *follow.Batch) {
	used := false
	for i := range b.Timeline.Points {
		used = used || b.Timeline.Points[i].Used
	}
	rows := [][]string{{"", words.T("as planned"), words.T("now")}}
	head := words.T("What the readings changed")
	if !used {
		rows[0] = []string{"", "", words.T("predicted")}
		head = words.T("What is expected")
	}
	s.changedHead.Text.SetText(head)
	row := func(name string, k quantity.Kind, before, after calc.Band) {
		say := s.p.host.Say()
		number := func(v float64) string {
			if k == quantity.Hours {
				v = math.Round(v) // no more is known
			}
			return say.Number(k, v)
		}
		text := func(v calc.Band) string { return number(v.Low) + "–" + number(v.High) }
		r := []string{name, text(before), number(after.Mid) + " (" + text(after) + ")\t" + text(after)}
		if !used {
			r[1] = ""
		}
		rows = append(rows, r)
	}
	x, y := &b.Before, &b.After
	row(words.T("original"), quantity.Gravity, x.OriginalGravitySG, y.OriginalGravitySG)
	row(words.T("final"), quantity.Gravity, x.FinalGravitySG, y.FinalGravitySG)
	row(words.T("strength"), quantity.Strength, x.StrengthPct, y.StrengthPct)
	row(words.T("dryness"), quantity.Index, x.Dryness, y.Dryness)
	row(words.T("body"), quantity.Index, x.Body, y.Body)
	row(words.T("done, h"), quantity.Hours, x.FinishedHours, y.FinishedHours)
	s.changed.Set(rows)
}

// showBottle is the check before packaging, by the measured beer.
func (s *side) showBottle(b *follow.Batch) {
	c, p := &b.Bottle, s.p
	s.bottle.Set([]string{p.host.Say().Sentence(c.Verdict.Message())})
	reasons := p.host.Say().Sentences(c.Reasons)
	if primer := c.Bottled.PrimerGPerL; primer > 0 && c.Verdict == follow.Within {
		litres := p.packaged(b)
		reasons = append(reasons, words.T("Primer: {perL} of {primer}, {all} for {volume}.", p.host.Say().Format(quantity.GramsPerLitre, primer), ui.WordText("package.primer", c.Package.Primer), p.host.Say().Format(quantity.MassG, math.Round(primer*litres)), p.host.Say().Format(quantity.Volume, litres)))
	}
	s.reasons.Set(reasons)
	care := []string{}
	if c.Package.Vessel != "keg" {
		care = append(care, words.T("Glass under pressure injures when it bursts: only bottles made for it, none scratched. The model may be wrong; the maker's rating counts."))
	}
	s.careful.Set(care)
}

// packaged is the volume that was measured, or the one in the fermenter.
func (p *Place) packaged(b *follow.Batch) float64 {
	litres := b.Conditioned.Design.Batch.IntoFermenterL
	d := p.host.Design()
	for _, r := range d.Reading {
		if r.What == ui.VolumePackaged {
			litres = r.Value
		}
	}
	return litres
}
