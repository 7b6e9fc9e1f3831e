package yeasts

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"pgregory.net/rapid"

	"skep/app/compare"
	"skep/app/stage"
	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
)

// yeastsScene is the Yeasts place on a stage.
type yeastsScene struct {
	*stage.Stage
	yeasts *Place
}

// yeastsStage is the Yeasts place, with no strains of one's own.
func yeastsStage(t testing.TB) *yeastsScene {
	t.Helper()
	s := &yeastsScene{Stage: stage.New(t)}
	s.yeasts = New(s)
	s.Put(t, s.yeasts)
	return s
}

func (s *yeastsScene) strainNames() []string {
	var names []string
	for _, y := range s.Design().Yeast {
		names = append(names, y.Name)
	}
	return names
}

// rowNames are the strains from top to bottom of the table.
func (s *yeastsScene) rowNames() []string {
	var names []string
	for _, r := range s.yeasts.table.rows {
		if r.Visible() {
			names = append(names, r.name.Text)
		}
	}
	return names
}

func (s *yeastsScene) want(t *testing.T, what string, got []string, names ...string) {
	t.Helper()
	if !slices.Equal(got, names) {
		t.Errorf("%s: %v, want %v", what, got, names)
	}
}

// Two computations of the same thing: the table has what a fresh engine says,
// also after the mash rest was dragged in a picture and one strain's curves
// came from what was kept.
func TestTheTableHasTheEnginesNumbers(t *testing.T) {
	s := yeastsStage(t)
	check := func(when string) {
		t.Helper()
		d := s.Design()
		e := calc.NewEngine()
		var own calc.Prediction
		var drawn *calc.Drawn
		for i := range d.Yeast {
			p, err := e.PredictYeast(d, i)
			if err != nil {
				t.Fatal(err)
			}
			var from *calc.Prediction
			var than *calc.Difference
			if i == 0 {
				own = p
				if drawn, err = e.Drawn(d, 0); err != nil {
					t.Fatal(err)
				}
			} else {
				from = &own
				x, err := e.Difference(drawn, d, i)
				if err != nil {
					t.Fatal(err)
				}
				than = &x
			}
			row := s.yeasts.table.rows[i]
			for c, column := range compare.Columns() {
				want := compare.CellOf(s.Say().Formatter, column, &p, from, than)
				got := row.cells[c]
				if got.mid.Text != want.Mid || got.difference.Text != want.Shown() || got.band.Text != want.Low+" to "+want.High {
					t.Errorf("%s: %s, %s: %q %q %q, the engine says %+v", when, row.name.Text, column.Name, got.mid.Text, got.difference.Text, got.band.Text, want)
				}
			}
		}
	}
	check("at first")
	p := s.yeasts.pictures[calc.Dryness]
	for x := float32(90); x < 160; x += 10 {
		p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, 150)}})
	}
	p.DragEnd()
	s.WaitIdle()
	if s.RestC() == 66.5 {
		t.Fatal("the drag did not move the mash rest")
	}
	check("after the drag")
	s.yeasts.move(2, 0)
	s.WaitIdle()
	check("with another first")
	if n := len(s.Design().Yeast); n != 3 {
		t.Errorf("%d strains", n)
	}
	for range 2 {
		s.Undo()
	}
	if d := s.Design(); d.Yeast[0].Name != "Clean ale" || s.RestC() != 66.5 {
		t.Errorf("a drag and a move are two steps of undo; back at %s, %v °C", d.Yeast[0].Name, s.RestC())
	}
}

