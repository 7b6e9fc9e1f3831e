package app

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"skep/app/begin"
	"skep/app/ui"
	"skep/app/userfile"
	"skep/calc"
)

// answerCard types an answer into the question that has the keyboard, and Enter.
func answerCard(t *testing.T, s *scene, text string) {
	t.Helper()
	e, ok := s.Window().Canvas().Focused().(*ui.Entry)
	if !ok {
		t.Fatalf("%T has the keyboard, no question", s.Window().Canvas().Focused())
	}
	if text != "" {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
		for _, r := range text {
			e.TypedRune(r)
		}
	}
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.settle()
}

// From the first start to a design of one's own, by keyboard alone: name, kit and
// litres, honey, yeast, strength. What comes of it is the same beer everywhere.
func TestStartFromWhatYouHave(t *testing.T) {
	s := newStage(t, "")
	s.OwnFolder = filepath.Join(t.TempDir(), "skep")
	if !s.Demonstration() {
		t.Fatal("the first start is no demonstration")
	}
	s.AskNew() // Ctrl+N
	s.settle()
	for _, text := range []string{"Hedge", "18 L", "", "heather", "450 g", "", "5.2"} {
		answerCard(t, s, text)
	}
	s.Window().Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) // the button
	s.settle()
	d := s.Design()
	if d.Title != "Hedge" || d.Kit.VesselL != 18 || d.Honey[0].Name != "Heather" || d.Honey[0].MassKg != 0.45 || s.Path() != "" || s.Demonstration() {
		t.Errorf("%s, %g L, %+v", d.Title, d.Kit.VesselL, d.Honey)
	}
	p, err := calc.NewEngine().Predict(d)
	if err != nil || math.Abs(p.StrengthPct.Mid-5.2) > 0.05 {
		t.Errorf("%.3f %%, %v", p.StrengthPct.Mid, err)
	}
	if shown := s.taste.Shown.Prediction.StrengthPct.Mid; shown != p.StrengthPct.Mid {
		t.Errorf("the window shows %.3f %%", shown)
	}
	// One step of undo.
	s.Undo()
	if got := s.Design().Title; got != "Honey beer" {
		t.Errorf("one undo leads to %s", got)
	}
	if _, more := s.Editor.UndoName(); more {
		t.Error("there is a second step")
	}
	// The kettle is kept, and the next design takes it.
	kits, problems := userfile.Kits(userfile.KitsIn(s.OwnFolder))
	if len(kits) != 1 || problems != nil || kits[0].Kit.VesselL != 18 {
		t.Fatalf("%v, %v", kits, problems)
	}
	choices, _ := begin.Load(s.OwnFolder, s.Catalogue())
	if _, kit := choices.First(s.Prefs.Kit); kit.Kit != kits[0].Kit {
		t.Errorf("the next design begins with %+v", kit.Kit)
	}
}

// A wrong answer is said and the question stays; Escape leaves the design.
func TestAWrongAnswerStaysAQuestion(t *testing.T) {
	s := newStage(t, "")
	s.OwnFolder = filepath.Join(t.TempDir(), "skep")
	s.AskNew() // Ctrl+N
	s.settle()
	answerCard(t, s, "Hedge")
	first := s.Window().Canvas().Focused()
	for _, bad := range []string{"shed", "-3 L", "1e9 L", "18 furlongs"} {
		answerCard(t, s, bad)
		if s.Window().Canvas().Focused() != first {
			t.Fatalf("%q was taken for a kit", bad)
		}
	}
	if v := s.Design().Kit.VesselL; v != 30 {
		t.Errorf("a wrong answer made a vessel of %g L", v)
	}
	e := first.(*ui.Entry)
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) // what was typed
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) // the card
	s.settle()
	if s.Design().Title != "Hedge" || s.Window().Canvas().Focused() == first {
		t.Error("Escape does not lead back to the levers")
	}
}

// What is typed into the card and not taken yet stays while another answer moves the
// beer.
func TestTheCardKeepsWhatIsTyped(t *testing.T) {
	s := newStage(t, "")
	s.OwnFolder = t.TempDir()
	s.AskNew()
	s.settle()
	for range 6 {
		answerCard(t, s, "")
	}
	e, ok := s.Window().Canvas().Focused().(*ui.Entry)
	if !ok || e.Name != "strength" {
		t.Fatalf("%T has the keyboard, not the strength", s.Window().Canvas().Focused())
	}
	e.SetText("6.3")
	more := false
	for _, o := range shown(s.places[0].view) {
		if c, ok := o.(*ui.Choice); ok && strings.Contains(c.Text, "may be bought") {
			c.Tapped(&fyne.PointEvent{})
			more = true
		}
	}
	s.settle()
	if e.Text != "6.3" || !more {
		t.Errorf("the strength that was being typed reads %q", e.Text)
	}
	s.Window().Canvas().Focus(e) // what was pressed has taken the keyboard
	answerCard(t, s, "")
	if got := *s.Design().Taste.StrengthPct; got != 6.3 {
		t.Errorf("the design is to have %g %%", got)
	}
}
