package app

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"github.com/adrg/xdg"

	"skep/app/batches"
	"skep/app/ledger"
	"skep/app/ui"
	"skep/calc"
	"skep/calc/learn"
	"skep/calc/message"
	"skep/calc/quantity"
)

// ledgerStage is a bench with the simulated batches of the club as its
// ledger.
func ledgerStage(t *testing.T, folder string) *scene {
	t.Helper()
	s := newStage(t, "")
	s.Prefs.Ledger = folder
	s.goTo(len(s.places) - 1)
	s.ledger.Read()
	s.settle()
	return s
}

func copyBatches(t *testing.T) string {
	t.Helper()
	return clubBatches(t, "../testdata/learn/broken.toml")
}

// clubBatches is a folder of the club's batches, and others with them.
func clubBatches(t *testing.T, others ...string) string {
	t.Helper()
	to := t.TempDir()
	files, err := filepath.Glob("../assets/demo/batches/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal("no batches", err)
	}
	files = append(files, others...)
	for _, f := range files {
		src, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(to, filepath.Base(f)), src, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return to
}

func TestTheLedgerListsTeachesAndSkips(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	a := &s.ledger.Answer
	if a.Err != nil || len(a.Entries) < 3 || !a.Predicted {
		t.Fatalf("%d batches, predicted %v, %v", len(a.Entries), a.Predicted, a.Err)
	}
	named := false
	for _, k := range a.Skipped {
		named = named || strings.Contains(k.Error(), "broken.toml")
	}
	if !named {
		t.Errorf("the broken file is not named: %v", a.Skipped)
	}
	if s.Lessons == nil || s.Lessons.Batches == 0 {
		t.Fatal("nothing was learnt")
	}
	all := len(s.ledger.List.Objects)
	s.ledger.Search.SetText(a.Entries[0].Title)
	if n := len(s.ledger.List.Objects); n >= all || n == 0 {
		t.Errorf("the search leaves %d of %d", n, all)
	}
}

// New predictions use what the kit has taught and say so; a switch and the
// file itself are left in peace.
func TestLessonsActOnPredictionsAndCanBeSwitchedOff(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	s.goTo(0)
	s.settle()
	with := s.taste.Shown.Prediction.OriginalGravitySG
	if !strings.Contains(s.taste.Sentence.Label.Text, "taught") {
		t.Errorf("the sentence does not say so: %q", s.taste.Sentence.Label.Text)
	}
	if s.Editor.Touched() {
		t.Error("lessons changed the design")
	}
	for _, l := range s.Lessons.Lessons {
		s.Prefs.LessonsOff = append(s.Prefs.LessonsOff, l.Key)
	}
	s.Post()
	s.settle()
	without := s.taste.Shown.Prediction.OriginalGravitySG
	if with == without {
		t.Errorf("original gravity %v with and without lessons", with)
	}
	s.Lessons = nil
	s.Post()
	s.settle()
	if s.taste.Shown.Prediction.OriginalGravitySG != without {
		t.Error("switched off is not the same as never learnt")
	}
}

func TestAMissingLedgerOffersToMakeIt(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "batches")
	s := ledgerStage(t, folder)
	if !s.ledger.Answer.Missing || s.ledger.Make.Hidden {
		t.Fatal("the missing folder is not offered")
	}
	s.ledger.Make.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	s.settle()
	if _, err := os.Stat(folder); err != nil || s.ledger.Answer.Missing {
		t.Errorf("not made: %v", err)
	}
}

