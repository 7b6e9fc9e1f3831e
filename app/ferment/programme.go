package ferment

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/quantity"
	"skep/calc/stress"
)

// programme is what the yeast is given: its temperatures over the days, the
// nutrient, and what may be too much for it.
type programme struct {
	p *Place

	head           *ui.Head
	kept           *ui.Texts
	rows           []*programmeRow
	none           *ui.Texts
	add            [2]*ui.Choice
	addRow         *ui.Flow
	note           *ui.Texts // what is wrong with a step
	nutrientNote   *ui.Texts
	remarks        ui.Remarks
	nutrient       *ui.Field
	nutrientRow    *ui.Flow
	limitsHead     *ui.Head
	limits, stress *ui.Texts
	steps          *programmeSteps
}

// programmeRow is one step: when, and to which temperature.
type programmeRow struct {
	when, to     *ui.Field
	unit, remove *ui.Choice
	flow         *ui.Flow
	byShare      bool
}

// programmeSteps are the rows below each other, as many as there are steps.
type programmeSteps struct{ rows []*programmeRow }

func (s *programmeSteps) Objects() (all []fyne.CanvasObject) {
	for _, r := range s.rows {
		all = append(all, r.flow.Objects()...)
	}
	return all
}

func (s *programmeSteps) Lay(x, y, width float32) float32 {
	const gap = 3
	high := float32(0)
	for _, r := range s.rows {
		high += r.flow.Lay(x, y+high, width) + gap
	}
	return high - gap
}

const (
	restWarmerK     = 2.0  // a rest for diacetyl is so much warmer
	restAtPct       = 75.0 // and begins at about so much of the attenuation
	crashToC        = 4.0
	crashAfterHours = 48.0 // all is done so long before it
)

func newProgramme(p *Place) *programme {
	g := &programme{p: p}
	texts := func(size float32, ink ui.Ink, mark string) *ui.Texts {
		return &ui.Texts{Gap: 3, Make: func() *ui.Paragraph { t := ui.NewParagraph("", size, ink); t.Mark = mark; return t }}
	}
	g.head = ui.NewHead(words.T("Temperatures"))
	g.kept, g.none = texts(13, ui.InkFull, ""), texts(look.CaptionSize+1, ui.InkQuiet, "")
	g.note = texts(look.CaptionSize+1, ui.InkWarning, "")
	g.add[0] = g.choice(words.T("add a rest"), words.T("A little warmer near the end, so that the yeast takes diacetyl up again."), g.addRest)
	g.add[1] = g.choice(words.T("add a cold crash"), words.T("Cold after all is done: the beer clears."), g.addCrash)
	g.addRow = ui.NewFlow(g.add[0], g.add[1])
	g.nutrient = g.field(func() string { return "batch.nutrient_g" }, words.T("yeast nutrient"))
	g.nutrientNote = texts(look.CaptionSize+1, ui.InkWarning, "")
	g.nutrient.Note = func(text string, _ bool) { g.nutrientNote.SetOne(text); g.p.relayout() }
	g.nutrientRow = ui.NewFlow(ui.NewCaption(words.T("yeast nutrient"), look.CaptionSize+1, false, ui.InkQuiet), g.nutrient).Wide(g.nutrient, 80)
	g.limitsHead = ui.NewHead(words.T("What this yeast bears"))
	g.limits, g.stress = texts(13, ui.InkFull, ""), texts(13, ui.InkWarning, "!")
	g.steps = &programmeSteps{}
	return g
}

func (g *programme) choice(text, hint string, tap func()) *ui.Choice {
	c := ui.NewChoice(text, false, tap)
	c.Ink, c.TextSize, c.Hint, c.OnHint = ui.InkAccent, 13, hint, g.p.host.Hint
	return c
}

func (g *programme) field(path func() string, name string) *ui.Field {
	f := ui.NewField(g.p.host, path, func() string { return name })
	f.Note = func(text string, _ bool) {
		g.note.SetOne(g.remarks.Note(f, text))
		g.p.relayout()
	}
	return f
}

func (g *programme) parts() []ui.Part {
	return []ui.Part{g.head, g.kept, g.steps, g.none, g.note, g.addRow, g.nutrientRow, g.nutrientNote, g.limitsHead, g.limits, g.stress}
}

// row is the row of a step, made when it is first needed.
func (g *programme) row(i int) *programmeRow {
	for len(g.rows) <= i {
		at := len(g.rows)
		r := &programmeRow{}
		r.when = g.field(func() string {
			if r.byShare {
				return fmt.Sprintf("temperature.%d.at_attenuation_pct", at)
			}
			return fmt.Sprintf("temperature.%d.at_hours", at)
		}, words.T("step {n}, when", at+1))
		r.to = g.field(func() string { return fmt.Sprintf("temperature.%d.temperature_c", at) },
			words.T("step {n}, temperature", at+1))
		r.unit = g.choice("", words.T("Counts the hours, or the share of the attenuation that is done."), func() { g.turn(at) })
		r.unit.Ink, r.unit.Name = ui.InkFull, words.T("step {n}, counted by", at+1)
		r.remove = g.choice("×", words.T("Takes this step out. Undo brings it back."), func() { g.remove(at) })
		r.remove.Name = words.T("take step {n} out", at+1)
		r.flow = ui.NewFlow(r.when, r.unit, ui.NewCaption(words.T("to"), look.CaptionSize+1, false, ui.InkQuiet), r.to, r.remove).
			Wide(r.when, 58).Wide(r.to, 62)
		g.rows = append(g.rows, r)
	}
	return g.rows[i]
}

