package ledger

import (
	"math"
	"path/filepath"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"skep/app/batches"
	"skep/app/look"
	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/message"
	"skep/calc/quantity"
)

// Card is one batch: its name, and what was predicted against what was
// measured.
func (p *Place) Card(e *batches.Entry) fyne.CanvasObject {
	title := ui.NewCaption(e.Title, look.TextSize, true, ui.InkFull)
	title.Yields = true
	about := ui.NewCaption(words.T("{date}, {yeast}", dateOf(e.At), ui.OrUnnamed(e.Yeast)), look.CaptionSize, false, ui.InkQuiet)
	about.Yields = true
	open := ui.NewChoice(words.T("open"), false, func() { p.openBatch(e.Path) })
	open.Ink, open.Name = ui.InkAccent, words.T("open {title}", e.Title)
	link := func(text, name string, tap func()) *ui.Choice {
		c := ui.NewChoice(text, false, tap)
		c.Ink, c.Name = ui.InkAccent, name
		return c
	}
	again := link(words.T("brew again"), words.T("brew {title} again", e.Title), func() { p.brewAgain(batches.Again(e.Design)) })
	out := link(words.T("remove"), words.T("remove {title}", e.Title), func() { p.Remove(e) })
	hear := ui.NewCheck(words.T("learn from it"), nil)
	hear.SetChecked(!e.LeaveOut && !e.Own)
	hear.OnChanged = func(on bool) {
		p.host.LeaveOut(e.Path, !on)
		p.worker.Post(p.ask(true))
	}
	switch {
	case e.Own:
		hear.Disable()
		hear.SetText(words.T("open now: teaches nothing"))
	case !e.Finished:
		hear.Disable()
		hear.SetText(words.T("no final gravity yet"))
	}
	differs := ui.NewChoice(words.T("what differed"), false, func() { p.ShowDiffered(e) })
	differs.Ink, differs.Name = ui.InkAccent, words.T("what went differently with {title}", e.Title)
	differs.Hint, differs.OnHint = words.T("Why it came out otherwise than planned, and the next brew of it"), p.host.Hint
	differs.SetOff(!e.Finished)
	tools := container.NewHBox(hear, differs, open, again, out)
	if p.Answer.Demo { // they lie in no folder, and nothing is learnt from them
		hear.Hide()
		open.Hide()
		again.Hide()
		out.Hide()
	}
	head := container.NewVBox(container.NewBorder(nil, nil, nil, tools, title), about)
	if tools.MinSize().Width > mostTools {
		head = container.NewVBox(title, tools, about)
	}
	var cells []fyne.CanvasObject
	for _, c := range e.Compare() {
		if !c.Measured.Known {
			continue
		}
		figure, against := p.Measured(c)
		cells = append(cells, ui.NewCaption(comparedName(c.Key), look.CaptionSize, false, ui.InkQuiet),
			ui.NewCaption(figure, look.CaptionSize, true, ui.InkFull), ui.NewCaption(against, look.CaptionSize, false, ui.InkFull))
	}
	for _, c := range cells {
		c.(*ui.Caption).Yields = true
	}
	if len(cells) == 0 {
		text := words.T("nothing measured to compare")
		if !e.Finished {
			text = words.T("no final gravity yet: it is written down in Ferment, under Package")
		}
		cells = append(cells, ui.NewCaption(text, look.CaptionSize, false, ui.InkQuiet))
	}
	card := container.NewVBox(head, container.New(&comparedGrid{}, cells...))
	remarks := slices.Clone(e.Warnings)
	if e.Unpredicted != nil {
		remarks = append(remarks, message.New("no prediction: {why}", e.Unpredicted))
	}
	for _, text := range remarks {
		l := widget.NewLabel(words.Print(text))
		l.Wrapping = fyne.TextWrapWord
		card.Add(l)
	}
	return card
}

// mostTools is the width that leaves a title its room in the smallest window; in a
// language of longer words what can be done stands below it.
const mostTools = 440

// Remove moves a batch to the desktop's waste bin.
func (p *Place) Remove(e *batches.Entry) {
	if e.Own {
		p.host.Warn(words.T("“{title}” is open here: open another design, then remove it.", e.Title))
		return
	}
	path, title, now := e.Path, e.Title, p.host.Now()
	to := ""
	p.host.Write(filepath.Dir(path), path, func() (err error) {
		to, err = savefile.Trash(path, now)
		return err
	}, func(err error) {
		if err != nil {
			p.host.Warn(ui.SentenceOf(p.host.Say().Why(err)))
			return
		}
		p.host.ShowMessage(words.T("“{title}” is in the waste bin: {path}", title, to))
		p.Read()
	})
}

