package userfile

import (
	"os"
	"path/filepath"
	"runtime"

	"github.com/adrg/xdg"
)

// strainsFile is the name of the file with a person's own strains.
const strainsFile = "strains.toml"

// Folder is where a person's own files lie: skep in the configuration folder,
// $XDG_CONFIG_HOME or ~/.config on a free desktop, and the like elsewhere. It
// need not be there yet.
func Folder() string { return filepath.Join(xdg.ConfigHome, "skep") }

// StrainsPath is the file with a person's own strains.
func StrainsPath() string { return StrainsIn(Folder()) }

// StrainsIn is that file in a folder of a person's own files.
func StrainsIn(folder string) string { return filepath.Join(folder, strainsFile) }

// PreferencesPath is the file with what a person chose in the window.
func PreferencesPath() string { return filepath.Join(Folder(), "preferences.toml") }

// OldPreferencesPath is where the toolkit kept the preferences of the program of
// that name; empty where it can't be told.
func OldPreferencesPath(id string) string {
	folder, err := os.UserConfigDir()
	if err != nil {
		return ""
	}
	if runtime.GOOS == "darwin" {
		folder = filepath.Join(filepath.Dir(folder), "Preferences")
	}
	return filepath.Join(folder, "fyne", id, "preferences.json")
}
