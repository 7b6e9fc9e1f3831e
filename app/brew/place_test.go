package brew

import (
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"skep/app/stage"
	"skep/app/ui"
	"skep/app/userfile"
	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/quantity"
)

// brewScene is the Brew place on a stage.
type brewScene struct {
	*stage.Stage
	brew *Place
}

func brewStage(t testing.TB) *brewScene {
	t.Helper()
	s := &brewScene{Stage: stage.New(t)}
	s.brew = New(s, func() {})
	s.brew.zone = time.UTC
	s.brew.now = func() time.Time { return time.Date(2026, 6, 20, 15, 40, 12, 345, time.UTC) }
	s.Put(t, s.brew)
	return s
}

// field is the control of a key.
func (s *brewScene) field(t testing.TB, path string) *ui.Field {
	t.Helper()
	var found *ui.Field
	s.brew.controls(func(at string, c ui.Control) bool {
		f, ok := c.(*ui.Field)
		if ok && at == path {
			found = f
		}
		return found != nil
	})
	if found == nil {
		t.Fatalf("there is no field for %s", path)
	}
	return found
}

// typeInto is what a person does: focus, type over, Enter.
func (s *brewScene) typeInto(f fyne.Focusable, text string) {
	s.Window().Canvas().Focus(f)
	f.(fyne.Shortcutable).TypedShortcut(&fyne.ShortcutSelectAll{})
	for _, r := range text {
		f.TypedRune(r)
	}
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.WaitIdle()
}

func (s *brewScene) card(k brewday.Key) *stepCard {
	for _, c := range s.brew.cards {
		if c.key == k {
			return c
		}
	}
	return nil
}

func TestGrainIsTypedOverInAnyUnit(t *testing.T) {
	s := brewStage(t)
	f := s.field(t, "grain.0.mass_kg")
	if f.Text != "2.70 kg" {
		t.Fatalf("the field says %q", f.Text)
	}
	// 1 lb is 0.45359237 kg (the avoirdupois pound).
	s.typeInto(f, "6 lb")
	if got, want := s.Design().Grain[0].MassKg, 6*0.45359237; math.Abs(got-want) > 1e-5 {
		t.Errorf("6 lb became %v kg, want %v", got, want)
	}
	if f.Text != "2.72 kg" {
		t.Errorf("the field says %q after it", f.Text)
	}
	if text := s.Status.Text(); !strings.Contains(text, "2.72 kg") {
		t.Errorf("the status does not say how it was read: %q", text)
	}
	if name, _ := s.Editor.UndoName(); !strings.Contains(name, "Pale malt") {
		t.Errorf("the step of undo is called %q", name)
	}
	s.Undo()
	s.WaitIdle()
	if f.Text != "2.70 kg" || s.Editor.Touched() {
		t.Errorf("one undo leaves %q", f.Text)
	}
}

// A quart of 0.946352946 L and a pound of 0.45359237 kg (NIST Handbook 44).
func TestLiquorIsTypedInQuartsAPound(t *testing.T) {
	s := brewStage(t)
	s.Prefs.Units = quantity.Units{Volume: quantity.USGallon}
	s.UnitsChosen()
	f := s.field(t, "mash.liquor_l_per_kg")
	s.typeInto(f, "1.5")
	if got := s.Design().Mash.LiquorLPerKg; math.Abs(got-1.5*0.946352946/0.45359237) > 1e-4 || f.Text != "1.5 qt/lb" {
		t.Errorf("1.5 typed for quarts a pound is %v L/kg, shown as %q", got, f.Text)
	}
}