// dateOf is a day as people write it; a reading may bear no time.
func dateOf(at time.Time) string {
	if at.IsZero() {
		return words.T("no date")
	}
	return words.Date(at, "2 Jan 2006")
}

// Measured is one figure, and its prediction: whether the band held it is said
// by a mark and a word.
func (p *Place) Measured(c batches.Compared) (figure, against string) {
	kind := ledgerKind(c.Key)
	show := func(v float64) string { return p.host.Say().Number(kind, v) }
	figure = p.host.Say().Format(kind, c.Measured.Mean)
	held, ok := c.Held()
	switch {
	case ok && held:
		return figure, words.T("● within {low}–{high}", show(c.Predicted.Low), show(c.Predicted.High))
	case ok:
		return figure, words.T("○ outside {low}–{high}", show(c.Predicted.Low), show(c.Predicted.High))
	case !c.HasBand && !math.IsNaN(c.Predicted.Mid):
		return figure, words.T("planned {mid}", show(c.Predicted.Mid))
	}
	return figure, ""
}

func ledgerKind(key string) quantity.Kind {
	switch key {
	case batches.OriginalGravity, batches.FinalGravity:
		return quantity.Gravity
	case batches.Strength:
		return quantity.Strength
	case batches.Attenuation, batches.Yield:
		return quantity.Percent
	case batches.BoilOff:
		return quantity.LitresPerHour
	case batches.Height:
		return quantity.Hours
	}
	return quantity.Index
}

// comparedName is short enough for half a card; what is measured of dryness
// and body is what somebody tasted.
func comparedName(key string) string {
	switch key {
	case batches.OriginalGravity:
		return words.T("original gravity")
	case batches.FinalGravity:
		return words.T("final gravity")
	case batches.Strength:
		return words.T("strength")
	case batches.Attenuation:
		return words.T("attenuation")
	case batches.Yield:
		return words.T("mash yield")
	case batches.BoilOff:
		return words.T("boil-off")
	case batches.Height:
		return words.T("height after")
	case batches.Dryness:
		return words.T("dryness tasted")
	}
	return words.T("body tasted")
}

// comparedGrid is name, figure and prediction, two such beside each other, or one in a
// language of longer words. Fyne's grid has columns of one width; these are for the
// smallest window.
type comparedGrid struct{}

// halfCard is half of a card in the smallest window.
const halfCard = 298

func (*comparedGrid) beside(o []fyne.CanvasObject) int {
	const smallest = 0.85 // of a name's letters (ui.Caption)
	if smallest*widest(o, 0)+min(70, widest(o, 1)+8)+widest(o, 2)+8 > halfCard {
		return 1
	}
	return 2
}

const comparedLine = 18

func (g *comparedGrid) MinSize(o []fyne.CanvasObject) fyne.Size {
	n := g.beside(o)
	return fyne.NewSize(300, float32(((len(o)+2)/3+n-1)/n)*comparedLine)
}

func (g *comparedGrid) Layout(o []fyne.CanvasObject, size fyne.Size) {
	if len(o) == 1 {
		ui.Put(o[0], 0, 0, size.Width, comparedLine)
		return
	}
	const gap = 4
	n := g.beside(o)
	half, figure := size.Width/float32(n), min(70, widest(o, 1)+2*gap)
	// A name takes what the figures leave it: languages have longer ones.
	name := max(94, min(widest(o, 0)+gap, half-figure-widest(o, 2)-gap))
	for i := 0; i+2 < len(o); i += 3 {
		x, y := float32(i/3%n)*half, float32(i/3/n)*comparedLine
		ui.Put(o[i], x, y, name-gap, comparedLine)
		ui.Put(o[i+1], x+name, y, figure-gap, comparedLine)
		ui.Put(o[i+2], x+name+figure, y, half-name-figure-gap, comparedLine)
	}
}

// widest is the width of the longest text of a column, whatever room it has.
func widest(o []fyne.CanvasObject, column int) (w float32) {
	for i := column; i < len(o); i += 3 {
		c := o[i].(*ui.Caption)
		w = max(w, look.Widths(c.TextSize, c.Bold)(c.Text))
	}
	return w
}
