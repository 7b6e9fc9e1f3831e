package plane

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"skep/app/look"
)

func wishBench(t *testing.T) (*WishRow, *log, fyne.Canvas) {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(look.New(look.Light))
	r, told := numbers(), &log{}
	r.OnWish = func(key string, v *float64) { told.add("%s %s", key, num(v)) }
	w := test.NewTempWindow(t, r)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(252, 122))
	return r, told, w.Canvas()
}

func TestWishIsTyped(t *testing.T) {
	r, told, c := wishBench(t)
	test.Tap(r.boxes[0])
	test.Type(r.boxes[0].entry, "62")
	key(r.boxes[0].entry, fyne.KeyReturn)
	expect(t, told, "dryness 62")
	if c.Focused() != fyne.Focusable(r.boxes[0]) || r.boxes[0].text.Text != "62" || r.note != "" {
		t.Errorf("focus on %T, box says %q, note %q", c.Focused(), r.boxes[0].text.Text, r.note)
	}
	// A digit begins anew; leaving the box takes it.
	r.boxes[2].TypedRune('5')
	test.Type(r.boxes[2].entry, ".30")
	c.Unfocus()
	expect(t, told, "strength_pct 5.3")
	if r.note != "read as 5.3" {
		t.Errorf("how it was read: %q", r.note)
	}
	// An empty box is any, as is the word.
	r.boxes[0].edit("")
	r.boxes[0].entry.SetText(" ")
	c.Unfocus()
	expect(t, told, "dryness any")
	r.Set(BodyKey, f(40))
	r.boxes[1].edit("")
	r.boxes[1].entry.SetText("Any")
	c.Unfocus()
	expect(t, told, "body any")
	// What is at hand is no wish: nothing of it is more that may be bought.
	r.Set(AtHandKey, f(0.45))
	r.boxes[4].edit("")
	r.boxes[4].entry.SetText("0.6")
	c.Unfocus()
	expect(t, told, "honey_at_hand_kg 0.6")
	key(r.boxes[4], fyne.KeyDelete)
	expect(t, told, "honey_at_hand_kg any")
}

func TestWishRefused(t *testing.T) {
	r, told, c := wishBench(t)
	for text, why := range map[string]string{"soft": "“soft” is no number", "101": "0 to 100", "-1": "0 to 100", "NaN": "0 to 100", "+Inf": "0 to 100"} {
		r.boxes[1].edit("")
		r.boxes[1].entry.SetText(text)
		key(r.boxes[1].entry, fyne.KeyReturn)
		if !r.boxes[1].open || r.note != why || !r.bad {
			t.Errorf("%q: open %v, note %q", text, r.boxes[1].open, r.note)
		}
		key(r.boxes[1].entry, fyne.KeyEscape)
		if r.boxes[1].open || c.Focused() != fyne.Focusable(r.boxes[1]) {
			t.Errorf("%q: Escape must leave the entry for the box", text)
		}
	}
	expect(t, told, "")
}

func TestWishKeys(t *testing.T) {
	r, told, c := wishBench(t)
	c.FocusNext()
	b := r.boxes[0]
	if c.Focused() != fyne.Focusable(b) {
		t.Fatalf("Tab goes to %T", c.Focused())
	}
	r.Set(DrynessKey, f(99.6))
	key(b, fyne.KeyUp, fyne.KeyUp, fyne.KeyDown, fyne.KeyDelete, fyne.KeyDelete)
	expect(t, told, "dryness 100; dryness 99; dryness any")
	r.Set(StrengthKey, f(5.2))
	key(r.boxes[2], fyne.KeyUp)
	expect(t, told, "strength_pct 5.3")
	c.FocusNext()
	c.FocusNext()
	if c.Focused() != fyne.Focusable(r.boxes[2]) {
		t.Errorf("the third stop is %T", c.Focused())
	}
}

// What the programme sets it tells nobody, and keeps no pointer of.
func TestWishSet(t *testing.T) {
	r, told, _ := wishBench(t)
	v := 50.0
	r.Set(BodyKey, &v)
	v = 60
	if got := r.Value(BodyKey); got == nil || *got != 50 {
		t.Errorf("kept %s", num(got))
	}
	r.Set(BodyKey, f(math.NaN()))
	if r.Value(BodyKey) != nil || r.boxes[1].text.Text != "any" {
		t.Error("no number is any")
	}
	r.Set("other", f(1))
	expect(t, told, "")
}

