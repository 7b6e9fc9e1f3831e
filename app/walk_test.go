package app

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"skep/app/calculations"
	"skep/app/recovery"
	"skep/app/shell"
	"skep/app/ui"
	"skep/app/words"
	"skep/app/words/plain"
	"skep/assets"
	"skep/calc/glasstest"
	"skep/calc/measured"
	"skep/calc/message"
)

// TestWalk is the walk of [walkIn].
func TestWalk(t *testing.T) {
	if os.Getenv(walking) == "" {
		t.Skip("a process of the other tests")
	}
	shell.LoadPreferences(filepath.Join(t.TempDir(), "preferences.toml"), "").Speak() // the toolkit's words too
	w := &walk{t: t, seen: map[string]bool{}, known: knownWords(t)}
	raw, err := os.ReadFile("words/translations/en.json")
	var all map[string]any
	if err != nil || json.Unmarshal(raw, &all) != nil {
		t.Fatal("the list of texts", err)
	}
	for english := range all {
		if strings.HasSuffix(english, "…") && len(message.Places(english)) == 0 {
			w.endings = append(w.endings, words.Listed(english))
		}
	}
	w.titles = []string{"Gate Field Apple Day", "Gate Field Harvest", "Gate Field Spring", "Gate Field Midsummer", "As first drawn"}
	w.places5()
	w.dialogs()
	w.numbers()
	w.questions()
	w.refusals()
	w.brewDay()
	w.fermentation()
	w.tastings()
}

// knownWords are those of no language: names of ingredients, of the club's batches, of
// files and folders, units and keys of the keyboard.
func knownWords(t *testing.T) map[string]bool {
	texts := []string{"Gate Field Apple Day Harvest Spring Skep Computer Letter Esc Enter Tab Home End Page Up Down Space Escape Ctrl Shift Alt English Deutsch Polski min mL kg mg psi lb oz gal bar SG pH vol tmp toml pdf csv txt format"}
	for _, name := range assets.Demos() {
		src, err := assets.Demo(name)
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, plain.Quoted(string(src)))
	}
	batches, err := assets.DemoBatches()
	if err != nil {
		t.Fatal(err)
	}
	for _, src := range batches {
		texts = append(texts, plain.Quoted(string(src)))
	}
	c := newStage(t, "").Catalogue()
	for _, g := range c.Grain {
		texts = append(texts, g.Name)
	}
	for _, g := range c.Yeast {
		texts = append(texts, g.Name)
	}
	for _, g := range c.Honey {
		texts = append(texts, g.Name)
	}
	for _, g := range c.Hop {
		texts = append(texts, g.Name)
	}
	return plain.Words(texts...)
}

// stage puts a design on a window of the smallest size, with a ledger that has batches.
func (w *walk) stage(file string) {
	w.scene = newStage(w.t, file)
	w.small()
}

func (w *walk) small() {
	w.Prefs.Ledger = clubBatches(w.t)
	w.OwnFolder = w.t.TempDir()
	w.Window().Resize(fyne.Size{Width: 1024, Height: 700})
	w.goTo(len(w.places) - 1)
	w.ledger.Read()
	w.settle()
}

// aFileWith is the demonstration with more lines.
func (w *walk) aFileWith(more string) string {
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		w.t.Fatal(err)
	}
	path := filepath.Join(w.t.TempDir(), "middle.toml")
	if err := os.WriteFile(path, append(src, []byte(more)...), 0o600); err != nil {
		w.t.Fatal(err)
	}
	return path
}

// places5 walks all places, and presses all that opens something.
func (w *walk) places5() {
	w.stage(w.aFileWith(walkReadings))
	for i, p := range w.places {
		w.goTo(i)
		w.settle()
		w.window(p.name)
		w.openAll(i, p)
	}
	for _, other := range []string{"dry", "soft"} { // the other two demonstrations
		for _, name := range assets.Demos() {
			if strings.Contains(name, other) {
				src, _ := assets.Demo(name)
				path := filepath.Join(w.t.TempDir(), name)
				if err := os.WriteFile(path, src, 0o600); err != nil {
					w.t.Fatal(err)
				}
				w.Open(path)
				w.everywhere(name)
			}
		}
	}
}

// everywhere looks at all places.
func (w *walk) everywhere(what string) {
	for i, p := range w.places {
		w.goTo(i)
		w.settle()
		w.window(p.name + ", " + what)
	}
}

