package userfile

import (
	"path/filepath"

	"github.com/adrg/xdg"
)

// StrainsFile is the name of the file with a person's own strains.
const StrainsFile = "strains.toml"

// Folder is where a person's own files lie: skep in the configuration folder,
// $XDG_CONFIG_HOME or ~/.config on a free desktop, and the like elsewhere. It
// need not be there yet.
func Folder() string { return filepath.Join(xdg.ConfigHome, "skep") }

// StrainsPath is the file with a person's own strains.
func StrainsPath() string { return filepath.Join(Folder(), StrainsFile) }
