package savefile

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"
)

// asOther names the file that a run of this test as another user saves over.
const asOther = "SKEP_TEST_SAVE_AS_OTHER"

// savedByOther saves over a file as a user who has neither its owner nor its group, and
// returns what that save says that it could not keep.
func savedByOther(t *testing.T, path string) string {
	t.Helper()
	if os.Getuid() != 0 {
		t.Skip("only root can become another user")
	}
	folder := filepath.Dir(path)
	for _, f := range []string{folder, filepath.Dir(folder)} {
		if err := os.Chmod(f, 0o777); err != nil { //nolint:gosec // the other user is to write there
			t.Fatal(err)
		}
	}
	own, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	program, err := os.ReadFile(own)
	if err != nil {
		t.Fatal(err)
	}
	copied := filepath.Join(folder, "savefile.test") // the build's folder is closed to others
	if err := os.WriteFile(copied, program, 0o755); err != nil {
		t.Fatal(err)
	}
	const nobody = 65534
	cmd := exec.Command(copied, "-test.run=^TestSaveAsOther$")
	cmd.Dir = folder
	cmd.Env = append(os.Environ(), asOther+"="+path)
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	said, _, _ := strings.Cut(string(out), "\n")
	return said
}

// TestSaveAsOther is what savedByOther runs.
func TestSaveAsOther(t *testing.T) {
	path := os.Getenv(asOther)
	if path == "" {
		t.Skip("run by other tests, as another user")
	}
	lost, err := WriteOver(path, []byte("new"))
	if err != nil {
		t.Fatal(err)
	}
	fmt.Println(lost.Of("it"))
}

// A design of another's that one may write: owner, group, and an attribute that only the
// administrator may set, can't be kept; the save says so, and opens the file to nobody.
func TestASaveSaysWhatItCouldNotKeep(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "brew.toml")
	put(t, path, []byte("old"))
	if err := os.Chown(path, 0, 12345); err != nil {
		t.Skipf("only root can hand a file on: %v", err)
	}
	list := accessListOf([3]uint32{0x01, 6, ^uint32(0)}, [3]uint32{0x02, 6, 65534}, [3]uint32{0x04, 6, ^uint32(0)}, [3]uint32{0x10, 6, ^uint32(0)}, [3]uint32{0x20, 4, ^uint32(0)})
	if err := errors.Join(unix.Setxattr(path, accessList, list, 0), unix.Setxattr(path, "security.brewery", []byte("ours"), 0),
		unix.Setxattr(path, "user.comment", []byte("mild"), 0)); err != nil {
		t.Skipf("no attributes here: %v", err)
	}
	const want = "it is saved, but this could not be kept: its owner, who is now whoever saved it; its group, without which the group's rights are everybody's; its attribute security.brewery"
	if said := savedByOther(t, path); said != want {
		t.Errorf("the save says %q,\nwant %q", said, want)
	}
	mustHold(t, path, []byte("new"))
	value := make([]byte, 1000)
	if n, err := unix.Getxattr(path, "user.comment", value); err != nil || string(value[:n]) != "mild" {
		t.Errorf("the comment is %q (%v)", value[:max(n, 0)], err)
	}
	// Whoever is in the new group may do what everybody may: the file's own group in the
	// list reads only, as everybody does.
	n, err := unix.Getxattr(path, accessList, value)
	if err != nil {
		t.Fatal(err)
	}
	for at := 4; at+8 <= n; at += 8 {
		if tag, may := binary.LittleEndian.Uint16(value[at:]), binary.LittleEndian.Uint16(value[at+2:]); tag == 0x04 && may != 4 {
			t.Errorf("another group got the rights %o", may)
		}
	}
}

// Without an access list the mode alone says what a group may.
func TestALostGroupOpensAFileToNoOther(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "brew.toml")
	put(t, path, []byte("old"))
	if err := errors.Join(os.Chown(path, 65534, 12345), os.Chmod(path, 0o660)); err != nil {
		t.Skipf("only root can hand a file on: %v", err)
	}
	if said := savedByOther(t, path); !strings.Contains(said, "its group") || strings.Contains(said, "owner") {
		t.Errorf("the save says %q", said)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the mode is %v (%v), which lets another group in", info.Mode(), err)
	}
}

// accessListOf is an access list as in the kernel's posix_acl_xattr.h: version 2, then
// tag, permissions and number of each entry.
func accessListOf(entries ...[3]uint32) []byte {
	list := binary.LittleEndian.AppendUint32(nil, 2)
	for _, e := range entries {
		list = binary.LittleEndian.AppendUint16(list, uint16(e[0]))
		list = binary.LittleEndian.AppendUint16(list, uint16(e[1]))
		list = binary.LittleEndian.AppendUint32(list, e[2])
	}
	return list
}

// refusingDisk is a disk whose new files take no attribute.
type refusingDisk struct{ osDisk }

type refusingFile struct {
	file
	real *os.File
}

func (d refusingDisk) create(p string, m fs.FileMode) (file, error) {
	f, err := d.osDisk.create(p, m)
	if err != nil {
		return nil, err
	}
	return refusingFile{f, f.(osFile).File}, nil
}

// keepAttributes copies them to a file that is only open to be read by number, which
// no system sets an attribute of.
func (f refusingFile) keepAttributes(of string, narrow bool) []string {
	number, err := unix.Open(f.real.Name(), unix.O_PATH, 0)
	if err != nil {
		return []string{err.Error()}
	}
	to := os.NewFile(uintptr(number), f.real.Name())
	defer to.Close()
	return keepAttributes(to, of, narrow)
}

// A disk that refuses attributes loses them, not the save.
func TestADiskThatRefusesAttributes(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "brew.toml")
	put(t, path, []byte("old"))
	names := []string{"user.comment", "user.shelf"}
	for _, name := range names {
		if err := unix.Setxattr(path, name, []byte("ours"), 0); err != nil {
			t.Skipf("no extended attributes here: %v", err)
		}
	}
	lost, err := write(refusingDisk{}, path, []byte("new"))
	if err != nil {
		t.Fatal(err)
	}
	if got := lost.Of("it").String(); got != "it is saved, but this could not be kept: its attribute user.comment; its attribute user.shelf" {
		t.Errorf("the save says %q", got)
	}
	mustHold(t, path, []byte("new"))
	lost.Attributes = append(lost.Attributes, "user.a", "user.b\x1b[2J")
	if got := lost.Of("it").String(); got != "it is saved, but this could not be kept: 4 attributes" {
		t.Errorf("many are said as %q", got)
	}
	lost.Attributes = []string{"user.b\x1b[2J", accessList}
	if got := lost.Of("it").String(); got != "it is saved, but this could not be kept: its attribute user.b?[2J; its access list" {
		t.Errorf("a name with an escape in it is said as %q", got)
	}
}

// Of two hard links one has the new text, and the save says so.
func TestAPartedLinkIsSaid(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	path, other := filepath.Join(folder, "brew.toml"), filepath.Join(folder, "other.toml")
	put(t, path, []byte("old"))
	if err := os.Link(path, other); err != nil {
		t.Skipf("no hard links here: %v", err)
	}
	lost, err := WriteOver(path, []byte("new"))
	if got := lost.Of("it").String(); err != nil || got != "it is saved, but this could not be kept: 1 other hard link, which has the old text" {
		t.Errorf("the save says %q (%v)", got, err)
	}
	mustHold(t, other, []byte("old"))
	if lost, err := WriteOver(path, []byte("newer")); err != nil || !lost.None() {
		t.Errorf("the next save says %q (%v)", lost.Of("it"), err)
	}
}