// sync shows the design.
func (g *programme) sync(d *design.Design) {
	say := g.p.host.Say()
	from := say.Format(quantity.Temperature, d.Yeast[0].TemperatureC)
	g.kept.Set([]string{words.T("{temperature} from pitching.", from)})
	g.none.Set(nil)
	if len(d.Temperature) == 0 {
		g.none.Set([]string{words.T("Kept there to the end: no step is planned.")})
	}
	for _, r := range g.rows[min(len(d.Temperature), len(g.rows)):] {
		r.when.Forget()
		r.to.Forget()
	}
	g.steps.rows = g.steps.rows[:0]
	for i := range d.Temperature {
		r := g.row(i)
		g.steps.rows = append(g.steps.rows, r)
		r.byShare = d.Temperature[i].AtAttenuationPct > 0
		r.unit.SetText(words.T("from pitching"))
		if r.byShare {
			r.unit.SetText(words.T("attenuated"))
		}
		r.when.Sync(d)
		r.to.Sync(d)
	}
	g.addRow.Off = len(d.Temperature) >= design.ListLimit("temperature")
	g.nutrient.Sync(d)
	g.limits.Set([]string{g.bears(&d.Yeast[0])})
}

// bears says what is known of a strain.
func (g *programme) bears(y *design.Yeast) string {
	say := g.p.host.Say()
	tolerance := y.TolerancePct
	text := words.T("It bears about {strength}", say.Format(quantity.Strength, tolerance))
	if tolerance == 0 {
		text = words.T("How much alcohol it bears is not known: {strength} is assumed", say.Format(quantity.Strength, stress.UsualTolerancePct))
	}
	if y.ColdestC == 0 && y.WarmestC == 0 {
		return words.T("{bears}; its range of temperatures is not known.", text)
	}
	return words.T("{bears}, and works from {coldest} to {warmest}.", text, say.Format(quantity.Temperature, y.ColdestC), say.Format(quantity.Temperature, y.WarmestC))
}

// show puts up what may stop the yeast, with what to do.
func (g *programme) show(b *follow.Batch) {
	say := g.p.host.Say()
	litres := b.Conditioned.Design.Batch.IntoFermenterL
	d := g.p.host.Design()
	known, grave := []string{g.bears(&d.Yeast[0])}, []string(nil)
	for _, s := range b.Prediction.YeastStress {
		text := ui.SentenceOf(say.Sentence(stress.Warning(s, litres)))
		if s.Risk >= stress.Worth {
			grave = append(grave, text)
		} else {
			known = append(known, text)
		}
	}
	if len(b.Prediction.YeastStress) == 0 {
		known = append(known, words.T("Nothing in this beer comes near its limits."))
	}
	g.limits.Set(known)
	g.stress.Set(grave)
}

func (g *programme) refuse() {
	g.stress.Set(nil)
	g.note.Set(nil)
}

// turn counts a step's moment the other way, at about the same moment.
func (g *programme) turn(i int) {
	batch := g.p.Batch()
	ui.Change(g.p.host, words.T("step of temperature"), func(d *design.Design) {
		if i >= len(d.Temperature) {
			return
		}
		t := &d.Temperature[i]
		finished := 120.0
		if batch != nil {
			finished = batch.After.FinishedHours.Mid
		}
		if t.AtAttenuationPct > 0 {
			t.AtHours, t.AtAttenuationPct = math.Round(finished*t.AtAttenuationPct/100), 0
			return
		}
		t.AtAttenuationPct, t.AtHours = math.Round(min(max(100*t.AtHours/max(finished, 1), 5), 95)), 0
	})
}

func (g *programme) remove(i int) {
	ui.Change(g.p.host, words.T("a step of temperature taken out"), func(d *design.Design) {
		if i < len(d.Temperature) {
			d.Temperature = append(d.Temperature[:i:i], d.Temperature[i+1:]...)
		}
	})
}

// lastTemperature is what a programme ends at, as planned so far.
func lastTemperature(d *design.Design) float64 {
	if n := len(d.Temperature); n > 0 {
		return d.Temperature[n-1].TemperatureC
	}
	return d.Yeast[0].TemperatureC
}

func (g *programme) addRest() {
	ui.Change(g.p.host, words.T("a rest"), func(d *design.Design) {
		d.Temperature = append(d.Temperature, design.TemperatureStep{AtAttenuationPct: restAtPct, TemperatureC: lastTemperature(d) + restWarmerK})
	})
}

func (g *programme) addCrash() {
	hours := 168.0
	if b := g.p.Batch(); b != nil {
		hours = math.Ceil((b.After.FinishedHours.Mid+crashAfterHours)/12) * 12
	}
	ui.Change(g.p.host, words.T("a cold crash"), func(d *design.Design) {
		d.Temperature = append(d.Temperature, design.TemperatureStep{AtHours: min(hours, 2160), TemperatureC: crashToC})
	})
}
