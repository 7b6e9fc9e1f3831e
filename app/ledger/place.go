// Package ledger is the last place: the finished batches, predicted against
// measured, and what this kit has taught.
//
// The folder's batches come in by a worker; lessons go to the window. It must not
// know another place, nor how a lesson changes a prediction.
package ledger

import (
	"math/rand/v2"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"skep/app/batches"
	"skep/app/frames"
	"skep/app/look"
	"skep/app/ui"
	"skep/app/ui/layouts"
	"skep/app/userfile"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/glasstest"
	"skep/calc/learn"
)

// Place is the last place: the finished batches, predicted against
// measured, and what this kit has taught.
type Place struct {
	host      Window
	openBatch func(path string)
	brewAgain func(d design.Design)
	differs   *frames.Worker[differsAsk, Differed]
	Differed  Differed // as it was shown last
	worker    *frames.Worker[ask, Answer]
	Answer    Answer
	asked     bool
	warned    bool // that predictions can't be kept

	Search  *ui.Entry
	note    *widget.Label
	title   *ui.Caption
	Make    *ui.Choice
	Demo    *ui.Choice // shows the club's batches
	Away    *ui.Choice // puts them away; it stands elsewhere, so that a second press does not
	demo    bool       // they are shown
	Sort    *ui.Choice
	by      string // what the batches are ordered by
	turned  bool   // the order is turned round
	most    int    // cards shown
	List    *fyne.Container
	Lessons *fyne.Container
	Using   *widget.Label // what new predictions use of them
	left    *fyne.Container
	content fyne.CanvasObject

	// Throw is a chance between 0 and n-1: which glass gets which beer.
	Throw func(n int) int
	Test  *glassTest // that is going on; nil: none
	// tastings is the panel of the glass test, made anew with each answer and tasting
	// and not with each letter of the search: it reads a file and predicts twice.
	tastings fyne.CanvasObject
}

// Window is what this place asks of the window beside what every place
// does.
type Window interface {
	ui.Host
	Saved() design.Design // the design as its file holds it
	LedgerFolder() string // empty: the usual one
	SetLedgerFolder(path string)
	LeftOut() []string // batches not to learn from, by file
	LeaveOut(file string, out bool)
	LessonOff(key string) bool
	UseLesson(key string, on bool)
	Learnt(lessons *learn.Lessons)

	// The glass test: what was tasted blind, and what that has told of the palate.
	Glasses() (userfile.Glasses, error) // as they were read last
	ReadGlasses(then func())
	KeepGlasses(pairs []userfile.GlassPair, triangles []userfile.GlassTriangle, then func(error))
	Palate() glasstest.Palate
}

