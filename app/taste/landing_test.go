package taste

import (
	"math"
	"strings"
	"testing"

	"skep/app/begin"
	"skep/app/ghost"
	"skep/app/plane"
	"skep/app/ui"
	"skep/calc"
	"skep/calc/design"
	table "skep/calc/lever"
	"skep/calc/start"
	"skep/calc/tune"
)

// wish asks for a taste, as the pin does.
func (s *tasteScene) wish(dryness, body float64) {
	s.taste.Third.Landing.Plane.OnPin(&dryness, &body)
	s.taste.Third.Landing.Plane.OnPinEnd()
	s.WaitIdle()
}

// Round trip: what the first way promises is what the engine then predicts.
func TestTakingAWayLandsWhereItSays(t *testing.T) {
	s := tasteStage(t)
	ui.Change(s, "free", func(d *design.Design) { d.Taste = design.Taste{}; d.Ghost = nil })
	s.wish(48, 40)
	l := s.taste.Third.Landing
	if l.Ways == nil || !l.Ways.Reached {
		t.Fatalf("an ordinary taste is not reached: %+v", l.Ways)
	}
	before := s.Design()
	want := l.Ways.Ways[0].Prediction
	l.Use(0)
	s.WaitIdle()
	got := s.taste.Shown.Prediction
	if math.Abs(got.Dryness.Mid-want.Dryness.Mid) > 1e-9 || math.Abs(got.Body.Mid-want.Body.Mid) > 1e-9 {
		t.Errorf("landed at %v, %v; the card said %v, %v", got.Dryness.Mid, got.Body.Mid, want.Dryness.Mid, want.Body.Mid)
	}
	if math.Abs(got.Dryness.Mid-48) > tune.ReachedIndex || math.Abs(got.Body.Mid-40) > tune.ReachedIndex {
		t.Errorf("landed at %v, %v; wanted 48, 40", got.Dryness.Mid, got.Body.Mid)
	}
	if d := s.Design(); d.Ghost == nil {
		t.Error("nothing is kept to compare with")
	}
	s.Undo()
	if !s.Design().Equal(before) {
		t.Error("one undo does not put a way back")
	}
}

// Pulling an arrow moves its lever by natural steps from where it stood.
func TestPullingAnArrowMovesItsLever(t *testing.T) {
	s := tasteStage(t)
	l := s.taste.Third.Landing
	start := s.RestC()
	for _, steps := range []float64{0.5, 1, 2} {
		l.Plane.OnArrow(table.Rest.String(), steps)
	}
	l.Plane.OnArrowEnd(table.Rest.String())
	s.WaitIdle()
	if got := s.RestC(); got != start+2 {
		t.Errorf("the rest went from %v to %v, want two degrees more", start, got)
	}
	s.Undo()
	if got := s.RestC(); got != start {
		t.Errorf("a pull is not one step of undo: %v", got)
	}
	honey := s.Design().Honey[0].MassKg
	l.Plane.OnArrow(table.Honey.String(), -1)
	l.Plane.OnArrowEnd(table.Honey.String())
	if got := s.Design().Honey[0].MassKg; math.Abs(got-(honey-0.1)) > 1e-9 {
		t.Errorf("honey %v to %v, want 100 g less", honey, got)
	}
}

func TestALockedLeverHasNoArrowAndNoWay(t *testing.T) {
	s := tasteStage(t)
	s.taste.Levers.lock(design.LeverRest, true)
	s.wish(45, 42)
	f := NewLandingLive().Frame(s.taste.Third.Landing.Ask(s.Taught()))
	for _, a := range s.taste.Third.Landing.data(f).Arrows {
		if a.Lever == design.LeverRest {
			t.Error("the locked rest has an arrow")
		}
	}
	for _, w := range f.ways.Ways {
		for _, p := range w.Parts {
			if p.Lever == table.Rest {
				t.Errorf("a way moves the locked rest: %v", w.Settings)
			}
		}
	}
}

func TestOutOfReachSaysWhy(t *testing.T) {
	s := tasteStage(t)
	s.wish(98, 95)
	cards := s.taste.Third.Landing.List.Cards()
	if len(cards) == 0 || cards[0].Kind != plane.Unreachable || cards[0].Detail == "" {
		t.Errorf("the cards say %+v", cards)
	}
}

// The plane's cloud stands where the pictures' points do.
func TestThePlaneAgreesWithThePictures(t *testing.T) {
	s := tasteStage(t)
	mid := NewLandingLive().Frame(s.taste.Third.Landing.Ask(s.Taught())).Landing.Cloud.Mid
	four := s.taste.Shown.Prediction.Four()
	if math.Abs(mid.Dryness-four[calc.Dryness].Mid) > 1e-9 || math.Abs(mid.Body-four[calc.Body].Mid) > 1e-9 {
		t.Errorf("the plane has %v, the pictures %v and %v", mid, four[calc.Dryness].Mid, four[calc.Body].Mid)
	}
}

