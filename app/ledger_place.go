package app

import (
	"os"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/frames"
	"skep/app/ledger"
	"skep/app/look"
	"skep/app/savefile"
	"skep/app/words"
	"skep/calc/learn"
)

// ledgerPlace is the last place: the finished batches, predicted against
// measured, and what this kit has taught.
type ledgerPlace struct {
	b      *bench
	worker *frames.Worker[ledgerAsk, ledgerAnswer]
	answer ledgerAnswer
	asked  bool
	told   bool // that predictions can't be kept

	search  *searchEntry
	note    *widget.Label
	make    *choice
	sort    *choice
	by      string // what the batches are ordered by
	turned  bool   // the order is turned round
	most    int    // cards shown
	list    *fyne.Container
	lessons *fyne.Container
	using   *widget.Label // what new predictions use of them
	content fyne.CanvasObject
}

func newLedgerPlace(b *bench, do func(func())) *ledgerPlace {
	p := &ledgerPlace{b: b, by: "date"}
	l := &ledgerLive{}
	p.worker = frames.New(l.answer, func(_ ledgerAsk, a ledgerAnswer) { do(func() { p.take(a) }) })

	p.search = newSearchEntry()
	p.search.down, p.search.escape = func() {}, func() { p.search.SetText("") }
	p.search.SetPlaceHolder(words.T("search title, yeast, date"))
	p.most = cardsAtOnce
	p.search.OnChanged = func(string) { p.most = cardsAtOnce; p.fill() }
	p.note = widget.NewLabel("")
	p.note.Wrapping = fyne.TextWrapWord
	link := func(text string, tap func()) *choice {
		c := newChoice(text, false, tap)
		c.ink, c.size = inkAccent, look.CaptionSize+1
		return c
	}
	p.make = link(words.T("Make the folder"), p.makeFolder)
	p.sort = newChoice("", true, p.chooseOrder)
	p.sort.name = words.T("order")
	tools := container.NewHBox(
		p.sort,
		link(words.T("Folder…"), p.chooseFolder),
		link(words.T("Read again"), func() { p.read() }),
		link(words.T("Save as CSV…"), p.export))
	title := newCaption(words.T("Finished batches"), look.TitleSize, true, inkFull)
	head := container.NewVBox(container.NewBorder(nil, nil, title, tools), p.search, p.note, container.NewHBox(p.make))
	p.list = container.NewVBox()
	p.lessons = container.NewVBox()
	p.using = widget.NewLabel("")
	p.using.Wrapping = fyne.TextWrapWord
	left := container.NewBorder(head, nil, nil, nil, container.NewVScroll(p.list))
	right := container.NewBorder(newCaption(words.T("What this kit has taught"), look.TitleSize, true, inkFull),
		nil, nil, nil, container.NewVScroll(p.lessons))
	p.content = container.New(&ledgerLayout{}, newPanel(left, 14), newPanel(right, 14))
	return p
}

func (p *ledgerPlace) object() fyne.CanvasObject { return p.content }
func (p *ledgerPlace) show(*frame)               {}
func (p *ledgerPlace) focusFirst()               { p.b.window.Canvas().Focus(p.search) }
func (p *ledgerPlace) greeting() string {
	return words.T("Each finished batch teaches Skep this kit. A switch leaves a lesson out.")
}

// update reads the folder when the place is first gone to.
func (p *ledgerPlace) update() {
	if !p.asked {
		p.read()
	}
	p.sayUsed()
}

// recheck hears the batches again when the open design has become one of them,
// or is one no more.
func (p *ledgerPlace) recheck() {
	open := p.open()
	for i := range p.answer.entries {
		if e := &p.answer.entries[i]; e.Own != open.is(e) {
			p.relearn()
			return
		}
	}
}

func (p *ledgerPlace) open() *openBatch {
	return &openBatch{absolute(p.b.editor.Path()), p.b.editor.Design().Reading}
}

// read reads the folder anew; the predictions follow.
func (p *ledgerPlace) read() {
	p.asked = true
	p.note.SetText(words.T("Reading {{.Folder}}…", map[string]any{"Folder": p.folder()}))
	p.worker.Post(p.ask(false))
}