// What is kept must be what would be computed: a strain's curves over a rest do
// not depend on where that rest stands, whichever rest it is.
func TestKeptCurvesAreWhatTheEngineSays(t *testing.T) {
	s := yeastsStage(t)
	d := s.Design()
	d.Mash.Rest = append(d.Mash.Rest, design.Rest{TemperatureC: 72, Minutes: 20})
	l := newWorker(s.yeasts.painter)
	l.temperaturesC = []float64{60, 64, 68, 72}
	for rest := range d.Mash.Rest {
		for _, at := range []float64{62, 66, 70.5} {
			d.Mash.Rest[rest].TemperatureC = at
			v := ask{taught: ui.Taught{Design: d}, rest: rest, slots: []int{0, 1, 2}, lit: -1}
			got, err := l.compute(&v)
			if err != nil {
				t.Fatal(err)
			}
			fresh := calc.NewEngine()
			for i := range got {
				want, err := fresh.CurvesYeast(d, i, rest, l.temperaturesC)
				if err != nil {
					t.Fatal(err)
				}
				for o := range want.Bands {
					if !slices.Equal(got[i].curves.Bands[o], want.Bands[o]) {
						t.Errorf("rest %d at %v, strain %d, outcome %d: kept %v, fresh %v", rest, at, i, o, got[i].curves.Bands[o], want.Bands[o])
					}
				}
				p, err := fresh.PredictYeast(d, i)
				if err != nil {
					t.Fatal(err)
				}
				if got[i].Prediction.Four() != p.Four() {
					t.Errorf("rest %d at %v, strain %d: %v, fresh %v", rest, at, i, got[i].Prediction.Four(), p.Four())
				}
			}
		}
	}
}

func TestAddDropMoveAndUndo(t *testing.T) {
	s := yeastsStage(t)
	start := s.Design()
	lager := design.NewYeast()
	lager.Name, lager.AttenuationLowPct, lager.AttenuationHighPct = "Lager", 75, 82
	s.yeasts.add(lager)
	s.WaitIdle()
	s.want(t, "added", s.rowNames(), "Clean ale", "English ale", "Belgian abbey", "Lager")
	s.yeasts.move(3, 1)
	s.want(t, "moved up", s.strainNames(), "Clean ale", "Lager", "English ale", "Belgian abbey")
	s.yeasts.move(1, 0)
	s.want(t, "made the brew's own", s.strainNames(), "Lager", "Clean ale", "English ale", "Belgian abbey")
	s.yeasts.drop(0)
	s.WaitIdle()
	s.want(t, "dropped the brew's own", s.rowNames(), "Clean ale", "English ale", "Belgian abbey")
	if got, ok := s.Editor.UndoName(); !ok || !strings.Contains(got, "Lager") {
		t.Errorf("the step is called %q", got)
	}
	for range 4 {
		s.Undo()
	}
	if d := s.Design(); !d.Equal(start) {
		t.Error("four steps back is not where it began")
	}
}

// The bad cases: the only strain, a seventh, two that are the same, a strain
// without a name, more strains in the file than can be shown.
func TestStrainsAtTheLimits(t *testing.T) {
	s := yeastsStage(t)
	twin := s.Design().Yeast[1]
	s.yeasts.add(twin)
	s.WaitIdle()
	if !strings.Contains(s.Status.Text(), "twice") {
		t.Errorf("of a twin it says %q", s.Status.Text())
	}
	for c := range s.yeasts.table.columns {
		a, b := s.yeasts.table.rows[1].cells[c], s.yeasts.table.rows[3].cells[c]
		if a.mid.Text != b.mid.Text || a.difference.Text != b.difference.Text {
			t.Errorf("twins differ: %s %s", a.mid.Text, b.mid.Text)
		}
	}
	s.yeasts.add(twin)
	twin.Name = ""
	s.yeasts.add(twin)
	s.WaitIdle()
	if s.yeasts.add(twin) || !strings.Contains(s.Status.Text(), "drop one first") || !s.yeasts.table.add.Off {
		t.Errorf("a seventh: %q", s.Status.Text())
	}
	if got := s.rowNames(); len(got) != 6 || got[5] == "" {
		t.Errorf("rows %q", got)
	}
	ui.Change(s, "seventh", func(d *design.Design) { d.Yeast = append(d.Yeast, twin, twin) })
	s.WaitIdle()
	if got := s.rowNames(); len(got) != 6 || !strings.Contains(s.yeasts.table.note.Text, "2 more") {
		t.Errorf("with eight: %q, %q", got, s.yeasts.table.note.Text)
	}
	for len(s.strainNames()) > 1 {
		s.yeasts.drop(len(s.strainNames()) - 1)
	}
	s.WaitIdle()
	s.yeasts.drop(0)
	if len(s.strainNames()) != 1 || !strings.Contains(s.Status.Text(), "needs a yeast") {
		t.Errorf("the last one: %v, %q", s.strainNames(), s.Status.Text())
	}
	if !strings.Contains(s.yeasts.table.hint.Text, "Clean ale") || !s.yeasts.table.empty.Visible() {
		t.Errorf("one strain alone: %q", s.yeasts.table.hint.Text)
	}
}