// The side-by-side lists only what differs, levers and outcomes.
func TestSideBySideListsOnlyWhatDiffers(t *testing.T) {
	s := tasteStage(t)
	ui.Change(s, "keep", func(d *design.Design) { ghost.Keep(d, "kept") })
	s.WaitIdle()
	if rows := s.taste.sideBySide(); len(rows) != 0 {
		t.Errorf("nothing was moved, yet %v", rows)
	}
	ui.Change(s, "rest", func(d *design.Design) { d.Mash.Rest[0].TemperatureC = 70 })
	s.WaitIdle()
	names := map[string]bool{}
	for _, r := range s.taste.sideBySide() {
		names[r.name] = true
	}
	if !names["mash rest"] || !names["final gravity"] || !names["body"] || names["honey"] || names["yeast"] {
		t.Errorf("listed: %v", names)
	}
	before := s.Design()
	ui.Change(s, "swap", ghost.Swap)
	ui.Change(s, "swap", ghost.Swap)
	if !s.Design().Equal(before) {
		t.Error("swapping twice does not lead back")
	}
}

// Honey's character is wished for as the rest is, and the ways keep to what is at
// hand, in the panel as in the file.
func TestTheWishKnowsHoney(t *testing.T) {
	s := tasteStage(t)
	l := s.taste.Third.Landing
	ui.Change(s, "free", func(d *design.Design) { d.Taste = design.Taste{}; d.Honey[0].MassKg = 0.2 })
	character, atHand := 55.0, 0.9
	l.wishes.OnWish(plane.HoneyKey, &character)
	l.wishes.OnWish(plane.AtHandKey, &atHand)
	s.WaitIdle()
	if d := s.Design(); *d.Taste.Honey != 55 || *d.Taste.HoneyAtHandKg != 0.9 {
		t.Fatalf("the design's taste is %+v", d.Taste)
	}
	if l.Ways == nil || !l.Ways.Reached {
		t.Fatalf("more honey is the way: %+v", l.Ways)
	}
	cards := l.List.Cards()
	if !strings.Contains(cards[0].Title, "more honey") || !strings.Contains(cards[0].Detail, "of honey left over") {
		t.Errorf("the card says %q, %q", cards[0].Title, cards[0].Detail)
	}
	little := 0.25
	l.wishes.OnWish(plane.AtHandKey, &little)
	s.WaitIdle()
	if l.Ways.Reached || !strings.Contains(l.List.Cards()[0].Detail, "would have to be bought") {
		t.Errorf("with 250 g at hand: %+v", l.List.Cards())
	}
	for _, w := range l.Ways.Ways {
		if w.Design.Honey[0].MassKg > 0.25 {
			t.Errorf("a way takes %v kg of 0.25", w.Design.Honey[0].MassKg)
		}
	}
	// Typed in grams, as the honey's lever is.
	if v, _, err := l.wishes.Parse(plane.AtHandKey, "450"); err != nil || v != 0.45 {
		t.Errorf("450 is read as %v kg, %v", v, err)
	}
	if text := l.wishes.Format(plane.AtHandKey, 0.45); text != "450 g" {
		t.Errorf("0.45 kg is shown as %q", text)
	}
}

// A change of strain comes with what it would taste of, beside its name.
func TestAStrainComesWithItsTaste(t *testing.T) {
	s := tasteStage(t)
	way := tune.Way{Parts: []tune.Part{{Lever: table.Yeast, From: 76, To: 70, ToName: "English ale"}}}
	if got := s.taste.wayWords(&way); got != "English ale" {
		t.Errorf("the way says %q", got)
	}
	if got := s.taste.tasteOf(&way); !strings.Contains(got, "fruity") {
		t.Errorf("the strain's taste is %q", got)
	}
	way.Parts[0].ToName = "nobody's"
	if got := s.taste.tasteOf(&way); got != "" {
		t.Errorf("a strain that nothing is said of: %q", got)
	}
}

// What is typed as wanted beside the card of the first answers is its answer: the next
// one does not put back what the card had.
func TestAWishBesideTheCardIsItsAnswer(t *testing.T) {
	s := tasteStage(t)
	choices, _ := begin.Load("", s.Catalogue())
	answers, kit := choices.First("")
	begun, err := start.Design(calc.NewEngine(), answers, choices.Larder(), nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Edit("new", func(d *design.Design) { *d = begun.Design }); err != nil {
		t.Fatal(err)
	}
	s.taste.Card.Open(choices, answers, kit)
	s.WaitIdle()
	wished, honey := 4.4, 70.0
	s.taste.Third.Landing.wishes.OnWish(plane.StrengthKey, &wished)
	s.taste.Third.Landing.wishes.OnWish(plane.HoneyKey, &honey)
	s.WaitIdle()
	s.taste.Card.buy.Tapped(nil) // another answer
	s.WaitIdle()
	d := s.Design()
	if got := *d.Taste.StrengthPct; got != 4.4 || s.taste.Card.strength.Text != "4.4 %" {
		t.Errorf("the design is to have %g %%, the card says %q", got, s.taste.Card.strength.Text)
	}
	if d.Taste.Honey == nil || *d.Taste.Honey != 70 {
		t.Errorf("the honey character that is wanted is %v", d.Taste.Honey)
	}
	if got := s.taste.Shown.Prediction.StrengthPct.Mid; math.Abs(got-4.4) > 0.1 {
		t.Errorf("the beer has %g %%", got)
	}
}
