package ferment

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"skep/app/stage"
	"skep/app/ui"
	"skep/calc/design"
	"skep/calc/design/file"
	"skep/calc/follow"
	"skep/calc/logs"
	"skep/calc/measured"
	"skep/calc/quantity"
)

// pitchDay is a midsummer brew day at Gate Field, in a place whose clocks are
// two hours ahead.
var (
	pitchDay  = time.Date(2026, 6, 20, 14, 0, 0, 0, time.UTC)
	gateField = time.FixedZone("Gate Field", 2*60*60)
)

// fermentScene is the Ferment place on a stage.
type fermentScene struct {
	*stage.Stage
	ferment *Place
}

// fermenting is a stage at the Ferment place, so many hours after pitching.
func fermenting(t *testing.T, hours float64, readings ...design.Reading) *fermentScene {
	t.Helper()
	s := &fermentScene{Stage: stage.New(t)}
	s.ferment = New(s, func() {})
	s.ferment.Zone = gateField
	s.at0(hours)
	if len(readings) > 0 {
		if err := s.Editor.Change("readings", "", func(d *design.Design) { d.Reading = readings }); err != nil {
			t.Fatal(err)
		}
	}
	s.Put(t, s.ferment)
	return s
}

// at0 sets the clock.
func (s *fermentScene) at0(hours float64) {
	s.Clock = func() time.Time { return pitchDay.Add(time.Duration(hours * float64(time.Hour))) }
}

func read(what string, hours, value float64) design.Reading {
	return design.Reading{What: what, At: pitchDay.Add(time.Duration(hours * float64(time.Hour))), Value: value, TemperatureC: 20, Instrument: "hydrometer"}
}

func pitchedBatch() []design.Reading {
	return []design.Reading{read(measured.OriginalGravity, -0.5, 1.041), read(measured.Pitched, 0, 1)}
}

// type0 types a reading and presses Enter.
func (s *fermentScene) type0(what, value, warm, when string) {
	e := s.ferment.entry
	e.reading = what
	e.mark()
	e.value.SetText(value)
	e.warm.SetText(warm)
	e.when.SetText(when)
	e.value.OnSubmitted(value)
	s.WaitIdle()
}

func texts0(t *ui.Texts) string {
	var out []string
	for _, p := range t.Paras[:t.N] {
		out = append(out, p.Text)
	}
	return strings.Join(out, "\n")
}

func (s *fermentScene) batch(t *testing.T) *follow.Batch {
	t.Helper()
	if s.ferment.shown == nil || s.ferment.shown.batch == nil {
		t.Fatalf("nothing is followed: %s", s.StatusText())
	}
	return s.ferment.shown.batch
}

func TestAReadingNarrowsTheBandThatIsShown(t *testing.T) {
	s := fermenting(t, 40, pitchedBatch()...)
	width := func() float64 { b := s.batch(t).After.FinishedHours; return b.High - b.Low }
	before := width()
	s.type0(measured.Gravity, "1.024", "19", "36 h")
	if got := s.Design().Reading; len(got) != 3 || got[2].Value != 1.024 || got[2].TemperatureC != 19 || !got[2].At.Equal(pitchDay.Add(36*time.Hour)) {
		t.Fatalf("written down: %+v", got)
	}
	if after := width(); !(after < 0.9*before) {
		t.Errorf("the band of the finish is %.1f h wide, was %.1f: want it clearly narrower", after, before)
	}
	if p := s.ferment.picture; p.p.shown.image == nil || p.p.shown.image.Rect.Dx() < 200 {
		t.Error("no picture")
	}
	row := s.ferment.list.rows[0]
	if !strings.Contains(row.value.Text, "1.024 at 19.0") || !strings.Contains(row.when.Text, "+36 h") || !strings.Contains(row.note.Text, "at 20.0 °C") {
		t.Errorf("the list says %q, %q, %q", row.when.Text, row.value.Text, row.note.Text)
	}
	s.Undo()
	s.WaitIdle()
	if n := len(s.Design().Reading); n != 2 || width() != before {
		t.Errorf("after undo %d readings and a band of %.2f h, want 2 and %.2f", n, width(), before)
	}
}

