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

// A field of the vessel shows the new value once it is taken; one that is refused says
// so beside itself and at the foot, and both are taken back with it.
func TestAFieldSaysWhatHolds(t *testing.T) {
	s := brewStage(t)
	k := s.brew.openKit("kit.vessel_l")
	f := k.fields["kit.heater_w"]
	s.typeInto(f, "1.6 kW")
	if s.Design().Kit.HeaterW != 1600 || f.Text != s.Say().KeyText("kit.heater_w", "1600") {
		t.Errorf("the heater has %v W, its field says %q", s.Design().Kit.HeaterW, f.Text)
	}
	s.typeInto(f, "900 kW")
	if k.note.Text == "" || !s.Bad() || f.Text != "900 kW" {
		t.Errorf("900 kW: beside the field %q, at the foot %q, in it %q", k.note.Text, s.Said(), f.Text)
	}
	s.Window().Canvas().Focus(f)
	s.Key(fyne.KeyEscape, false)
	if k.note.Text != "" || s.Bad() || f.Text != f.Rest {
		t.Errorf("after Escape: beside the field %q, at the foot %q, in it %q", k.note.Text, s.Said(), f.Text)
	}
	s.Key(fyne.KeyEscape, false)
	if s.Window().Canvas().Overlays().Top() != nil {
		t.Error("a second Escape does not close the drawer")
	}
}

// The line of the day is one stop of Tab, and the fields follow each other.
func TestTabGoesFromFieldToField(t *testing.T) {
	s := brewStage(t)
	s.Place.FocusFirst()
	seen := 0
	for range 12 {
		if _, ok := s.Window().Canvas().Focused().(*spineItem); ok {
			seen++
		}
		s.Window().Canvas().FocusNext()
	}
	if seen != 1 {
		t.Errorf("Tab stops %d times on the line", seen)
	}
	s.brew.goToStep(0)
	s.Place.FocusFirst()
	s.Key(fyne.KeyDown, false)
	if i, ok := s.Window().Canvas().Focused().(*spineItem); !ok || i.at != 1 {
		t.Errorf("Down leads to %T", s.Window().Canvas().Focused())
	}
}
