package taste

import (
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/ui/layouts"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/explain"
	"skep/calc/message"
	"skep/calc/quantity"
)

// explainAsk is a number that a person wants opened.
type explainAsk struct {
	taught ui.Taught
	key    string
}

// explainAnswer is where it came from.
type explainAnswer struct {
	of  explain.Explanation
	err error
}

// explainLive opens numbers on a worker of its own: it takes some fifty
// predictions, kept for the next number of the same design.
type explainLive struct {
	knower ui.Knower
	of     *design.Design
	kept   *explain.Explainer
}

func (l *explainLive) answer(ask explainAsk) explainAnswer {
	beer, err := l.knower.Know(&ask.taught)
	if err != nil {
		return explainAnswer{err: err}
	}
	if l.of == nil || !l.of.Equal(beer.Design) || beer.New {
		x, err := explain.New(beer.Engine, beer.Design, 0)
		if err != nil {
			return explainAnswer{err: err}
		}
		l.of, l.kept = &beer.Design, x
	}
	e, err := l.kept.Explain(ask.key)
	return explainAnswer{e, err}
}

// explain opens a number of the prediction: its formula, what went into it,
// where it is from and what moves it.
func (t *Place) explain(key string) {
	t.ShowMessage(words.T("Working out where that number comes from…"))
	t.explainer.Post(explainAsk{t.Taught(), key})
}

// explained shows the answer.
func (t *Place) explained(a explainAnswer) {
	b := t
	if a.err != nil {
		b.Warn(b.Say().Why(a.err))
		return
	}
	b.ShowMessage(words.T("Click another number to see where it comes from."))
	e := &a.of
	box := container.NewVBox()
	line := func(text string, size float32, bold bool, k ui.Ink) {
		if bold {
			box.Add(ui.NewCaption(text, size, true, k))
			return
		}
		l := widget.NewLabel(text)
		l.Wrapping = fyne.TextWrapWord
		box.Add(l)
	}
	head := func(text string) { line(text, look.TextSize, true, ui.InkFull) }
	lines := func(title string, list []message.Message) {
		if len(list) > 0 {
			texts := make([]string, len(list))
			for i, m := range list {
				texts[i] = b.Say().Sentence(m)
			}
			head(title)
			line(strings.Join(texts, "\n"), look.TextSize, false, ui.InkFull)
		}
	}
	if len(e.Parts) == 0 {
		line(b.figure(e.Band, e.Sure, e.Decimals, e.Unit, b.Say().Sentence(e.Text)), look.HeadingSize, true, ui.InkAccent)
	}
	var dl *dialog.CustomDialog
	for _, p := range e.Parts {
		part := ui.NewChoice(ui.FirstUpper(b.Say().Sentence(p.Name))+"   "+b.figure(p.Band, p.Sure, p.Decimals, p.Unit, ""), true, func() { dl.Hide(); t.explain(p.Key) })
		part.Ink, part.TextSize = ui.InkAccent, look.TextSize
		box.Add(container.NewHBox(part))
	}
	lines(words.T("How it is computed"), e.Formula)
	if len(e.Inputs) > 0 {
		head(words.T("What went in (the middle beer)"))
		var cells []fyne.CanvasObject
		for _, in := range e.Inputs {
			cells = append(cells, ui.Cell(b.Say().Sentence(in.Name), false), ui.Cell(b.input(in), true))
		}
		box.Add(container.New(&layouts.Table{Columns: 2}, cells...))
	}
	effects := func(title string, list []explain.Effect) {
		if len(list) == 0 {
			return
		}
		head(title)
		var cells []fyne.CanvasObject
		for i, f := range list {
			if i == mostEffects {
				break
			}
			side := func(has bool, did message.Message, steps, by float64) string {
				if !has {
					return ""
				}
				what := b.Say().Sentence(did)
				if f.Step.Kind != quantity.None {
					what = b.Say().Signed(quantity.Of(f.Step.Kind, steps*f.Step.Value))
				}
				was, decimals, _ := b.modelNumber(e.Band.Mid, e.Decimals, e.Unit)
				is, _, _ := b.modelNumber(e.Band.Mid+by, e.Decimals, e.Unit)
				return what + ": " + b.signedNumber(is-was, decimals+1)
			}
			cells = append(cells, ui.Cell(b.Say().Sentence(f.Name), false), ui.Cell(side(f.HasDown, f.Down, -1, f.ByDown), true), ui.Cell(side(f.HasUp, f.Up, 1, f.ByUp), true))
		}
		box.Add(container.New(&layouts.Table{Columns: 3}, cells...))
	}
	effects(words.T("What each lever would change"), e.Levers)
	effects(words.T("What each doubt is worth"), e.Doubts)
	lines(words.T("Where it is from"), e.Sources)
	lines(words.T("Its band"), e.Notes)
	scroll := container.NewVScroll(box)
	scroll.SetMinSize(fyne.NewSize(max(640, min(880, b.Window().Canvas().Size().Width-120)), 440))
	dl = dialog.NewCustomWithoutButtons(ui.FirstUpper(b.Say().Sentence(e.Name)), scroll, b.Window())
	ui.ShowRead(b, dl)
}