func TestWhatCantBeReadIsSaidAtTheRowAndChangesNothing(t *testing.T) {
	s := brewStage(t)
	for path, c := range map[string][2]string{
		"grain.0.mass_kg":        {"a lot", "can't read"},
		"grain.0.extract_pct":    {"150", "outside"},
		"hop.0.alpha_pct":        {"40 %", "30 %"},
		"mash.rest.0.minutes":    {"500", "240 min"},
		"mash.liquor_l_per_kg":   {"9", "1.5 L/kg to 8 L/kg"},
		"package.rated_volumes":  {"20", "10 vol"},
		"batch.into_fermenter_l": {"0", "outside"},
	} {
		f := s.field(t, path)
		before := s.Design()
		s.typeInto(f, c[0])
		if !s.Design().Equal(before) {
			t.Errorf("%s: %q changed the design", path, c[0])
		}
		if text := s.Status.Text(); !strings.Contains(text, c[1]) || !s.Bad() {
			t.Errorf("%s: %q is answered with %q, want %q in it", path, c[0], text, c[1])
		}
		if f.Text != c[0] {
			t.Errorf("%s: what was typed is gone: %q", path, f.Text)
		}
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if f.Text != f.Rest {
			t.Errorf("%s: Escape leaves %q", path, f.Text)
		}
	}
	r := s.card(brewday.MashIn).tables[0].Rows[0]
	s.typeInto(s.field(t, "grain.0.mass_kg"), "-3")
	if !strings.Contains(r.Note.Text, "Pale malt") || len(r.Note.Lines) == 0 {
		t.Errorf("the row says %q", r.Note.Text)
	}
	s.typeInto(s.field(t, "grain.0.mass_kg"), "2.5")
	if r.Note.Text != "" || s.Design().Grain[0].MassKg != 2.5 {
		t.Errorf("mended, the row still says %q", r.Note.Text)
	}
}

// A low attenuation above the high one is refused by the design itself.
func TestAValueThatTheDesignRefusesIsSaid(t *testing.T) {
	s := brewStage(t)
	before := s.Design()
	s.typeInto(s.field(t, "yeast.0.attenuation_low_pct"), "95")
	if !s.Design().Equal(before) || !s.Bad() {
		t.Errorf("the status says %q", s.Status.Text())
	}
	if note := s.card(brewday.Pitching).settings.Note.Text; !strings.Contains(note, "attenuation") {
		t.Errorf("the step says %q", note)
	}
}

func TestHopsAreAddedAndTakenOut(t *testing.T) {
	s := brewStage(t)
	p := s.brew.hopPicker("boil", userfile.Shelf{})
	p.Show()
	p.Narrow("saaz")
	if n := len(p.Found); n < 2 || p.Found[0].Name != "Saaz" || !strings.Contains(p.Found[n-1].Name, "saaz") {
		t.Fatalf("found %d", len(p.Found))
	}
	p.Take(0)
	s.WaitIdle()
	d := s.Design()
	if len(d.Hop) != 2 || d.Hop[1].Name != "Saaz" || d.Hop[1].When != "boil" {
		t.Fatalf("hops are %+v", d.Hop)
	}
	if f := s.Window().Canvas().Focused(); f != fyne.Focusable(s.field(t, "hop.1.mass_g")) {
		t.Errorf("the keyboard is at %T, want the new hop's mass", f)
	}
	s.typeInto(s.field(t, "hop.1.minutes"), "10")
	s.typeInto(s.field(t, "hop.1.mass_g"), "1 oz")
	table := s.card(brewday.Boil).tables[0]
	if table.N != 2 || table.Rows[0].At != 0 || table.Rows[1].At != 1 {
		t.Errorf("the time line has %d rows", table.N)
	}
	// An earlier addition stands above a later one.
	s.typeInto(s.field(t, "hop.1.minutes"), "60")
	s.typeInto(s.field(t, "hop.0.minutes"), "5")
	if table.Rows[0].At != 1 {
		t.Error("the hop with the longer boil does not come first")
	}
	step, _ := s.brew.day.Step(brewday.Boil)
	for _, g := range step.Goes {
		if g.Path == "hop.1" && !strings.Contains(s.brew.gives("hop", 1), s.brew.format.Quantity(g.Gives.Plain())) {
			t.Errorf("hop.1 gives %q", s.brew.gives("hop", 1))
		}
	}
	table.Drop(1)
	s.WaitIdle()
	if d := s.Design(); len(d.Hop) != 1 || d.Hop[0].Name != "Goldings" {
		t.Errorf("after taking it out: %+v", d.Hop)
	}
	s.Undo()
	s.WaitIdle()
	if d := s.Design(); len(d.Hop) != 2 || table.N != 2 {
		t.Errorf("undo brings %d hops back", len(d.Hop))
	}
	own := s.brew.hopPicker("whirlpool", userfile.Shelf{})
	own.Narrow("From the hedge")
	own.Take(len(own.Found) - 1)
	s.WaitIdle()
	if d := s.Design(); len(d.Hop) != 3 || d.Hop[2].Name != "From the hedge" || d.Hop[2].When != "whirlpool" {
		t.Errorf("one's own: %+v", d.Hop)
	}
}

