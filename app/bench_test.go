package app

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"

	"skep/app/look"
	"skep/app/recovery"
	"skep/app/shell"
	"skep/app/stage"
	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/quantity"
)

// queue stands in for fyne.Do: the test's goroutine does what the worker hands
// over, as Fyne's does in the real window, so that nothing is touched by two.
type queue struct {
	mu   sync.Mutex
	todo []func()
}

func (q *queue) do(f func()) {
	q.mu.Lock()
	q.todo = append(q.todo, f)
	q.mu.Unlock()
}

func (q *queue) drain() (n int) {
	q.mu.Lock()
	todo := q.todo
	q.todo = nil
	q.mu.Unlock()
	for _, f := range todo {
		f()
	}
	return len(todo)
}

// scene is a bench without a display.
type scene struct {
	*bench
	q *queue
}

func newStage(t testing.TB, file string) *scene {
	t.Helper()
	return stageWith(t, file, recovery.Open(t.TempDir()))
}

// stageWith is a bench whose state folder may be another's too.
func stageWith(t testing.TB, file string, state *recovery.Store) *scene {
	t.Helper()
	return stageAt(t, file, state, time.Now)
}

// stageAt is stageWith by a clock of the test's own.
func stageAt(t testing.TB, file string, state *recovery.Store, clock func() time.Time) *scene {
	t.Helper()
	a := test.NewApp()
	a.Settings().SetTheme(look.New(look.Light))
	q := &queue{}
	b := newBench(a, shell.LoadPreferences(filepath.Join(t.TempDir(), "preferences.toml"), ""), state, q.do)
	b.StrainsFile = filepath.Join(t.TempDir(), "strains.toml") // not those of who runs the tests
	b.Clock = clock
	b.Window().Resize(fyne.NewSize(1280, 800))
	b.Window().Show()
	b.open(file)
	b.start()
	s := &scene{b, q}
	s.settle()
	t.Cleanup(func() {
		b.close()
		if !b.Agreed() {
			b.Window().Close()
		}
	})
	return s
}

// settle waits until what was posted is on the screen, glides included.
func (s *scene) settle() {
	for {
		for _, p := range s.places {
			p.place.Idle()
		}
		s.day.Idle()
		s.Disk().Idle()
		if s.q.drain() == 0 {
			return
		}
	}
}

func (s *scene) key(name fyne.KeyName, shift bool) { stage.Key(s.Window().Canvas(), name, shift) }

func (s *scene) said() string { text, _ := s.Status.Shown(); return text }

func (s *scene) bad() bool { _, bad := s.Status.Shown(); return bad }

func (s *scene) restC() float64 { return s.Design().Mash.Rest[0].TemperatureC }

func TestTheMashRestHasTheFocusAndArrowsMoveIt(t *testing.T) {
	s := newStage(t, "")
	if f := s.Window().Canvas().Focused(); f != s.taste.Levers.Rest {
		t.Fatalf("the focus is on %T", f)
	}
	start := s.restC()
	s.key(fyne.KeyRight, false)
	if got := s.restC(); got != roundTenth(start+0.1) {
		t.Errorf("Right: %v to %v, want 0.1 more", start, got)
	}
	s.key(fyne.KeyRight, true)
	if got := s.restC(); got != roundTenth(start+1.1) {
		t.Errorf("Shift+Right: %v, want a degree more", got)
	}
	s.key(fyne.KeyLeft, true)
	s.key(fyne.KeyLeft, false)
	if got := s.restC(); got != start {
		t.Errorf("back: %v, want %v", got, start)
	}
}

func roundTenth(x float64) float64 { return float64(int(x*10+0.5)) / 10 }

func TestTabWalksAllLevers(t *testing.T) {
	s := newStage(t, "")
	want := map[fyne.Focusable]string{
		s.taste.Levers.Rest: "rest", s.taste.Levers.Minutes: "minutes", s.taste.Levers.Yeast: "yeast",
		s.taste.Levers.Honey: "honey", s.taste.Levers.Moment: "moment",
	}
	for range 12 {
		delete(want, s.Window().Canvas().Focused())
		s.Window().Canvas().FocusNext()
	}
	if len(want) > 0 {
		t.Errorf("Tab never came to %v", want)
	}
}

// Two computations of the same thing: what the window says is what the engine,
// and so `skep predict`, says.
func TestTheWindowShowsTheEnginesNumbers(t *testing.T) {
	s := newStage(t, "")
	s.taste.Levers.Honey.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	s.settle()
	p, err := calc.NewEngine().Predict(s.Design())
	if err != nil {
		t.Fatal(err)
	}
	for o, band := range p.Four() {
		k := calc.Outcome(o).Kind()
		text := s.taste.Pictures[o].Value.Text
		for _, v := range []float64{band.Low, band.Mid, band.High} {
			if !strings.Contains(text, s.Say().Number(k, v)) {
				t.Errorf("picture %d says %q, the engine %v", o, text, band)
			}
		}
	}
	if text := s.taste.Sentence.Label.Text; !strings.Contains(text, s.Say().Format(quantity.Gravity, p.FinalGravitySG.Mid)) {
		t.Errorf("the sentence says %q", text)
	}
}

