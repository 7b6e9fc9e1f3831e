package yeasts

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"skep/app/compare"
	"skep/app/ui"
	"skep/app/ui/picker"
	"skep/app/userfile"
	"skep/calc/design"
	"skep/calc/quantity"
)

func jar(i int) design.Yeast {
	y := design.NewYeast()
	y.Name, y.AttenuationLowPct, y.AttenuationHighPct = fmt.Sprintf("Jar %03d", i), 66, 72
	return y
}

// picker is the drawer of strains before it is shown.
func (s *yeastsScene) picker() (p *picker.Picker) {
	s.Offers(func(list []userfile.Offer, err error) { p = s.yeasts.newPicker(list, err) })
	return p
}

func TestThePickerOffersOnesOwnAndTheCatalogue(t *testing.T) {
	s := yeastsStage(t)
	if err := userfile.AddStrain(s.StrainsFile, jar(7), design.About{Note: "from the shelf"}); err != nil {
		t.Fatal(err)
	}
	p := s.picker()
	if len(p.Found) != 1+len(s.Catalogue().Yeast) || p.Found[0].Name != "Jar 007" || p.Found[0].Note != "your own; from the shelf" {
		t.Fatalf("offers %+v", p.Found)
	}
	p.Search.SetText("SHELF jar")
	if len(p.Found) != 1 {
		t.Fatalf("found %+v", p.Found)
	}
	p.Search.SetText("no such thing")
	if len(p.Found) != 0 {
		t.Errorf("found %+v", p.Found)
	}
	p.Search.OnSubmitted("") // nothing to take: nothing happens
	p.Search.SetText("jar")
	p.Search.OnSubmitted("jar")
	s.WaitIdle()
	s.want(t, "rows", s.rowNames(), "Clean ale", "English ale", "Belgian abbey", "Jar 007")
	if r, ok := s.Window().Canvas().Focused().(*strainRow); !ok || r.name.Text != "Jar 007" {
		t.Errorf("the focus is not on the new row")
	}
}

// A broken file is named with its line and skipped; the catalogue is offered
// all the same, and the file stays as it is.
func TestABrokenOwnFileIsSaidAndSkipped(t *testing.T) {
	s := yeastsStage(t)
	const src = "# mine\n[[yeast]]\nname = \"A\"\nattenuation_low_pct = 700\nattenuation_high_pct = 75\n"
	if err := os.WriteFile(s.StrainsFile, []byte(src), 0o644); err != nil {
		t.Fatal(err)
	}
	var list []userfile.Offer
	var err error
	s.Offers(func(l []userfile.Offer, e error) { list, err = l, e })
	if len(list) != len(s.Catalogue().Yeast) || err == nil || !strings.Contains(err.Error(), s.StrainsFile+":4: ") {
		t.Errorf("%d offers, %v", len(list), err)
	}
	s.yeasts.keepOwn(jar(1))
	if got, _ := os.ReadFile(s.StrainsFile); string(got) != src || !s.Bad() {
		t.Errorf("keeping one made the broken file %q and said %q", got, s.Status.Text())
	}
}

