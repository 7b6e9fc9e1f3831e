package ferment

import (
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/ui/filedialog"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/logs"
)

// logAsk is a logger's export to be read: by a guess, or as the person says.
type logAsk struct {
	name string
	src  []byte
	as   *logs.Guess
}

// logAnswer is what was understood.
type logAnswer struct {
	log logs.Log
	err error
}

// readLog is the worker's part: a hundred thousand rows take a while.
func (p *Place) readLog(ask logAsk) logAnswer {
	var a logAnswer
	if ask.as == nil {
		a.log, a.err = logs.ReadLog(ask.src, p.Zone)
	} else {
		a.log, a.err = ask.as.Read(ask.src, p.Zone)
	}
	return a
}

// pasteCSV takes the log from the clipboard.
func (p *Place) pasteCSV() {
	text := fyne.CurrentApp().Clipboard().Content()
	if strings.TrimSpace(text) == "" {
		p.entry.remark(words.T("The clipboard is empty: copy rows of date and gravity first, then paste."))
		return
	}
	p.Log(words.T("the clipboard"), []byte(text))
}

// openCSV asks for the logger's file.
func (p *Place) openCSV() {
	endings := []string{".csv", ".tsv", ".txt", ".CSV", ".TXT"}
	filedialog.Open(p.host, filedialog.FolderOf(p.host.Path()), endings, func(path string) {
		name := filepath.Base(path)
		p.host.Disk().Ask(filepath.Dir(path), words.T("Reading {file}…", name), func() func() {
			src, err := savefile.ReadAtMost(path, mostLogBytes)
			return func() {
				if err != nil {
					p.entry.remark(ui.SentenceOf(p.host.Say().Why(err)))
					return
				}
				p.Log(name, src)
			}
		})
	})
}

// mostLogBytes is more than what a log may have: the reader then says why it is too
// much.
const mostLogBytes = 64 << 20

// Log asks the worker for what a log says; logged shows it.
func (p *Place) Log(name string, src []byte) {
	p.entry.remark("") // of a try before
	p.host.ShowMessage(words.T("Reading {file}…", name))
	p.logs.Post(logAsk{name: name, src: src})
}

// logged shows what was understood before anything is taken.
func (p *Place) logged(ask logAsk, a logAnswer) {
	if !p.content.Visible() {
		return
	}
	if ask.as == nil {
		p.host.ShowMessage("")
		if a.err != nil && len(a.log.Guess.Columns) == 0 {
			p.entry.remark(words.T("{file}: {why}", ui.FirstUpper(ask.name), ui.SentenceOf(p.host.Say().Why(a.err))))
			return
		}
		p.asked = newLogDialog(p, ask)
		p.asked.fill(a)
		ui.ShowModal(p.host, p.asked.dialog, p.asked.close)
		if p.asked.take.Disabled() {
			ui.Focus(p.host, p.asked.cancel)
		} else {
			ui.Focus(p.host, p.asked.take)
		}
		return
	}
	if p.asked != nil {
		p.asked.fill(a)
	}
}

// logDialog shows how a log was read: each column with its first value, what it
// is taken for and in which unit, and what would be taken.
type logDialog struct {
	p       *Place
	ask     logAsk
	guess   logs.Guess
	log     logs.Log
	columns *fyne.Container
	text    *widget.Label
	doubts  *widget.Label
	take    *ui.Button
	cancel  *ui.Button
	dialog  *dialog.CustomDialog
	filling bool
}

func newLogDialog(p *Place, ask logAsk) *logDialog {
	d := &logDialog{p: p, ask: ask}
	d.columns = container.New(layout.NewGridLayout(4))
	d.text, d.doubts = logLabel(widget.MediumImportance), logLabel(widget.WarningImportance)
	scroll := container.NewVScroll(container.NewVBox(d.columns, d.text, d.doubts))
	scroll.SetMinSize(fyne.NewSize(680, 330))
	d.dialog = dialog.NewCustomWithoutButtons(words.T("What {file} says", ask.name), scroll, p.host.Window())
	d.take = ui.NewButton(words.T("Take"), d.taken)
	d.take.Importance = widget.HighImportance
	d.cancel = ui.NewButton(words.T("Cancel"), d.close)
	d.dialog.SetButtons([]fyne.CanvasObject{d.cancel, d.take})
	return d
}

func (d *logDialog) close() {
	d.p.asked = nil
	d.dialog.Hide()
}

