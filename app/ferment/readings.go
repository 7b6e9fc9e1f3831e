package ferment

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"skep/app/look"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/quantity"
)

// readingList is what was written down, newest first.
type readingList struct {
	p      *Place
	column *ui.Column
	head   *ui.Head
	empty  *ui.Texts
	rows   []*readingRow
	more   *ui.Flow
	upTo   int // how many are shown
}

// shownAtFirst are the rows that are shown; a logger's months are not read row
// by row.
const shownAtFirst = 40

func newReadingList(p *Place) *readingList {
	l := &readingList{p: p, upTo: shownAtFirst}
	l.head = ui.NewHead(words.T("Readings"))
	l.empty = &ui.Texts{Make: func() *ui.Paragraph { return ui.NewParagraph("", 13, ui.InkQuiet) }}
	older := ui.NewChoice(words.T("show older ones"), false, func() {
		l.upTo += 10 * shownAtFirst
		d := p.host.Design()
		l.sync(&d)
		p.relayout()
	})
	older.Ink, older.TextSize = ui.InkAccent, 13
	l.more = ui.NewFlow(older)
	l.column = ui.NewColumn(l.head, l.empty, l.more)
	return l
}

// sync shows the design's readings with what is known of them.
func (l *readingList) sync(d *design.Design) {
	order := make([]int, len(d.Reading))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if c := d.Reading[b].At.Compare(d.Reading[a].At); c != 0 {
			return c
		}
		return b - a
	})
	points := l.points(d)
	n := min(len(order), l.upTo)
	for len(l.rows) < n {
		l.rows = append(l.rows, newReadingRow(l.p))
	}
	parts := []ui.Part{l.head, l.empty}
	for k, i := range order[:n] {
		l.rows[k].set(i, d.Reading[i], points[i])
		parts = append(parts, l.rows[k])
	}
	l.more.Off = n == len(order)
	l.column.Parts = append(parts, l.more)
	l.head.Text.SetText(words.T("Readings"))
	l.empty.Set(nil)
	if n == 0 {
		l.empty.Set([]string{words.T("None yet. Log the pitching first, then a gravity a day: each one makes the bands narrower. Readings of before the pitching count too.")})
	} else {
		l.head.Text.SetText(words.N("Readings · {count}", "Readings · {count}", len(order)))
	}
}

// points are the corrected readings by their place in the design; nil where
// what was computed is not of this reading.
func (l *readingList) points(d *design.Design) []*measured.Point {
	points := make([]*measured.Point, len(d.Reading))
	f := l.p.shown
	if f == nil || f.batch == nil {
		return points
	}
	t := f.batch.Timeline.Points
	for i := range t {
		k := t[i].Index
		if k < len(points) && k < len(f.design.Reading) && f.design.Reading[k] == d.Reading[k] {
			points[k] = &t[i]
		}
	}
	return points
}

// readingRow is one reading: when, what, what it says once corrected, and
// what is odd about it.
type readingRow struct {
	p           *Place
	at          int
	when, value *ui.Caption
	change, out *ui.Choice
	note        *ui.Paragraph
}

func newReadingRow(p *Place) *readingRow {
	r := &readingRow{p: p}
	r.when = ui.NewCaption("", look.CaptionSize, false, ui.InkQuiet)
	r.value = ui.NewCaption("", 13, false, ui.InkFull)
	r.when.Yields, r.value.Yields = true, true
	r.change = ui.NewChoice(words.T("change"), false, func() { p.entry.load(r.at) })
	r.out = ui.NewChoice("", false, r.remove)
	r.out.Icon, r.out.OnHint = look.IconClose(), p.host.Hint
	r.note = ui.NewParagraph("", look.CaptionSize, ui.InkQuiet)
	return r
}

