package savefile

import (
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/sys/unix"
)

// A save is a new file in the old one's place, and looks like the old one.
func TestASaveKeepsGroupAndAttributes(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "brew.toml")
	if err := os.WriteFile(path, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	if err := unix.Setxattr(path, "user.comment", []byte("ours"), 0); err != nil {
		t.Skipf("no extended attributes here: %v", err)
	}
	const group = 12345
	grouped := os.Chown(path, -1, group) == nil
	if err := Write(path, []byte("new")); err != nil {
		t.Fatal(err)
	}
	value := make([]byte, 100)
	if n, err := unix.Getxattr(path, "user.comment", value); err != nil || string(value[:n]) != "ours" {
		t.Errorf("the comment is %q (%v)", value[:max(n, 0)], err)
	}
	var st unix.Stat_t
	if err := unix.Stat(path, &st); err != nil || grouped && st.Gid != group || st.Mode&0o777 != 0o640 {
		t.Errorf("group %d, mode %o (%v)", st.Gid, st.Mode&0o777, err)
	}
}

// A folder's default access list is for new files: a design that had no list of its own
// is not opened to anybody by being saved.
func TestASaveLetsNobodyElseIn(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	path := filepath.Join(folder, "brew.toml")
	if err := os.WriteFile(path, []byte("old"), 0o640); err != nil {
		t.Fatal(err)
	}
	list := accessListOf([3]uint32{0x01, 6, ^uint32(0)}, [3]uint32{0x02, 6, 12345}, [3]uint32{0x04, 4, ^uint32(0)}, [3]uint32{0x10, 6, ^uint32(0)}, [3]uint32{0x20, 0, ^uint32(0)})
	if err := unix.Setxattr(folder, "system.posix_acl_default", list, 0); err != nil {
		t.Skipf("no access lists here: %v", err)
	}
	if err := Write(path, []byte("new")); err != nil {
		t.Fatal(err)
	}
	if n, err := unix.Getxattr(path, accessList, make([]byte, 1000)); err == nil {
		t.Errorf("the saved file has an access list of %d bytes, the old one had none", n)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("mode %v (%v)", info.Mode(), err)
	}
}
