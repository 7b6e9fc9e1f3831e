package app

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"skep/app/calculations"
	"skep/app/locale"
	"skep/app/shell"
	"skep/app/ui"
	"skep/app/words"
	"skep/assets"
	"skep/calc/message"
)

// walking is set in the process that walks the window: a process has one language.
const walking = "SKEP_TEST_WALK"

// walkIn walks every place of the window in a language, in a process of its own, and
// gives what it found.
func walkIn(t *testing.T, language string) []string {
	t.Helper()
	if testing.Short() {
		t.Skip("walks that a process of its own does tell the race detector nothing, and take minutes under it")
	}
	c := exec.Command(os.Args[0], "-test.run=^TestWalk$")
	c.Env = append(os.Environ(), walking+"=1", locale.Variable+"="+language)
	out, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	var found []string
	for line := range strings.Lines(string(out)) {
		if text, ok := strings.CutPrefix(line, "found: "); ok {
			found = append(found, strings.TrimSpace(text))
		}
	}
	return found
}

// In the pseudo-language no plain English word stands in any place, menu, dialog,
// drawer or page of help but names and formats.
func TestNoEnglishInTheWindow(t *testing.T) {
	t.Parallel()
	for _, text := range walkIn(t, "en-XA") {
		if english, ok := strings.CutPrefix(text, "English "); ok {
			t.Errorf("English that no language reaches: %s", english)
		}
	}
}

// In a window of 1024 by 700 no text is cut, in any language.
func TestNoTextIsCut(t *testing.T) {
	t.Parallel()
	for _, language := range []string{"en", "de", "pl", "en-XA"} {
		for _, text := range walkIn(t, language) {
			if what, ok := strings.CutPrefix(text, "cut "); ok {
				t.Errorf("%s is cut: %s", language, what)
			}
		}
	}
}

// TestWalk is the walk of [walkIn].
func TestWalk(t *testing.T) {
	if os.Getenv(walking) == "" {
		t.Skip("a process of the other tests")
	}
	path := filepath.Join(t.TempDir(), "middle.toml")
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, append(src, []byte(walkReadings)...), 0o600); err != nil {
		t.Fatal(err)
	}
	shell.LoadPreferences(filepath.Join(t.TempDir(), "preferences.toml"), "").Speak() // the toolkit's words too
	w := &walk{scene: newStage(t, path), seen: map[string]bool{}, typed: typedIn(string(src))}
	// A ledger with something in it; stretched by 40 % the names in two columns of a card
	// at 1024 pixels are still cut, which no language's own are.
	if words.Speaks().Tag != words.Pseudo {
		w.Prefs.Ledger = clubBatches(t)
		w.goTo(len(w.places) - 1)
		w.ledger.Read()
		w.settle()
	}
	w.typed += " Gate Field Apple Day Harvest Spring"
	catalogue := w.Catalogue()
	for _, g := range catalogue.Grain {
		w.typed += " " + g.Name
	}
	for _, g := range catalogue.Yeast {
		w.typed += " " + g.Name
	}
	for _, g := range catalogue.Honey {
		w.typed += " " + g.Name
	}
	for _, g := range catalogue.Hop {
		w.typed += " " + g.Name
	}
	var all map[string]any
	if raw, err := os.ReadFile("words/translations/en.json"); err != nil || json.Unmarshal(raw, &all) != nil {
		t.Fatal("the list of texts", err)
	}
	for english := range all {
		if strings.HasSuffix(english, "…") && len(message.Places(english)) == 0 {
			w.endings = append(w.endings, words.Listed(english))
		}
	}
	w.typed = strings.ToLower(w.typed+" "+w.ledger.Folder()) + " tmp"
	for _, size := range []fyne.Size{{Width: 1024, Height: 700}} {
		w.Window().Resize(size)
		for i, p := range w.places {
			w.goTo(i)
			w.settle()
			w.look(p.name, w.Window().Content())
			w.openAll(i, p)
		}
	}
	for name, open := range map[string]func(){
		"menu": w.menu, "preferences": w.showPreferences, "help": w.showHelp, "print": w.brew.Print, "new": w.AskNew,
		"yeasts of the lever": w.taste.Levers.ChooseYeast, "calculations": func() { calculations.Open(w.bench) }, "brew day": w.startDay,
	} {
		w.goTo(0)
		open()
		w.settle()
		w.overlays(name)
		w.look(name, w.Window().Content())
	}
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
	seen    map[string]bool
	endings []string // texts that end in an ellipsis
	typed   string   // what people typed, and names that keep
}

// openAll presses what opens a menu or a dialog in a place.
func (w *walk) openAll(place int, p placeEntry) {
	for _, o := range allOf(p.place.Object(), nil) {
		choice, ok := o.(*ui.Choice)
		if !ok || !choice.Visible() {
			continue
		}
		w.press(choice)
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

// overlays looks at what stands over the window, and takes it away.
func (w *walk) overlays(name string) {
	overlays := w.Window().Canvas().Overlays()
	for top := overlays.Top(); top != nil; top = overlays.Top() {
		w.look(name, top)
		overlays.Remove(top)
	}
}

var (
	englishWord = regexp.MustCompile(`(^|[^\pL])([A-Z]?[a-z]{2,})($|[^\pL])`)
	formats     = regexp.MustCompile(`[\w-]+\.(toml|pdf|txt|csv)|(Ctrl|Shift|Alt)(\+\S+)?|https?:\S+|[a-z_]+([.][a-z0-9_]+)+|[A-Z]:?\\\S*|/\S+|\b(Skep batches|Skep|Computer|Letter|Esc|Enter|Tab|Home|End|Page|Up|Down|Space|Escape|English|Deutsch|Polski|min|mL|kg|psi|lb|oz|gal|bar|SG|pH|gal/min)\b`)
)

// look notes every text that is shown: what is English, and what is cut.
func (w *walk) look(where string, root fyne.CanvasObject) {
	for _, s := range shownIn(root, fyne.NewPos(0, 0), root.Size(), nil) {
		key := s.text.Text + fmt.Sprint(s.fits)
		if w.seen[key] || s.text.Text == "" {
			continue
		}
		w.seen[key] = true
		text := formats.ReplaceAllString(s.text.Text, "")
		var english []string
		for range 2 {
			for _, m := range englishWord.FindAllStringSubmatch(text, -1) {
				if !strings.Contains(w.typed, strings.ToLower(m[2])) && !slices.Contains(english, m[2]) {
					english = append(english, m[2])
				}
			}
			text = strings.ReplaceAll(text, " ", "  ")
		}
		if len(english) > 0 {
			fmt.Printf("found: English %q of %q in %s\n", english, s.text.Text, where)
		}
		if strings.Contains(w.typed, strings.ToLower(strings.TrimSuffix(s.text.Text, "…"))) {
			continue // a person's own title, as long as they like
		}
		if !s.fits || strings.HasSuffix(strings.TrimSpace(s.text.Text), "…") && !w.own(s.text.Text) {
			fmt.Printf("found: cut %q in %s\n", s.text.Text, where)
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
		return append(list, sight{x, need <= x.Size().Width+1 || x.Size().Width == 0 || x.Alignment != fyne.TextAlignLeading})
	case *ui.Caption:
		for _, c := range test.WidgetRenderer(x).Objects() {
			text := c.(*canvas.Text)
			whole := text.Text == x.Text || text.Text == x.Short
			list = append(list, sight{text, whole})
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

// typedIn are the texts in quotation marks of a file.
func typedIn(src string) string {
	return strings.Join(regexp.MustCompile(`"[^"]*"`).FindAllString(src, -1), " ")
}