// relearn hears the batches again when the design is another: the lessons are
// centred on its kit. Until that is done none are used, for those of another
// kit would be wrong.
func (p *ledgerPlace) relearn() {
	p.b.learnt = nil
	if p.asked {
		p.worker.Post(p.ask(true))
	}
}

func (p *ledgerPlace) ask(predict bool) ledgerAsk {
	return ledgerAsk{folder: p.folder(), leftOut: setOf(p.b.prefs.leftOut), reference: p.b.editor.Saved(), open: *p.open(), predict: predict}
}

func (p *ledgerPlace) folder() string {
	if p.b.prefs.ledger != "" {
		return p.b.prefs.ledger
	}
	return ledger.DefaultFolder()
}

func setOf(names []string) map[string]bool {
	set := map[string]bool{}
	for _, n := range names {
		set[n] = true
	}
	return set
}

// take puts an answer up, and asks for the predictions if they are wanting.
func (p *ledgerPlace) take(a ledgerAnswer) {
	if p.b.closing {
		return
	}
	p.answer = a
	if a.unkept != nil && !p.told {
		p.told = true
		p.b.status.warn(words.T("The ledger's predictions can't be kept, and will be worked out again next time: {{.Why}}", map[string]any{"Why": a.unkept.Error()}))
	}
	p.b.learnt = nil
	// An answer for the kit of a design that is no longer there teaches nothing:
	// the next one is on its way.
	if a.err == nil && a.lessons.Batches > 0 && a.kit == p.b.editor.Saved().Kit {
		p.b.learnt = &a.lessons
	}
	p.fill()
	if a.err == nil && !a.predicted && len(a.entries) > 0 {
		p.worker.Post(p.ask(true))
	}
	p.b.post()
}

