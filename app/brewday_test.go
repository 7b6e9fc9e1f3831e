package app

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"skep/app/recovery"
	"skep/app/stage"
	"skep/calc/design"
	"skep/calc/design/file"
)

// afternoon is a brew day in a window whose clock the test moves.
type afternoon struct {
	*scene
	t       *testing.T
	path    string
	batches string // their folder
	state   *recovery.Store
	wall    time.Time // what the computer's clock shows
	rings   []string
}

func newAfternoon(t *testing.T) *afternoon {
	t.Helper()
	a := &afternoon{t: t, path: aFile(t), batches: t.TempDir(), state: recovery.Open(t.TempDir()), wall: time.Date(2026, 11, 29, 9, 0, 0, 0, time.UTC)}
	a.open()
	return a
}

// open starts a window, or another one after the last was killed.
func (a *afternoon) open() {
	a.scene = stageAt(a.t, a.path, a.state, func() time.Time { return a.wall })
	a.Prefs.Ledger = a.batches
	a.day.Notify = func(_, text string) { a.rings = append(a.rings, text) }
}

// kill ends the window without a word and opens the next, which takes the unsaved
// work back.
func (a *afternoon) kill() {
	a.t.Helper()
	a.close()
	a.open()
	a.answer("Take it back")
	for deadline := time.Now().Add(10 * time.Second); !a.day.Running(); a.settle() {
		if time.Now().After(deadline) {
			a.t.Fatal("the day does not come back")
		}
		time.Sleep(5 * time.Millisecond)
	}
	a.settle()
	if a.Status.Day() == "" {
		a.t.Fatal("nothing at the foot of the window tells of the day")
	}
	a.startDay()
	a.settle()
}

// pass lets time go by, a second at a time where it is short, as the window does.
func (a *afternoon) pass(d time.Duration) {
	for d > 0 {
		step := min(d, 5*time.Second)
		a.wall = a.wall.Add(step)
		a.day.Tick()
		d -= step
	}
	a.settle()
}

func (a *afternoon) space() { a.key(fyne.KeySpace, false); a.settle() }

func (a *afternoon) typed(text string) {
	for _, r := range text {
		a.Window().Canvas().Focused().TypedRune(r)
	}
	a.key(fyne.KeyReturn, false)
	a.settle()
}

// texts is all that stands on the day's screen.
func (a *afternoon) texts() string { return stage.Texts(a.day.Object()) }

func (a *afternoon) sees(want string) {
	a.t.Helper()
	if got := a.texts() + "\n" + a.day.Next(); !strings.Contains(got, want) {
		a.t.Fatalf("no %q on the screen:\n%s", want, got)
	}
}

// upTo presses Space until the large button says something, and lets the clocks run
// where they must; what is to be measured is measured as it is planned, or as told.
func (a *afternoon) upTo(want string, told map[string]string) {
	a.t.Helper()
	for range 400 {
		next := a.day.Next()
		if strings.HasPrefix(next, want) {
			return
		}
		switch what, measures := strings.CutPrefix(next, "Measure: "); {
		case measures:
			value, ok := told[what]
			if !ok {
				value = a.day.Wanted()
			}
			a.typed(value)
		case strings.HasPrefix(next, "End: "):
			a.pass(20 * time.Second)
			if len(a.day.Rings()) > 0 { // seen, then ended
				a.space()
				a.space()
			}
		default:
			a.space()
			a.pass(time.Minute)
		}
	}
	a.t.Fatalf("%q does not come; the button says %q", want, a.day.Next())
}

// way takes what an answer offers, by a press on it.
func (a *afternoon) way(beginning string) {
	a.t.Helper()
	for i, text := range a.day.Ways() {
		if strings.HasPrefix(text, beginning) {
			a.day.Take(i)
			a.settle()
			return
		}
	}
	a.t.Fatalf("no way %q: %q", beginning, a.day.Ways())
}

func readings(d *design.Design) (list []string) {
	for _, r := range d.Reading {
		list = append(list, fmt.Sprintf("%s %.4g", r.What, r.Value))
	}
	return list
}