func TestLinesMoveByKeyAndButton(t *testing.T) {
	s := brewStage(t)
	names := func() string {
		var n []string
		for _, g := range s.Design().Grain {
			n = append(n, g.Name)
		}
		return strings.Join(n, ", ")
	}
	s.Window().Canvas().Focus(s.field(t, "grain.0.mass_kg"))
	s.Window().Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyDown, Modifier: fyne.KeyModifierAlt})
	s.WaitIdle()
	if got := names(); got != "Wheat malt, Pale malt" {
		t.Errorf("Alt and Down: %s", got)
	}
	if f := s.Window().Canvas().Focused(); f != fyne.Focusable(s.field(t, "grain.1.mass_kg")) {
		t.Error("the keyboard did not go with the line")
	}
	rows := s.card(brewday.MashIn).tables[0].Rows
	if !rows[0].Up.Off || rows[0].Down.Off || rows[1].Up.Off || !rows[1].Down.Off {
		t.Error("the arrows at the ends are not off")
	}
	test.Tap(rows[1].Up)
	s.WaitIdle()
	if got := names(); got != "Pale malt, Wheat malt" {
		t.Errorf("the button: %s", got)
	}
	test.Tap(rows[1].Out)
	s.WaitIdle()
	if got := names(); got != "Pale malt" {
		t.Errorf("taken out: %s", got)
	}
	test.Tap(rows[0].Out)
	if got := names(); got != "Pale malt" {
		t.Errorf("the last grain went: %q", got)
	}
}

func TestLinesAreDragged(t *testing.T) {
	s := brewStage(t)
	if !ui.Change(s, "a third grain", func(d *design.Design) {
		g := d.Grain[1]
		g.Name = "Oats"
		d.Grain = append(d.Grain, g)
	}) {
		t.Fatal("no third grain")
	}
	s.WaitIdle()
	names := func() string {
		var n []string
		for _, g := range s.Design().Grain {
			n = append(n, g.Name)
		}
		return strings.Join(n, ", ")
	}
	before := names()
	table := s.card(brewday.MashIn).tables[0]
	drag := func(from, to int, past float32) {
		t.Helper()
		g, goal := table.Rows[from].Grip, table.Rows[to]
		y := (goal.Top+goal.Bottom)/2 + past - g.Position().Y
		for _, share := range []float32{0, 0.5, 1} {
			g.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(8, share*y)}})
		}
		if from != to && table.Line.FillColor == color.Transparent {
			t.Errorf("nothing shows where row %d would go", from)
		}
		g.DragEnd()
		s.WaitIdle()
		if table.Line.FillColor != color.Transparent {
			t.Error("the line stays")
		}
	}
	drag(0, 2, 2)
	if got := names(); got != "Wheat malt, Oats, Pale malt" {
		t.Errorf("the first, dragged past the last: %s", got)
	}
	drag(2, 1, -2)
	if got := names(); got != "Wheat malt, Pale malt, Oats" {
		t.Errorf("the last, dragged up by one: %s", got)
	}
	drag(1, 1, 3)
	if got := names(); got != "Wheat malt, Pale malt, Oats" {
		t.Errorf("dragged and let go where it was: %s", got)
	}
	s.Undo()
	s.Undo()
	s.WaitIdle()
	if got := names(); got != before {
		t.Errorf("a drag is more than one step of undo: %s, want %s", got, before)
	}

	// The time line keeps hops of different minutes apart.
	hops := s.card(brewday.Boil).tables[0]
	for _, r := range hops.Rows[:hops.N] {
		if !r.Grip.Off && r.Up.Off && r.Down.Off {
			t.Errorf("hop %d has nowhere to go, yet may be dragged", r.K)
		}
		d := s.Design()
		r.Grip.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(8, 400)}})
		r.Grip.DragEnd()
		s.WaitIdle()
		if !s.Design().Equal(d) {
			t.Errorf("hop %d was dragged past another minute", r.K)
		}
	}
}

// The honey hangs from the step of its moment and goes along when that changes.
func TestHoneyHangsFromItsMoment(t *testing.T) {
	s := brewStage(t)
	late, boil := s.card(brewday.Honey).tables[0], s.card(brewday.Boil).tables[1]
	if late.N != 1 || boil.N != 0 {
		t.Fatalf("%d late, %d in the boil", late.N, boil.N)
	}
	if err := ui.SetKey(s, "moment", "honey.0.moment", design.MomentBoil); err != nil {
		t.Fatal(err)
	}
	s.WaitIdle()
	if late.N != 0 || boil.N != 1 {
		t.Errorf("%d late, %d in the boil after moving it", late.N, boil.N)
	}
	if c := s.card(brewday.Honey); c.numbers.n != 0 || len(c.why.Lines) == 0 {
		t.Errorf("the empty step says %q with %d numbers", c.why.Text, c.numbers.n)
	}
	s.Undo()
	s.WaitIdle()
	if late.N != 1 || !strings.Contains(s.field(t, "honey.0.hours_after_height").Text, "24 h") {
		t.Error("undo does not bring it back")
	}
}

