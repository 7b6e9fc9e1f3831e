package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"skep/app/frames"
	"skep/app/ledger"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/learn"
)

// ledgerPlace is the last place: the finished batches, predicted against
// measured, and what this kit has taught.
type ledgerPlace struct {
	b         ledgerWindow
	openBatch func(path string)
	worker    *frames.Worker[ledgerAsk, ledgerAnswer]
	answer    ledgerAnswer
	asked     bool
	told      bool // that predictions can't be kept

	search  *ui.Entry
	note    *widget.Label
	make    *ui.Choice
	sort    *ui.Choice
	by      string // what the batches are ordered by
	turned  bool   // the order is turned round
	most    int    // cards shown
	list    *fyne.Container
	lessons *fyne.Container
	using   *widget.Label // what new predictions use of them
	content fyne.CanvasObject
}

// ledgerWindow is what this place asks of the window beside what every place
// does.
type ledgerWindow interface {
	ui.Host
	Saved() design.Design // the design as its file holds it
	LedgerFolder() string // empty: the usual one
	SetLedgerFolder(path string)
	LeftOut() []string // batches not to learn from, by file
	LeaveOut(file string, out bool)
	LessonOff(key string) bool
	UseLesson(key string, on bool)
	Learnt(lessons *learn.Lessons)
}

// newLedgerPlace makes the place. open opens a batch in place of the design.
func newLedgerPlace(b ledgerWindow, open func(path string)) *ledgerPlace {
	p := &ledgerPlace{b: b, openBatch: open, by: "date"}
	l := &ledgerLive{}
	p.worker = frames.New(l.answer, func(_ ledgerAsk, a ledgerAnswer) { b.Do(func() { p.take(a) }) })

	p.search = ui.NewEntry(b)
	p.search.SetPlaceHolder(words.T("search title, yeast, date"))
	p.most = cardsAtOnce
	p.search.OnChanged = func(string) { p.most = cardsAtOnce; p.fill() }
	p.note = widget.NewLabel("")
	p.note.Wrapping = fyne.TextWrapWord
	link := func(text string, tap func()) *ui.Choice {
		c := ui.NewChoice(text, false, tap)
		c.Ink, c.TextSize = ui.InkAccent, look.CaptionSize+1
		return c
	}
	p.make = link(words.T("Make the folder"), p.makeFolder)
	p.sort = ui.NewChoice("", true, p.chooseOrder)
	p.sort.Name = words.T("order")
	tools := container.NewHBox(
		p.sort,
		link(words.T("Folder…"), p.chooseFolder),
		link(words.T("Read again"), func() { p.Read() }),
		link(words.T("Save as CSV…"), p.export))
	title := ui.NewCaption(words.T("Finished batches"), look.TitleSize, true, ui.InkFull)
	head := container.NewVBox(container.NewBorder(nil, nil, title, tools), p.search, p.note, container.NewHBox(p.make))
	p.list = container.NewVBox()
	p.lessons = container.NewVBox()
	p.using = widget.NewLabel("")
	p.using.Wrapping = fyne.TextWrapWord
	left := container.NewBorder(head, nil, nil, nil, container.NewVScroll(p.list))
	right := container.NewBorder(ui.NewCaption(words.T("What this kit has taught"), look.TitleSize, true, ui.InkFull),
		nil, nil, nil, container.NewVScroll(p.lessons))
	p.content = container.New(&ledgerLayout{}, ui.NewPanel(left, 14), ui.NewPanel(right, 14))
	return p
}

// Object is the place's own.
func (p *ledgerPlace) Object() fyne.CanvasObject { return p.content }

// Post has nothing to do: the folder is read when it is asked for.
func (p *ledgerPlace) Post() {}

// FocusFirst is ready for a search.
func (p *ledgerPlace) FocusFirst() { ui.Focus(p.b, p.search) }

// Greeting says how the place is used.
func (p *ledgerPlace) Greeting() string {
	return words.T("Each finished batch teaches Skep this kit. A switch leaves a lesson out.")
}

// Idle waits for the worker.
func (p *ledgerPlace) Idle() { p.worker.Idle() }

// Close ends it.
func (p *ledgerPlace) Close() { p.worker.Close() }

// Update reads the folder when the place is first gone to.
func (p *ledgerPlace) Update() {
	if !p.asked {
		p.Read()
	}
	p.sayUsed()
}

// Recheck hears the batches again when the open design has become one of them,
// or is one no more.
func (p *ledgerPlace) Recheck() {
	open := p.open()
	for i := range p.answer.entries {
		if e := &p.answer.entries[i]; e.Own != open.is(e) {
			p.Relearn()
			return
		}
	}
}

func (p *ledgerPlace) open() *openBatch {
	return &openBatch{absolute(p.b.Path()), p.b.Design().Reading}
}