// 500 strains of one's own: opening and each letter of a search stay under a
// tenth of a second (Miller 1968, by way of the design notes, C5).
func TestFiveHundredOwnStrainsStayQuick(t *testing.T) {
	s := yeastsStage(t)
	var b strings.Builder
	for i := range 500 {
		fmt.Fprintf(&b, "[[yeast]]\nname = \"Jar %03d\"\nattenuation_low_pct = 66\nattenuation_high_pct = 72\n", i)
	}
	if err := os.WriteFile(s.StrainsFile, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	opening, letter := time.Hour, time.Hour
	for range 3 { // the best of three: another test may have the processor
		start := time.Now()
		p := s.picker()
		p.Show()
		opening = min(opening, time.Since(start))
		start = time.Now()
		p.Search.SetText("jar 49")
		letter = min(letter, time.Since(start))
		// 490 to 499, and 49 at the end of the other four hundreds and of 049.
		if len(p.Found) != 10+5 {
			t.Fatalf("%d", len(p.Found))
		}
		p.Hide()
	}
	t.Logf("opening %v, a letter %v", opening, letter)
	if opening > 100*time.Millisecond || letter > 100*time.Millisecond {
		t.Errorf("opening %v, a letter %v", opening, letter)
	}
}

func TestTheFormReadsAndRefuses(t *testing.T) {
	s := yeastsStage(t)
	set := func(f *strainForm, fields ...string) {
		for i, e := range []*ui.Entry{f.name, f.attenuation, f.temperature, f.cells} {
			e.SetText(fields[i])
		}
	}
	for name, c := range map[string]struct {
		fields []string
		want   string
	}{
		"no name":        {[]string{" ", "70–75 %", "19 °C", "9"}, "name"},
		"no range":       {[]string{"A", "sweet", "19 °C", "9"}, "attenuation"},
		"too much":       {[]string{"A", "70–175 %", "19 °C", "9"}, "attenuation"},
		"too cold":       {[]string{"A", "70–75 %", "-3 °C", "9"}, "temperature"},
		"no cells":       {[]string{"A", "70–75 %", "19 °C", "plenty"}, "cells"},
		"no finite cell": {[]string{"A", "70–75 %", "19 °C", "NaN"}, "cells"},
		"none at all":    {[]string{"A", "70–75 %", "19 °C", "0"}, "cells"},
	} {
		f := s.yeasts.newForm(-1)
		f.dialog.Show()
		set(f, c.fields...)
		f.done()
		if !strings.Contains(f.wrong.Text, c.want) {
			t.Errorf("%s: %q, want %q in it", name, f.wrong.Text, c.want)
		}
		f.dialog.Hide()
	}
	if len(s.strainNames()) != 3 {
		t.Fatal("a refused strain was added")
	}

	f := s.yeasts.newForm(-1)
	f.dialog.Show()
	set(f, "Hedge row", "70 to 84", "68 F", "7,5")
	f.done()
	s.WaitIdle()
	d := s.Design()
	want := design.NewYeast()
	want.Name, want.AttenuationLowPct, want.AttenuationHighPct, want.TemperatureC, want.CellsBillionPerL = "Hedge row", 70, 84, 20, 7.5
	if got := d.Yeast[len(d.Yeast)-1]; got != want {
		t.Errorf("added %+v, want %+v", got, want)
	}
	own, err := userfile.LoadStrains(s.StrainsFile)
	if err != nil || len(own) != 1 || own[0].Yeast != want {
		t.Errorf("kept %+v, %v", own, err)
	}

	// The same name again: refused by the file, said in the form, nothing added.
	f = s.yeasts.newForm(-1)
	f.dialog.Show()
	set(f, "hedge ROW", "70 to 84", "20 °C", "9")
	f.done()
	if !strings.Contains(f.wrong.Text, "already") || len(s.strainNames()) != 4 {
		t.Errorf("%q, %v", f.wrong.Text, s.strainNames())
	}
	f.keep.SetChecked(false)
	f.done()
	if len(s.strainNames()) != 5 {
		t.Error("without keeping it, it should be added")
	}

	// Changing the figures of one that stands there.
	f = s.yeasts.newForm(1)
	f.dialog.Show()
	f.attenuation.SetText("60–66 %")
	f.done()
	s.WaitIdle()
	if y := s.Design().Yeast[1]; y.Name != "English ale" || y.AttenuationLowPct != 60 || y.AttenuationHighPct != 66 {
		t.Errorf("changed to %+v", y)
	}
}

// What the form says of maltotriose agrees with the design notes, section 3
// (derived there from the reference wort): no maltotriose at 69 % apparent, all
// of it at 84 %, and past that only dextrin is left. Our reference wort puts
// the ends a point or two elsewhere, so the ranges here stand well inside.
func TestWhatARangeMeans(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		low, high float64
		dextrin   bool
		want      []string
		not       string
	}{
		{60, 64, false, []string{"none of the maltotriose", "none of the dextrin"}, "tick"},
		{72, 80, false, []string{"% of the maltotriose", "none of the dextrin"}, "tick"},
		{90, 96, true, []string{"all of the maltotriose", "% of the dextrin"}, "tick"},
		{90, 96, false, []string{"all of the maltotriose", "tick the box"}, "none of the dextrin"},
	} {
		y := design.NewYeast()
		y.AttenuationLowPct, y.AttenuationHighPct, y.EatsDextrin = c.low, c.high, c.dextrin
		got := takesInWords(y)
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%v to %v: %q, want %q", c.low, c.high, got, want)
			}
		}
		if strings.Contains(got, c.not) {
			t.Errorf("%v to %v: %q has %q", c.low, c.high, got, c.not)
		}
	}
}