// TestABrewDay: from "Start the day" to the pitching at Gate Field in a simulated
// afternoon, with two surprises, two killed windows and a clock that is set back: every
// clock rings once, and the batch holds what really happened.
func TestABrewDay(t *testing.T) {
	a := newAfternoon(t)
	plan, err := os.ReadFile(a.path)
	if err != nil {
		t.Fatal(err)
	}
	a.goTo(2)
	a.settle()
	a.startDay()
	a.settle()
	a.sees("Crush")
	// The day is a batch's: the plan stays as it is.
	of := a.path
	a.path = a.Path()
	if d := a.Design(); a.path == of || d.Batch.Brewed != "2026-11-29" || d.Batch.Design != filepath.Base(of) {
		t.Errorf("the day runs on %s: %+v", a.path, d.Batch)
	}

	// The liquor is too cold to strike with; once the grain is in it is too late to
	// heat it, and the screen asks for what is measured next.
	a.upTo("Measure: the liquor, before the grain", nil)
	a.typed("68")
	a.sees("The liquor, before the grain: 68.0 °C. The mash would settle at")
	if len(a.day.Ways()) == 0 {
		t.Error("nothing can be done about a cold liquor")
	}
	a.space()
	if got := a.day.Ways(); len(got) != 0 {
		t.Errorf("the grain is in, and still it says %q", got)
	}
	a.Window().Canvas().Focused().TypedRune('u')
	a.Window().Canvas().Focused().TypedRune('u')
	a.settle()

	// The first surprise: the mash is too cold. The heater warms it, and it is measured
	// again; what was too cold is no rest.
	a.upTo("Measure: mash, once stirred", nil)
	a.typed("64,5")
	a.sees("drier and lighter")
	a.way("Heater on")
	a.sees("U takes it back")
	if got := a.Design().Reading; len(got) != 1 {
		t.Fatalf("after the heater: %q", readings(&design.Design{Reading: got}))
	}
	a.typed("66.4")
	a.sees("as planned")

	// The window is killed twenty minutes into the rest and is gone for ten.
	a.upTo("Iodine", nil)
	a.pass(20 * time.Minute)
	a.close()
	a.wall = a.wall.Add(10 * time.Minute)
	a.kill()
	a.sees("until")
	a.upTo("End: Rest", nil)
	a.pass(40 * time.Minute) // longer than planned
	rung := strings.Join(a.rings, "\n")
	if strings.Count(rung, "The rest is over") != 1 {
		t.Fatalf("rung: %q", a.rings)
	}
	a.space() // seen
	a.space() // ended
	minutes := a.Design().Mash.Rest[0].Minutes
	if minutes < 61 || minutes > 80 {
		t.Errorf("the rest took %v minutes", minutes)
	}

	// The second: the wort is too weak before the boil.
	a.upTo("Measure: gravity before the boil", nil)
	a.typed("1033")
	a.sees("would be pitched")
	volume := a.Design().Batch.IntoFermenterL
	a.way("Boil ")
	longer := a.Design().Boil.Minutes
	if longer < 80 || a.Design().Batch.IntoFermenterL >= volume {
		t.Errorf("boil %v min, %v L", longer, a.Design().Batch.IntoFermenterL)
	}
	a.Window().Canvas().Focused().TypedRune('u') // undo, and think again
	a.settle()
	if d := a.Design(); d.Boil.Minutes != 60 || d.Batch.IntoFermenterL != volume {
		t.Errorf("taken back: %v min, %v L", d.Boil.Minutes, d.Batch.IntoFermenterL)
	}
	a.Window().Canvas().Focused().TypedRune('u')
	a.settle()
	a.typed("1033")
	a.way("Boil ")

	// In the boil the clock of the computer is set back by an hour, and the window killed
	// again.
	a.upTo("End: Boil", nil)
	a.rings = nil
	a.wall = a.wall.Add(-time.Hour)
	a.day.Tick()
	a.kill()
	a.upTo("On to Whirlpool", nil)
	if strings.Count(strings.Join(a.rings, "\n"), "Heater off") != 1 {
		t.Errorf("rung: %q", a.rings)
	}
	if got := a.Design().Boil.Minutes; got < longer-0.5 || got > longer+3 {
		t.Errorf("the boil took %v minutes, planned %v", got, longer)
	}
	a.upTo("The yeast is in", nil)
	for range len(a.day.Rings()) + 1 { // what rang is seen first
		a.key(fyne.KeySpace, false)
		a.settle()
	}
	if a.day.Running() || a.Status.Day() != "" {
		t.Error("the day is not over")
	}

	// The batch holds what really happened, on the disk.
	if now, _ := os.ReadFile(of); string(now) != string(plan) {
		t.Errorf("the plan was changed:\n%s", now)
	}
	src, err := os.ReadFile(a.path)
	if err != nil {
		t.Fatal(err)
	}
	doc, _ := file.Parse(a.path, src)
	d := doc.Design
	want := []string{"strike-temperature", "mash-temperature 66.4", "pre-boil-volume", "pre-boil-gravity 1.033",
		"post-boil-volume", "post-boil-gravity", "volume-into-fermenter", "original-gravity", "beer-temperature", "pitched 1"}
	for i, r := range readings(&d) {
		if i >= len(want) || !strings.HasPrefix(r, want[i]) {
			t.Errorf("reading %d: %s", i, r)
		}
	}
	if len(d.Reading) != len(want) {
		t.Errorf("%d readings: %q", len(d.Reading), readings(&d))
	}
	if d.Mash.Rest[0].Minutes != minutes || d.Boil.Minutes < longer-0.5 {
		t.Errorf("rest %v, boil %v", d.Mash.Rest[0].Minutes, d.Boil.Minutes)
	}
	if left, _ := os.ReadDir(a.state.Folder() + "/days"); len(left) != 0 {
		t.Errorf("the day is still kept: %v", left)
	}
}