// mostEffects are shown of each kind; the rest is small beside them.
const mostEffects = 8

// modelNumber is a number of the model's in the person's unit, with the decimals
// that it deserves there.
func (b *Place) modelNumber(v float64, decimals int, unit string) (float64, int, string) {
	kind, ok := ui.KindOfUnit("", unit)
	if unit == "SG" {
		if b.Say().Unit(quantity.Gravity) == "" {
			return v, decimals, unit
		}
		return b.Say().Shown(quantity.Gravity, v), max(decimals-2, 0), b.Say().Unit(quantity.Gravity)
	}
	if !ok || b.Say().Unit(kind) == unit {
		return v, decimals, unit
	}
	if kind == quantity.Volume || kind == quantity.LitresPerHour || kind == quantity.Colour {
		decimals++ // a larger unit
	}
	return b.Say().Shown(kind, v), decimals, b.Say().Unit(kind)
}

// figure is a number with its band.
func (b *Place) figure(v calc.Band, sure bool, decimals int, unit, text string) string {
	if unit == "" && text != "" {
		return text
	}
	_, _, shown := b.modelNumber(v.Mid, decimals, unit)
	shown = words.Listed(shown)
	f := func(x float64) string {
		x, n, _ := b.modelNumber(x, decimals, unit)
		return b.Say().Plain(x, n)
	}
	if sure {
		return strings.TrimSpace(f(v.Mid) + " " + shown)
	}
	return strings.TrimSpace(words.T("{mid} ({low} to {high})", f(v.Mid), f(v.Low), f(v.High)) + " " + shown)
}

// input is what went in, with four figures where it is in the model's unit.
func (b *Place) input(in explain.Input) string {
	if _, _, unit := b.modelNumber(in.Value, 0, in.Unit); unit != in.Unit {
		if kind, ok := ui.KindOfUnit("", in.Unit); ok {
			return b.Say().Format(kind, in.Value)
		}
		return b.Say().Format(quantity.Gravity, in.Value)
	}
	return strings.TrimSpace(b.Say().Marked(figures(in.Value)) + " " + words.Listed(in.Unit))
}

// figures is a number with four figures.
func figures(v float64) string {
	if v != 0 && math.Abs(v) < 1e-3 {
		return strconv.FormatFloat(v, 'g', 2, 64)
	}
	if math.Abs(v-1) < 0.2 {
		return strconv.FormatFloat(v, 'f', 4, 64) // a gravity, a share
	}
	return strconv.FormatFloat(v, 'g', 4, 64)
}

func (b *Place) signedNumber(v float64, decimals int) string {
	t := b.Say().Plain(v, decimals)
	switch {
	case strings.Trim(t, "0.,−") == "":
		return "0"
	case v > 0:
		return "+" + t
	}
	return t
}