func TestCopyAndSave(t *testing.T) {
	s := yeastsStage(t)
	s.yeasts.copyText()
	text := s.App.Clipboard().Content()
	lines := strings.Split(strings.TrimSpace(text), "\n")
	if lines[0] != "Gate Field Midsummer" || len(lines) != 3+1+2*3 {
		t.Fatalf("copied\n%s", text)
	}
	for i, r := range s.yeasts.table.rows[:3] {
		upper, lower := lines[4+2*i], lines[5+2*i]
		if !strings.HasPrefix(upper, r.name.Text+" ") {
			t.Errorf("line %q is not of %s", upper, r.name.Text)
		}
		for _, c := range r.cells {
			if !strings.Contains(upper, c.mid.Text) || !strings.Contains(upper, c.difference.Text) || !strings.Contains(lower, c.band.Text) {
				t.Errorf("%q, %q lack %q, %q, %q", upper, lower, c.mid.Text, c.difference.Text, c.band.Text)
			}
		}
	}
	// The window's CSV is byte for byte the command's (see compare.txtar).
	path := filepath.Join(t.TempDir(), "side.csv")
	s.yeasts.saveCSV()
	overlay := s.Window().Canvas().Overlays().Top()
	entry, save := dialogParts(overlay)
	if entry == nil || save == nil || !strings.HasSuffix(entry.Text, "gate-field-midsummer-yeasts.csv") {
		t.Fatalf("the dialog's entry is %v", entry)
	}
	entry.SetText(strings.TrimSuffix(path, ".csv"))
	save.OnTapped()
	got, err := os.ReadFile(path)
	if err != nil || string(got) != string(compare.CSV(s.yeasts.compared())) {
		t.Errorf("saved %q, %v", got, err)
	}
}

// dialogParts finds the field and the main button of a dialog.
func dialogParts(o fyne.CanvasObject) (entry *ui.Entry, main *ui.Button) {
	walkAll(o, func(o fyne.CanvasObject) {
		switch w := o.(type) {
		case *ui.Entry:
			entry = w
		case *ui.Button:
			if w.Importance == widget.HighImportance {
				main = w
			}
		}
	})
	return entry, main
}

func walkAll(o fyne.CanvasObject, see func(fyne.CanvasObject)) {
	see(o)
	switch c := o.(type) {
	case *fyne.Container:
		for _, child := range c.Objects {
			walkAll(child, see)
		}
	case fyne.Widget:
		for _, child := range test.WidgetRenderer(c).Objects() {
			walkAll(child, see)
		}
	}
}

