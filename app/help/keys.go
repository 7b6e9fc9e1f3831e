package help

import "skep/app/words"

// keys are those that work anywhere, and those of the parts that have their own, as
// the keyboards of the language name them.
func keys() []Key {
	return []Key{
		{words.Keys("F1"), words.T("this list")},
		{words.T("Ctrl+1 … Ctrl+5"), words.T("Taste, Yeasts, Brew, Ferment, Ledger")},
		{words.T("Ctrl+N, Ctrl+O"), words.T("a new design from what you have; open one, the last ones first")},
		{words.T("Ctrl+S, Ctrl+Shift+S"), words.T("save; save under another name")},
		{words.T("Ctrl+Z, Ctrl+Shift+Z, Ctrl+Y"), words.T("take the last step back; do it again")},
		{words.T("Ctrl+P"), words.T("print the day")},
		{words.T("Ctrl+,"), words.T("units and appearance")},
		{words.T("Ctrl+W, Ctrl+Q"), words.T("close the window")},
		{words.T("Tab, Shift+Tab"), words.T("to the next thing that can be changed, and back")},
		{"← → ↑ ↓", words.T("move the lever that has the keyboard, a step at a time; walk a list or the line of the day")},
		{words.T("Shift+←, Page Up, Page Down"), words.T("a bigger step")},
		{words.T("Home, End"), words.T("to the end of a lever's way")},
		{words.Keys("Alt+↑, Alt+↓"), words.T("move a line of a table up or down")},
		{words.T("a digit on a lever"), words.T("type its value, in any unit")},
		{words.T("Enter"), words.T("take what was typed; press what has the keyboard")},
		{words.T("Escape"), words.T("put back what stood there; close what stands over the window")},
	}
}
