package recovery_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"skep/app/editor"
	"skep/calc/design"
	"skep/calc/design/file"
)

// smallVariable names the mounted small disk to the process that works on it.
const smallVariable = "SKEP_SMALL_DISK"

// A disk that is really small: it fills up, becomes read-only, and works again.
// It is mounted where no other process sees it, which takes root.
func TestSmallDisk(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	const mount = `mount -t tmpfs -o size=128k,mode=700 skep-test "$` + smallVariable + `"`
	if out, err := exec.Command("unshare", "--mount", "sh", "-c", "true").CombinedOutput(); err != nil {
		t.Skipf("no private mounts here: %v %s", err, out)
	}
	cmd := exec.Command("unshare", "--mount", "sh", "-c", mount+` && exec "$0"`, os.Args[0])
	cmd.Env = append(os.Environ(), smallVariable+"="+dir)
	out, err := cmd.CombinedOutput()
	if strings.Contains(string(out), "mount:") && strings.Contains(string(out), "permission denied") {
		t.Skipf("no mounting here: %s", out)
	}
	if err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

// onSmallDisk runs in the process that sees the small disk.
func onSmallDisk(dir string) (code int) {
	fail := func(format string, a ...any) {
		fmt.Printf(format+"\n", a...)
		code = 1
	}
	if err := os.Mkdir(filepath.Dir(fileIn(dir)), 0o700); err != nil {
		fail("%v", err)
	}
	if err := os.WriteFile(fileIn(dir), firstFile(), 0o600); err != nil {
		fail("%v", err)
	}
	e, err := editor.New("", firstFile())
	if err != nil {
		fail("%v", err)
		return code
	}
	told := make(chan error, 100)
	k := editor.NewKeeper(e, store(dir), func(err error) { told <- err })
	if _, err := e.Open(fileIn(dir)); err != nil {
		fail("%v", err)
	}
	doc, _ := file.Parse("", firstFile())
	first := doc.Design
	n := 0
	change := func() {
		n++
		if err := e.Change("a change", "", func(d *design.Design) { *d = version(n, first) }); err != nil {
			fail("the program does not go on: %v", err)
		}
	}
	hear := func(when, want string) {
		select {
		case err := <-told:
			if got := fmt.Sprint(err); !strings.Contains(got, want) {
				fail("%s: heard %q, want %q", when, got, want)
			}
		case <-time.After(5 * time.Second):
			fail("%s: heard nothing, want %q", when, want)
		}
	}
	silent := func(when string) {
		select {
		case err := <-told:
			fail("%s: heard %v", when, err)
		default:
		}
	}
	change()
	if err := k.Flush(); err != nil {
		fail("%v", err)
	}
	silent("on a sound disk")

	filler := filepath.Join(dir, "filler")
	f, err := os.Create(filler)
	for chunk := make([]byte, 1024); err == nil; { // until there is no room
		_, err = f.Write(chunk)
	}
	_ = f.Close()
	for range 30 { // of these some may still fit into the last page
		change()
		_ = k.Flush()
	}
	hear("on a full disk", "the disk is full")
	silent("on a disk that stays full")
	if err := k.Save(); err == nil || !strings.Contains(err.Error(), "the disk is full") {
		fail("saved to a full disk: %v", err)
	}
	if src, err := os.ReadFile(fileIn(dir)); err != nil || !bytes.Equal(src, firstFile()) {
		fail("a save to a full disk touched the file (%v)", err)
	}
	if err := os.Remove(filler); err != nil {
		fail("%v", err)
	}
	hear("with room again", "<nil>")

	remount := func(how string) {
		if out, err := exec.Command("mount", "-o", "remount,"+how, dir).CombinedOutput(); err != nil {
			fail("%v %s", err, out)
		}
	}
	if err := k.Save(); err != nil { // no file is open, which would hinder
		fail("%v", err)
	}
	if err := k.Flush(); err != nil {
		fail("%v", err)
	}
	saved := n
	remount("ro")
	change()
	hear("on a read-only disk", "the disk is read-only")
	if err := k.Save(); err == nil || !strings.Contains(err.Error(), "the disk is read-only") {
		fail("saved to a read-only disk: %v", err)
	}
	remount("rw")
	hear("on a disk that can be written again", "<nil>")
	silent("in the end")
	if err := k.Close(false); err != nil {
		fail("%v", err)
	}
	all, err := store(dir).Left()
	if err != nil || len(all) != 1 {
		fail("left: %v, %v", all, err)
		return code
	}
	if doc, _ := file.Parse("", all[0].Text); !doc.Design.Equal(version(n, first)) {
		fail("what is left is not version %d", n)
	}
	if src, _ := os.ReadFile(fileIn(dir)); !bytes.Contains(src, []byte(fmt.Sprintf("%q", version(saved, first).Title))) {
		fail("the file is not version %d", saved)
	}
	return code
}