// Seen in the real window: the worker's clock was the minute's beginning, and
// what was written down within it was "later than now".
func TestWhatIsWrittenDownNowCounts(t *testing.T) {
	s := fermenting(t, 40, pitchedBatch()...)
	s.Clock = func() time.Time { return pitchDay.Add(40*time.Hour + 31*time.Second) }
	s.type0(measured.Gravity, "1.022", "", "now")
	p := s.batch(t).Timeline.Points
	if last := p[len(p)-1]; !last.Used || len(last.Flags) > 0 {
		t.Errorf("a gravity of now is used %v, with %v", last.Used, last.Flags)
	}
}

// What calc says of a fermentation is in the person's units: state, advice,
// doubts, flags and the bottle's reasons. The figures wanted are those of the
// batch, converted here: °F by its definition, °P by the ASBC table (1.018 is
// 4.6 °P, 1.020 5.1).
func TestAFermentationIsTalkedOfInOtherUnits(t *testing.T) {
	s := fermenting(t, 62, append(pitchedBatch(), read(measured.Gravity, 24, 1.030), read(measured.Gravity, 42, 1.018))...)
	f := s.ferment
	shown := func() string {
		all := []string{texts0(f.Side.state), texts0(f.Side.advice), texts0(f.Side.doubts), texts0(f.Side.notes), texts0(f.Side.reasons)}
		for _, r := range f.list.rows {
			all = append(all, r.note.Text)
		}
		return strings.Join(all, "\n")
	}
	other := func() {
		s.Prefs.Units = quantity.Units{Temperature: quantity.F, Gravity: quantity.Plato, Volume: quantity.USGallon, Mass: quantity.Lb}
		s.SetUnits()
		s.ferment.Post()
		s.WaitIdle()
	}
	if got := shown(); !strings.Contains(got, "550 g of honey is overdue by") {
		t.Fatalf("it says %s", got)
	}
	other()
	if got := shown(); !strings.Contains(got, "1 lb 3.5 oz of honey is overdue by") || strings.Contains(got, "550 g") || strings.Contains(got, "kg") {
		t.Errorf("it says %s", got)
	}

	// Stuck, with a hot sample between.
	s.at0(230)
	hot := read(measured.Gravity, 100, 1.018)
	hot.TemperatureC = 45
	if err := s.Editor.Change("readings", "", func(d *design.Design) {
		d.Honey = nil
		d.Reading = append(pitchedBatch(), read(measured.Gravity, 30, 1.030), hot, read(measured.Gravity, 160, 1.0200), read(measured.Gravity, 220, 1.0200))
	}); err != nil {
		t.Fatal(err)
	}
	s.ferment.Update()
	s.ferment.Post()
	s.WaitIdle()
	got := shown()
	for _, want := range []string{"Stuck: 5.1 °P on readings 2.5 days apart", "a sample at 68.0 °F", "Warm the beer by 4 to 5 °F", "A sample at 113.0 °F", "t has stopped above what was expected, at 5.1 °P"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not said: %s", want, got)
		}
	}
	for _, not := range []string{"°C", "1.0", "SG"} {
		if strings.Contains(got, not) {
			t.Errorf("%q is still said: %s", not, got)
		}
	}
	s.Prefs.Units.DecimalComma = true
	s.SetUnits()
	s.ferment.Post()
	s.WaitIdle()
	if got := shown(); !strings.Contains(got, "Stuck: 5,1 °P on readings 2,5 days apart") || strings.Contains(got, "5.1") {
		t.Errorf("with a decimal comma: %s", got)
	}
}

func TestReadingsInOtherUnits(t *testing.T) {
	s := fermenting(t, 40, pitchedBatch()...)
	units, err := quantity.DecodeUnits("F P gal lb SRM comma")
	if err != nil {
		t.Fatal(err)
	}
	s.Prefs.Units = units
	s.UnitsChosen()
	s.WaitIdle()
	// 8.1 °P is 1.0322 by the ASBC table; 66.2 °F is 19 °C.
	s.type0(measured.Gravity, "8,1", "66,2", "36 h")
	r := s.Design().Reading
	if last := r[len(r)-1]; last.Value < 1.0318 || last.Value > 1.0327 || last.TemperatureC < 18.95 || last.TemperatureC > 19.05 {
		t.Errorf("8,1 at 66,2 is written down as %+v", last)
	}
	if got := s.ferment.list.rows[0].value.Text; got != "Gravity: 8,10 °P at 66,2 °F" {
		t.Errorf("the list says %q", got)
	}
}