func TestRowsAreDragged(t *testing.T) {
	s := yeastsStage(t)
	drag := func(from int, rows float32) {
		r := s.yeasts.table.rows[from]
		h := r.Size().Height + rowGap
		for i := range 5 {
			r.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(20, h/2+rows*h*float32(i)/4)}})
		}
		if s.yeasts.lit() != r.at {
			t.Errorf("while row %d is dragged, %d is lit", r.at, s.yeasts.lit())
		}
		r.DragEnd()
		s.WaitIdle()
	}
	drag(2, -1.2)
	s.want(t, "one up", s.strainNames(), "Clean ale", "Belgian abbey", "English ale")
	drag(0, 2.3)
	s.want(t, "the first to the end", s.strainNames(), "Belgian abbey", "English ale", "Clean ale")
	drag(1, 0.2)
	s.want(t, "hardly moved", s.strainNames(), "Belgian abbey", "English ale", "Clean ale")
	drag(2, -9)
	s.want(t, "far above the table", s.strainNames(), "Clean ale", "Belgian abbey", "English ale")
	drag(0, 30)
	s.want(t, "far below it", s.strainNames(), "Belgian abbey", "English ale", "Clean ale")
}

func TestTheKeyboardReachesEverything(t *testing.T) {
	s := yeastsStage(t)
	s.yeasts.focusRow(0)
	focused := func() string {
		r, ok := s.Window().Canvas().Focused().(*strainRow)
		if !ok {
			return "no row"
		}
		return r.name.Text
	}
	s.Key(fyne.KeyDown, false)
	if focused() != "English ale" || s.yeasts.lit() != 1 {
		t.Fatalf("Down: %s, lit %d", focused(), s.yeasts.lit())
	}
	s.Key(fyne.KeyDown, true)
	s.want(t, "Shift+Down", s.strainNames(), "Clean ale", "Belgian abbey", "English ale")
	if focused() != "English ale" {
		t.Errorf("the focus is on %s", focused())
	}
	s.Key(fyne.KeyReturn, false)
	s.want(t, "Enter", s.strainNames(), "English ale", "Clean ale", "Belgian abbey")
	if focused() != "English ale" {
		t.Errorf("the focus is on %s", focused())
	}
	s.Key(fyne.KeyUp, true) // above the first there is nothing
	s.Key(fyne.KeyEnd, false)
	s.Key(fyne.KeyDelete, false)
	s.want(t, "Delete", s.strainNames(), "English ale", "Clean ale")
	if focused() != "Clean ale" {
		t.Errorf("the focus is on %s", focused())
	}
	s.Key(fyne.KeyHome, false)
	if focused() != "English ale" {
		t.Errorf("Home: %s", focused())
	}
}

func TestSortingByEveryColumn(t *testing.T) {
	s := yeastsStage(t)
	table := s.yeasts.table
	for c, column := range table.columns {
		head := table.heads[c+1]
		middles := func() []float64 {
			var v []float64
			for _, r := range table.rows {
				if r.Visible() {
					v = append(v, column.Of(&s.yeasts.Shown[r.at].Prediction).Mid)
				}
			}
			return v
		}
		head.Tapped(nil)
		if v := middles(); !slices.IsSorted(v) || len(v) != 3 {
			t.Errorf("%s rising: %v", column.Name, v)
		}
		head.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
		v := middles()
		slices.Reverse(v)
		if !slices.IsSorted(v) {
			t.Errorf("%s falling: %v reversed", column.Name, v)
		}
		// While sorted, rows can't be moved, and it is said why.
		r := table.rows[0]
		r.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(20, 100)}})
		r.DragEnd()
		if !strings.Contains(s.Status.Text(), "sorted") {
			t.Errorf("dragging a sorted row says %q", s.Status.Text())
		}
		head.Tapped(nil)
		s.want(t, "back", s.rowNames(), "Clean ale", "English ale", "Belgian abbey")
	}
	table.heads[0].Tapped(nil)
	s.want(t, "by name", s.rowNames(), "Belgian abbey", "Clean ale", "English ale")
	s.want(t, "the design's own order", s.strainNames(), "Clean ale", "English ale", "Belgian abbey")
	// A sorted row's deeds are its own strain's.
	table.rows[2].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.want(t, "brew with the third row", s.strainNames(), "English ale", "Clean ale", "Belgian abbey")
}

