//go:build unix

package savefile

import (
	"io/fs"
	"os"
	"syscall"
)

// withoutWaiting opens a pipe that nobody writes to at once.
const withoutWaiting = syscall.O_NONBLOCK

// keepOwner hands f to the owner of old: with sudo the design stays the
// person's own. Where that is not allowed the file belongs to whoever saved it,
// as with any editor. What came of it is asked of the file, as some disks refuse
// nothing and change nothing.
func keepOwner(f *os.File, old fs.FileInfo) (lost Lost) {
	st, ok := old.Sys().(*syscall.Stat_t)
	if !ok {
		return lost
	}
	if f.Chown(int(st.Uid), int(st.Gid)) != nil {
		const same = -1
		_ = f.Chown(same, int(st.Gid)) // one may hand on what one's own groups share
	}
	lost.Links = int(st.Nlink) - 1 //nolint:unconvert // its type differs between systems
	if info, err := f.Stat(); err == nil {
		if now, ok := info.Sys().(*syscall.Stat_t); ok {
			lost.Owner, lost.Group = now.Uid != st.Uid, now.Gid != st.Gid
		}
	}
	return lost
}
