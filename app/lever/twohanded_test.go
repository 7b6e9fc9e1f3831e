package lever

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"pgregory.net/rapid"

	"skep/calc/quantity"
)

func yeast(t *testing.T) (*TwoHanded, *log, fyne.Window) {
	t.Helper()
	f, p := quantity.NewFormatter(quantity.Units{}, nil), quantity.NewParser(quantity.Units{}, nil)
	l := NewTwoHanded("Yeast", Scale{Min: 60, Max: 90, Step: 1, Big: 5, Page: 10}, 78, 73, func(low, high float64) string {
		return f.FormatRange(quantity.Percent, low, high)
	})
	l.Parse = func(text string) (float64, float64, string, error) {
		r, err := p.ParseRange(quantity.Percent, text, quantity.Limits{Low: 60, High: 90})
		return r.Low, r.High, r.Echo, err
	}
	told := &log{}
	l.OnChanged = func(low, high float64) { told.add("changed %v %v", low, high) }
	l.OnCommitted = func(low, high float64) { told.add("committed %v %v", low, high) }
	return l, told, window(t, l)
}

func TestHandlesComeInOrder(t *testing.T) {
	l, told, _ := yeast(t)
	if low, high := l.Values(); low != 73 || high != 78 {
		t.Errorf("%v, %v", low, high)
	}
	l.SetValues(80, 70)
	if low, high := l.Values(); low != 70 || high != 80 {
		t.Errorf("%v, %v", low, high)
	}
	told.want(t)
}

func TestTwoHandedKeys(t *testing.T) {
	l, told, _ := yeast(t)
	l.Focus()
	press(&l.Rail, fyne.KeyRight) // both, to begin with
	told.want(t, "changed 74 79", "committed 74 79")
	press(&l.Rail, fyne.KeySpace, fyne.KeyLeft) // the low one
	told.want(t, "changed 73 79", "committed 73 79")
	press(&l.Rail, fyne.KeyUp, fyne.KeyRight) // the high one
	told.want(t, "changed 73 80", "committed 73 80")
	press(&l.Rail, fyne.KeyDown, fyne.KeyEnd) // the low one again: it stops at the other
	told.want(t, "changed 80 80", "committed 80 80")
	press(&l.Rail, fyne.KeyPageDown)
	told.want(t, "changed 70 80", "committed 70 80")
	press(&l.Rail, fyne.KeyUp, fyne.KeyHome) // the high one stops at the low
	told.want(t, "changed 70 70", "committed 70 70")
	press(&l.Rail, desktop.KeyShiftLeft, fyne.KeyRight)
	l.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	told.want(t, "changed 70 75", "committed 70 75")
	press(&l.Rail, fyne.KeySpace, fyne.KeyEnd) // both: as far apart as they were
	told.want(t, "changed 85 90", "committed 85 90")
	press(&l.Rail, fyne.KeyHome)
	told.want(t, "changed 60 65", "committed 60 65")
	press(&l.Rail, fyne.KeyLeft)
	told.want(t)
}

func TestTwoHandedDrags(t *testing.T) {
	l, told, _ := yeast(t)
	r := &l.Rail
	// The low handle, past the high one: it stops there.
	down(r, at(r, 73))
	drag(r, at(r, 73), at(r, 65), at(r, 85))
	up(r)
	told.want(t, "changed 65 78", "changed 78 78", "committed 78 78")
	// On top of each other, a press to the left takes the low one.
	down(r, at(r, 78).SubtractXY(2, 0))
	drag(r, at(r, 78), at(r, 70))
	up(r)
	told.want(t, "changed 70 78", "committed 70 78")
	down(r, at(r, 78))
	drag(r, at(r, 78), at(r, 82))
	up(r)
	told.want(t, "changed 70 82", "committed 70 82")
	// The bar moves both, as far apart, and stops at an end.
	down(r, at(r, 76))
	told.want(t)
	drag(r, at(r, 76), at(r, 78), at(r, 89), at(r, 60))
	up(r)
	told.want(t, "changed 72 84", "changed 78 90", "changed 60 72", "committed 60 72")
	// A press on the empty track brings the nearer handle.
	down(r, at(r, 85))
	up(r)
	told.want(t, "changed 60 85", "committed 60 85")
	// Escape brings both back.
	down(r, at(r, 70))
	drag(r, at(r, 70), at(r, 74))
	l.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	up(r)
	told.want(t, "changed 64 89", "changed 60 85")
}

func TestTwoHandedTyped(t *testing.T) {
	l, told, w := yeast(t)
	l.SetDefaults(73, 78)
	test.Tap(l.parts.box)
	test.Type(l.parts.entry, "70-75")
	l.parts.entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	told.want(t, "changed 70 75", "committed 70 75")
	if l.note != "read as 70–75 %" || w.Canvas().Focused() != l {
		t.Errorf("note %q", l.note)
	}
	refused := false
	l.OnNote = func(_ string, bad bool) { refused = bad }
	for _, bad := range []string{"75", "70-95", "x"} {
		refused = false
		test.Tap(l.parts.box)
		test.Type(l.parts.entry, bad)
		w.Canvas().Unfocus()
		if !refused || l.note != "" {
			t.Errorf("%q was taken", bad)
		}
	}
	l.Parse = func(string) (float64, float64, string, error) { return 70, 99, "", nil }
	test.Tap(l.parts.box)
	test.Type(l.parts.entry, "x")
	w.Canvas().Unfocus()
	told.want(t)
	if low, high := l.Values(); low != 70 || high != 75 {
		t.Errorf("%v, %v", low, high)
	}
	press(&l.Rail, fyne.KeyDelete)
	told.want(t, "changed 73 78", "committed 73 78")
}

func TestTwoHandedSaysWhichHandle(t *testing.T) {
	l, _, _ := yeast(t)
	l.Focus()
	for _, want := range []string{"Yeast, 73–78 %, both handles", "Yeast, 73–78 %, low handle", "Yeast, 73–78 %, high handle"} {
		if got := l.AccessibilityLabel(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
		press(&l.Rail, fyne.KeySpace)
	}
}

// Whatever a person does, the handles stay in order and in range.
func TestHandlesStayInOrder(t *testing.T) {
	l, _, _ := yeast(t)
	r := &l.Rail
	keys := []fyne.KeyName{fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown, fyne.KeySpace, fyne.KeyHome, fyne.KeyEnd,
		fyne.KeyPageUp, fyne.KeyPageDown, fyne.KeyEscape}
	rapid.Check(t, func(t *rapid.T) {
		l.SetValues(73, 78)
		for range rapid.IntRange(1, 12).Draw(t, "deeds") {
			if rapid.Bool().Draw(t, "key") {
				press(r, rapid.SampledFrom(keys).Draw(t, "which"))
			} else {
				from := at(r, rapid.Float64Range(55, 95).Draw(t, "from"))
				to := at(r, rapid.Float64Range(55, 95).Draw(t, "to"))
				down(r, from)
				drag(r, from, to)
				up(r)
			}
			low, high := l.Values()
			if !(low >= 60 && low <= high && high <= 90) || low != float64(int(low)) || high != float64(int(high)) {
				t.Fatalf("%v, %v", low, high)
			}
		}
	})
}
