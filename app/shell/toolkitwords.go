package shell

import (
	"encoding/json"
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"skep/app/words"
)

// speakToolkit gives the toolkit's own dialogs and menus the program's language. The
// toolkit takes the system's, and has no call to choose another: so its texts are
// handed to it under the program's language and under the system's.
func speakToolkit() {
	texts, err := json.Marshal(map[string]string{
		"(Parent)": words.T("(folder above)"), "Advanced": words.T("Advanced"), "Cancel": words.T("Cancel"), "Confirm": words.T("Confirm"), "Copy": words.T("Copy"),
		"Create Folder": words.T("Make the folder"), "Cut": words.T("Cut"), "Enter filename": words.T("Name of the file"),
		"Error": words.T("Error"), "File": words.T("File"), "Folder": words.T("Folder"), "New Folder": words.T("New folder"),
		"No": words.T("No"), "OK": words.T("OK"), "Open": words.T("Open"), "Paste": words.T("Paste"), "Quit": words.T("Close"), "Redo": words.T("Redo"),
		"Save": words.T("Save"), "Select all": words.T("Select all"), "Show Hidden Files": words.T("Show hidden files"),
		"Undo": words.T("Undo"), "Yes": words.T("Yes"), "file.name": words.T("Name"), "file.parent": words.T("(folder above)"),
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