// dialogs are what the menu and the keys open.
func (w *walk) dialogs() {
	for name, open := range map[string]func(){
		"menu": w.menu, "preferences": w.showPreferences, "help": w.showHelp, "print": w.brew.Print, "new": w.AskNew, "open": w.AskOpen, "save as": func() { w.SaveAs(nil) },
		"yeasts of the lever": w.taste.Levers.ChooseYeast, "honeys": w.taste.Levers.ChooseHoney, "rests": w.taste.Levers.ChooseRest, "side by side": w.taste.ShowSideBySide,
		"calculations": func() { calculations.Open(w.bench) }, "title": w.editTitle, "table": w.ledger.Export,
	} {
		w.goTo(0)
		open()
		w.settle()
		w.overlays(name)
		w.window(name)
	}
}

// numbers opens each number to where it comes from.
func (w *walk) numbers() {
	w.goTo(0)
	w.taste.Third.Turn(1)
	w.settle()
	w.window("numbers")
	for _, r := range w.taste.Third.Numbers.Rows {
		r.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
		w.settle()
		w.overlays("the number " + r.Name.Text)
	}
}

// questions are what is asked before something is lost, and what can't be done.
func (w *walk) questions() {
	path, state := w.aFileWith(""), recovery.Open(w.t.TempDir())
	w.scene = stageWith(w.t, path, state)
	w.small()
	w.goTo(0)
	w.settle()
	w.key(fyne.KeyRight, true)
	w.AskClose()
	w.overlays("closing")
	src, err := os.ReadFile(path)
	if err != nil {
		w.t.Fatal(err)
	}
	if err := os.WriteFile(path, append(src, "# theirs\n"...), 0o600); err != nil {
		w.t.Fatal(err)
	}
	w.Save(nil)
	w.settle()
	w.overlays("a file that has changed")
	w.close()
	w.scene = stageWith(w.t, path, state)
	w.overlays("unsaved work")
	other := stageWith(w.t, path, state) // another window on the file
	other.overlaysGone()
	other.Window().Resize(fyne.Size{Width: 1024, Height: 700})
	other.settle()
	mine := w.scene
	w.scene = other
	w.window("a second window")
	w.scene = mine
	for name, text := range map[string]string{"bad.toml": "format = 1\n[batch\n", "newer.toml": "format = 9\n", "empty.toml": ""} {
		bad := filepath.Join(w.t.TempDir(), name)
		if err := os.WriteFile(bad, []byte(text), 0o600); err != nil {
			w.t.Fatal(err)
		}
		w.Open(bad)
		w.settle()
		w.window(name)
		w.overlays(name)
	}
	w.Open(filepath.Join(w.t.TempDir(), "gone.toml"))
	w.settle()
	w.window("a file that is gone")
	if err := w.Editor.SaveOver(filepath.Join(w.t.TempDir(), "no", "brew.toml")); err != nil {
		w.Warn(ui.SentenceOf(w.Say().Why(err)))
		w.window("a folder that is gone")
	}
	w.Prefs.Ledger = filepath.Join(w.t.TempDir(), "no")
	w.goTo(len(w.places) - 1)
	w.ledger.Read()
	w.settle()
	w.window("no ledger")
}

// refusals are a design with a number that can't be, in all places.
func (w *walk) refusals() {
	w.stage(written(w.t, "into_fermenter_l = 15.0", "into_fermenter_l = 1500"))
	w.everywhere("refused")
	w.Mend(w.Editor.Refused().Key)
	w.settle()
	w.window("mending")
}

// brewDay goes through a running day, with each measurement first missed by much and
// then as it is planned.
func (w *walk) brewDay() {
	a := newAfternoon(w.t)
	w.scene = a.scene
	w.Window().Resize(fyne.Size{Width: 1024, Height: 700})
	w.startDay()
	w.settle()
	missed := map[string]bool{}
	for range 300 {
		if !w.day.Running() {
			break
		}
		what := w.day.Next()
		w.window("brew day, " + what)
		wanted := w.day.Wanted()
		switch {
		case len(w.day.Rings()) > 0:
			a.space()
		case wanted != "" && !missed[what]:
			missed[what] = true
			v, err := strconv.ParseFloat(strings.ReplaceAll(wanted, ",", "."), 64)
			if err != nil {
				w.t.Fatal(err)
			}
			for _, by := range []float64{0.9, 1.01, 0.98} {
				a.typed(strings.TrimRight(fmt.Sprintf("%.3f", v*by), "0"))
				w.window("brew day, " + what + ", missed")
				for range 9 { // what was refused stands there still
					w.key(fyne.KeyBackspace, false)
				}
				a.Window().Canvas().Focused().TypedRune('u')
				w.settle()
			}
		case wanted != "":
			a.typed(wanted)
		default:
			a.space()
			a.pass(10 * time.Minute)
		}
	}
	if w.day.Running() || len(missed) < 5 {
		w.t.Errorf("the day did not come to its end: %d measured, %q", len(missed), w.day.Next())
	}
	w.window("after the day")
}