// A design named from where the program was started is found from elsewhere: the day
// of a window that was killed goes on with it.
func TestTheDayFindsItsDesignFromElsewhere(t *testing.T) {
	a := newAfternoon(t)
	t.Chdir(filepath.Dir(a.path))
	a.close()
	a.path = filepath.Base(a.path)
	a.open()
	if err := a.Edit("brewed", func(d *design.Design) { d.Batch.Brewed = "2026-11-29" }); err != nil {
		t.Fatal(err)
	}
	a.startDay()
	a.settle()
	if !filepath.IsAbs(a.Path()) {
		t.Fatalf("the design is known as %s", a.Path())
	}
	a.kill()
	if path, other := a.day.Elsewhere(); other {
		t.Errorf("the day is looked for at %s", path)
	}
}

// TestTheDayInTheWindow: Escape gives the window back and the day goes on with a line
// at the foot; arrows only look; a number that can't be is told of; figures are large.
func TestTheDayInTheWindow(t *testing.T) {
	a := newAfternoon(t)
	a.startDay()
	a.settle()
	if a.bar.Visible() || a.place().Object().Visible() {
		t.Error("the day does not fill the window")
	}
	a.upTo("Measure: the liquor", nil)
	at := a.texts()
	a.key(fyne.KeyRight, false)
	a.sees("only looking")
	a.key(fyne.KeyLeft, false)
	if a.texts() != at {
		t.Error("looking ahead and back is not where one was")
	}
	a.typed("702")
	a.sees("the liquor, before the grain: ")
	if len(a.Design().Reading) != 0 {
		t.Error("702 °C are written down")
	}
	a.key(fyne.KeyEscape, false) // takes what is typed away
	a.key(fyne.KeyEscape, false)
	a.settle()
	if !a.bar.Visible() || !strings.Contains(a.Status.Day(), "Mash-in") {
		t.Errorf("at the foot: %q", a.Status.Day())
	}
	a.pass(30 * time.Minute)
	a.startDay()
	a.settle()
	for _, o := range test.LaidOutObjects(a.day.Object()) {
		size := o.Size()
		p := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
		if o.Visible() && size.Width > 0 && (p.X+size.Width > 1281 || p.Y+size.Height > 801) {
			t.Errorf("%T at %v of %v leaves the window", o, p, size)
		}
	}
}