// fill lists what the search finds.
func (p *ledgerPlace) fill() {
	a := &p.answer
	p.make.Hidden = !a.missing
	p.list.RemoveAll()
	p.lessons.RemoveAll()
	text, spoken := p.chosenOrder()
	p.sort.name = spoken
	p.sort.SetText(text)
	p.teach()
	switch {
	case a.missing:
		p.note.SetText(words.T("There is no folder {{.Folder}} yet. Batches that are closed in Ferment are kept there, as plain design files.", map[string]any{"Folder": p.folder()}))
		return
	case a.err != nil:
		p.note.SetText(a.err.Error())
		return
	case len(a.entries) == 0:
		p.note.SetText(words.T("No finished batch yet. Close one in Ferment, under Package, or put design files with readings into {{.Folder}}.", map[string]any{"Folder": p.folder()}))
	default:
		p.note.SetText(words.N("{{.Count}} batches in {{.Folder}}", len(a.entries), map[string]any{"Count": len(a.entries), "Folder": p.folder()}))
	}
	for _, s := range a.skipped { // first, or nobody would see them
		l := widget.NewLabel(words.T("Left aside: {{.What}}", map[string]any{"What": s.String()}))
		l.Wrapping = fyne.TextWrapWord
		p.list.Add(l)
	}
	found := p.found()
	for _, e := range found[:min(p.most, len(found))] {
		p.list.Add(newPanel(p.card(e), 10))
	}
	if more := len(found) - p.most; more > 0 {
		c := newChoice(words.N("show more ({{.Count}} left)", more, map[string]any{"Count": more}), false, func() {
			p.most += cardsAtOnce
			p.fill()
		})
		c.ink = inkAccent
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

// orders are what batches can be ordered by.
var orders = []string{"date", "title", "yeast", ledger.OriginalGravity, ledger.FinalGravity, ledger.Strength, ledger.Attenuation,
	ledger.Yield, ledger.BoilOff, ledger.Height, ledger.Dryness, ledger.Body}

// rising says how an order begins: dates with the latest.
func rising(by string) bool { return by != "date" }

func (p *ledgerPlace) orderName(by string) string {
	switch by {
	case "title":
		return words.T("by title")
	case "yeast":
		return words.T("by yeast")
	case ledger.OriginalGravity:
		return words.T("by original gravity")
	case ledger.FinalGravity:
		return words.T("by final gravity")
	case ledger.Strength:
		return words.T("by strength")
	case ledger.Attenuation:
		return words.T("by attenuation")
	case ledger.Yield:
		return words.T("by yield")
	case ledger.BoilOff:
		return words.T("by boil-off")
	case ledger.Height:
		return words.T("by time to the height")
	case ledger.Dryness:
		return words.T("by dryness tasted")
	case ledger.Body:
		return words.T("by body tasted")
	}
	return words.T("by date")
}

// chosenOrder is the order with its direction: dates in words, others with an
// arrow.
func (p *ledgerPlace) chosenOrder() (text, spoken string) {
	up := rising(p.by) != p.turned
	switch {
	case p.by == "date" && up:
		return words.T("earliest first"), words.T("order")
	case p.by == "date":
		return words.T("latest first"), words.T("order")
	case up:
		return words.T("{{.Order}} ↑", map[string]any{"Order": p.orderName(p.by)}), words.T("order, the smallest first")
	}
	return words.T("{{.Order}} ↓", map[string]any{"Order": p.orderName(p.by)}), words.T("order, the largest first")
}

// orderBy takes an order; the same again turns it round.
func (p *ledgerPlace) orderBy(by string) {
	p.turned = by == p.by && !p.turned
	p.by = by
	p.fill()
}

func (p *ledgerPlace) chooseOrder() {
	var items []*fyne.MenuItem
	for _, by := range orders {
		name := p.orderName(by)
		if by == p.by {
			name = words.T("{{.Order}}: turn it round", map[string]any{"Order": name})
		}
		m := fyne.NewMenuItem(name, func() { p.orderBy(by) })
		m.Checked = by == p.by
		items = append(items, m)
	}
	p.b.popUp(p.sort, items...)
}

// teach lists the lessons, each with its evidence and a switch.
func (p *ledgerPlace) teach() {
	p.lessons.Add(p.using)
	shown := 0
	for i := range p.answer.lessons.Lessons {
		l := &p.answer.lessons.Lessons[i]
		if !heard(l) {
			continue
		}
		shown++
		p.lessons.Add(newPanel(p.lesson(l), 10))
	}
	if p.using.Hidden = shown == 0; p.using.Hidden {
		l := widget.NewLabel(words.T("Nothing yet: the usual figures stand. One batch moves them a little, ten make them this kit's."))
		l.Wrapping = fyne.TextWrapWord
		p.lessons.Add(l)
	}
	p.sayUsed()
	p.lessons.Refresh()
}

// sayUsed says how many of the lessons new predictions use.
func (p *ledgerPlace) sayUsed() {
	_, _, used := p.b.taught(p.b.editor.Design())
	in := map[string]bool{}
	for _, key := range used {
		in[key] = true
	}
	all, n := 0, 0
	for i := range p.answer.lessons.Lessons {
		if l := &p.answer.lessons.Lessons[i]; heard(l) {
			all++
			if in[l.Key] {
				n++
			}
		}
	}
	text := words.T("New predictions use all of these lessons.")
	switch {
	case n == 0:
		text = words.T("New predictions use none of these lessons.")
	case n < all:
		text = words.T("New predictions use {{.Used}} of these {{.All}} lessons; the others are switched off, or of strains that the design has not.", map[string]any{"Used": n, "All": all})
	}
	if p.using.Text != text {
		p.using.SetText(text)
	}
}

// heard tells whether any batch had a say in a lesson.
func heard(l *learn.Lesson) bool { return len(l.Evidence) > 0 || l.Borrowed > 0 }

func (p *ledgerPlace) lesson(l *learn.Lesson) fyne.CanvasObject {
	name := p.b.said(l.Name) // a strain's lesson bears the strain's name
	head := newCaption(name, look.CaptionSize+1, true, inkFull)
	head.yields = true
	more := newChoice(words.T("its batches"), false, func() { p.evidence(name, l) })
	more.ink, more.name = inkAccent, words.T("the batches behind {{.Lesson}}", map[string]any{"Lesson": name})
	more.hint, more.onHint = words.T("Show which batches say so"), p.b.status.hint
	on := widget.NewCheck(words.T("use it"), nil)
	on.SetChecked(!slices.Contains(p.b.prefs.lessonsOff, l.Key))
	on.OnChanged = func(use bool) {
		p.b.prefs.lessonsOff = slices.DeleteFunc(p.b.prefs.lessonsOff, func(k string) bool { return k == l.Key })
		if !use {
			p.b.prefs.lessonsOff = append(p.b.prefs.lessonsOff, l.Key)
		}
		p.b.prefs.save()
		p.sayUsed()
		p.b.post()
	}
	says := widget.NewLabel(sentenceOf(p.b.said(l.Found())))
	says.Wrapping = fyne.TextWrapWord
	return container.NewVBox(container.New(layout.NewCustomPaddedLayout(4, 0, 7, 7), head), says, container.NewHBox(on, layout.NewSpacer(), more))
}

// evidence lists the batches behind a lesson.
func (p *ledgerPlace) evidence(name string, l *learn.Lesson) {
	cells := []fyne.CanvasObject{cell(words.T("batch"), false), cell(words.T("measured"), true), cell(words.T("off the lesson"), true)}
	for _, e := range l.Evidence {
		value, off := l.Of(e)
		cells = append(cells, cell(words.T("{{.Title}}, {{.Date}}", map[string]any{"Title": e.Title, "Date": dateOf(e.At)}), false),
			cell(p.b.quantityText(value), true), cell(p.b.signedText(off), true))
	}
	list := container.NewVScroll(container.New(&pairLayout{columns: 3}, cells...))
	list.SetMinSize(fyne.NewSize(560, 300))
	dialog.NewCustom(name, words.T("Done"), list, p.b.window).Show()
}

func (p *ledgerPlace) makeFolder() {
	if err := ledger.Make(p.folder()); err != nil {
		p.note.SetText(err.Error())
		return
	}
	p.read()
}

func (p *ledgerPlace) chooseFolder() {
	d := dialog.NewFolderOpen(func(u fyne.ListableURI, err error) {
		if err != nil || u == nil {
			return
		}
		p.b.prefs.ledger = u.Path()
		p.b.prefs.save()
		p.read()
	}, p.b.window)
	d.Show()
	d.Resize(fyne.NewSize(820, 560))
}

// export writes what the search finds as CSV.
func (p *ledgerPlace) export() {
	var text strings.Builder
	if err := ledger.ExportCSV(&text, p.found()); err != nil {
		p.b.status.warn(err.Error())
		return
	}
	entry := widget.NewEntry()
	home, _ := os.UserHomeDir()
	entry.SetText(home + string(os.PathSeparator) + "skep-batches.csv")
	d := dialog.NewCustomConfirm(words.T("Save as CSV"), words.T("Save"), words.T("Cancel"), entry, func(ok bool) {
		if !ok {
			return
		}
		p.writeCSV(strings.TrimSpace(entry.Text), []byte(text.String()))
	}, p.b.window)
	d.Resize(fyne.NewSize(560, 160))
	d.Show()
}

// writeCSV writes the text, and asks before it takes another file's place.
func (p *ledgerPlace) writeCSV(path string, text []byte) {
	write := func() {
		if err := savefile.Write(path, text); err != nil {
			p.b.status.warn(err.Error())
			return
		}
		p.b.status.tell(words.T("Saved {{.Path}}", map[string]any{"Path": path}))
	}
	if _, err := os.Lstat(path); err != nil {
		write()
		return
	}
	p.b.ask(words.T("The file is there already"), words.T("{{.Path}} would be written over.", map[string]any{"Path": path}),
		button{words.T("Cancel"), func() {}, true},
		button{words.T("Write over it"), write, false})
}

// ledgerLayout is the batches, and beside them the lessons.
type ledgerLayout struct{}

func (*ledgerLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(900, 500) }

func (*ledgerLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	edge, between, right := float32(16), float32(gap), float32(400)
	if size.Width < narrow {
		edge, between, right = 10, 8, 350
	}
	h := size.Height - between
	o[0].Move(fyne.NewPos(edge, between))
	o[0].Resize(fyne.NewSize(size.Width-2*edge-right-between, h))
	o[1].Move(fyne.NewPos(size.Width-edge-right, between))
	o[1].Resize(fyne.NewSize(right, h))
}