func TestLoggedHoneyShowsWhatAPlainReckoningMisses(t *testing.T) {
	s := fermenting(t, 60, append(pitchedBatch(), read(measured.Gravity, 40, 1.020))...)
	if !s.ferment.Side.honeyHead.Off {
		t.Error("honey is spoken of before any went in")
	}
	s.type0(measured.HoneyAdded, "550 g", "", "now")
	h := s.batch(t).Honey
	text := texts0(s.ferment.Side.honey)
	for _, want := range []string{"550 g went in 60 h after pitching", "Effective original gravity " + s.Say().Format(quantity.Gravity, h.EffectiveOriginalGravitySG.Mid), "too low by " + s.Say().Format(quantity.Strength, h.MissedPct.Mid)} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in %q", want, text)
		}
	}
	// A pound and a bit in 15 L is about 12 points: 320 points·L/kg at 17 %
	// moisture (design notes, section 5).
	if step := h.EffectiveOriginalGravitySG.Mid - s.batch(t).After.OriginalGravitySG.Mid; step < 0.009 || step > 0.014 {
		t.Errorf("550 g of honey lift the original gravity by %.4f", step)
	}
	if s.ferment.Side.left.honeyLeft() {
		t.Error("the honey is in, and still offered to be tuned")
	}
}

// honeyLeft says whether an amount of honey can still be typed.
func (l *retune) honeyLeft() bool { return l.honey >= 0 && !l.massRow.Off }

func TestBadReadingsGiveOneClearLine(t *testing.T) {
	s := fermenting(t, 40, pitchedBatch()...)
	for _, c := range []struct{ what, value, when, want string }{
		{measured.Gravity, "1.500", "now", "Gravity: 1.500 is outside 0.950 to 1.250."},
		{measured.Gravity, "", "now", "Gravity: "},
		{measured.Gravity, "1.020", "teatime", "When: can't read “teatime” as a time"},
		{measured.BeerTemperature, "300", "now", "Beer temperature: "},
		{measured.HoneyAdded, "a jar", "now", "Honey added: "},
	} {
		s.type0(c.what, c.value, "", c.when)
		if got := s.ferment.entry.last; !strings.HasPrefix(got, c.want) || strings.Contains(got, "\n") {
			t.Errorf("%s %q: %q, want %q", c.what, c.value, got, c.want)
		}
		if n := len(s.Design().Reading); n != 2 {
			t.Fatalf("%s %q was taken", c.what, c.value)
		}
	}
}

func TestHoneyBeforePitching(t *testing.T) {
	s := fermenting(t, -1)
	s.type0(measured.HoneyAdded, "0.5 kg", "", "now")
	if got := s.ferment.entry.last; !strings.HasPrefix(got, "No yeast was pitched before that honey") {
		t.Errorf("honey before pitching: %q", got)
	}
	if n := len(s.Design().Reading); n != 1 {
		t.Errorf("%d readings: the honey went in, whatever the order", n)
	}
}

func TestReadingsAreChangedAndTakenOut(t *testing.T) {
	s := fermenting(t, 40, append(pitchedBatch(), read(measured.Gravity, 20, 1.0355))...)
	row := s.ferment.list.rows[0]
	row.change.OnTap()
	e := s.ferment.entry
	if e.value.Text != "1.0355" || e.when.Text != "21 Jun 2026 12:00" {
		t.Fatalf("to be changed: %q at %q", e.value.Text, e.when.Text)
	}
	if e.value.SelectedText() != e.value.Text {
		t.Errorf("selected: %q: what is typed would stand before %q", e.value.SelectedText(), e.value.Text)
	}
	e.value.SetText("1.0335")
	e.write.OnTap()
	s.WaitIdle()
	if r := s.Design().Reading[2]; r.Value != 1.0335 || !r.At.Equal(pitchDay.Add(20*time.Hour)) {
		t.Errorf("changed to %+v", r)
	}
	if e.changing >= 0 || e.value.Text != "" {
		t.Error("the fields still hold the reading")
	}
	s.ferment.list.rows[0].out.OnTap()
	s.WaitIdle()
	if n := len(s.Design().Reading); n != 2 {
		t.Errorf("%d readings after one is taken out", n)
	}
	s.Undo()
	if n := len(s.Design().Reading); n != 3 {
		t.Errorf("%d readings after undo", n)
	}
}