func TestAReadingIsWrittenIntoTheDesign(t *testing.T) {
	s := brewStage(t)
	line := func(k brewday.Key, what string) *blankLine {
		for _, l := range s.card(k).measures.lines {
			if l.what == what {
				return l
			}
		}
		t.Fatalf("%s has no blank for %s", k, what)
		return nil
	}
	og := line(brewday.Pitching, "original-gravity")
	og.value.SetText("1.051")
	og.warm.SetText("68F")
	test.Tap(og.put)
	s.WaitIdle()
	d := s.Design()
	want := design.Reading{What: "original-gravity", At: time.Date(2026, 6, 20, 15, 40, 12, 0, time.UTC), Value: 1.051, TemperatureC: 20, Instrument: "hydrometer"}
	if len(d.Reading) != 1 || d.Reading[0] != want {
		t.Fatalf("the reading is %+v, want %+v", d.Reading, want)
	}
	if !strings.Contains(og.last.Text, "1.051") || !strings.Contains(og.last.Text, "20 Jun 15:40") || og.value.Text != "" {
		t.Errorf("the step says %q", og.last.Text)
	}
	og.refracts = true
	s.typeInto(og.value, "12.5")
	if d := s.Design(); d.Reading[1].Instrument != "refractometer" || d.Reading[1].Value != 12.5 {
		t.Errorf("by refractometer: %+v", d.Reading[1])
	}
	s.typeInto(line(brewday.Sparge, "pre-boil-volume").value, "5 gal")
	// A US gallon is 3.785411784 L.
	if d := s.Design(); math.Abs(d.Reading[2].Value-5*3.785411784) > 1e-3 {
		t.Errorf("5 gal became %v L", d.Reading[2].Value)
	}
	test.Tap(line(brewday.Pitching, "pitched").put)
	line(brewday.Ferment, "foam").keep(2, 0)
	s.WaitIdle()
	if d := s.Design(); len(d.Reading) != 5 || d.Reading[3].Value != 1 || d.Reading[4].Value != 2 {
		t.Errorf("readings %+v", d.Reading)
	}
	bad := line(brewday.Honey, "honey-added")
	s.typeInto(bad.value, "99 kg")
	if !strings.Contains(bad.note.Text, "50.00 kg") || len(s.Design().Reading) != 5 {
		t.Errorf("99 kg of honey is answered with %q", bad.note.Text)
	}
	test.Tap(og.out)
	s.WaitIdle()
	if d := s.Design(); len(d.Reading) != 4 || d.Reading[0] != want {
		t.Errorf("taking the last gravity back leaves %+v", d.Reading)
	}
	s.Undo()
	if n := len(s.Design().Reading); n != 5 {
		t.Errorf("undo leaves %d readings", n)
	}
}

// Bad input of the kind that the day must answer with one clear line and a way
// to what can be changed.
func TestWarningsStandAtTheirStepAndLeadToTheField(t *testing.T) {
	for name, c := range map[string]struct {
		step  brewday.Key
		alter func(d *design.Design)
	}{
		"a grain bill that does not fit": {brewday.MashIn, func(d *design.Design) { d.Grain[0].MassKg = 30 }},
		"a boil that boils dry":          {brewday.Boil, func(d *design.Design) { d.Kit.SteamLPerH = 30 }},
		"no sparge":                      {brewday.Sparge, func(d *design.Design) { d.Mash.LiquorLPerKg = 8 }},
		"hops of 30 % alpha":             {brewday.Boil, func(d *design.Design) { d.Hop[0].AlphaPct = 30 }},
		"a chiller with hot tap water":   {brewday.RunOff, func(d *design.Design) { d.Kit.TapC = 38 }},
		"a weak bottle":                  {brewday.Packaging, func(d *design.Design) { d.Package.RatedVolumes = 1 }},
		"a crush too fine":               {brewday.Crush, func(d *design.Design) { d.Crush = design.NewCrush(); d.Crush.ByEye = "too-fine" }},
	} {
		s := brewStage(t)
		ui.Change(s, name, c.alter)
		s.WaitIdle()
		card := s.card(c.step)
		if card.warnings.n == 0 {
			t.Errorf("%s: the step says nothing", name)
			continue
		}
		w := card.warnings.lines[card.warnings.n-1]
		if len(w.text.Lines) == 0 || w.text.Size().Height < 10 {
			t.Errorf("%s: the warning is not shown", name)
		}
		item := s.brew.spine.items[card.n-1]
		if item.warnings == 0 || !strings.Contains(item.AccessibilityLabel(), "not fit") {
			t.Errorf("%s: the spine does not mark it", name)
		}
		s.Window().Canvas().Unfocus()
		test.Tap(card.warnings.lines[0].go_)
		if f := s.Window().Canvas().Focused(); f == nil && s.Window().Canvas().Overlays().Top() == nil {
			t.Errorf("%s: its link leads nowhere: %q", name, s.Status.Text())
		}
	}
}

