package userfile

import (
	"fmt"
	"os"
	"path/filepath"
)

// StrainsFile is the name of the file with a person's own strains.
const StrainsFile = "strains.toml"

// Folder is where a person's own files lie: skep in the configuration folder,
// $XDG_CONFIG_HOME or ~/.config on a free desktop, and the like elsewhere. It
// need not be there yet.
func Folder() (string, error) {
	config, err := os.UserConfigDir()
	if err != nil {
		return "", fmt.Errorf("the folder for settings is not known, so strains of one's own have no place: %w", err)
	}
	return filepath.Join(config, "skep"), nil
}

// StrainsPath is the file with a person's own strains.
func StrainsPath() (string, error) {
	folder, err := Folder()
	if err != nil {
		return "", err
	}
	return filepath.Join(folder, StrainsFile), nil
}
