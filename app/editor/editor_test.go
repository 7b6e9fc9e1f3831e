package editor

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"skep/assets"
	"skep/calc/design"
)

func demo(t interface{ Fatal(...any) }) *Editor {
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	e, err := New("demo", src)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func warm(d *design.Design) { d.Mash.Rest[0].TemperatureC++ }

func TestStepsOfOneGestureMerge(t *testing.T) {
	t.Parallel()
	e := demo(t)
	start := e.Design()
	for range 5 {
		if err := e.Change("rest", "drag", warm); err != nil {
			t.Fatal(err)
		}
	}
	e.EndGesture()
	if err := e.Change("rest", "drag", warm); err != nil {
		t.Fatal(err)
	}
	e.Undo()
	if got, want := e.Design().Mash.Rest[0].TemperatureC, start.Mash.Rest[0].TemperatureC+5; got != want {
		t.Errorf("one undo leaves %v, want %v", got, want)
	}
	if name, ok := e.UndoName(); !ok || name != "rest" {
		t.Errorf("the next step is %q", name)
	}
	e.Undo()
	if !e.Design().Equal(start) || e.Touched() {
		t.Error("two undos do not lead back")
	}
}

func TestAnInvalidChangeIsRefusedWhole(t *testing.T) {
	t.Parallel()
	e := demo(t)
	before := e.Design()
	err := e.Change("rest", "", func(d *design.Design) { d.Mash.Rest[0].TemperatureC = 95; d.Title = "x" })
	if err == nil || !e.Design().Equal(before) {
		t.Errorf("error %v; the design changed: %v", err, !e.Design().Equal(before))
	}
	if _, ok := e.UndoName(); ok {
		t.Error("a refused change left a step of undo")
	}
}

func TestAFailedSaveLeavesEverything(t *testing.T) {
	t.Parallel()
	e := demo(t)
	if err := e.Save(); !errors.Is(err, ErrNoPath) {
		t.Errorf("saving without a file: %v", err)
	}
	if err := e.Change("rest", "", warm); err != nil {
		t.Fatal(err)
	}
	before := e.Design()
	if err := e.SaveOver(filepath.Join(t.TempDir(), "no", "such", "folder", "a.toml")); err == nil {
		t.Fatal("saved into a folder that is not there")
	}
	if !e.Design().Equal(before) || !e.Unsaved() || e.Path() != "" {
		t.Error("a failed save changed the state")
	}
}

func TestSaveNoticesAnotherHand(t *testing.T) {
	t.Parallel()
	e := demo(t)
	path := filepath.Join(t.TempDir(), "a.toml")
	if err := e.SaveOver(path); err != nil {
		t.Fatal(err)
	}
	if err := e.Save(); err != nil {
		t.Errorf("saving again: %v", err)
	}
	if err := os.WriteFile(path, []byte("# theirs\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := e.Save(); !errors.Is(err, ErrChangedUnderneath) {
		t.Errorf("saving over another's text: %v", err)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if err := e.Save(); err != nil {
		t.Errorf("saving a file that was deleted: %v", err)
	}
}

// The oracle is the list of designs as they were.
func TestUndoAndRedoWalkTheHistory(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		e := demo(t)
		history := []design.Design{e.Design()}
		at := 0
		for range rapid.IntRange(1, 30).Draw(t, "steps") {
			switch rapid.IntRange(0, 3).Draw(t, "do") {
			case 0:
				if e.Undo() != (at > 0) {
					t.Fatal("undo disagrees on whether there is a step")
				}
				at = max(at-1, 0)
			case 1:
				if e.Redo() != (at < len(history)-1) {
					t.Fatal("redo disagrees on whether there is a step")
				}
				at = min(at+1, len(history)-1)
			default:
				v := rapid.Float64Range(58, 72).Draw(t, "rest")
				if err := e.Change("rest", "", func(d *design.Design) { d.Mash.Rest[0].TemperatureC = v }); err != nil {
					t.Fatal(err)
				}
				if !e.Design().Equal(history[at]) {
					history = append(history[:at+1], e.Design())
					at++
				}
			}
			if !e.Design().Equal(history[at]) {
				t.Fatal("the design is not the one of the history")
			}
		}
	})
}