// fill shows an answer.
func (d *logDialog) fill(a logAnswer) {
	d.filling = true
	defer func() { d.filling = false }()
	d.log, d.guess = a.log, a.log.Guess
	bold := func(text string) fyne.CanvasObject {
		return widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	}
	cells := []fyne.CanvasObject{bold(words.T("column")), bold(words.T("first value")), bold(words.T("taken as")), bold(words.T("unit, or how it is written"))}
	kinds, names := logKinds()
	for i := range d.guess.Columns {
		c := d.guess.Columns[i]
		name := c.Name
		if name == "" {
			name = words.T("column {n}", i+1)
		}
		first, sample := widget.NewLabel(beginning(name)), widget.NewLabel(beginning(c.Sample))
		first.Truncation, sample.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
		kind := ui.NewSelect(names, nil)
		kind.SetSelectedIndex(max(slices.Index(kinds, c.Kind), 0))
		kind.OnChanged = func(string) {
			k := kinds[kind.SelectedIndex()]
			unit := ""
			if u := logs.Units(k); u != nil {
				unit = u[0]
			}
			d.change(i, func(c *logs.Column) {
				c.Kind, c.Unit = k, unit
				if l := logs.Layouts(k, c.Layout); l != nil && !slices.Contains(l, c.Layout) {
					c.Layout = l[0]
				}
			})
		}
		unit := ui.NewSelect(logs.Units(c.Kind), nil)
		unit.PlaceHolder = " "
		unit.SetSelected(c.Unit)
		unit.OnChanged = func(u string) { d.change(i, func(c *logs.Column) { c.Unit = u }) }
		if layouts := logs.Layouts(c.Kind, c.Layout); layouts != nil {
			unit.OnChanged = nil
			for _, l := range layouts {
				unit.Options = append(unit.Options, layoutText(l))
			}
			unit.SetSelected(layoutText(c.Layout))
			unit.OnChanged = func(string) { d.change(i, func(c *logs.Column) { c.Layout = layouts[unit.SelectedIndex()] }) }
		}
		if len(unit.Options) == 0 {
			unit.Disable()
		}
		cells = append(cells, first, sample, kind, unit)
	}
	d.columns.Objects = cells
	d.columns.Refresh()
	d.text.SetText(d.summary(a))
	d.doubts.SetText(strings.Join(sentences(d.guess.Doubts), "\n"))
	d.doubts.Hidden = len(d.guess.Doubts) == 0
	if a.err != nil || len(a.log.Readings) == 0 {
		d.take.Disable()
	} else {
		d.take.Enable()
	}
}

// beginning is as much of a cell as can be seen: the toolkit would measure a megabyte.
func beginning(text string) string {
	const most = 80
	for i, n := 0, 0; i < len(text); n++ {
		if n == most {
			return text[:i] + "…"
		}
		_, size := utf8.DecodeRuneInString(text[i:])
		i += size
	}
	return text
}

func sentences(in []string) []string {
	out := make([]string, len(in))
	for i, s := range in {
		out[i] = ui.SentenceOf(s)
	}
	return out
}

// change reads the log anew as the person says.
func (d *logDialog) change(i int, alter func(*logs.Column)) {
	if d.filling {
		return
	}
	g := d.guess
	g.Columns = slices.Clone(g.Columns)
	alter(&g.Columns[i])
	g.Doubts = nil // they were about the guess
	d.p.logs.Post(logAsk{name: d.ask.name, src: d.ask.src, as: &g})
}

// taken puts the readings into the design as one step. What stands there
// already, at the same time, is not put there twice.
func (d *logDialog) taken() {
	p := d.p
	n := 0
	err := p.host.Edit(words.T("readings of a log"), func(x *design.Design) {
		type key struct {
			what string
			at   int64
		}
		there := map[key]bool{}
		for _, r := range x.Reading {
			there[key{r.What, r.At.Unix()}] = true
		}
		for _, r := range d.log.Readings {
			if k := (key{r.What, r.At.Unix()}); !there[k] {
				there[k] = true
				x.Reading = append(x.Reading, r)
				n++
			}
		}
	})
	if err != nil {
		d.text.SetText(ui.SentenceOf(d.p.host.Say().Why(err)))
		return
	}
	d.close()
	p.host.ShowMessage(words.N("{count} reading taken. Undo takes it back.", "{count} readings taken. Undo takes them all back.", n))
}

// logLabel is a label that wraps.
func logLabel(importance widget.Importance) *widget.Label {
	l := widget.NewLabel("")
	l.Wrapping, l.Importance = fyne.TextWrapWord, importance
	return l
}