// New makes the place. open opens a batch in place of the design, again a new
// design that has no file yet.
func New(b Window, open func(path string), again func(d design.Design)) *Place {
	p := &Place{host: b, openBatch: open, brewAgain: again, by: "date", Throw: rand.IntN}
	l := &worker{}
	p.worker = frames.New(l.answer, func(_ ask, a Answer) { b.Do(func() { p.take(a) }) })

	p.differs = frames.New(func(a differsAsk) Differed { return differed(a.title, a.design) },
		func(_ differsAsk, d Differed) { b.Do(func() { p.showDiffered(d) }) })

	p.Search = ui.NewEntry(b)
	p.Search.SetPlaceHolder(words.T("search title, yeast, date"))
	p.most = cardsAtOnce
	p.Search.OnChanged = func(string) { p.most = cardsAtOnce; p.Fill() }
	p.note = widget.NewLabel("")
	p.note.Wrapping = fyne.TextWrapWord
	link := func(text string, tap func()) *ui.Choice {
		c := ui.NewChoice(text, false, tap)
		c.Ink, c.TextSize = ui.InkAccent, look.CaptionSize+1
		return c
	}
	p.Make = link(words.T("Make the folder"), p.makeFolder)
	p.Sort = ui.NewChoice("", true, p.chooseOrder)
	p.Sort.Name = words.T("order")
	tools := container.NewHBox(
		p.Sort,
		link(words.T("Folder…"), p.chooseFolder),
		link(words.T("Read again"), func() { p.Read() }),
		link(words.T("Save as CSV…"), p.Export))
	p.title = ui.NewCaption(words.T("Batches"), look.TitleSize, true, ui.InkFull)
	p.Demo = link(words.T("Look at four batches of the club at Gate Field"), func() { p.showDemo(true) })
	p.Away = link(words.T("Put them away"), func() { p.showDemo(false) })
	head := container.NewVBox(container.NewBorder(nil, nil, container.NewHBox(p.title, p.Away), tools), p.Search, p.note, container.NewHBox(p.Make, p.Demo))
	p.List = container.NewVBox()
	p.Lessons = container.NewVBox()
	p.Using = widget.NewLabel("")
	p.Using.Wrapping = fyne.TextWrapWord
	p.left = container.NewBorder(head, nil, nil, nil, container.NewVScroll(p.List))
	right := container.NewBorder(ui.NewCaption(words.T("What this kit has taught"), look.TitleSize, true, ui.InkFull),
		nil, nil, nil, container.NewVScroll(p.Lessons))
	p.content = container.New(&layouts.Columns{Least: fyne.NewSize(900, 500), Divide: divide}, ui.NewPanel(p.left, 14), ui.NewPanel(right, 14))
	return p
}

// Object is the place's own.
func (p *Place) Object() fyne.CanvasObject { return p.content }

// Post has nothing to do: the folder is read when it is asked for.
func (p *Place) Post() {}

// FocusFirst is ready for a search.
func (p *Place) FocusFirst() { ui.Focus(p.host, p.Search) }

// Greeting says how the place is used.
func (p *Place) Greeting() string {
	return words.T("Each finished batch teaches Skep this kit. A switch leaves a lesson out.")
}

// Idle waits for the worker.
func (p *Place) Idle() {
	p.worker.Idle()
	p.differs.Idle()
}

// Close ends it.
func (p *Place) Close() {
	p.worker.Close()
	p.differs.Close()
}

// Update reads the folder when the place is first gone to.
func (p *Place) Update() {
	if !p.asked {
		p.Read()
	}
	p.sayUsed()
}

// Recheck hears the batches again when the open design has become one of them,
// or is one no more.
func (p *Place) Recheck() {
	open := p.open()
	for i := range p.Answer.Entries {
		if e := &p.Answer.Entries[i]; e.Own != open.is(e) {
			p.Relearn()
			return
		}
	}
}

func (p *Place) open() *openBatch {
	return &openBatch{absolute(p.host.Path()), p.host.Design().Reading}
}

// Read reads the folder anew; the predictions follow.
func (p *Place) Read() {
	p.asked, p.demo = true, false
	p.host.ReadGlasses(func() { p.tastings = nil; p.Fill() })
	p.note.SetText(words.T("Reading {folder}…", p.Folder()))
	p.worker.Post(p.ask(false))
}

// Relearn hears the batches again when the design is another: the lessons are
// centred on its kit. Until that is done none are used, for those of another
// kit would be wrong.
func (p *Place) Relearn() {
	p.host.Learnt(nil)
	if p.asked {
		p.worker.Post(p.ask(true))
	}
}

func (p *Place) ask(predict bool) ask {
	return ask{demo: p.demo, folder: p.Folder(), leftOut: p.host.LeftOut(), reference: p.host.Saved(), open: *p.open(), predict: predict}
}

// Folder is where the finished batches lie.
func (p *Place) Folder() string {
	if f := p.host.LedgerFolder(); f != "" {
		return f
	}
	return batches.DefaultFolder()
}

// showDemo shows the club's batches in place of the folder's, which stays as it is,
// or puts them away.
func (p *Place) showDemo(on bool) {
	if !on {
		p.Read()
		return
	}
	p.demo, p.asked = true, true
	p.host.Learnt(nil)
	p.worker.Post(p.ask(true))
}