// fermentation follows a beer from pitching to the ledger.
func (w *walk) fermentation() {
	w.stage(w.aFileWith(""))
	clock(w.scene, 60)
	log := logTo(w.t, w.scene)
	w.goTo(3)
	for _, r := range []struct {
		what         string
		value, hours float64
	}{
		{measured.OriginalGravity, 1.041, -0.5}, {measured.Pitched, 1, 0}, {measured.BeerTemperature, 19, 5}, {measured.Gravity, 1.036, 20}, {measured.Gravity, 1.004, 28},
		{measured.Gravity, 1.029, 36}, {measured.HoneyAdded, 0.5, 50}, {measured.Gravity, 1.052, 55}, {measured.Gravity, 1.008, 200}, {measured.FinalGravity, 1.008, 280},
		{measured.Foam, 1, 290}, {measured.ForcedFerment, 1.007, 290},
	} {
		clock(w.scene, max(60, r.hours+10))
		log(r.what, r.value, r.hours)
		w.window("Ferment, " + r.what)
	}
	w.ferment.CloseBatch()
	w.settle()
	w.window("closing")
	w.overlays("closing")
	w.ferment.CloseBatch()
	w.settle()
	w.everywhere("closed")
	w.goTo(3)
	w.openAll(3, w.places[3])
}

// tastings are the glass tests and what is said of a batch that came out otherwise.
func (w *walk) tastings() {
	w.stage("")
	for _, e := range w.ledger.Found() {
		w.ledger.ShowDiffered(e)
		w.settle()
		w.overlays("what differed")
	}
	for _, three := range []bool{false, true} {
		w.ledger.StartTest(three)
		w.settle()
		x := w.ledger.Test
		w.window("glass test")
		x.Choose(1, "Alt", "1.040", "1.039")
		x.Pour()
		w.window("a beer that hardly fermented")
		x.Choose(1, "Alt", "1.040", "1.010")
		x.Pour()
		w.over("poured")
		x.Ask()
		w.over("asked")
		if three {
			x.Odd(0)
		} else {
			x.Drier, x.Fuller = glasstest.First, glasstest.Alike
			x.Keep()
		}
		w.over("told")
		w.overlays("glass test")
	}
	w.goTo(len(w.places) - 1)
	w.settle()
	w.window("after tasting")
}

const walkReadings = `
[[reading]]
what = "original-gravity"
at = 2026-06-20T15:40:00Z
value = 1.0485
[[reading]]
what = "pitched"
at = 2026-06-20T16:00:00Z
value = 1
[[reading]]
what = "gravity"
at = 2026-06-21T18:00:00Z
value = 1.0400
`

type walk struct {
	*scene
	t       *testing.T
	seen    map[string]bool
	endings []string        // texts that end in an ellipsis
	known   map[string]bool // words of no language
	titles  []string        // a person's own, as long as they like
}

// openAll presses what opens a menu or a dialog in a place.
func (w *walk) openAll(place int, p placeEntry) {
	for _, o := range allOf(p.place.Object(), nil) {
		choice, ok := o.(*ui.Choice)
		if !ok || !choice.Visible() {
			continue
		}
		w.press(choice)
		w.window(p.name + ", " + choice.Name + choice.Text)
		w.overlays(p.name + ", " + choice.Name + choice.Text)
		if w.at != place {
			w.goTo(place)
		}
		w.settle()
	}
}

// press presses a choice; one that is spent does nothing.
func (w *walk) press(c *ui.Choice) {
	test.Tap(c)
	w.settle()
}

// window looks at all that the window shows.
func (w *walk) window(name string) { w.look(name, w.Window().Content()) }