func TestTypingIsNotDisturbedByAFrame(t *testing.T) {
	s := brewStage(t)
	f := s.field(t, "grain.0.mass_kg")
	s.Window().Canvas().Focus(f)
	f.TypedRune('3')
	ui.Change(s, "elsewhere", func(d *design.Design) { d.Boil.Minutes = 70 })
	s.WaitIdle()
	if f.Text != "3" || s.Window().Canvas().Focused() != fyne.Focusable(f) {
		t.Errorf("what is typed became %q", f.Text)
	}
	if got := s.field(t, "boil.minutes").Text; got != "70 min" {
		t.Errorf("the other field says %q", got)
	}
}

func TestTheSpineLeadsAndFollows(t *testing.T) {
	s := brewStage(t)
	for i, item := range s.brew.spine.items {
		test.Tap(item)
		if s.brew.current != i || !item.current {
			t.Errorf("step %d: the current one is %d", i, s.brew.current)
		}
		c := s.brew.cards[i]
		top := c.box.Position().Y - s.brew.scroll.Offset.Y
		if top < 0 || top > s.brew.scroll.Size().Height-60 {
			t.Errorf("step %d is at %v of %v", i, top, s.brew.scroll.Size().Height)
		}
	}
	s.brew.goToStep(0) // the line is one stop of Tab: the step that is read now
	s.Window().Canvas().Focus(s.brew.spine.items[0])
	s.Key(fyne.KeyDown, false)
	if s.brew.current != 1 {
		t.Errorf("Down: step %d", s.brew.current)
	}
	s.brew.scroll.Offset.Y = 0
	s.brew.scrolled()
	if s.brew.current != 0 {
		t.Errorf("scrolled up: step %d", s.brew.current)
	}
}

// The numbers on the screen are those of the day as package brewday has it.
func TestThePlaceShowsTheDay(t *testing.T) {
	s := brewStage(t)
	d := s.Design()
	p, err := calc.NewEngine().Predict(d)
	if err != nil {
		t.Fatal(err)
	}
	day := brewday.Plan(d, p)
	for _, step := range day.Steps {
		c := s.card(step.Key)
		if c == nil {
			t.Errorf("%s has no card", step.Key)
			continue
		}
		var said []string
		for _, n := range c.numbers.cells[:c.numbers.n] {
			said = append(said, n.value.Text)
		}
		for _, n := range step.Numbers {
			if text := s.brew.format.Quantity(n.Quantity); !c.drops[n.Label.Text] && !slices.Contains(said, text) {
				t.Errorf("%s: %s %s is not shown", step.Key, n.Label, text)
			}
		}
		if c.why.Text != step.Why.String() || c.do.N != len(step.Do) || c.cautions.N != len(step.Cautions) {
			t.Errorf("%s: why, to do or cautions are not those of the day", step.Key)
		}
	}
}