// Pointing at a line brings its strain out, in the table too, and reads it off
// where one points.
func TestPointingAtALine(t *testing.T) {
	s := yeastsStage(t)
	p := s.yeasts.pictures[calc.FinalGravity]
	l, ok := s.yeasts.painter.Layout(int(calc.FinalGravity))
	if !ok {
		t.Fatal("nothing is drawn")
	}
	for i := range s.yeasts.Shown {
		v, ok := bandAt(s.yeasts.Shown[i].curves, calc.FinalGravity, 62)
		if !ok {
			t.Fatal("no curve at 62 °C")
		}
		at := fyne.NewPos(float32(l.PixelX(62)/l.Size.Scale)+p.Raster.Position().X, float32(l.PixelY(v.Mid)/l.Size.Scale)+p.Raster.Position().Y)
		p.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
		if s.yeasts.lit() != i {
			t.Errorf("at the line of %s: lit %d", s.yeasts.Shown[i].Yeast.Name, s.yeasts.lit())
		}
		if want := s.Say().Number(calc.FinalGravity.Kind(), v.Mid); !strings.Contains(p.Value.Text, want) || !strings.Contains(p.Value.Text, "62.0") {
			t.Errorf("%q, want %s at 62.0", p.Value.Text, want)
		}
	}
	p.MouseOut()
	if s.yeasts.lit() != -1 {
		t.Errorf("lit %d with the pointer gone", s.yeasts.lit())
	}
	// Pointing computes nothing anew: the strains shown are the very same.
	s.WaitIdle()
	before := s.yeasts.Shown[0].curves.Bands[0]
	s.yeasts.table.rows[1].MouseIn(nil)
	s.WaitIdle()
	if &before[0] != &s.yeasts.Shown[0].curves.Bands[0][0] {
		t.Error("pointing at a row computed the curves anew")
	}
}

// A strain keeps its line through reordering, dropping and changing, and no two
// have the same.
func TestLooksStay(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(rt *rapid.T) {
		strain := rapid.Custom(func(rt *rapid.T) design.Yeast {
			y := design.NewYeast()
			y.Name = rapid.SampledFrom([]string{"", "A", "B", "C", "D", "E", "F", "G"}).Draw(rt, "name")
			y.TemperatureC = rapid.SampledFrom([]float64{18, 19}).Draw(rt, "t")
			return y
		})
		var l lineStyles
		for range rapid.IntRange(1, 6).Draw(rt, "steps") {
			before, was := slices.Clone(l.of), slices.Clone(l.slots)
			strains := rapid.SliceOfN(strain, 1, mostStrains).Draw(rt, "strains")
			l.fit(strains)
			seen := map[int]bool{}
			for i, s := range l.slots {
				if s < 0 || s >= mostStrains || seen[s] {
					rt.Fatalf("looks %v", l.slots)
				}
				seen[s] = true
				y := strains[i]
				if old := slices.Index(before, y); old >= 0 && count(before, y) == 1 && count(strains, y) == 1 && was[old] != s {
					rt.Fatalf("%v had look %d and has %d", y, was[old], s)
				}
			}
		}
	})
}

func count(strains []design.Yeast, y design.Yeast) (n int) {
	for _, s := range strains {
		if s == y {
			n++
		}
	}
	return n
}