// Lessons are centred on the design's own kit: another file, other lessons.
func TestAnotherKitIsLearntAnew(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	src, err := os.ReadFile("../assets/demo/gate-field-middle.toml")
	if err != nil {
		t.Fatal(err)
	}
	other := filepath.Join(t.TempDir(), "other.toml")
	text := strings.Replace(string(src), "mash_efficiency_pct = 74", "mash_efficiency_pct = 82", 1)
	if err := os.WriteFile(other, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	used := func() float64 {
		d := s.Taught().Design
		return d.Kit.MashEfficiencyPct
	}
	s.Open(other)
	if s.Lessons != nil {
		t.Error("the lessons of the kit before are still used")
	}
	s.settle()
	opened := used()
	s.ledger.Read()
	s.settle()
	if anew := used(); opened != anew || opened > 80 {
		t.Errorf("efficiency %v after opening, %v after reading again", opened, anew)
	}
}

// Only so many cards are laid out at once, however many batches there are.
func TestAThousandBatchesDoNotFreezeTheSearch(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	one := s.ledger.Answer.Entries[0]
	s.ledger.Answer.Entries = nil
	for i := range 1000 {
		e := one
		e.Title = fmt.Sprint("batch ", i)
		s.ledger.Answer.Entries = append(s.ledger.Answer.Entries, e)
	}
	// What is on screen is laid out, not what is found: a keystroke that finds
	// all may cost a little more than one that finds nineteen, not fifty times.
	few, all := time.Hour, time.Hour
	for range 5 {
		few = min(few, keystroke(s, "batch 99"))
		all = min(all, keystroke(s, "batch"))
	}
	t.Logf("a keystroke that finds 19 takes %v, one that finds 1,000 %v", few, all)
	if all > 4*few {
		t.Errorf("a keystroke that finds all takes %v, one that finds 19 %v", all, few)
	}
	if n := len(s.ledger.List.Objects); n > 40 {
		t.Errorf("%d things are laid out", n)
	}
	s.ledger.Search.SetText("batch 99")
	if n := len(s.ledger.Found()); n != 19 {
		t.Errorf("found %d, want the 19 numbers below 1000 that hold 99 (99, 199 to 899, 990 to 999)", n)
	}
}

func keystroke(s *scene, text string) time.Duration {
	start := time.Now()
	s.ledger.Search.SetText(text)
	return time.Since(start)
}

func TestACardSaysWhatIsWanting(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	e := s.ledger.Answer.Entries[0]
	e.At, e.Unpredicted, e.Warnings = time.Time{}, errors.New("no grain"), []message.Message{message.Plain("a.toml:3: odd")}
	text := shownText(s.ledger.Card(&e))
	for _, want := range []string{"no date", "no grain", "a.toml:3: odd"} {
		if !strings.Contains(text, want) {
			t.Errorf("the card does not say %q: %s", want, text)
		}
	}
	if strings.Contains(text, "0001") {
		t.Error("a reading without a time is dated in the year 1")
	}
}

func shownText(o fyne.CanvasObject) string {
	switch o := o.(type) {
	case *ui.Caption:
		return o.Text + "\n"
	case *widget.Label:
		return o.Text + "\n"
	case *fyne.Container:
		var all string
		for _, c := range o.Objects {
			all += shownText(c)
		}
		return all
	}
	return ""
}

// A person's file is never written over unasked.
func TestTheCSVAsksBeforeItTakesAFilesPlace(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	path := filepath.Join(t.TempDir(), "a.csv")
	if err := os.WriteFile(path, []byte("theirs"), 0o600); err != nil {
		t.Fatal(err)
	}
	s.ledger.Export()
	entry, ok := s.Window().Canvas().Focused().(*ui.Entry)
	if !ok {
		t.Fatal("no name is asked for")
	}
	entry.SetText(path)
	if !s.answer("Save") {
		t.Fatal("no such answer")
	}
	if got, _ := os.ReadFile(path); string(got) != "theirs" || s.Window().Canvas().Overlays().Top() == nil {
		t.Errorf("the file holds %q and nothing was asked", got)
	}
	if !s.answer("Save") {
		t.Fatal("no such answer")
	}
	if got, _ := os.ReadFile(path); !strings.HasPrefix(string(got), "title,") && !strings.Contains(string(got), "original_gravity") {
		t.Errorf("after the answer the file holds %q", got)
	}
}

func TestAMissingLedgerStillSaysWhatItIsFor(t *testing.T) {
	s := ledgerStage(t, filepath.Join(t.TempDir(), "no"))
	if s.ledger.Sort.Text == "" || len(s.ledger.Lessons.Objects) == 0 {
		t.Errorf("order %q, %d texts at the right", s.ledger.Sort.Text, len(s.ledger.Lessons.Objects))
	}
}

// What a person presses, not what stands in the preferences.
func TestPressingALessonsSwitch(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	check := firstCheck(s.ledger.Lessons)
	if check == nil {
		t.Fatal("no switch")
	}
	before := s.Taught().Lessons
	check.SetChecked(false)
	s.settle()
	if after := s.Taught().Lessons; len(after) != len(before)-1 {
		t.Errorf("%d lessons before, %d after one was switched off", len(before), len(after))
	}
}

func firstCheck(o fyne.CanvasObject) *ui.Check {
	switch o := o.(type) {
	case *ui.Check:
		return o
	case *ui.Panel:
		return firstCheck(o.Content)
	case *fyne.Container:
		for _, c := range o.Objects {
			if found := firstCheck(c); found != nil {
				return found
			}
		}
	}
	return nil
}

// Lessons act in every place that predicts, and none of them loses its numbers.
func TestLessonsLeaveTheYeastsTheirNumbers(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	if used := s.Taught().Lessons; len(used) == 0 {
		t.Fatal("no lessons, so this shows nothing")
	}
	s.goTo(1)
	s.settle()
	own := s.Design().Yeast
	for i, strain := range s.yeasts.Shown {
		if strain.Prediction.FinalGravitySG.Mid == 0 {
			t.Errorf("%s has no numbers", own[i].Name)
		}
		if strain.Yeast != own[i] {
			t.Errorf("row %d shows %+v, the file has %+v", i, strain.Yeast, own[i])
		}
	}
	table := s.yeasts.Shown[0].Prediction.FinalGravitySG
	s.goTo(0)
	s.settle()
	if s.taste.Shown.Prediction.FinalGravitySG != table {
		t.Errorf("Yeasts says %v, Taste %v", table, s.taste.Shown.Prediction.FinalGravitySG)
	}
}

// What a ledger teaches is said in the person's units: what stood in fixed
// ones is gone, and the figures are those of the lessons, converted.
func TestTheLedgerInOtherUnits(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	shown := func() string { return panels(s.ledger.Lessons) + panels(s.ledger.List) }
	for _, want := range []string{" L/h", "°C"} {
		if !strings.Contains(shown(), want) {
			t.Fatalf("in metric units nothing reads %q: %s", want, shown())
		}
	}
	gravity, steam := "", 0.0
	for _, c := range s.ledger.Answer.Entries[0].Compare() {
		switch c.Key {
		case batches.FinalGravity:
			gravity = s.Say().Format(quantity.Gravity, c.Measured.Mean)
		case batches.BoilOff:
			steam = c.Measured.Mean
		}
	}
	if !strings.Contains(shown(), gravity) {
		t.Fatalf("the final gravity %s is not shown", gravity)
	}
	s.Prefs.Units = quantity.Units{Temperature: quantity.F, Gravity: quantity.Plato, Volume: quantity.USGallon, Mass: quantity.Lb, Colour: quantity.SRM}
	s.SetUnits()
	s.ledger.Fill()
	got := shown()
	for _, not := range []string{" L/h", "°C", gravity} {
		if strings.Contains(got, not) {
			t.Errorf("%q is still shown: %s", not, got)
		}
	}
	offset, boilOff, sd := 0.0, 0.0, 0.0
	for _, l := range s.ledger.Answer.Lessons.Lessons {
		switch l.Key {
		case learn.Thermometer:
			offset = l.Posterior.Mean
		case learn.BoilOff:
			boilOff, sd = l.Posterior.Mean, l.Posterior.SD
		}
	}
	// By definition: 1 K is 1.8 °F, a US gallon 3.785411784 L.
	for _, want := range []string{
		fmt.Sprintf("%.1f °F ±", offset*1.8), fmt.Sprintf("%.2f gal/h ± %.2f, from", boilOff/3.785411784, sd/3.785411784),
		fmt.Sprintf("%.2f gal/h\n", steam/3.785411784), " °P",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not shown: %s", want, got)
		}
	}
	// The decimal mark, too.
	s.Prefs.Units.DecimalComma = true
	s.SetUnits()
	s.ledger.Fill()
	if got, want := shown(), strings.Replace(fmt.Sprintf("%.2f gal/h", boilOff/3.785411784), ".", ",", 1); !strings.Contains(got, want) {
		t.Errorf("%q is not shown: %s", want, got)
	}
}

