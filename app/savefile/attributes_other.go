//go:build !linux

package savefile

import "os"

// keepAttributes does nothing: no extended attributes are read here.
func keepAttributes(*os.File, string, bool) []string { return nil }