// Seen in the real window: after Enter in the field of the time the next reading's value
// was typed there.
func TestReadingsAreTypedOneAfterTheOther(t *testing.T) {
	s := fermenting(t, 40, pitchedBatch()...)
	e := s.ferment.entry
	for i, value := range []string{"1.030", "1.028"} {
		e.value.SetText(value)
		ui.Focus(s, e.when)
		e.when.SetText("36 h")
		e.when.OnSubmitted("36 h")
		s.WaitIdle()
		if at := s.Window().Canvas().Focused(); at != e.value || len(s.Design().Reading) != 3+i {
			t.Errorf("after %d readings %T has the keyboard, want the field of the value", len(s.Design().Reading), at)
		}
	}
}

func TestOnePressReadings(t *testing.T) {
	s := fermenting(t, 0)
	s.ferment.entry.pitched.OnTap()
	s.WaitIdle()
	if !s.batch(t).Timeline.Pitched || s.ferment.entry.pitched.Visible() {
		t.Error("pitched by one press, and not offered again")
	}
	s.at0(30)
	s.ferment.entry.foam[2].OnTap()
	s.WaitIdle()
	r := s.Design().Reading
	if last := r[len(r)-1]; last.What != measured.Foam || last.Value != 3 || !last.At.Equal(pitchDay.Add(30*time.Hour)) {
		t.Errorf("foam falling: %+v", last)
	}
}

func TestALogIsShownBeforeItIsTaken(t *testing.T) {
	s := fermenting(t, 60, pitchedBatch()...)
	s.App.Clipboard().SetContent("When;Extract;Temp\n20.06.2026 20:00;10,2;19,5\n21.06.2026 20:00;8,1;20,1\n22.06.2026 20:00;5,4;20,0\n")
	s.ferment.pasteCSV()
	s.WaitIdle()
	d := s.ferment.asked
	if d == nil {
		t.Fatalf("nothing is asked: %q", s.ferment.entry.last)
	}
	if n := len(s.Design().Reading); n != 2 {
		t.Fatal("taken unseen")
	}
	c := d.guess.Columns
	if len(c) != 3 || c[1].Kind != logs.LogGravity || c[1].Unit != "°P" || c[2].Kind != logs.Temperature || c[2].Unit != "°C" {
		t.Fatalf("understood as %+v", c)
	}
	if !strings.Contains(d.text.Text, "Rows: 3,") || !strings.Contains(d.text.Text, "Gravities: 3; temperatures of the beer: 3") {
		t.Errorf("it says %q", d.text.Text)
	}
	d.change(2, func(c *logs.Column) { c.Kind, c.Unit = logs.Ignored, "" })
	s.WaitIdle()
	if !strings.Contains(d.text.Text, "Gravities: 3; temperatures of the beer: 0") {
		t.Errorf("without temperatures it says %q", d.text.Text)
	}
	d.taken()
	s.WaitIdle()
	got := s.Design().Reading
	// 8.1 °P is 1.0323 by the ASBC table (1.03221 at 8.1).
	if len(got) != 5 || got[3].Value < 1.0318 || got[3].Value > 1.0327 || !got[3].At.Equal(time.Date(2026, 6, 21, 18, 0, 0, 0, time.UTC)) {
		t.Errorf("taken: %+v", got)
	}
	s.Undo()
	if n := len(s.Design().Reading); n != 2 {
		t.Errorf("one undo leaves %d readings", n)
	}
	s.App.Clipboard().SetContent("one two three")
	s.ferment.asked = nil
	s.ferment.pasteCSV()
	s.WaitIdle()
	if s.ferment.asked != nil && !s.ferment.asked.take.Disabled() || s.ferment.asked == nil && s.ferment.entry.last == "" {
		t.Error("words are no log, and nothing says so")
	}
}

