package brew

import (
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"skep/calc/brewday"
)

func TestTheDrawerScalesInOneStep(t *testing.T) {
	s := brewStage(t)
	k := s.brew.openKit("kit.fermenter_l")
	if f := s.Window().Canvas().Focused(); f != fyne.Focusable(k.fields["kit.fermenter_l"]) {
		t.Errorf("the keyboard is at %T", f)
	}
	k.scale()
	if k.told.Text == "" || s.Editor.Touched() {
		t.Error("nothing typed, and yet it did not ask")
	}
	k.volume.SetText("300 L")
	k.scale()
	if !strings.Contains(k.told.Text, "200") || s.Editor.Touched() {
		t.Errorf("300 L is answered with %q", k.told.Text)
	}
	k.volume.SetText("25")
	k.scale()
	s.Settle()
	if got := s.Design().Batch.IntoFermenterL; got != 25 {
		t.Errorf("scaled to %v L", got)
	}
	s.Undo()
	if s.Editor.Touched() {
		t.Error("scaling took more than one step of undo")
	}
	s.typeInto(k.fields["kit.vessel_l"], "10")
	if got := s.Design().Kit.VesselL; got != 10 {
		t.Errorf("the vessel holds %v L", got)
	}
	s.Settle()
	if c := s.card(brewday.MashIn); c.warnings.n == 0 && s.card(brewday.Boil).warnings.n == 0 {
		t.Error("a vessel of 10 L for 15 L of beer draws no warning")
	}
}

func TestPrintMakesTheSheetAndSaysWhereItIs(t *testing.T) {
	s := brewStage(t)
	d := s.brew.newPrint()
	d.show()
	path := filepath.Join(t.TempDir(), "the day.pdf")
	d.path.SetText(path)
	var opened *url.URL
	d.open = func(u *url.URL) error { opened = u; return nil }
	test.Tap(d.print)
	src, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(src), "%PDF-") {
		t.Fatalf("no PDF at %s: %v", path, err)
	}
	if opened == nil || opened.Path != path {
		t.Errorf("opened %v", opened)
	}
	d.open = func(*url.URL) error { return os.ErrNotExist }
	test.Tap(d.print)
	if !strings.Contains(d.told.Text, path) || !d.copy.Visible() {
		t.Errorf("with no viewer it says %q", d.told.Text)
	}
	test.Tap(d.copy)
	if got := s.App.Clipboard().Content(); got != path {
		t.Errorf("the clipboard has %q", got)
	}
	// Without a path: a private folder, a speaking name.
	t.Setenv("TMPDIR", t.TempDir())
	d.path.SetText("")
	test.Tap(d.print)
	if filepath.Base(d.made) != "Gate Field Midsummer brew sheet.pdf" {
		t.Errorf("made %s", d.made)
	}
	if info, err := os.Stat(filepath.Dir(d.made)); err != nil || info.Mode().Perm() != 0o700 {
		t.Errorf("its folder: %v %v", info, err)
	}
	d.path.SetText(filepath.Join(t.TempDir(), "no", "such", "folder.pdf"))
	test.Tap(d.print)
	if !strings.Contains(d.told.Text, "No sheet was made") {
		t.Errorf("a folder that is not there is answered with %q", d.told.Text)
	}
}