// panels are the texts of a list of panels.
func panels(c *fyne.Container) string {
	var all string
	for _, o := range c.Objects {
		if p, ok := o.(*ui.Panel); ok {
			o = p.Content
		}
		all += shownText(o)
	}
	return all
}

// The same order again turns it round; a batch without a value comes last both
// ways, and the table follows.
func TestAnOrderTurnsRound(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	p := s.ledger
	without := p.Answer.Entries[0]
	without.Title, without.File, without.Measured = "without", "without.toml", learn.Measured{}
	p.Answer.Entries = append(p.Answer.Entries, without)
	titles := func() []string {
		var out []string
		for _, e := range p.Found() {
			out = append(out, e.Title)
		}
		return out
	}
	measured := func(e *batches.Entry, key string) float64 {
		for _, c := range e.Compare() {
			if c.Key == key && c.Measured.Known {
				return c.Measured.Mean
			}
		}
		return math.NaN()
	}
	for _, by := range []string{batches.BoilOff, batches.Dryness, batches.Body, batches.FinalGravity} {
		if !slices.Contains(ledger.Orders, by) {
			t.Errorf("there is no order by %s", by)
		}
		for _, up := range []bool{true, false} {
			p.OrderBy(by)
			last, none := math.NaN(), false
			for _, e := range p.Found() {
				v := measured(e, by)
				if none && !math.IsNaN(v) || up && v < last || !up && v > last {
					t.Errorf("by %s, rising %v: %v", by, up, titles())
				}
				none, last = math.IsNaN(v), v
			}
			if !none {
				t.Errorf("by %s, rising %v: the batch without a value is not last: %v", by, up, titles())
			}
			if arrow := map[bool]string{true: "↑", false: "↓"}[up]; !strings.HasSuffix(p.Sort.Text, arrow) {
				t.Errorf("by %s, rising %v the button says %q", by, up, p.Sort.Text)
			}
		}
	}
	latest := titles
	p.OrderBy("date")
	if first := p.Found()[0].At; p.Sort.Text != "latest first" || first.Before(p.Found()[1].At) {
		t.Errorf("%q begins with %v", p.Sort.Text, latest())
	}
	p.OrderBy("date")
	if p.Sort.Text != "earliest first" || p.Found()[0].At.After(p.Found()[1].At) {
		t.Errorf("%q begins with %v", p.Sort.Text, latest())
	}
	var csv strings.Builder
	if err := batches.ExportCSV(&csv, p.Found()); err != nil {
		t.Fatal(err)
	}
	at := -1
	for _, e := range p.Found() {
		next := strings.Index(csv.String(), "\n"+e.File)
		if next < at {
			t.Errorf("%s is not in its place in the table", e.File)
		}
		at = next
	}
}

