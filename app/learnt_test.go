package app

import (
	"bytes"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rsc.io/pdf"

	"skep/app/ghost"
	"skep/app/ledger"
	"skep/app/stage"
	"skep/app/taste"
	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/learn"
	"skep/calc/measured"
)

// only switches every lesson off but those wanted.
func (s *scene) only(keys ...string) {
	s.Prefs.LessonsOff = nil
	for _, l := range s.Lessons.Lessons {
		use := false
		for _, k := range keys {
			use = use || strings.HasPrefix(l.Key, k)
		}
		if !use {
			s.Prefs.LessonsOff = append(s.Prefs.LessonsOff, l.Key)
		}
	}
	s.Post()
	s.settle()
}

// Every lesson has a switch, and acts alone: the thermometer's moves the beer
// and not what is set, the palate's the indices and nothing else, the same in
// the pictures, on the plane and in the Yeasts.
func TestEveryLessonActsInEveryPlace(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	s.goTo(0)
	s.only()
	own := s.taste.Shown.Prediction
	if strings.Contains(s.taste.Sentence.Label.Text, "taught") {
		t.Error("no lesson is used, and the sentence says so")
	}
	set := s.Taught().Design.Mash.Rest[0]
	for key, moves := range map[string]func(p *calc.Prediction) float64{
		learn.Efficiency:  func(p *calc.Prediction) float64 { return p.OriginalGravitySG.Mid },
		learn.Thermometer: func(p *calc.Prediction) float64 { return p.FinalGravitySG.Mid },
		learn.Attenuation: func(p *calc.Prediction) float64 { return p.FinalGravitySG.Mid },
		learn.Speed:       func(p *calc.Prediction) float64 { return p.HeightHours.Mid },
		learn.Dryness:     func(p *calc.Prediction) float64 { return p.Dryness.Mid },
		learn.Body:        func(p *calc.Prediction) float64 { return p.Body.Mid },
		learn.BoilOff:     func(p *calc.Prediction) float64 { return p.Volumes.PreBoil },
	} {
		s.goTo(0)
		s.only(key)
		p := s.taste.Shown.Prediction
		if moves(&p) == moves(&own) {
			t.Errorf("%s moves nothing", key)
		}
		if !strings.Contains(s.taste.Sentence.Label.Text, "taught") {
			t.Errorf("%s is used, and the sentence does not say so", key)
		}
		v := s.taste.Third.Landing.Ask(s.Taught())
		if v.Taught.Design.Mash.Rest[0] != set {
			t.Errorf("%s: the rest is set to %+v, the picture's to %+v", key, set, v.Taught.Design.Mash.Rest[0])
		}
		if (key == learn.Dryness || key == learn.Body) && p.FinalGravitySG != own.FinalGravitySG {
			t.Errorf("%s moves the final gravity", key)
		}
		f := taste.NewLandingLive().Frame(v)
		if f.Err != nil || f.Landing.Bands != p.Four() {
			t.Errorf("%s: lands on %+v, pictured at %+v (%v)", key, f.Landing.Bands, p.Four(), f.Err)
		}
		s.goTo(1)
		s.settle()
		if got := s.yeasts.Shown[0].Prediction; got.Four() != p.Four() || got.HeightHours != p.HeightHours {
			t.Errorf("%s: Yeasts says %+v, Taste %+v", key, got.Four(), p.Four())
		}
	}
}

// The Ledger says how many lessons new predictions use.
func TestTheLedgerSaysWhatIsUsed(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	if firstCheck(s.ledger.Lessons).Disabled() || strings.Contains(shownText(s.ledger.Lessons), "shown only") {
		t.Error("a lesson has no switch")
	}
	says := func(want string) {
		t.Helper()
		if got := s.ledger.Using.Text; !strings.Contains(got, want) || s.ledger.Using.Hidden {
			t.Errorf("it says %q, want %q", got, want)
		}
	}
	says("New predictions use ")
	firstCheck(s.ledger.Lessons).SetChecked(false)
	used := s.Taught().Lessons
	says(strings.Replace("use N of these", "N", s.Say().PlainNumber(float64(len(used))), 1))
	s.only()
	s.Changed()
	says("use none of these lessons")
}

