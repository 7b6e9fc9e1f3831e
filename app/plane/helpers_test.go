package plane

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	_ "skep/app/quiet" // the locale of a container would be complained about

	"skep/app/look"
)

func TestMain(m *testing.M) {
	test.NewApp()
	os.Exit(m.Run())
}

// log is what a plane's owner was told, in order.
type log struct{ lines []string }

func (l *log) add(format string, args ...any) {
	l.lines = append(l.lines, fmt.Sprintf(format, args...))
}

func (l *log) last() string {
	if len(l.lines) == 0 {
		return ""
	}
	return l.lines[len(l.lines)-1]
}

func (l *log) String() string { return strings.Join(l.lines, "; ") }

func (l *log) clear() { l.lines = nil }

func num(v *float64) string {
	if v == nil {
		return "any"
	}
	return fmt.Sprint(*v)
}

// bench is a plane in a window, 300 by 324: a plane of 300 by 300.
func bench(t testing.TB, d Data) (*Plane, *log) {
	t.Helper()
	app := test.NewTempApp(t)
	app.Settings().SetTheme(look.New(look.Light))
	p, told := New(), &log{}
	p.OnPin = func(d, b *float64) { told.add("pin %s %s", num(d), num(b)) }
	p.OnPinEnd = func() { told.add("pin end") }
	p.OnArrow = func(lever string, steps float64) { told.add("pull %s %.2f", lever, steps) }
	p.OnArrowEnd = func(lever string) { told.add("pull end %s", lever) }
	w := test.NewTempWindow(t, p)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(300, 324))
	p.SetWhole(true) // 3 pixels a point: places can be told by heart
	p.Set(d)
	return p, told
}

// plain is a landing in the middle of the whole plane.
func plain() Data {
	here := pt(50, 50)
	return Data{Here: here, Half: [][]Point{ellipse(here, 4, 2, 0)}, Most: [][]Point{ellipse(here, 8, 4, 0)},
		Reach: [][]Point{{pt(30, 30), pt(70, 30), pt(70, 70), pt(30, 70)}},
		Arrows: []Arrow{
			{"rest", "hotter", "1 °C", pt(40, 50), nil},       // 30 pixels to the right
			{"honey", "more honey", "100 g", pt(50, 52), nil}, // 6 up
		}}
}

func mouse(at fyne.Position) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary}
}

// pull presses, drags along the places and stays there.
func pull(p *Plane, places ...fyne.Position) {
	p.MouseDown(mouse(places[0]))
	for i, at := range places[1:] {
		by := at.Subtract(places[i])
		p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at}, Dragged: fyne.NewDelta(by.X, by.Y)})
	}
}

func release(p *Plane) {
	p.MouseUp(mouse(fyne.Position{}))
	p.DragEnd()
}

func key(p fyne.Focusable, names ...fyne.KeyName) {
	for _, n := range names {
		p.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

// at is the place of a point on the bench's plane.
func at(dryness, body float64) fyne.Position {
	return fyne.NewPos(float32(100-dryness)*3, float32(100-body)*3)
}

func expect(t *testing.T, told *log, want string) {
	t.Helper()
	if told.String() != want {
		t.Errorf("told %q, want %q", told, want)
	}
	told.clear()
}

func pt(dryness, body float64) Point { return Point{Dryness: dryness, Body: body} }