// Whether a band held what was measured is said by a mark and a word that
// stand apart from the figure.
func TestACardMarksWhatWasHeld(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	band := calc.Band{Low: 5, Mid: 5.5, High: 6}
	for v, want := range map[float64]string{5.2: "● within 5.0–6.0", 6.3: "○ outside 5.0–6.0"} {
		figure, against := s.ledger.Measured(batches.Compared{Key: batches.Strength, HasBand: true, Predicted: band, Measured: learn.Value{Known: true, Mean: v}})
		if figure != fmt.Sprintf("%.1f %%", v) || against != want {
			t.Errorf("%v reads %q, %q", v, figure, against)
		}
	}
	// And nothing of it is cut off in the smallest window, in any units.
	s.Window().Resize(fyne.NewSize(1024, 700))
	for _, u := range []quantity.Units{{}, {Gravity: quantity.Plato, Volume: quantity.USGallon}} {
		s.Prefs.Units = u
		s.SetUnits()
		s.ledger.Fill()
		for _, o := range s.ledger.List.Objects {
			p, ok := o.(*ui.Panel)
			if !ok {
				continue
			}
			eachCaption(p.Content, func(c *ui.Caption) {
				if need := fyne.MeasureText(c.Text, c.TextSize, fyne.TextStyle{Bold: c.Bold}).Width; need > c.Size().Width+0.5 {
					t.Errorf("%q needs %.0f and has %.0f", c.Text, need, c.Size().Width)
				}
			})
		}
	}
}