// markDemo says whose batches are shown, and offers the club's where there are none.
func (p *Place) markDemo() {
	a := &p.Answer
	p.Demo.Hidden = a.Demo || a.Err != nil && !a.Missing || len(a.Entries) > 0
	p.Away.Hidden = !a.Demo
	title := words.T("Batches")
	if a.Demo {
		title = words.T("Batches of the club at Gate Field")
	}
	p.title.SetText(title)
	p.Demo.Refresh()
	p.Away.Refresh()
}

// take puts an answer up, and asks for the predictions if they are wanting.
func (p *Place) take(a Answer) {
	p.Answer, p.tastings = a, nil
	if a.unkept != nil && !p.warned {
		p.warned = true
		p.host.Warn(words.T("The ledger's predictions can't be kept, and will be worked out again next time: {why}", a.unkept))
	}
	p.host.Learnt(nil)
	// An answer for the kit of a design that is no longer there teaches nothing:
	// the next one is on its way.
	if a.Err == nil && !a.Demo && a.Lessons.Batches > 0 && a.kit == p.host.Saved().Kit {
		p.host.Learnt(&a.Lessons)
	}
	p.Fill()
	if a.Err == nil && !a.Predicted && len(a.Entries) > 0 {
		p.worker.Post(p.ask(true))
	}
	p.host.Post()
}

// Fill lists what the search finds.
func (p *Place) Fill() {
	a := &p.Answer
	defer p.left.Refresh() // what is said of the folder has another height
	p.Make.Hidden = !a.Missing
	p.List.RemoveAll()
	p.Lessons.RemoveAll()
	text, spoken := p.chosenOrder()
	p.Sort.Name = spoken
	p.Sort.SetText(text)
	p.markDemo()
	p.teach()
	switch {
	case a.Demo:
		p.note.SetText(words.T("To look at: these beers are made up, and nothing of them acts on your designs or goes into your folder."))
	case a.Missing:
		p.note.SetText(words.T("There is no folder {folder} yet. Batches that are closed in Ferment are kept there, as plain design files.", p.Folder()))
		return
	case a.Err != nil:
		p.note.SetText(ui.SentenceOf(p.host.Say().Why(a.Err)))
		return
	case len(a.Entries) == 0:
		p.note.SetText(words.T("No finished batch yet. Close one in Ferment, under Package, or put design files with readings into {folder}.", p.Folder()))
	default:
		p.note.SetText(words.N("{count} batch in {folder}", "{count} batches in {folder}", len(a.Entries), p.Folder()))
	}
	for _, s := range a.Skipped { // first, or nobody would see them
		l := widget.NewLabel(words.T("Left aside: {what}", p.host.Say().Why(s)))
		l.Wrapping = fyne.TextWrapWord
		p.List.Add(l)
	}
	found := p.Found()
	for _, e := range found[:min(p.most, len(found))] {
		p.List.Add(ui.NewPanel(p.Card(e), 10))
	}
	if more := len(found) - p.most; more > 0 {
		c := ui.NewChoice(words.N("show more ({count} left)", "show more ({count} left)", more), false, func() {
			p.most += cardsAtOnce
			p.Fill()
		})
		c.Ink = ui.InkAccent
		p.List.Add(container.NewHBox(c))
	}
	p.List.Refresh()
}

// cardsAtOnce keeps a keystroke in the search quick: a card is some forty
// texts to lay out.
const cardsAtOnce = 25

// Found are the batches that the search finds, in the order chosen.
func (p *Place) Found() []*batches.Entry {
	of := batches.Ledger{Entries: p.Answer.Entries}
	found := of.Search(p.Search.Text, words.LongDate)
	batches.Order(found, p.by, rising(p.by) != p.turned)
	return found
}

// divide is the batches, and beside them the lessons.
func divide(size fyne.Size) []layouts.Strip {
	right := float32(400)
	if size.Width < layouts.Narrow {
		right = 350
	}
	return []layouts.Strip{{Heights: []float32{0}}, {Width: right, Heights: []float32{0}}}
}
