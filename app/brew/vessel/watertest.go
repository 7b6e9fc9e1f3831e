package vessel

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/recipe"
	"skep/calc/watertest"
)

// waterDrawer is the water test: what was measured is typed, the arithmetic stands
// below it, and what came of it is taken into the vessel as one step of undo.
type waterDrawer struct {
	*ui.Drawer
	v       *Vessel
	host    Window
	parts   []*waterPart
	take    *ui.Button
	message *ui.Paragraph
}

// waterPart is one part of the test, with a field for each measurement.
type waterPart struct {
	part   watertest.Part
	fields []*ui.Entry
	result *ui.Paragraph
	wrong  error // of a field that can't be read
}

// openWaterTest opens the test; what was typed before stands there still.
func (v *Vessel) openWaterTest() *waterDrawer {
	w := &waterDrawer{v: v, host: v.host, message: ui.NewParagraph("", 13, ui.InkFull)}
	say := w.host.Say()
	caution := func(m message.Message) fyne.CanvasObject {
		c := ui.NewParagraph(say.Sentence(m), 12, ui.InkWarning)
		c.Mark = "!"
		return c
	}
	objects := []fyne.CanvasObject{ui.NewParagraph(words.T("An hour with plain water and a measuring jug. Do what you have time for: each part stands alone."), 13, ui.InkQuiet)}
	seen := map[string]bool{}
	for _, part := range watertest.Parts() {
		wp := &waterPart{part: part, result: ui.NewParagraph("", 13, ui.InkFull)}
		rows := container.New(&ui.FieldsLayout{})
		for i := range part.Inputs {
			in := &part.Inputs[i]
			e := ui.NewEntry(w.host)
			e.Name = say.Sentence(in.Label)
			e.SetPlaceHolder(say.Unit(in.Kind))
			e.SetText(v.typed[in.Name])
			e.Rest = e.Text
			e.Leave = func() { w.Close() }
			e.SetSeen(func(o fyne.CanvasObject) { w.Reveal(o) })
			e.OnChanged = func(text string) {
				v.typed[in.Name] = text
				e.Rest = text // typed is typed: Escape closes
				w.show()
			}
			e.OnSubmitted = func(string) { w.next(e) }
			wp.fields = append(wp.fields, e)
			rows.Add(ui.NewCaption(e.Name, 13, false, ui.InkQuiet))
			rows.Add(e)
		}
		w.parts = append(w.parts, wp)
		title := container.New(layout.NewCustomPaddedLayout(10, 0, 0, 0), ui.Heading(say.Sentence(part.Title)))
		objects = append(objects, title, ui.NewParagraph(say.Sentence(part.Do), 13, ui.InkQuiet))
		for _, c := range part.Cautions {
			if text := say.Sentence(c); !seen[text] {
				seen[text] = true
				objects = append(objects, caution(c))
			}
		}
		objects = append(objects, rows, wp.result)
	}
	w.take = ui.NewButton(words.T("Take these into the vessel"), w.keep)
	w.take.Importance = widget.HighImportance
	back := ui.NewChoice(words.T("back to the vessel"), false, func() { w.Close(); v.open("") })
	back.Ink, back.TextSize = ui.InkAccent, 13
	objects = append(objects, w.message, container.NewHBox(w.take, back))
	w.Drawer = ui.NewDrawer(w.host, words.T("The water test"), 500, objects...)
	w.show()
	ui.Focus(w.host, w.parts[0].fields[0])
	return w
}

// next gives the field after one the keyboard.
func (w *waterDrawer) next(e *ui.Entry) {
	found := false
	for _, p := range w.parts {
		for _, f := range p.fields {
			if found {
				ui.Focus(w.host, f)
				return
			}
			found = f == e
		}
	}
	ui.Focus(w.host, w.take)
}

// read is what is typed so far; what can't be read is kept with its part.
func (w *waterDrawer) read() watertest.Test {
	t := watertest.New()
	for _, p := range w.parts {
		p.wrong = nil
		for i, in := range p.part.Inputs {
			if p.fields[i].Text == "" {
				continue
			}
			r, err := w.host.Read().Parse(in.Kind, p.fields[i].Text, quantity.Limits{Low: in.Low, High: in.High})
			if err != nil {
				if p.wrong == nil {
					p.wrong = ui.Named(p.fields[i].Name, err)
				}
				continue
			}
			*in.Of(&t) = r.Value
		}
	}
	return t
}

// work works the test out: a result of each part that has one.
func (w *waterDrawer) work() (results []watertest.Result) {
	say := w.host.Say()
	kit := recipe.WaterTest(w.host.Design())
	t := w.read()
	for _, p := range w.parts {
		r, ok, err := p.part.Work(&t, kit)
		if p.wrong != nil {
			ok, err = true, p.wrong
		}
		p.result.Ink = ui.InkFull
		switch {
		case !ok:
			p.result.SetText("")
		case err != nil:
			p.result.Ink = ui.InkWarning
			p.result.SetText(ui.SentenceOf(say.Why(err)))
		default:
			text := ui.SentenceOf(say.Sentence(r.Arithmetic))
			if !r.Note.Empty() {
				text += " " + ui.SentenceOf(say.Sentence(r.Note))
			}
			p.result.SetText(text)
			results = append(results, r)
		}
		p.result.Refresh()
	}
	return results
}

func (w *waterDrawer) show() {
	if w.Drawer == nil {
		return
	}
	if len(w.work()) == 0 {
		w.take.Disable()
	} else {
		w.take.Enable()
	}
	w.message.SetText("")
	w.Fit()
}

// keep takes the results into the design's copy of the kit, which then says that it
// differs from the kit.
func (w *waterDrawer) keep() {
	results := w.work()
	if len(results) == 0 {
		return
	}
	var failed error
	err := w.host.Edit(words.T("water test"), func(d *design.Design) {
		for _, r := range results {
			if err := d.Set(r.Key, strconv.FormatFloat(r.Value, 'f', -1, 64)); err != nil {
				failed = err
			}
		}
	})
	if err == nil {
		err = failed
	}
	if err != nil {
		w.message.Ink = ui.InkWarning
		w.message.SetText(w.host.Say().Why(err))
		w.Fit()
		return
	}
	w.Close()
	k := w.v.open("")
	ui.Focus(w.host, k.choice.pick) // the space that pressed the button is no text
	k.choice.say(words.N("{count} value of the water test is in the vessel. Undo takes it back.", "{count} values of the water test are in the vessel. Undo takes them back.", len(results)), false)
}