func eachCaption(o fyne.CanvasObject, do func(*ui.Caption)) {
	switch o := o.(type) {
	case *ui.Caption:
		do(o)
	case *fyne.Container:
		for _, c := range o.Objects {
			eachCaption(c, do)
		}
	}
}

// unwritable is a folder into which nobody here may write, root neither.
func unwritable(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	if os.Geteuid() == 0 {
		folder = "/sys" // kernel objects: no file is ever made there
	} else if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	} else {
		t.Cleanup(func() { _ = os.Chmod(folder, 0o755) })
	}
	probe := filepath.Join(folder, "probe.toml")
	if err := os.WriteFile(probe, nil, 0o600); err == nil {
		_ = os.Remove(probe)
		t.Skip("every folder can be written to here")
	}
	return folder
}

// What can't be kept for the next time is told once.
func TestUnkeptPredictionsAreToldOnce(t *testing.T) {
	old := xdg.CacheHome
	xdg.CacheHome = unwritable(t)
	t.Cleanup(func() { xdg.CacheHome = old })
	s := ledgerStage(t, copyBatches(t))
	if !s.bad() || !strings.Contains(s.said(), "worked out again next time") {
		t.Fatalf("it says %q", s.said())
	}
	s.ShowMessage("else")
	s.ledger.Read()
	s.settle()
	if s.said() != "else" {
		t.Errorf("told again: %q", s.said())
	}
	if len(s.ledger.Answer.Entries) == 0 || !s.ledger.Answer.Predicted {
		t.Error("and the batches are not shown")
	}
}

// Pressing what stands on a card.
func TestPressingACard(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	card := func() fyne.CanvasObject {
		return s.ledger.List.Objects[len(s.ledger.List.Objects)-1].(*ui.Panel).Content
	}
	e := s.ledger.Found()[len(s.ledger.Found())-1]
	hear := firstCheck(card())
	if hear == nil || hear.Disabled() || !hear.Checked {
		t.Fatalf("no switch on the card of %s", e.Title)
	}
	all := s.ledger.Answer.Lessons.Batches
	hear.SetChecked(false)
	s.settle()
	if n := s.ledger.Answer.Lessons.Batches; n != all-1 {
		t.Errorf("%d batches are heard, want %d", n, all-1)
	}
	if again := firstCheck(card()); again == nil || again.Checked {
		t.Error("the switch does not stay off")
	}
	firstCheck(card()).SetChecked(true)
	s.settle()
	if n := s.ledger.Answer.Lessons.Batches; n != all {
		t.Errorf("%d batches are heard again, want %d", n, all)
	}

	var open *ui.Choice
	eachChoice(card(), func(c *ui.Choice) {
		if c.Text == "open" {
			open = c
		}
	})
	if open == nil {
		t.Fatal("nothing to open it with")
	}
	open.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.settle()
	if s.Editor.Path() != e.Path || s.Design().Title != e.Title {
		t.Errorf("open is %q, want %q", s.Editor.Path(), e.Path)
	}
	if s.place() != s.places[0].place {
		t.Error("it is not gone to Taste")
	}
}

func eachChoice(o fyne.CanvasObject, do func(*ui.Choice)) {
	switch o := o.(type) {
	case *ui.Choice:
		do(o)
	case *fyne.Container:
		for _, c := range o.Objects {
			eachChoice(c, do)
		}
	}
}

// A window's shortcut takes what was typed into a lever on its way. (The test
// driver's window knows no shortcuts; that the place changes is for .ci/window.)
func TestAShortcutTakesWhatWasTyped(t *testing.T) {
	s := newStage(t, "")
	s.place().FocusFirst()
	for _, digit := range "65" { // the first opens the field
		s.Window().Canvas().Focused().TypedRune(digit)
	}
	s.Window().Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.Key5, Modifier: fyne.KeyModifierShortcutDefault})
	s.settle()
	if got := s.restC(); got != 65 {
		t.Errorf("the mash rest is %g after 65 was typed and a shortcut pressed", got)
	}
}
