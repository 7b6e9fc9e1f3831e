package app

import (
	"bytes"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/widget"

	"skep/app/look"
	"skep/app/paper"
	"skep/app/savefile"
	"skep/app/words"
	"skep/plotting/sheet"
)

// printDrawer makes the sheet and hands it to the system's viewer, which
// prints: Fyne has no printing.
type printDrawer struct {
	p      *brewPlace
	pop    *widget.PopUp
	path   *noteEntry
	size   *widget.RadioGroup
	yeasts *widget.Check
	told   *widget.Label
	copy   *widget.Button
	print  *widget.Button
	made   string

	open func(u *url.URL) error // the system's viewer
}

// printShortcut is Ctrl+P, from every place.
func (p *brewPlace) printShortcut() {
	p.b.window.Canvas().AddShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyP, Modifier: fyne.KeyModifierShortcutDefault},
		func(fyne.Shortcut) { p.openPrint() })
}

func (p *brewPlace) openPrint() { p.newPrint().show() }

func (p *brewPlace) newPrint() *printDrawer {
	d := &printDrawer{p: p, open: p.b.app.OpenURL}
	d.path = newNoteEntry(p.b, nil)
	d.path.name = words.T("file of the sheet")
	d.path.SetPlaceHolder(words.T("a temporary one: {{.Name}}", map[string]any{"Name": sheetName(p.b.editor.Title())}))
	d.path.OnSubmitted = func(string) { d.make() }
	d.size = widget.NewRadioGroup([]string{"A4", "Letter"}, nil)
	d.size.Horizontal, d.size.Required = true, true
	d.size.SetSelected(usualPaper())
	d.yeasts = widget.NewCheck(words.T("with the comparison of the yeasts"), nil)
	d.told = wrapped("", widget.MediumImportance)
	d.told.Hide()
	d.copy = widget.NewButton(words.T("Copy the path"), func() {
		p.b.app.Clipboard().SetContent(d.made)
		p.b.status.tell(words.T("The path is on the clipboard"))
	})
	d.copy.Hide()
	d.print = widget.NewButton(words.T("Make and open"), d.make)
	d.print.Importance = widget.HighImportance
	closer := newChoice("", false, func() { d.pop.Hide() })
	closer.icon, closer.name = look.IconClose(), words.T("close the drawer")
	body := container.NewVBox(
		container.NewBorder(nil, nil, newCaption(words.T("Print the day"), look.TitleSize, true, inkFull), closer),
		wrapped(words.T("One or two pages to brew from: what to buy, the day in order, boxes to tick and blanks to fill. Your viewer prints it."), widget.LowImportance),
		container.NewHBox(newCaption(words.T("paper"), 13, false, inkQuiet), d.size), d.yeasts,
		newCaption(words.T("into the file"), 13, false, inkQuiet), d.path,
		d.told, container.NewHBox(d.print, d.copy))
	d.pop = p.b.drawer(body, 460)
	return d
}

func (d *printDrawer) show() {
	d.fit()
	d.p.b.window.Canvas().Focus(d.print)
}

// fit gives the drawer the height of what it has to say.
func (d *printDrawer) fit() {
	window := d.p.b.window.Canvas().Size()
	size := fyne.NewSize(460, min(d.pop.MinSize().Height, window.Height-barHeight-24))
	d.pop.Resize(size)
	size.Height = min(d.pop.MinSize().Height, window.Height-barHeight-24)
	d.pop.Resize(size)
	d.pop.ShowAtPosition(fyne.NewPos(window.Width-size.Width-16, barHeight+8))
}

// make writes the sheet and opens it.
func (d *printDrawer) make() {
	b := d.p.b
	path, err := d.write()
	if err != nil {
		d.say(words.T("No sheet was made: {{.Why}}", map[string]any{"Why": err.Error()}), widget.WarningImportance)
		b.status.warn(d.told.Text)
		return
	}
	d.made = path
	d.copy.Show()
	u := &url.URL{Scheme: "file", Path: filepath.ToSlash(path)}
	if err := d.open(u); err != nil {
		d.say(words.T("The sheet is made, but no viewer opened ({{.Why}}). Open it yourself: {{.Path}}",
			map[string]any{"Why": err.Error(), "Path": path}), widget.WarningImportance)
		b.status.warn(d.told.Text)
		return
	}
	d.say(words.T("The sheet is made and your viewer asked to open it: {{.Path}}", map[string]any{"Path": path}), widget.MediumImportance)
	b.status.tell(words.T("The sheet is in {{.Path}}", map[string]any{"Path": path}))
}

func (d *printDrawer) say(text string, importance widget.Importance) {
	d.told.Importance = importance
	d.told.SetText(text)
	d.told.Show()
	d.fit()
}

// write makes the file.
func (d *printDrawer) write() (string, error) {
	path := strings.TrimSpace(d.path.Text)
	if path != "" && !strings.HasSuffix(strings.ToLower(path), ".pdf") {
		path += ".pdf"
	}
	size := sheet.A4
	if d.size.Selected == "Letter" {
		size = sheet.Letter
	}
	var out bytes.Buffer
	if err := paper.PDF(&out, d.p.b.editor.Design(), paper.Options{Paper: size, Units: d.p.b.prefs.units, Yeasts: d.yeasts.Checked}); err != nil {
		return "", err
	}
	if path == "" { // a folder that only this person may read
		dir, err := os.MkdirTemp("", "skep-sheet-")
		if err != nil {
			return "", err
		}
		path = filepath.Join(dir, sheetName(d.p.b.editor.Title()))
	}
	path, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	return path, savefile.Write(path, out.Bytes())
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
		name = "brew"
	}
	return name + " brew sheet.pdf"
}

// usualPaper is what printers hold where the person lives.
func usualPaper() string {
	locale := strings.ToUpper(string(lang.SystemLocale()))
	for _, country := range []string{"-US", "-CA", "-MX", "-CL", "-CO", "-PH", "-VE", "-GT", "-CR", "-PA", "-DO", "-PR"} {
		if strings.Contains(locale, country) {
			return "Letter"
		}
	}
	return "A4"
}
