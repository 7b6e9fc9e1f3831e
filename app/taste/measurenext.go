package taste

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"skep/app/frames"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/nextreading"
	"skep/calc/quantity"
)

// nextAsk is a plan of which is asked what to measure before it is brewed.
type nextAsk struct{ taught ui.Taught }

// nextWorker ranks on a worker of its own, when no lever moves: it takes some ten
// milliseconds that no frame should wait for.
type nextWorker struct {
	knower ui.Knower
	of     *design.Design
	kept   []nextreading.Worth
}

func (l *nextWorker) answer(v nextAsk) []nextreading.Worth {
	beer, err := l.knower.Know(&v.taught)
	if err != nil || beer.Known != nil { // what a batch wants is said in the Ferment place
		return nil
	}
	if l.of == nil || beer.New || !l.of.Equal(beer.Design) {
		d := beer.Design.Clone()
		l.of = &d
		if l.kept, err = nextreading.BeforeBrewing(beer.Engine, d); err != nil {
			l.kept = nil
		}
	}
	return l.kept
}

// measureNext says in the corner which measurement would make a plan surer.
type measureNext struct {
	b      *Place
	worker *frames.Worker[nextAsk, []nextreading.Worth]
	text   *ui.Choice
	full   string
	object fyne.CanvasObject
}

func newMeasureNext(b *Place) *measureNext {
	m := &measureNext{b: b}
	m.text = ui.NewChoice("", false, func() { b.ShowMessage(m.full) })
	m.text.TextSize, m.text.Ink, m.text.OnHint = look.CaptionSize, ui.InkQuiet, b.Hint
	m.text.Name = words.T("What to measure next")
	m.text.SetOff(true)
	m.object = container.New(layout.NewCustomPaddedLayout(0, 0, -ui.ChoicePad, 0), m.text)
	worker := &nextWorker{}
	m.worker = frames.New(worker.answer, func(_ nextAsk, all []nextreading.Worth) { b.Do(func() { m.show(all) }) })
	return m
}

func (m *measureNext) show(all []nextreading.Worth) {
	if len(all) == 0 || all[0].Most().Share() < nextreading.Least {
		m.text.Hint = ""
		m.text.SetText("") // its room stays, so that nothing moves when it comes
		m.text.SetOff(true)
		return
	}
	m.full = ui.SentenceOf(m.b.Say().Sentence(nextreading.Text(all)))
	m.text.Hint = m.full
	share := m.b.Say().Format(quantity.Percent, math.Round(100*all[0].Most().Share()))
	text := words.T("{share} surer with {measurement}", share, m.b.Say().Sentence(all[0].Short()))
	if room := m.object.Size().Width; room > 0 && fyne.MeasureText(text, look.CaptionSize, fyne.TextStyle{}).Width > room {
		text = words.T("{share} surer with a measurement", share) // the hint and a press say which
	}
	m.text.SetText(text)
	m.text.SetOff(false)
}