func TestTheBatchIsClosedAndKept(t *testing.T) {
	s := fermenting(t, 300, append(pitchedBatch(), read(measured.HoneyAdded, 50, 0.55), read(measured.Gravity, 200, 1.007), read(measured.FinalGravity, 270, 1.007))...)
	if b := s.batch(t).Bottle; b.Verdict != follow.Within {
		t.Fatalf("bottle check: %v, %v", b.Verdict, b.Reasons)
	}
	for _, text := range []string{texts0(s.ferment.Side.bottle), texts0(s.ferment.Side.reasons)} {
		if strings.Contains(strings.ToLower(text), "safe") {
			t.Errorf("a bottle is never called safe: %q", text)
		}
	}
	f := s.ferment.Side.finish
	f.fields[1].SetText("14.2 L")
	f.fields[2].SetText("66")
	f.note.SetText("drier than Ada likes")
	f.write()
	s.WaitIdle()
	d := s.Design()
	if n := len(d.Reading); n != 7 || !strings.Contains(d.Notes, "drier than Ada likes") {
		t.Errorf("%d readings, notes %q", n, d.Notes)
	}
	folder := t.TempDir()
	s.ferment.ledgerFolder = func() string { return folder }
	f.fields[3].SetText("") // how full it is nobody has tasted
	f.closeBatch()
	if said := texts0(f.remarks); !strings.Contains(said, "Not written down yet: body") {
		t.Errorf("with no body tasted it says %q", said)
	}
	f.closeBatch()
	files, err := os.ReadDir(folder)
	if err != nil || len(files) != 1 {
		t.Fatalf("in the ledger: %v, %v; it says %q", files, err, texts0(f.remarks))
	}
	src, err := os.ReadFile(filepath.Join(folder, files[0].Name()))
	if err != nil {
		t.Fatal(err)
	}
	doc, findings := file.Parse("kept", src)
	if design.HasErrors(findings) || len(doc.Design.Reading) != 7 || doc.Design.Batch.Closed == "" || doc.Design.Batch.Brewed == "" {
		t.Errorf("the copy reads as %v, %+v", findings, doc.Design.Batch)
	}
}

// Closing writes down what is typed, and what can't be read keeps the batch open.
func TestClosingWritesDownWhatIsTyped(t *testing.T) {
	s := fermenting(t, 300, append(pitchedBatch(), read(measured.Gravity, 200, 1.007))...)
	folder := t.TempDir()
	s.ferment.ledgerFolder = func() string { return folder }
	f := s.ferment.Side.finish
	for i, text := range []string{"1.007", "14.2 L", "66", "much"} {
		f.fields[i].SetText(text)
	}
	f.closeBatch()
	if files, _ := os.ReadDir(folder); len(files) != 0 || texts0(f.remarks) == "" {
		t.Errorf("a body of “much”: %d files, it says %q", len(files), texts0(f.remarks))
	}
	f.fields[3].SetText("38")
	f.closeBatch()
	files, _ := filepath.Glob(filepath.Join(folder, "*.toml"))
	if len(files) != 1 {
		t.Fatalf("%d files; it says %q", len(files), texts0(f.remarks))
	}
	src, err := os.ReadFile(files[0])
	if err != nil {
		t.Fatal(err)
	}
	doc, _ := file.Parse("kept", src)
	got := map[string]float64{}
	for _, r := range doc.Design.Reading {
		got[r.What] = r.Value
	}
	for what, want := range map[string]float64{measured.FinalGravity: 1.007, ui.VolumePackaged: 14.2, ui.PerceivedDryness: 66, ui.PerceivedBody: 38} {
		if got[what] != want {
			t.Errorf("%s is %g in the file, typed %g", what, got[what], want)
		}
	}
}

func TestAYoungBeerIsNotBottled(t *testing.T) {
	s := fermenting(t, 40, append(pitchedBatch(), read(measured.Gravity, 36, 1.022))...)
	if got := texts0(s.ferment.Side.bottle); got != "Don't bottle yet" {
		t.Errorf("at 1.022 the bottle check says %q", got)
	}
	if got := texts0(s.ferment.Side.reasons); !strings.Contains(got, "not where it should end") {
		t.Errorf("its reasons: %q", got)
	}
}

