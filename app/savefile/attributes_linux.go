package savefile

import (
	"bytes"
	"encoding/binary"
	"errors"
	"os"
	"strings"

	"golang.org/x/sys/unix"
)

// mostAttributes bounds what is read of names and of one value; the system's own
// bound is the same.
const mostAttributes = 64 << 10

// ofTheText are attributes that the system reckons from a file's text: with another
// text the old one's would be untrue.
var ofTheText = map[string]bool{"security.ima": true, "security.evm": true}

// keepAttributes copies what a person or their system hung on a file: comments,
// labels, access lists. What may not be set stays behind, and is named. narrow: another
// group has the file now, which is to get no more of an access list than everybody.
func keepAttributes(to *os.File, of string, narrow bool) (lost []string) {
	buf := make([]byte, mostAttributes)
	n, err := unix.Listxattr(of, buf)
	if err != nil {
		if !errors.Is(err, unix.ENOTSUP) && !errors.Is(err, unix.ENOSYS) {
			lost = []string{anyAttribute}
		}
		return lost
	}
	fd := int(to.Fd())
	list := string(buf[:n])
	if !strings.Contains("\x00"+list, "\x00"+accessList+"\x00") {
		// A folder's default list, which the new file has, would let in whom the old did not.
		_ = unix.Fremovexattr(fd, accessList)
	}
	for name := range strings.SplitSeq(strings.TrimRight(list, "\x00"), "\x00") {
		if name == "" || ofTheText[name] {
			continue
		}
		value, has := make([]byte, mostAttributes), make([]byte, mostAttributes)
		size, err := unix.Getxattr(of, name, value)
		value = value[:max(size, 0)]
		if err == nil && narrow && name == accessList {
			narrowGroup(value)
		}
		if err == nil {
			err = unix.Fsetxattr(fd, name, value, 0)
		}
		if err != nil {
			// The system may have given the new file the same of its own accord, such as a label.
			size, got := unix.Fgetxattr(fd, name, has)
			if got != nil || !bytes.Equal(has[:max(size, 0)], value) {
				lost = append(lost, name)
			}
		}
	}
	return lost
}

// narrowGroup gives the file's own group in an access list no more than everybody. The
// list is as in the kernel's posix_acl_xattr.h: a version, then for each entry a tag,
// permissions and a number.
func narrowGroup(list []byte) {
	const head, entry, ownGroup, others = 4, 8, 0x04, 0x20
	all := uint16(0)
	for at := head; at+entry <= len(list); at += entry {
		if binary.LittleEndian.Uint16(list[at:]) == others {
			all = binary.LittleEndian.Uint16(list[at+2:])
		}
	}
	for at := head; at+entry <= len(list); at += entry {
		if binary.LittleEndian.Uint16(list[at:]) == ownGroup {
			may := binary.LittleEndian.Uint16(list[at+2:])
			binary.LittleEndian.PutUint16(list[at+2:], may&all)
		}
	}
}