// A batch does not teach the prediction of itself: neither its file in the
// ledger, nor a copy elsewhere, nor one with a reading more.
func TestABatchIsNotItsOwnTeacher(t *testing.T) {
	folder := copyBatches(t)
	s := ledgerStage(t, folder)
	all := s.Lessons.Batches
	mine := s.ledger.Answer.Entries[1]
	taughtBy := func() (n int, own bool) {
		t.Helper()
		s.settle()
		if s.Lessons == nil {
			t.Fatal("nothing is learnt")
		}
		for _, l := range s.Lessons.Lessons {
			for _, e := range l.Evidence {
				own = own || e.ID == mine.File
			}
		}
		return s.Lessons.Batches, own
	}
	if n, own := taughtBy(); n != all || !own {
		t.Fatalf("%d of %d batches are heard, this one %v", n, all, own)
	}
	without := func(what string) {
		t.Helper()
		if n, own := taughtBy(); n != all-1 || own {
			t.Errorf("%s: %d of %d batches are heard, its own %v", what, n, all, own)
		}
		d := s.Taught().Design
		others := s.Lessons
		if again, _, _ := others.Apply(s.Design(), nil); again.Kit != d.Kit {
			t.Errorf("%s: predicted with %+v, the others teach %+v", what, d.Kit, again.Kit)
		}
	}
	s.Open(mine.Path)
	without("its file")
	if !ownCard(s) {
		t.Error("no card says that it is the one that is open")
	}
	src, err := os.ReadFile(mine.Path)
	if err != nil {
		t.Fatal(err)
	}
	copied := filepath.Join(t.TempDir(), "copy.toml")
	if err := os.WriteFile(copied, src, 0o600); err != nil {
		t.Fatal(err)
	}
	s.Open(copied)
	without("a copy")
	ui.Change(s, "one more", func(d *design.Design) {
		r := design.NewReading()
		r.What, r.Value, r.At = ui.PerceivedBody, 40, d.Reading[0].At.AddDate(0, 3, 0)
		d.Reading = append(d.Reading, r)
	})
	without("with a reading more")
	readings := s.Design().Reading
	ui.Change(s, "brew it again", func(d *design.Design) { d.Reading = nil })
	if n, own := taughtBy(); n != all || !own {
		t.Errorf("a new brew of it hears %d of %d, the old one %v", n, all, own)
	}
	ui.Change(s, "the hot side alone", func(d *design.Design) {
		for _, r := range readings {
			if r.At.Before(ledger.PitchedOf(readings)) {
				d.Reading = append(d.Reading, r) // as another half of a split wort has them
			}
		}
	})
	if n, _ := taughtBy(); n != all || len(s.Design().Reading) == 0 {
		t.Errorf("the hot side's readings alone hear %d of %d", n, all)
	}
	ui.Change(s, "another batch", func(d *design.Design) { d.Reading = nil })
	ui.Change(s, "another batch", func(d *design.Design) {
		for _, r := range readings {
			r.At = r.At.AddDate(1, 0, 0)
			d.Reading = append(d.Reading, r)
		}
	})
	if n, _ := taughtBy(); n != all {
		t.Errorf("another batch with the same numbers hears %d of %d", n, all)
	}
}

func ownCard(s *scene) bool {
	for i := range s.ledger.Answer.Entries {
		if e := &s.ledger.Answer.Entries[i]; e.Own {
			check := firstCheck(s.ledger.Card(e))
			return check.Disabled() && strings.Contains(check.Text, "open now")
		}
	}
	return false
}

// Ferment's plan is what Taste predicts, with all lessons, and says so.
func TestFermentUsesTheLessonsToo(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	s.goTo(0)
	s.settle()
	p := s.taste.Shown.Prediction
	plain := func() follow.Bands {
		b, err := new(follow.Follower).Follow(s.Design(), time.Now(), measured.Instruments{}, calc.Doubts{})
		if err != nil {
			t.Fatal(err)
		}
		return b.Before
	}()
	for i, place := range s.places {
		if place.place == s.ferment {
			s.goTo(i)
		}
	}
	s.settle()
	before := s.ferment.Batch().Before
	for _, c := range []struct {
		what             string
		got, want, plain calc.Band
	}{
		{"original gravity", before.OriginalGravitySG, p.OriginalGravitySG, plain.OriginalGravitySG},
		{"final gravity", before.FinalGravitySG, p.FinalGravitySG, plain.FinalGravitySG},
		{"dryness", before.Dryness, p.Dryness, plain.Dryness}, {"body", before.Body, p.Body, plain.Body},
		{"height", before.HeightHours, p.HeightHours, plain.HeightHours}, {"finished", before.FinishedHours, p.FinishedHours, plain.FinishedHours},
	} {
		// As package follow's own test of the two: other draws.
		within := 0.1 * (c.want.High - c.want.Low)
		off := func(a, b calc.Band) float64 {
			return max(math.Abs(a.Low-b.Low), math.Abs(a.Mid-b.Mid), math.Abs(a.High-b.High))
		}
		if off(c.got, c.want) > within {
			t.Errorf("%s is %+v, Taste says %+v", c.what, c.got, c.want)
		}
		if off(c.plain, c.want) < within {
			t.Errorf("the lessons leave %s where it was, so this shows nothing", c.what)
		}
	}
	said := func() bool { return strings.Contains(stage.Texts(s.ferment.Object()), "taught") }
	if !said() {
		t.Error("Ferment does not say that it uses them")
	}
	// What is no part of the design is heard as well.
	s.only(learn.Body)
	index := s.ferment.Batch().Before.Dryness
	s.only(learn.Dryness)
	if got := s.ferment.Batch().Before.Dryness; got == index {
		t.Errorf("with and without a palate dryness is %+v", got)
	}
	s.only()
	if got := s.ferment.Batch().Before.FinalGravitySG; got != plain.FinalGravitySG || said() {
		t.Errorf("switched off: %+v, want %+v, still said %v", got, plain.FinalGravitySG, said())
	}
}

