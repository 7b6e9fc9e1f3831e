package opensave

import (
	"net/url"
	"path/filepath"
	"strings"

	"skep/app/batches"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
)

// refuseFile says why a file is not opened and leads to where it can be mended. It
// waits for an answer: at the start of the window the demonstration stands there, and
// must not be taken for what was asked for.
func (f *Files) refuseFile(path string, findings []design.Finding, err error) {
	f.Warn(f.Say().Why(err))
	why := []string{f.Say().Why(err)}
	const most = 6
	if design.HasErrors(findings) {
		why = nil
		for _, x := range findings {
			if x.Severity == design.Error && len(why) < most {
				why = append(why, f.Say().Why(x))
			}
		}
	}
	ui.Ask(f, words.T("The file is not opened"),
		words.T("{why}\n\nMend that in a text editor, then try again. Until then {title} stands here.", strings.Join(why, "\n"), f.Title()),
		ui.Answer{Text: words.T("Go on without it"), Do: func() { f.Hooks.Focus() }, Main: true},
		ui.Answer{Text: words.T("Show its folder"), Do: func() { f.showFolder(filepath.Dir(path)) }},
		ui.Answer{Text: words.T("Try again"), Do: func() { f.Open(path) }})
}

// showFolder opens a folder in the desktop's own window.
func (f *Files) showFolder(path string) {
	if full, err := filepath.Abs(path); err == nil {
		path = full
	}
	if err := f.App.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}); err != nil {
		f.Warn(words.T("Can't show {path}: {why}", path, f.Say().Why(err)))
	}
}

// remarkOnBatch says what is odd about the days of a batch that was opened.
func (f *Files) remarkOnBatch() {
	d := f.Design()
	if when := batches.ToCome(&d, f.Now()); when != "" {
		f.Warn(words.T("This batch has a date that is still to come, {when}: either the date or this computer's clock is wrong. Nothing was changed.", when))
	}
}