func TestABurstOfMovesShowsTheLast(t *testing.T) {
	s := newStage(t, "")
	_, before := s.taste.Worker.Counts()
	for i := range 1000 {
		ui.Move(s, "rest temperature", design.LeverRest, func(d *design.Design) { d.Mash.Rest[0].TemperatureC = 58 + float64(i%140)/10 })
	}
	ui.Move(s, "rest temperature", design.LeverRest, func(d *design.Design) { d.Mash.Rest[0].TemperatureC = 71 })
	s.EndMove()
	s.settle()
	_, after := s.taste.Worker.Counts()
	if n := after - before; n > 200 {
		t.Errorf("%d computations for 1001 moves", n)
	}
	p, err := calc.NewEngine().Predict(s.Design())
	if err != nil {
		t.Fatal(err)
	}
	if s.taste.Shown.Prediction.FinalGravitySG != p.FinalGravitySG {
		t.Errorf("shown %v, the last move gives %v", s.taste.Shown.Prediction.FinalGravitySG, p.FinalGravitySG)
	}
	if !s.Editor.Undo() || s.restC() != 66.5 {
		t.Errorf("one undo of one drag leaves %v, want where it began", s.restC())
	}
	if s.Editor.Undo() {
		t.Error("a drag took more than one step of undo")
	}
}

func TestSaveAndOpenAgain(t *testing.T) {
	s := newStage(t, "")
	if !strings.HasPrefix(s.Window().Title(), "• Gate Field Midsummer") {
		t.Errorf("title %q: the demonstration is an unsaved copy", s.Window().Title())
	}
	path := filepath.Join(t.TempDir(), "a.toml")
	s.key(fyne.KeyRight, true)
	if err := s.Editor.SaveOver(path); err != nil {
		t.Fatal(err)
	}
	if strings.HasPrefix(s.Window().Title(), "•") {
		t.Errorf("title %q after saving", s.Window().Title())
	}
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(src), "# the middle of what we argue about") || !strings.Contains(string(src), "67.5") {
		t.Errorf("the file lost a comment or the value:\n%s", src)
	}
	again := newStage(t, path)
	if got := again.restC(); got != 67.5 {
		t.Errorf("opened again: %v, want 67.5", got)
	}
	again.key(fyne.KeyRight, false)
	again.settle()
	if !strings.HasPrefix(again.Window().Title(), "•") {
		t.Error("a change does not show in the title")
	}
}

func TestAFileChangedUnderneathIsAskedAbout(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.toml")
	s := newStage(t, "")
	if err := s.Editor.SaveOver(path); err != nil {
		t.Fatal(err)
	}
	src, _ := os.ReadFile(path)
	theirs := append(src, "# theirs\n"...)
	if err := os.WriteFile(path, theirs, 0o600); err != nil {
		t.Fatal(err)
	}
	s.key(fyne.KeyRight, false)
	s.Save(nil)
	if s.Window().Canvas().Overlays().Top() == nil {
		t.Error("nothing was asked")
	}
	if got, _ := os.ReadFile(path); string(got) != string(theirs) {
		t.Error("the other's file was written over unasked")
	}
}