func (r *readingRow) set(i int, is design.Reading, p *measured.Point) {
	r.at = i
	when := words.T("no time")
	if !is.At.IsZero() {
		when = r.p.clock(is.At)
	}
	if p != nil && !r.p.pitchedAt().IsZero() && p.What != measured.Pitched {
		when = words.T("{when} · {hours}", when, r.p.host.Say().FormatSigned(quantity.Hours, p.Hours))
	}
	day := when
	if !is.At.IsZero() {
		day = r.p.clock(is.At)
	}
	r.when.SetTexts(when, day)
	value := words.T("{name}: {value}", readingName(is.What), r.p.readingText(is))
	if is.What == measured.Pitched {
		value = words.T("yeast pitched")
	}
	short := words.T("{name}: {value}", readingName(is.What), r.p.valueText(is))
	if is.What == measured.Pitched {
		short = ""
	}
	r.value.SetTexts(ui.FirstUpper(value), ui.FirstUpper(short))
	r.change.Name = words.T("change the reading of {when}", when)
	r.out.Name = words.T("take out the reading of {when}", when)
	r.out.Hint = r.out.Name
	var notes []string
	r.note.Ink = ui.InkQuiet
	if p != nil {
		if ui.IsGravity(is.What) && p.Used {
			notes = append(notes, r.corrected(is, p))
		}
		for _, f := range p.Flags {
			notes = append(notes, ui.SentenceOf(r.p.host.Say().Sentence(f.Text)))
		}
		if !p.Used && len(p.Flags) == 0 {
			notes = append(notes, words.T("Not used."))
		}
		if !p.Used || p.Has(measured.BeforePitching) || p.Has(measured.OtherUnit) {
			r.note.Ink = ui.InkWarning
		}
	}
	r.note.SetText(strings.TrimSpace(strings.Join(notes, " ")))
	r.note.Refresh()
}

// corrected is what a gravity says once it is corrected.
func (r *readingRow) corrected(is design.Reading, p *measured.Point) string {
	text := is
	text.Value, text.Instrument = p.Value, "hydrometer"
	switch {
	case is.Instrument == "refractometer":
		return words.T("That is {value}, corrected for the alcohol.", r.p.valueText(text))
	case p.Value-is.Value > 0.0002 || is.Value-p.Value > 0.0002:
		return words.T("That is {value} at {temperature}.", r.p.valueText(text), r.p.host.Say().Format(quantity.Temperature, design.NewReading().TemperatureC))
	}
	return ""
}

func (r *readingRow) remove() {
	i := r.at
	d := r.p.host.Design()
	if i >= len(d.Reading) {
		return
	}
	gone := d.Reading[i]
	if ui.Change(r.p.host, words.T("take out: {name}", readingName(gone.What)), func(d *design.Design) {
		if i < len(d.Reading) {
			d.Reading = slices.Delete(d.Reading, i, i+1)
		}
	}) {
		r.p.host.ShowMessage(words.T("Taken out: {name}. Undo brings it back.", readingName(gone.What)))
	}
}

func (r *readingRow) Objects() []fyne.CanvasObject {
	o := []fyne.CanvasObject{r.when, r.value, r.change, r.out}
	if r.note.Text != "" {
		o = append(o, r.note)
	}
	return o
}

func (r *readingRow) Lay(x, y, width float32) float32 {
	tools := r.change.MinSize().Width + ui.ToolWidth
	when, value := r.when.MinSize().Height, r.value.MinSize().Height
	ui.Put(r.when, x, y, width-tools, when)
	room, middle := width-tools, when+value
	if r.value.LeastWidth() > room {
		room, middle = width, when // the value takes the whole line, its tools stand over it
	}
	ui.Put(r.value, x, y+when, room, value)
	ui.Put(r.change, x+width-tools, y+(middle-ui.ChoiceHeight)/2, tools-ui.ToolWidth, ui.ChoiceHeight)
	ui.Put(r.out, x+width-ui.ToolWidth, y+(middle-ui.ChoiceHeight)/2, ui.ToolWidth, ui.ChoiceHeight)
	h := when + value
	if r.note.Text != "" {
		h += r.note.Lay(x, y+h, width-6)
	}
	return h + 3
}
