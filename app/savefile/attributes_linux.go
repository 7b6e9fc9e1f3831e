package savefile

import (
	"os"
	"strings"

	"golang.org/x/sys/unix"
)

// mostAttributes bounds what is read of names and of one value; the system's own
// bound is the same.
const mostAttributes = 64 << 10

const accessList = "system.posix_acl_access"

// keepAttributes copies what a person or their system hung on a file: comments,
// labels, access lists. What may not be set stays behind.
func keepAttributes(to *os.File, of string) {
	buf := make([]byte, mostAttributes)
	n, err := unix.Listxattr(of, buf)
	if err != nil {
		return
	}
	list := string(buf[:n])
	if !strings.Contains("\x00"+list, "\x00"+accessList+"\x00") {
		// A folder's default list, which the new file has, would let in whom the old did not.
		_ = unix.Fremovexattr(int(to.Fd()), accessList)
	}
	for name := range strings.SplitSeq(strings.TrimRight(list, "\x00"), "\x00") {
		value := make([]byte, mostAttributes)
		if size, err := unix.Getxattr(of, name, value); name != "" && err == nil {
			_ = unix.Fsetxattr(int(to.Fd()), name, value[:size], 0)
		}
	}
}