func TestABadFileLeavesTheDesignAlone(t *testing.T) {
	s := newStage(t, "")
	before := s.Design()
	path := filepath.Join(t.TempDir(), "bad.toml")
	if err := os.WriteFile(path, []byte("format = 1\n[batch\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	s.Open(path)
	if !s.Design().Equal(before) {
		t.Error("the design changed")
	}
	if text := s.Status.Text(); !strings.Contains(text, "bad.toml:2") {
		t.Errorf("the status says %q, want file and line", text)
	}
}

func TestEveryDialogOpens(t *testing.T) {
	s := newStage(t, "")
	for name, open := range map[string]func(){
		"open": s.AskOpen, "save as": func() { s.SaveAs(nil) }, "preferences": s.showPreferences, "menu": s.menu,
		"yeasts": s.taste.Levers.ChooseYeast, "honeys": s.taste.Levers.ChooseHoney, "rests": s.taste.Levers.ChooseRest, "side by side": s.taste.ShowSideBySide,
	} {
		open()
		top := s.Window().Canvas().Overlays().Top()
		if top == nil {
			t.Errorf("%s: nothing opened", name)
			continue
		}
		if size := s.Window().Canvas().Size(); top.Size().Width > size.Width || top.Size().Height > size.Height {
			t.Errorf("%s: %v does not fit %v", name, top.Size(), size)
		}
		s.Window().Canvas().Overlays().Remove(top)
	}
}

// Every number of the column can be opened to where it comes from.
func TestEveryNumberOpens(t *testing.T) {
	s := newStage(t, "")
	s.taste.Third.Turn(1)
	s.settle()
	for _, r := range s.taste.Third.Numbers.Rows {
		r.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
		s.settle()
		top := s.Window().Canvas().Overlays().Top()
		if top == nil {
			t.Errorf("%s opens nothing: %s", r.Name.Text, s.Status.Text())
			continue
		}
		s.Window().Canvas().Overlays().Remove(top)
	}
}

func TestClosingWithChangesAsks(t *testing.T) {
	s := newStage(t, "")
	s.key(fyne.KeyRight, false)
	s.AskClose()
	if s.Window().Canvas().Overlays().Top() == nil {
		t.Error("the window would have closed with unsaved changes")
	}
	if s.Closing {
		t.Error("the window closed before an answer")
	}
}

func TestNoGoroutineOutlivesTheWindow(t *testing.T) {
	a := test.NewApp()
	before := runtime.NumGoroutine()
	q := &queue{}
	b := newBench(a, shell.LoadPreferences(filepath.Join(t.TempDir(), "preferences.toml"), ""), recovery.Open(t.TempDir()), q.do)
	b.open("")
	b.start()
	b.taste.Idle()
	b.close()
	for range 200 {
		if runtime.NumGoroutine() <= before {
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
	t.Errorf("%d goroutines before, %d after closing", before, runtime.NumGoroutine())
}

func TestUnitsAreThePersons(t *testing.T) {
	s := newStage(t, "")
	s.Prefs.Units = quantity.Units{Temperature: quantity.F, Gravity: quantity.Plato, Mass: quantity.Lb, Volume: quantity.USGallon, Colour: quantity.SRM}
	s.chosen()
	s.settle()
	if label := s.taste.Levers.Rest.AccessibilityLabel(); !strings.Contains(label, "151.7 °F") {
		t.Errorf("the rest's lever says %q, want 66.5 °C as 151.7 °F", label)
	}
	if text := s.Say().Summary(); !strings.Contains(text, "°F") || !strings.Contains(text, "°P") {
		t.Errorf("the status line says %q", text)
	}
	if d := s.Design(); d.Mash.Rest[0].TemperatureC != 66.5 || s.Editor.Touched() {
		t.Error("choosing units changed the design")
	}
}

func TestChoosingALessAttenuatingYeastSweetens(t *testing.T) {
	s := newStage(t, "")
	before := s.taste.Shown.Prediction
	for _, y := range s.Catalogue().Yeast {
		if y.Name == "English ale" {
			ui.BrewWith(s, y.Yeast)
		}
	}
	s.settle()
	after := s.taste.Shown.Prediction
	if after.Yeast != "English ale" {
		t.Fatalf("brewed with %q", after.Yeast)
	}
	if !(after.SweetnessGL.Mid > before.SweetnessGL.Mid && after.FinalGravitySG.Mid > before.FinalGravitySG.Mid) {
		t.Errorf("sweetness %v to %v, final gravity %v to %v: both should rise",
			before.SweetnessGL.Mid, after.SweetnessGL.Mid, before.FinalGravitySG.Mid, after.FinalGravitySG.Mid)
	}
}

// Everything that is on the Taste place lies inside the window and no panel
// lies on another, at both sizes and in both variants.
func TestNothingOverlapsAtTheTwoSizes(t *testing.T) {
	s := newStage(t, "")
	for _, size := range []fyne.Size{{Width: 1280, Height: 800}, {Width: 1024, Height: 700}} {
		s.Window().Resize(size)
		s.settle()
		panels := s.taste.Content.(*fyne.Container).Objects
		for i, a := range panels {
			pa, sa := s.App.Driver().AbsolutePositionForObject(a), a.Size()
			if pa.X < 0 || pa.Y < 0 || pa.X+sa.Width > size.Width || pa.Y+sa.Height > size.Height {
				t.Errorf("%v: panel %d at %v %v leaves the window", size, i, pa, sa)
			}
			for j, c := range panels[:i] {
				pc, sc := s.App.Driver().AbsolutePositionForObject(c), c.Size()
				if pa.X < pc.X+sc.Width && pc.X < pa.X+sa.Width && pa.Y < pc.Y+sc.Height && pc.Y < pa.Y+sa.Height {
					t.Errorf("%v: panels %d and %d overlap", size, i, j)
				}
			}
		}
		column := panels[0].(*ui.Panel)
		if need, has := column.Content.MinSize().Height, column.Content.Size().Height; need > has {
			t.Errorf("%v: the levers need %v of height and have %v", size, need, has)
		}
	}
	if v := s.App.Settings().ThemeVariant(); v == theme.VariantDark {
		t.Skip("the test driver's variant is its own")
	}
}

func TestControlsHaveAccessibleNames(t *testing.T) {
	s := newStage(t, "")
	n := 0
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if f, ok := o.(fyne.Focusable); ok {
			n++
			a, ok := f.(fyne.Accessible)
			if !ok || strings.TrimSpace(a.AccessibilityLabel()) == "" {
				t.Errorf("%T has no accessible name", o)
			}
		}
		switch o := o.(type) {
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c)
			}
		}
	}
	walk(s.Window().Content())
	if n < 8 {
		t.Errorf("only %d controls were found", n)
	}
}
