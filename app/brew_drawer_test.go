package app

import (
	"math"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/reckon"
)

// Twice the volume: the same proportions within the grain bill, the same
// strength and bitterness, and less than twice the grain, as what the kit keeps
// back does not double.
func TestScalingKeepsProportions(t *testing.T) {
	s := brewStage(t)
	e := calc.NewEngine()
	for _, c := range []struct {
		name     string
		intoL    float64
		strength float64
	}{{"double", 30, 0}, {"small", 6, 0}, {"stronger", 15, 7.5}, {"both", 40, 3.5}} {
		d := s.editor.Design()
		d.Hop = append(d.Hop, design.Hop{Name: "late", AlphaPct: 4, MassG: 20, When: "whirlpool"})
		before, err := e.Predict(d)
		if err != nil {
			t.Fatal(err)
		}
		out, err := scaled(e, d, c.intoL, c.strength)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		after, err := e.Predict(out)
		if err != nil {
			t.Fatal(err)
		}
		want := c.strength
		if want == 0 {
			want = before.StrengthPct.Mid
		}
		if math.Abs(after.StrengthPct.Mid-want) > 0.02 {
			t.Errorf("%s: %.3f %%, want %.3f", c.name, after.StrengthPct.Mid, want)
		}
		if math.Abs(after.BitternessIBU.Mid-before.BitternessIBU.Mid) > 0.1 {
			t.Errorf("%s: %.2f IBU, was %.2f", c.name, after.BitternessIBU.Mid, before.BitternessIBU.Mid)
		}
		k := out.Grain[0].MassKg / d.Grain[0].MassKg
		for what, got := range map[string]float64{
			"second grain": out.Grain[1].MassKg / d.Grain[1].MassKg, "honey": out.Honey[0].MassKg / d.Honey[0].MassKg,
		} {
			if math.Abs(got/k-1) > 2e-3 {
				t.Errorf("%s: the %s grew by %.4f, the first grain by %.4f", c.name, what, got, k)
			}
		}
		if h := out.Hop[1].MassG / d.Hop[1].MassG; math.Abs(h/(out.Hop[0].MassG/d.Hop[0].MassG)-1) > 2e-3 {
			t.Errorf("%s: hops out of proportion", c.name)
		}
		if ratio := c.intoL / d.Batch.IntoFermenterL; c.name == "double" && !(k < ratio && k > 0.8*ratio) {
			t.Errorf("grain grew by %.3f for %.1f times the volume", k, ratio)
		}
		if out.Mash.Rest[0] != d.Mash.Rest[0] || out.Kit != d.Kit || out.Boil != d.Boil {
			t.Errorf("%s: temperatures, times or the kit changed", c.name)
		}
	}
}

func TestTheDrawerScalesInOneStep(t *testing.T) {
	s := brewStage(t)
	k := s.brew.openKit("kit.fermenter_l")
	if f := s.window.Canvas().Focused(); f != fyne.Focusable(k.fields["kit.fermenter_l"]) {
		t.Errorf("the keyboard is at %T", f)
	}
	k.scale()
	if k.told.Text == "" || s.editor.Touched() {
		t.Error("nothing typed, and yet it did not ask")
	}
	k.volume.SetText("300 L")
	k.scale()
	if !strings.Contains(k.told.Text, "200") || s.editor.Touched() {
		t.Errorf("300 L is answered with %q", k.told.Text)
	}
	k.volume.SetText("25")
	k.scale()
	s.settle()
	if got := s.editor.Design().Batch.IntoFermenterL; got != 25 {
		t.Errorf("scaled to %v L", got)
	}
	s.undo()
	if s.editor.Touched() {
		t.Error("scaling took more than one step of undo")
	}
	s.typeInto(k.fields["kit.vessel_l"], "10")
	if got := s.editor.Design().Kit.VesselL; got != 10 {
		t.Errorf("the vessel holds %v L", got)
	}
	s.settle()
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
	if got := s.app.Clipboard().Content(); got != path {
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

// The drawer says what `skep reckon` says: both ask package reckon.
func TestCalculationsAnswerWhileOneTypes(t *testing.T) {
	s := brewStage(t)
	r := s.brew.newReckon()
	for _, c := range reckon.List() {
		r.show(c)
		if r.wrong.Text != "" {
			t.Errorf("%s opens with %q", c.Name, r.wrong.Text)
		}
		if top := s.window.Canvas().Overlays().Top(); top.Size().Height > 800 {
			t.Errorf("%s: the drawer is %v high", c.Name, top.Size().Height)
		}
	}
	entry := func(key string) *noteEntry {
		for i, f := range r.at.In {
			if f.Key == key {
				return r.fields.Objects[2*i+1].(*noteEntry)
			}
		}
		t.Fatalf("no field %s", key)
		return nil
	}
	for _, c := range reckon.List() {
		if c.Name == "plato" {
			r.show(c)
		}
	}
	entry("sg").SetText("1.040")
	// 1.0400 is 9.99 °P in the extract tables (design notes, checks 1a).
	if !strings.Contains(r.results.Text, "9.99") {
		t.Errorf("1.040 is %q", r.results.Text)
	}
	entry("sg").SetText("2")
	if !(r.wrong.Text != "") || !strings.Contains(r.wrong.Text, "outside") || r.results.Text != "" {
		t.Errorf("2 is answered with %q and %q", r.wrong.Text, r.results.Text)
	}
}
