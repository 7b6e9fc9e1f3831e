package words

import (
	"runtime"
	"strings"
)

// apple are the names of keys on a Mac's keyboard: the toolkit hears the shortcuts there
// with the command key, and the first row are F-keys only together with fn.
var apple = strings.NewReplacer("Ctrl+", "Cmd+", "Strg+", "Cmd+", "F1", "fn+F1", "Alt+", "Option+")

// Keys is a text as it names the keys of this machine's keyboard.
func Keys(text string) string { return keysOn(runtime.GOOS, text) }

func keysOn(system, text string) string {
	if system != "darwin" {
		return text
	}
	return apple.Replace(text)
}
