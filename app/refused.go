package app

import (
	"net/url"
	"path/filepath"
	"strings"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// refuseFile says why a file is not opened and leads to where it can be mended. It
// waits for an answer: at the start of the window the demonstration stands there, and
// must not be taken for what was asked for.
func (b *bench) refuseFile(path string, findings []design.Finding, err error) {
	b.Warn(b.Say().Why(err))
	why := []string{b.Say().Why(err)}
	const most = 6
	if design.HasErrors(findings) {
		why = nil
		for _, f := range findings {
			if f.Severity == design.Error && len(why) < most {
				why = append(why, b.Say().Why(f))
			}
		}
	}
	ui.Ask(b, words.T("The file is not opened"),
		words.T("{why}\n\nMend that in a text editor, then try again. Until then {title} stands here.", strings.Join(why, "\n"), b.Title()),
		ui.Answer{Text: words.T("Go on without it"), Do: func() { b.place().FocusFirst() }, Main: true},
		ui.Answer{Text: words.T("Show its folder"), Do: func() { b.showFolder(filepath.Dir(path)) }},
		ui.Answer{Text: words.T("Try again"), Do: func() { b.open(path) }})
}

// showFolder opens a folder in the desktop's own window.
func (b *bench) showFolder(path string) {
	if full, err := filepath.Abs(path); err == nil {
		path = full
	}
	if err := b.App.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}); err != nil {
		b.Warn(words.T("Can't show {path}: {why}", path, b.Say().Why(err)))
	}
}

// mend leads to the place that changes the value of a key.
func (b *bench) mend(key string) {
	table, _, _ := strings.Cut(key, ".")
	switch table {
	case "title", "notes":
		b.editTitle()
	case "taste":
		b.goTo(0)
	case "reading":
		b.goTo(3)
	case "yeast":
		if strings.Contains(key, ".attenuation_") {
			b.goTo(0)
			ui.Focus(b, b.taste.Levers.Yeast)
			return
		}
		b.goTo(2)
		b.brew.Mend(key)
	default:
		b.goTo(2)
		b.brew.Mend(key)
	}
}
