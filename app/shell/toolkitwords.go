package shell

import (
	"encoding/json"
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"skep/app/words"
)

// speakToolkit gives the toolkit's own menus the program's language. The
// toolkit takes the system's, and has no call to choose another: so its texts are
// handed to it under the program's language and under the system's.
func speakToolkit() {
	texts, err := json.Marshal(map[string]string{
		"Copy": words.T("Copy"), "Cut": words.T("Cut"), "Paste": words.T("Paste"), "Quit": words.T("Close"),
		"Redo": words.T("Redo"), "Select all": words.T("Select all"), "Undo": words.T("Undo"),
	})
	if err != nil {
		return // texts alone: can't fail
	}
	tag := words.Speaks().Tag.String()
	_ = os.Setenv("LANGUAGE", tag) // a tag is no odd name
	for _, l := range []fyne.Locale{lang.SystemLocale(), fyne.Locale(tag)} {
		_ = lang.AddTranslationsForLocale(texts, l) // else the toolkit's own words stand there
	}
}