// over looks at what stands over the window.
func (w *walk) over(name string) {
	w.settle()
	if top := w.Window().Canvas().Overlays().Top(); top != nil {
		w.look(name, top)
	}
}

// overlays looks at what stands over the window, and takes it away.
func (w *walk) overlays(name string) {
	overlays := w.Window().Canvas().Overlays()
	for top := overlays.Top(); top != nil; top = overlays.Top() {
		w.look(name, top)
		overlays.Remove(top)
	}
}

// keys of the keyboard with what they are pressed with, and quoted names of files.
var chords = regexp.MustCompile(`\b(Ctrl|Shift|Alt)(\+\S+)?\b|Skep batches|gal/min|\[{1,2}[a-z]+\]{1,2}`)

// look notes every text that is shown: what is English, and what is cut.
func (w *walk) look(where string, root fyne.CanvasObject) {
	for _, s := range shownIn(root, fyne.NewPos(0, 0), root.Size(), nil) {
		key := s.text.Text + fmt.Sprint(s.fits)
		if w.seen[key] || s.text.Text == "" {
			continue
		}
		w.seen[key] = true
		if slices.ContainsFunc(w.titles, func(title string) bool { return strings.HasPrefix(title, strings.TrimSuffix(s.text.Text, "…")) }) {
			continue
		}
		if english := plain.English(s.text.Text, chords, w.known); len(english) > 0 {
			fmt.Printf("found: English %q of %q in %s\n", english, s.text.Text, where)
		}
		if !s.fits || strings.HasSuffix(strings.TrimSpace(s.text.Text), "…") && !w.own(s.text.Text) {
			fmt.Printf("found: cut %q of %q at %.0f px in %s\n", s.text.Text, s.of, s.text.Size().Width, where)
		}
	}
}

// own tells whether a text's ellipsis is its own: "Open…" opens a dialog.
func (w *walk) own(text string) bool {
	for _, known := range w.endings {
		if strings.HasSuffix(text, known) || strings.HasSuffix(known, text) {
			return true
		}
	}
	return false
}

// sight is a text with whether it has the room that it needs.
type sight struct {
	text *canvas.Text
	fits bool
	of   string // the whole text, where it is known
}

// shownIn are the visible texts of an object, of which only a part may be seen.
func shownIn(o fyne.CanvasObject, at fyne.Position, window fyne.Size, list []sight) []sight {
	if o == nil || !o.Visible() {
		return list
	}
	at = at.Add(o.Position())
	switch x := o.(type) {
	case *canvas.Text:
		need := fyne.MeasureText(x.Text, x.TextSize, x.TextStyle).Width
		return append(list, sight{text: x, fits: need <= x.Size().Width+1 || x.Size().Width == 0 || x.Alignment != fyne.TextAlignLeading})
	case *ui.Caption:
		for _, c := range test.WidgetRenderer(x).Objects() {
			text := c.(*canvas.Text)
			whole := text.Text == x.Text || text.Text == x.Short
			list = append(list, sight{text, whole, x.Text})
		}
	case *fyne.Container:
		for _, c := range x.Objects {
			list = shownIn(c, at, window, list)
		}
	case *widget.Entry: // scrolls within itself
	case *widget.Label:
		if x.Truncation == fyne.TextTruncateOff { // else it is what somebody pasted
			for _, c := range test.WidgetRenderer(x).Objects() {
				list = shownIn(c, at, window, list)
			}
		}
	case *container.Scroll:
		list = shownIn(x.Content, at, window, list)
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(x).Objects() {
			list = shownIn(c, at, window, list)
		}
	}
	return list
}

// allOf are an object and all within it.
func allOf(o fyne.CanvasObject, list []fyne.CanvasObject) []fyne.CanvasObject {
	if o == nil || !o.Visible() {
		return list
	}
	list = append(list, o)
	switch x := o.(type) {
	case *fyne.Container:
		for _, c := range x.Objects {
			list = allOf(c, list)
		}
	case *container.Scroll:
		list = allOf(x.Content, list)
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(x).Objects() {
			list = allOf(c, list)
		}
	}
	return list
}

// overlaysGone takes away what stands over a window.
func (s *scene) overlaysGone() {
	overlays := s.Window().Canvas().Overlays()
	for top := overlays.Top(); top != nil; top = overlays.Top() {
		overlays.Remove(top)
	}
}