// In every step, at both sizes and with the widest units, nothing leaves its
// panel, fields stand clear of each other, and controls are high enough.
func TestNothingIsCutInTheBrewPlace(t *testing.T) {
	for _, units := range []quantity.Units{{}, {Temperature: quantity.F, Mass: quantity.Lb, Volume: quantity.USGallon, Gravity: quantity.Plato, Colour: quantity.SRM}} {
		s := brewStage(t)
		s.Prefs.Units = units
		s.UnitsChosen()
		ui.Change(s, "full", func(d *design.Design) {
			d.Water = design.NewWater()
			d.Water.GypsumG, d.Water.LacticAcid88ML = 3, 2
			d.Crush = design.NewCrush()
			d.Crush.OnSievePct = publishedSieving()
			d.Mash.Rest = append(d.Mash.Rest, design.Rest{TemperatureC: 76, Minutes: 10})
			h := d.Honey[0]
			for _, m := range []string{design.MomentBoil, design.MomentWhirlpool, design.MomentPitching} {
				h.Moment = m
				d.Honey = append(d.Honey, h)
			}
			d.Package.Primer = "honey"
		})
		s.WaitIdle()
		for _, size := range []fyne.Size{{Width: 1280, Height: 800}, {Width: 1024, Height: 700}} {
			s.Window().Resize(size)
			s.WaitIdle()
			if r := s.brew.scroll.Position().X + s.brew.scroll.Size().Width; r > size.Width {
				t.Errorf("%v: the steps reach %v", size, r)
			}
			for _, c := range s.brew.cards {
				checkCard(t, size, c)
			}
		}
	}
}

func checkCard(t *testing.T, size fyne.Size, c *stepCard) {
	t.Helper()
	w, h := c.box.Size().Width, c.box.Size().Height
	objects := c.box.Objects[1:]
	for i, o := range objects {
		if !o.Visible() {
			continue
		}
		at, s := o.Position(), o.Size()
		label := "?"
		if a, ok := o.(fyne.Accessible); ok {
			label = a.AccessibilityLabel()
		}
		if at.X < 0 || at.Y < 0 || at.X+s.Width > w+0.5 || at.Y+s.Height > h+0.5 {
			t.Errorf("%v %s: %T %q at %v %v leaves its panel of %v", size, c.key, o, label, at, s, c.box.Size())
		}
		if f, ok := o.(fyne.Focusable); ok {
			if s.Height < 28 {
				t.Errorf("%v %s: %T %q is %v high", size, c.key, o, label, s.Height)
			}
			if strings.TrimSpace(label) == "" || label == "?" {
				t.Errorf("%v %s: %T has no name", size, c.key, f)
			}
		}
		if f, ok := o.(*ui.Field); ok && !strings.HasSuffix(f.Path(), ".name") {
			if need := fyne.MeasureText(f.Text, 14, fyne.TextStyle{}).Width + 10; need > s.Width {
				t.Errorf("%v %s: %q needs %v and has %v", size, c.key, f.Text, need, s.Width)
			}
		}
		if cap, ok := o.(*ui.Caption); ok {
			if need := fyne.MeasureText(cap.Text, cap.TextSize, fyne.TextStyle{Bold: cap.Bold}).Width; need > s.Width+0.5 {
				t.Errorf("%v %s: %q needs %v and has %v", size, c.key, cap.Text, need, s.Width)
			}
		}
		for _, other := range objects[:i] {
			if !other.Visible() {
				continue
			}
			oa, os := other.Position(), other.Size()
			const slack = 1
			if at.X+slack < oa.X+os.Width && oa.X+slack < at.X+s.Width && at.Y+slack < oa.Y+os.Height && oa.Y+slack < at.Y+s.Height &&
				s.Width > 0 && os.Width > 0 && s.Height > 0 && os.Height > 0 {
				t.Errorf("%v %s: %T %q at %v %v lies on %T %v %v", size, c.key, o, label, at, s, other, oa, os)
			}
		}
	}
}

// What a change costs the window's goroutine and the worker at this place.
func BenchmarkBrewEdit(b *testing.B) {
	s := brewStage(b)
	i := 0
	for b.Loop() {
		i++
		ui.Change(s, "mass", func(d *design.Design) { d.Grain[0].MassKg = 2.5 + float64(i%10)/100 })
		s.WaitIdle()
	}
}

func BenchmarkBrewRelayout(b *testing.B) {
	s := brewStage(b)
	for b.Loop() {
		s.brew.relayout()
	}
}

// In the lowest window the steps of the day end above the tools at their foot.
func TestTheStepsStayAboveTheTools(t *testing.T) {
	s := brewStage(t)
	spine := s.brew.spine
	spine.object.Resize(spine.object.MinSize())
	last := spine.items[len(spine.items)-1]
	if end, tools := last.Position().Y+last.Size().Height, spine.tools[0].Position().Y; end > tools || last.Size().Height < leastStep {
		t.Errorf("the steps end at %v, %v high, and the tools begin at %v", end, last.Size().Height, tools)
	}
}