// A way to a strain lands where it says with what is taught, and the file has
// the strain as the catalogue has it.
func TestAWayTakesAStrainAsItStands(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	s.goTo(0)
	ui.Change(s, "free", func(d *design.Design) {
		d.Taste = design.Taste{Hold: []string{"mash.rest", "mash.minutes", "honey.mass", "honey.moment", "grain"}}
		d.Ghost = nil
	})
	s.only(learn.Attenuation)
	p := s.taste.Shown.Prediction
	s.wish(p.Dryness.Mid-12, p.Body.Mid)
	l := s.taste.Third.Landing
	if l.Ways == nil || len(l.Ways.Ways) == 0 || l.Ways.Ways[0].Settings[taste.AttenuationLow] == nil {
		t.Fatalf("no way takes another strain: %+v", l.Ways)
	}
	w := l.Ways.Ways[0]
	var raw design.Yeast
	for _, y := range l.Strains() {
		if y.Name == w.Design.Yeast[0].Name {
			raw = y
		}
	}
	for i, c := range l.List.Cards() {
		if c.Number == 1 {
			l.Use(i)
		}
	}
	s.settle()
	if y := s.Design().Yeast[0]; y.Name != raw.Name || y.AttenuationLowPct != raw.AttenuationLowPct || y.AttenuationHighPct != raw.AttenuationHighPct {
		t.Errorf("the file has %+v, the strain is %+v", y, raw)
	}
	if raw.AttenuationLowPct == w.Design.Yeast[0].AttenuationLowPct {
		t.Error("the strain is not taught, so this shows nothing")
	}
	if got := s.taste.Shown.Prediction.FinalGravitySG.Mid; math.Abs(got-w.Prediction.FinalGravitySG.Mid) > 1e-9 {
		t.Errorf("it landed at %v, the card said %v", got, w.Prediction.FinalGravitySG.Mid)
	}
}

// A state kept beside the design is brewed with the same kit: kept just now, it
// is predicted as the design is, also after a switch.
func TestAKeptStateIsTaughtToo(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	s.goTo(0)
	ui.Change(s, "keep", func(d *design.Design) { ghost.Keep(d, "before") })
	s.settle()
	for _, next := range []string{learn.Attenuation, learn.Dryness, learn.Body, ""} {
		if g := s.taste.Shown.Ghost; g == nil || g.Four() != s.taste.Shown.Prediction.Four() {
			t.Errorf("before %q: kept: %+v, now: %+v", next, g.Four(), s.taste.Shown.Prediction.Four())
		}
		s.only(next)
	}
}

// The printed sheet says whose kit it is for, and how many batches taught it.
func TestTheSheetSaysWhatItUses(t *testing.T) {
	s := ledgerStage(t, copyBatches(t))
	print := func() string { t.Helper(); return printedSheet(t, s) }
	const want = "Predicted with what 4 finished batches have taught"
	if got := print(); !strings.Contains(got, want) {
		t.Errorf("the sheet does not say %q", want)
	}
	s.only()
	if got := print(); strings.Contains(got, "taught") {
		t.Error("no lesson is used, and the sheet says so")
	}
}

func (s *scene) wish(dryness, body float64) {
	s.taste.Third.Landing.Plane.OnPin(&dryness, &body)
	s.taste.Third.Landing.Plane.OnPinEnd()
	s.settle()
}

// printedSheet is what stands on the first page of the sheet.
func printedSheet(t *testing.T, s *scene) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := s.brew.WriteSheet(path); err != nil {
		t.Fatal(err)
	}
	src, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r, err := pdf.NewReader(bytes.NewReader(src), int64(len(src)))
	if err != nil {
		t.Fatal(err)
	}
	page, err := io.ReadAll(r.Page(1).V.Key("Contents").Reader())
	if err != nil {
		t.Fatal(err)
	}
	return strings.ReplaceAll(string(page), "\x00", "") // two bytes a letter
}