func TestTheRetuneTypesHoneyAndLocksTheRest(t *testing.T) {
	s := fermenting(t, 30, pitchedBatch()...)
	l := s.ferment.Side.left
	if got := texts0(l.spent); !strings.Contains(got, "mash rest") || !strings.Contains(got, "the wort is pitched") {
		t.Errorf("locked: %q", got)
	}
	if !l.honeyLeft() || l.mass.Text != "550 g" {
		t.Fatalf("left: %v, %q", l.honeyLeft(), l.mass.Text)
	}
	strength := s.batch(t).After.StrengthPct.Mid
	l.mass.SetText("300 g")
	l.mass.OnSubmitted("300 g")
	s.WaitIdle()
	if d := s.Design(); d.Honey[0].MassKg != 0.3 {
		t.Errorf("honey is %v kg", d.Honey[0].MassKg)
	}
	if now := s.batch(t).After.StrengthPct.Mid; !(now < strength-0.3) {
		t.Errorf("250 g less honey: strength %.2f, was %.2f", now, strength)
	}
	if !l.use.Visible() {
		t.Fatal("no way is offered")
	}
	want := l.nearest.MassKg
	l.use.OnTap()
	s.WaitIdle()
	if got := s.Design().Honey[0].MassKg; got != want {
		t.Errorf("used %v kg, offered %v", got, want)
	}
	// The offered amount is the nearest: its neighbours miss by more.
	for _, w := range s.ferment.shown.ways.Ladder {
		if w.Miss < s.ferment.shown.ways.Nearest.Miss-1e-9 {
			t.Errorf("%v kg misses by %.3f, less than the offered %.3f", w.MassKg, w.Miss, s.ferment.shown.ways.Nearest.Miss)
		}
	}
}

// Closing a batch into a folder that can't be written to says so once, and
// nothing is lost: another folder takes it.
func TestClosingIntoAReadOnlyLedger(t *testing.T) {
	s := fermenting(t, 320, append(pitchedBatch(), read(measured.Gravity, 200, 1.008), read(measured.FinalGravity, 280, 1.008))...)
	s.Prefs.Ledger = readOnlyFolder(t)
	said, before := s.StatusText(), s.Design()
	s.ferment.Side.finish.closeBatch() // says what is missing, once
	s.ferment.Side.finish.closeBatch()
	s.WaitIdle()
	told := texts0(s.ferment.Side.finish.remarks)
	if !strings.Contains(told, s.Prefs.Ledger) || !strings.Contains(told, "choose another folder") || strings.Contains(told, "\n") {
		t.Errorf("it says %q", told)
	}
	if s.StatusText() != said {
		t.Errorf("the status line says more: %q", s.StatusText())
	}
	if d := s.Design(); !d.Equal(before) || len(d.Reading) != 4 {
		t.Error("the design is another")
	}
	s.Prefs.Ledger = t.TempDir()
	s.ferment.Side.finish.closeBatch()
	s.WaitIdle()
	kept, _ := filepath.Glob(filepath.Join(s.Prefs.Ledger, "*.toml"))
	if n := len(kept); n != 1 || texts0(s.ferment.Side.finish.remarks) != "" {
		t.Errorf("%d batches in the other folder; it says %q", n, texts0(s.ferment.Side.finish.remarks))
	}
}

// readOnlyFolder is a folder into which nobody here may write, root neither.
func readOnlyFolder(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	if os.Geteuid() == 0 {
		folder = "/sys" // kernel objects: no file is ever made there
	} else if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	} else {
		t.Cleanup(func() { _ = os.Chmod(folder, 0o755) })
	}
	probe := filepath.Join(folder, "probe.toml")
	if err := os.WriteFile(probe, nil, 0o600); err == nil {
		_ = os.Remove(probe)
		t.Skip("every folder can be written to here")
	}
	return folder
}

// Turning a page moves no tab: a second press is on what one sees (and what is to be
// minded of the honey stands beside every page).
func TestTurningAPageMovesNoTab(t *testing.T) {
	s := fermenting(t, 90, append(pitchedBatch(), read(measured.Gravity, 60, 1.018), read(measured.HoneyAdded, 64, 0.5))...)
	side := s.ferment.Side
	at := ui.Position(side.tabs[1])
	for i := range side.tabs {
		side.Turn(i)
		s.WaitIdle()
		// The tab that is turned to is bold, and so a little wider than the others.
		if now := ui.Position(side.tabs[1]); now.Y != at.Y || math.Abs(float64(now.X-at.X)) > 3 {
			t.Errorf("page %d moves the tab from %v to %v", i, at, now)
		}
	}
}