// Read reads the folder anew; the predictions follow.
func (p *ledgerPlace) Read() {
	p.asked = true
	p.note.SetText(words.T("Reading {{.Folder}}…", map[string]any{"Folder": p.Folder()}))
	p.worker.Post(p.ask(false))
}

// Relearn hears the batches again when the design is another: the lessons are
// centred on its kit. Until that is done none are used, for those of another
// kit would be wrong.
func (p *ledgerPlace) Relearn() {
	p.b.Learnt(nil)
	if p.asked {
		p.worker.Post(p.ask(true))
	}
}

func (p *ledgerPlace) ask(predict bool) ledgerAsk {
	return ledgerAsk{folder: p.Folder(), leftOut: p.b.LeftOut(), reference: p.b.Saved(), open: *p.open(), predict: predict}
}

// Folder is where the finished batches lie.
func (p *ledgerPlace) Folder() string {
	if f := p.b.LedgerFolder(); f != "" {
		return f
	}
	return ledger.DefaultFolder()
}

// take puts an answer up, and asks for the predictions if they are wanting.
func (p *ledgerPlace) take(a ledgerAnswer) {
	p.answer = a
	if a.unkept != nil && !p.told {
		p.told = true
		p.b.Warn(words.T("The ledger's predictions can't be kept, and will be worked out again next time: {{.Why}}", map[string]any{"Why": a.unkept.Error()}))
	}
	p.b.Learnt(nil)
	// An answer for the kit of a design that is no longer there teaches nothing:
	// the next one is on its way.
	if a.err == nil && a.lessons.Batches > 0 && a.kit == p.b.Saved().Kit {
		p.b.Learnt(&a.lessons)
	}
	p.fill()
	if a.err == nil && !a.predicted && len(a.entries) > 0 {
		p.worker.Post(p.ask(true))
	}
	p.b.Post()
}

// fill lists what the search finds.
func (p *ledgerPlace) fill() {
	a := &p.answer
	p.make.Hidden = !a.missing
	p.list.RemoveAll()
	p.lessons.RemoveAll()
	text, spoken := p.chosenOrder()
	p.sort.Name = spoken
	p.sort.SetText(text)
	p.teach()
	switch {
	case a.missing:
		p.note.SetText(words.T("There is no folder {{.Folder}} yet. Batches that are closed in Ferment are kept there, as plain design files.", map[string]any{"Folder": p.Folder()}))
		return
	case a.err != nil:
		p.note.SetText(a.err.Error())
		return
	case len(a.entries) == 0:
		p.note.SetText(words.T("No finished batch yet. Close one in Ferment, under Package, or put design files with readings into {{.Folder}}.", map[string]any{"Folder": p.Folder()}))
	default:
		p.note.SetText(words.N("{{.Count}} batches in {{.Folder}}", len(a.entries), map[string]any{"Count": len(a.entries), "Folder": p.Folder()}))
	}
	for _, s := range a.skipped { // first, or nobody would see them
		l := widget.NewLabel(words.T("Left aside: {{.What}}", map[string]any{"What": s.String()}))
		l.Wrapping = fyne.TextWrapWord
		p.list.Add(l)
	}
	found := p.found()
	for _, e := range found[:min(p.most, len(found))] {
		p.list.Add(ui.NewPanel(p.card(e), 10))
	}
	if more := len(found) - p.most; more > 0 {
		c := ui.NewChoice(words.N("show more ({{.Count}} left)", more, map[string]any{"Count": more}), false, func() {
			p.most += cardsAtOnce
			p.fill()
		})
		c.Ink = ui.InkAccent
		p.list.Add(container.NewHBox(c))
	}
	p.list.Refresh()
}

// cardsAtOnce keeps a keystroke in the search quick: a card is some forty
// texts to lay out.
const cardsAtOnce = 25

// found are the batches that the search finds, in the order chosen.
func (p *ledgerPlace) found() []*ledger.Entry {
	of := ledger.Ledger{Entries: p.answer.entries}
	found := of.Search(p.search.Text)
	ledger.Order(found, p.by, rising(p.by) != p.turned)
	return found
}

// ledgerLayout is the batches, and beside them the lessons.
type ledgerLayout struct{}

func (*ledgerLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 500) }

func (*ledgerLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	edge, between, right := float32(16), float32(ui.Gap), float32(400)
	if size.Width < ui.Narrow {
		edge, between, right = 10, 8, 350
	}
	h := size.Height - between
	o[0].Move(fyne.NewPos(edge, between))
	o[0].Resize(fyne.NewSize(size.Width-2*edge-right-between, h))
	o[1].Move(fyne.NewPos(size.Width-edge-right, between))
	o[1].Resize(fyne.NewSize(right, h))
}
