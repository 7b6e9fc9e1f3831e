//go:build unix

package savefile

import "golang.org/x/sys/unix"

// diskOf is what tells the disk of a folder from others.
func diskOf(folder string) (uint64, error) {
	var st unix.Stat_t
	err := unix.Stat(folder, &st)
	return uint64(st.Dev), err //nolint:unconvert // its type differs between systems
}
