package brew

import (
	"bytes"
	"net/url"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"skep/app/locale"
	"skep/app/paper"
	"skep/app/savefile"
	"skep/app/ui"
	"skep/app/words"
	"skep/plotting/sheet"
)

// printDrawer makes the sheet and hands it to the system's viewer, which
// prints: Fyne has no printing.
type printDrawer struct {
	*ui.Drawer
	p       *Place
	path    *ui.Entry
	size    *ui.Radio
	yeasts  *ui.Check
	start   *ui.Entry
	message *ui.Paragraph
	copy    *ui.Button
	print   *ui.Button
	made    string

	open func(u *url.URL) error // the system's viewer
}

// Print opens the drawer that makes the day's sheet.
func (p *Place) Print() { p.newPrint().show() }

func (p *Place) newPrint() *printDrawer {
	d := &printDrawer{p: p, open: fyne.CurrentApp().OpenURL}
	d.path = ui.NewEntry(p.host)
	d.path.Name = words.T("file of the sheet")
	d.path.SetPlaceHolder(words.T("a temporary one: {name}", sheetName(p.host.Title())))
	d.path.OnSubmitted = func(string) { d.make() }
	d.size = ui.NewRadio([]string{"A4", "Letter"}, usualPaper(), true, nil)
	d.yeasts = ui.NewCheck(words.T("with the comparison of the yeasts"), nil)
	d.start = ui.NewEntry(p.host)
	d.start.Name = words.T("when the day begins")
	d.start.SetPlaceHolder(words.T("no hours; 9:30 or 2026-06-20 9:30 prints when each step is due"))
	d.start.OnSubmitted = func(string) { d.make() }
	d.start.Leave = func() { d.Close() }
	d.message = ui.NewParagraph("", 13, ui.InkFull)
	d.start.Restored = func() { d.answer("", ui.InkFull) }
	d.path.Restored = d.start.Restored
	d.path.Leave = func() { d.Close() }
	d.copy = ui.NewButton(words.T("Copy the path"), func() {
		fyne.CurrentApp().Clipboard().SetContent(d.made)
		p.host.ShowMessage(words.T("The path is on the clipboard"))
	})
	d.copy.Hide()
	d.print = ui.NewButton(words.T("Make and open"), d.make)
	d.print.Importance = widget.HighImportance
	d.Drawer = ui.NewDrawer(p.host, words.T("Print the day"), 460,
		ui.NewParagraph(words.T("One or two pages to brew from: what to buy, the day in order, boxes to tick and blanks to fill. Your viewer prints it."), 13, ui.InkQuiet),
		container.NewHBox(ui.NewCaption(words.T("paper"), 13, false, ui.InkQuiet), d.size.Box), d.yeasts,
		ui.NewCaption(words.T("the day begins at"), 13, false, ui.InkQuiet), d.start,
		ui.NewCaption(words.T("into the file"), 13, false, ui.InkQuiet), d.path,
		d.message, container.NewHBox(d.print, d.copy))
	return d
}

// WriteSheet writes the day's sheet to a file.
func (p *Place) WriteSheet(path string) error {
	d := p.newPrint()
	d.path.SetText(path)
	write, err := d.job()
	if err == nil {
		_, _, err = write()
	}
	return err
}

func (d *printDrawer) show() { d.p.host.Window().Canvas().Focus(d.print) }

// make writes the sheet and opens it.
func (d *printDrawer) make() {
	b := d.p.host
	write, err := d.job()
	if err != nil {
		d.failed(err)
		return
	}
	b.Disk().Ask(printLane, words.T("Making the sheet…"), func() func() {
		path, lost, err := write()
		return func() {
			if err != nil {
				d.failed(err)
				return
			}
			d.written(path, lost)
		}
	})
}

// printLane is where sheets are made, one after the other.
const printLane = "print"

func (d *printDrawer) failed(err error) {
	d.answer(words.T("No sheet was made: {why}", d.p.host.Say().Why(err)), ui.InkWarning)
	d.p.host.Warn(d.message.Text)
}

// written hands the sheet to the viewer.
func (d *printDrawer) written(path string, lost savefile.Lost) {
	b := d.p.host
	d.made = path
	d.copy.Show()
	u := &url.URL{Scheme: "file", Path: filepath.ToSlash(path)}
	if err := d.open(u); err != nil {
		d.answer(words.T("The sheet is made, but no viewer opened ({why}). Open it yourself: {path}",
			b.Say().Why(err), path), ui.InkWarning)
		b.Warn(d.message.Text)
		return
	}
	d.answer(words.T("The sheet is made and your viewer asked to open it: {path}", path), ui.InkFull)
	b.SaySaved(path, lost)
}

func (d *printDrawer) answer(text string, ink ui.Ink) {
	d.message.Ink = ink
	d.message.SetText(text)
	d.Fit()
	d.message.Refresh()
}

// job is the making of the file from how things stand, to be done beside the window.
func (d *printDrawer) job() (write func() (string, savefile.Lost, error), err error) {
	path := strings.TrimSpace(d.path.Text)
	if path != "" && !strings.HasSuffix(strings.ToLower(path), ".pdf") {
		path += ".pdf"
	}
	size := [...]sheet.Paper{sheet.A4, sheet.Letter}[d.size.At]
	start, err := paper.ParseStart(d.start.Text, d.p.zone)
	if err != nil {
		return nil, err
	}
	// The sheet has the numbers of the screen, with what this kit has taught.
	taught, title := d.p.host.Taught(), d.p.host.Title()
	o := paper.Options{Paper: size, Units: d.p.host.Say().Units(), Yeasts: d.yeasts.Checked, Start: start, Doubts: taught.Doubts}
	if len(taught.Lessons) > 0 {
		o.Batches = taught.Batches
	}
	taught.Moving = false
	return func() (string, savefile.Lost, error) { return writeSheet(path, title, &taught, o) }, nil
}

func writeSheet(path, title string, taught *ui.Taught, o paper.Options) (made string, lost savefile.Lost, err error) {
	beer, err := new(ui.Knower).Know(taught)
	if err != nil {
		return "", lost, err
	}
	o.Known = beer.Known
	var out bytes.Buffer
	if err := paper.PDF(&out, taught.Design, o); err != nil {
		return "", lost, err
	}
	if path == "" { // a folder that only this person may read
		dir, err := savefile.TemporaryFolder("skep-sheet-")
		if err != nil {
			return "", lost, err
		}
		path = filepath.Join(dir, sheetName(title))
	}
	path, err = filepath.Abs(path)
	if err != nil {
		return "", lost, err
	}
	lost, err = savefile.WriteOver(path, out.Bytes())
	return path, lost, err
}

// sheetName is a speaking name for the sheet of a design.
func sheetName(title string) string {
	name := strings.Map(func(r rune) rune {
		if r < ' ' || strings.ContainsRune(`/\\:*?"<>|`, r) {
			return ' '
		}
		return r
	}, title)
	name = strings.Trim(strings.Join(strings.Fields(name), " "), ". ")
	if r := []rune(name); len(r) > 60 {
		name = strings.TrimSpace(string(r[:60]))
	}
	if name == "" {
		return words.T("brew sheet") + ".pdf"
	}
	return words.T("{title} brew sheet", name) + ".pdf"
}

// usualPaper is what printers hold where the person lives: the first of the choice
// is A4, the second Letter.
func usualPaper() int {
	if locale.Current().Letter {
		return 1
	}
	return 0
}
