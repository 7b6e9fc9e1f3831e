package journal

import (
	"os"
	"path/filepath"

	"github.com/adrg/xdg"
)

// stateVariable redirects the state folder; the tests' one variable.
const stateVariable = "XDG_STATE_HOME"

// Folder is Skep's place for what it must remember between starts: skep in
// $XDG_STATE_HOME, or where the system has such things. It need not be there
// yet.
func Folder() string {
	// The library reads the variable once, at the program's start; a test sets
	// it later.
	if state := os.Getenv(stateVariable); filepath.IsAbs(state) {
		return filepath.Join(state, "skep")
	}
	return filepath.Join(xdg.StateHome, "skep")
}