// Nothing in the place is cut off or lies on another thing, with six strains,
// at both sizes, in the units with the longest numbers.
func TestNothingIsCutOffInTheYeastsPlace(t *testing.T) {
	s := yeastsStage(t)
	ui.Change(s, "six", func(d *design.Design) {
		wild := d.Yeast[0]
		wild.Name, wild.AttenuationLowPct, wild.AttenuationHighPct, wild.EatsDextrin = "Saison, diastatic", 85, 95, true
		cold := d.Yeast[0]
		cold.Name, cold.TemperatureC = "No-maltotriose ale", 8
		d.Yeast = append(d.Yeast, wild, cold, jar(1))
	})
	for _, units := range []quantity.Units{{}, {Temperature: quantity.F, Gravity: quantity.Plato, DecimalComma: true}} {
		s.Prefs.Units = units
		s.SetUnits()
		for _, size := range []fyne.Size{{Width: 1280, Height: 800}, {Width: 1024, Height: 700}} {
			s.Window().Resize(size)
			s.Changed()
			s.WaitIdle()
			for i, r := range s.yeasts.table.rows {
				if !r.Visible() || r.Size().Height < 33 {
					t.Fatalf("%v: row %d is %v", size, i, r.Size())
				}
				at := s.App.Driver().AbsolutePositionForObject(r)
				if at.X < 0 || at.X+r.Size().Width > size.Width || at.Y+r.Size().Height > size.Height-ui.FootHeight {
					t.Errorf("%v: row %d at %v, %v leaves its place", size, i, at, r.Size())
				}
				captions := []*ui.Caption{r.name}
				for _, c := range r.cells {
					captions = append(captions, c.mid, c.difference, c.band)
				}
				for _, c := range captions {
					need := fyne.MeasureText(c.Text, c.TextSize, fyne.TextStyle{Bold: c.Bold}).Width
					if need > c.Size().Width+0.5 {
						t.Errorf("%v, %v: %q needs %v and has %v", units, size, c.Text, need, c.Size().Width)
					}
				}
			}
			heads := s.yeasts.table.heads
			for i := 1; i < len(heads); i++ {
				if end := heads[i-1].Position().X + heads[i-1].Size().Width; end > heads[i].Position().X+1 {
					t.Errorf("%v: the head %q runs into %q", size, heads[i-1].Text, heads[i].Text)
				}
			}
			note := s.yeasts.table.note
			if end := note.Position().X + note.Size().Width; end > s.yeasts.table.add.Position().X {
				t.Errorf("%v: the note ends at %v", size, end)
			}
		}
	}
}

func TestTheYeastsPlaceIsNamedForScreenReaders(t *testing.T) {
	s := yeastsStage(t)
	n := 0
	walkAll(s.yeasts.Object(), func(o fyne.CanvasObject) {
		f, ok := o.(fyne.Focusable)
		if !ok || !o.Visible() {
			return
		}
		n++
		a, ok := f.(fyne.Accessible)
		if !ok || strings.TrimSpace(a.AccessibilityLabel()) == "" {
			t.Errorf("%T has no accessible name", o)
		}
	})
	if n < 3+8+3*3 {
		t.Errorf("only %d controls", n)
	}
	label := s.yeasts.table.rows[1].AccessibilityLabel()
	for _, want := range []string{"English ale", "final gravity", "difference +0.00", " to "} {
		if !strings.Contains(label, want) {
			t.Errorf("the row is read as %q, without %q", label, want)
		}
	}
}

func BenchmarkYeastsFrame(b *testing.B) {
	s := yeastsStage(b)
	ui.Change(s, "six", func(d *design.Design) { d.Yeast = append(d.Yeast, jar(1), jar(2), jar(3)) })
	s.WaitIdle()
	l := newWorker(s.yeasts.painter)
	v := s.yeasts.ask()
	l.frame(v)
	b.Run("pointing", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			v.lit = i % 6
			l.frame(v)
		}
	})
	b.Run("rest moves", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			v.taught.Design.Mash.Rest[0].TemperatureC = 62 + float64(i%60)/10
			l.frame(v)
		}
	})
	b.Run("one more strain", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			v.taught.Design.Yeast = slices.Clone(v.taught.Design.Yeast)
			v.taught.Design.Yeast[5].AttenuationHighPct = 73 + float64(i%50)/10
			l.frame(v)
		}
	})
	b.Run("another wort", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			v.taught.Design.Honey[0].MassKg = 0.4 + float64(i%50)/100
			l.frame(v)
		}
	})
}