func TestWishLabels(t *testing.T) {
	r, _, _ := wishBench(t)
	r.Set(DrynessKey, f(62))
	for i, want := range []string{"dryness wanted, 62", "body wanted, any", "strength wanted, any", "honey character wanted, any", "honey at hand: any"} {
		if got := r.boxes[i].AccessibilityLabel(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
		if r.boxes[i].Size().Height < look.Control {
			t.Errorf("box %d is %.0f high", i, r.boxes[i].Size().Height)
		}
	}
}

func TestCards(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
	l, told := NewWayList(), &log{}
	l.OnUse = func(i int) { told.add("use %d", i) }
	w := test.NewTempWindow(t, container.NewStack(l))
	w.Resize(fyne.NewSize(260, 300))
	l.Set([]Card{{Number: 1, Title: "2.5 °C cooler", Detail: "lands within 1"}, {Number: 2, Title: "More honey"},
		{Kind: Searching}, {Title: "a fourth"}})
	if n := len(l.Cards()); n != MostCards {
		t.Fatalf("%d cards", n)
	}
	test.Tap(l.cards[1].button)
	w.Canvas().Focus(l.cards[0].button)
	key(l.cards[0].button, fyne.KeyReturn, fyne.KeyTab)
	expect(t, told, "use 1; use 0")
	if l.cards[2].button.Visible() || l.cards[2].AccessibilityLabel() != "Looking for a way…" {
		t.Errorf("a search can't be used: %q", l.cards[2].AccessibilityLabel())
	}
	if got := l.cards[0].AccessibilityLabel(); got != "way 1: 2.5 °C cooler, lands within 1" {
		t.Error(got)
	}
	if got := l.cards[0].button.AccessibilityLabel(); !strings.Contains(got, "2.5 °C cooler") {
		t.Errorf("two buttons of one name: %q", got)
	}
	if h := l.cards[0].button.Size().Height; h < look.Control {
		t.Errorf("the button is %.0f high", h)
	}
	l.Set([]Card{{Kind: NoneAsked}})
	if l.cards[1].Visible() || !l.cards[0].Visible() || l.cards[0].lines[0].Text == "" {
		t.Error("one card that says what to do")
	}
	l.Set([]Card{{Kind: Unreachable, Detail: "12 too sweet", Use: "go there"}})
	if !l.cards[0].button.Visible() || l.cards[0].lines[0].Text != "Out of reach" {
		t.Errorf("the nearest can be taken: %q", l.cards[0].lines[0].Text)
	}
	l.Set(nil)
	if l.cards[0].Visible() {
		t.Error("no cards")
	}
}

// A long text is broken, then shortened, and given whole as a hint.
func TestLongCard(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
	long := strings.Repeat("somewhat cooler ", 12)
	c := newWayCard(Card{Title: strings.TrimSpace(long), Detail: strings.TrimSpace(long)})
	hints := &log{}
	c.OnHint = func(text string) { hints.add("%s", text) }
	w := test.NewTempWindow(t, c)
	w.Resize(fyne.NewSize(200, 100))
	for _, l := range c.lines {
		if l.Position().X+l.MinSize().Width > c.Size().Width {
			t.Errorf("%q runs out of the card", l.Text)
		}
	}
	if !strings.HasSuffix(c.lines[titleLines-1].Text, "…") {
		t.Errorf("%q hides that there is more", c.lines[titleLines-1].Text)
	}
	c.MouseIn(nil)
	if !strings.Contains(hints.last(), strings.TrimSpace(long)) {
		t.Errorf("hint %q", hints.last())
	}
	c.MouseOut()
	if hints.last() != "" {
		t.Error("the hint stays")
	}
	for _, width := range []float32{0, 1, 30, 1000} {
		if h := c.HeightFor(width); h < look.Control || h > 260 { // all lines that there may be
			t.Errorf("%.0f high for %.0f", h, width)
		}
	}
}

// The plane keeps its size whatever the cards say, and nothing overlaps.
func TestColumn(t *testing.T) {
	test.NewTempApp(t).Settings().SetTheme(look.New(look.Light))
	p, r, l := New(), numbers(), NewWayList()
	column := container.New(&Column{}, p, r, l)
	w := test.NewTempWindow(t, column)
	w.SetPadded(false)
	for _, size := range []fyne.Size{{Width: 252, Height: 600}, {Width: 198, Height: 480}, {Width: 252, Height: 1000}} {
		w.Resize(size)
		l.Set(nil)
		before := p.Size()
		l.Set([]Card{{Title: strings.Repeat("cooler and longer ", 9), Detail: "much"}, {Title: "b"}, {Title: "c"}})
		if p.Size() != before {
			t.Errorf("at %v the plane went from %v to %v", size, before, p.Size())
		}
		if p.Size().Height < leastPlane {
			t.Errorf("at %v the plane is %v", size, p.Size())
		}
		y := float32(0)
		for _, o := range column.Objects {
			if o.Position().Y < y {
				t.Errorf("at %v %T overlaps what is above it", size, o)
			}
			y = o.Position().Y + o.Size().Height
		}
		if y > size.Height+0.5 {
			t.Errorf("at %v the column ends at %.0f", size, y)
		}
	}
}
