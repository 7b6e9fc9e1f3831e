package vessel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"skep/app/stage"
	"skep/app/ui"
)

// scene is a window with the picture of the vessel, and its drawers.
type scene struct {
	*stage.Stage
	vessel *Vessel
	level  *Level
}

func newScene(t testing.TB) *scene {
	t.Helper()
	s := &scene{Stage: stage.New(t)}
	s.vessel, s.level = New(s), NewLevel(s)
	s.Put(t, s)
	return s
}

func (s *scene) Object() fyne.CanvasObject { return s.level }
func (s *scene) Update()                   { d := s.Design(); s.level.Fill(&d); s.vessel.Sync() }
func (s *scene) Post()                     {}
func (s *scene) FocusFirst()               {}
func (s *scene) Idle()                     {}
func (s *scene) Close()                    {}

// typeInto is what a person does: focus, type over, Enter.
func (s *scene) typeInto(f *ui.Field, text string) {
	s.Window().Canvas().Focus(f)
	f.TypedShortcut(&fyne.ShortcutSelectAll{})
	for _, r := range text {
		f.TypedRune(r)
	}
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.WaitIdle()
}

func TestTheDrawerScalesInOneStep(t *testing.T) {
	s := newScene(t)
	k := s.vessel.open("kit.fermenter_l")
	if f := s.Window().Canvas().Focused(); f != fyne.Focusable(k.fields["kit.fermenter_l"]) {
		t.Errorf("the keyboard is at %T", f)
	}
	k.scale()
	if k.message.Text == "" || s.Editor.Touched() {
		t.Error("nothing typed, and yet it did not ask")
	}
	k.volume.SetText("300 L")
	k.scale()
	if !strings.Contains(k.message.Text, "200") || s.Editor.Touched() {
		t.Errorf("300 L is answered with %q", k.message.Text)
	}
	k.volume.SetText("25")
	k.scale()
	s.WaitIdle()
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
	if !strings.Contains(s.level.AccessibilityLabel(), "vessel of 10.0 L") {
		t.Errorf("its picture says %q", s.level.AccessibilityLabel())
	}
}

// A field of the vessel shows the new value once it is taken; one that is refused says
// so beside itself and at the foot, and both are taken back with it.
func TestAFieldSaysWhatHolds(t *testing.T) {
	s := newScene(t)
	k := s.vessel.open("kit.vessel_l")
	f := k.fields["kit.heater_w"]
	s.typeInto(f, "1.6 kW")
	if s.Design().Kit.HeaterW != 1600 || f.Text != s.Say().KeyText("kit.heater_w", "1600") {
		t.Errorf("the heater has %v W, its field says %q", s.Design().Kit.HeaterW, f.Text)
	}
	s.typeInto(f, "900 kW")
	if k.note.Text == "" || !s.Bad() || f.Text != "900 kW" {
		t.Errorf("900 kW: beside the field %q, at the foot %q, in it %q", k.note.Text, s.StatusText(), f.Text)
	}
	s.Window().Canvas().Focus(f)
	s.Key(fyne.KeyEscape, false)
	if k.note.Text != "" || s.Bad() || f.Text != f.Rest {
		t.Errorf("after Escape: beside the field %q, at the foot %q, in it %q", k.note.Text, s.StatusText(), f.Text)
	}
	s.Key(fyne.KeyEscape, false)
	if s.Window().Canvas().Overlays().Top() != nil {
		t.Error("a second Escape does not close the drawer")
	}
}
