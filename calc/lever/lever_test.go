package lever

import (
	"math"
	"testing"

	"skep/calc/design"
	"skep/calc/message"
)

// two is a design with two rests and two honeys, none of them alike.
func two(t *testing.T) design.Design {
	t.Helper()
	d := design.New()
	d.Title = "two of each"
	d.Mash.Rest = []design.Rest{{TemperatureC: 62, Minutes: 40}, {TemperatureC: 71, Minutes: 20}}
	d.Grain = []design.Grain{design.NewGrain(), design.NewGrain()}
	d.Grain[1].MassKg = 0.3
	d.Yeast = []design.Yeast{design.NewYeast()}
	d.Honey = []design.Honey{design.NewHoney(), design.NewHoney()}
	d.Honey[1].MassKg, d.Honey[1].Moment = 0.2, design.MomentBoil
	if err := design.FirstError(d.Validate()); err != nil {
		t.Fatal(err)
	}
	return d
}

// Every word of taste.hold has its row and every row its word.
func TestTheTableIsWhatHoldNames(t *testing.T) {
	k, ok := design.KeyOf("taste.hold")
	if !ok || len(k.Words) != Count {
		t.Fatalf("taste.hold takes %v, the table has %d rows", k.Words, Count)
	}
	for _, word := range k.Words {
		if l, ok := Named(word); !ok || l.String() != word {
			t.Errorf("%q names %v, %v", word, l, ok)
		}
	}
	if _, ok := Named("steam"); ok {
		t.Error("steam is no lever of taste")
	}
}

// What a lever puts it gets back, nothing else of the design moves, and its
// keys name exactly what it moved.
func TestALeverMovesItsOwnKeys(t *testing.T) {
	from := two(t)
	at := At{Rest: 1, Honey: 1}
	for l, place := range map[Lever]float64{Rest: 68.5, Minutes: 35, Yeast: 80, YeastC: 22, Honey: 0.45, Moment: 30} {
		to := from.Clone()
		at.Put(&to, l, place)
		is, was := at.Setting(&to), at.Setting(&from)
		if got := l.Get(&is); math.Abs(got-place) > 1e-9 {
			t.Errorf("%s put to %v stands at %v", l, place, got)
		}
		set := from.Clone()
		before := l.Keys(&was, at)
		for i, k := range l.Keys(&is, at) {
			if k.Value == before[i].Value {
				continue
			}
			text, err := to.Get(k.Path)
			if err != nil {
				t.Fatal(err)
			}
			if err := set.Set(k.Path, text); err != nil {
				t.Fatal(err)
			}
		}
		if !set.Equal(to) || to.Equal(from) {
			t.Errorf("%s: its keys do not say what it moved", l)
		}
	}
}

// The yeast's range keeps its width, and stops when one handle comes to its end.
func TestTheYeastMovesAsARange(t *testing.T) {
	from := two(t)
	for _, change := range []float64{-3, 2.6, 40, -40} {
		to := from.Clone()
		At{}.Pull(&to, &from, Yeast, change)
		y, was := to.Yeast[0], from.Yeast[0]
		if w := y.AttenuationHighPct - y.AttenuationLowPct; math.Abs(w-(was.AttenuationHighPct-was.AttenuationLowPct)) > 1e-9 {
			t.Errorf("by %v: %v to %v", change, y.AttenuationLowPct, y.AttenuationHighPct)
		}
		low, high := Yeast.Limits(&from, At{})
		if y.AttenuationLowPct < low-1e-9 || y.AttenuationHighPct > high+1e-9 {
			t.Errorf("by %v: %v to %v, beyond %v to %v", change, y.AttenuationLowPct, y.AttenuationHighPct, low, high)
		}
	}
}

// Along the time line every place is its own moment, and is found again.
func TestEveryPlaceOfTheMomentIsFoundAgain(t *testing.T) {
	d := two(t)
	for i, place := range Places() {
		At{}.Put(&d, Moment, place)
		if got := MomentPlace(d.Honey[0].Moment, d.Honey[0].HoursAfterHeight); got != place {
			t.Errorf("put at %v, stands at %v", place, got)
		}
		if i > 0 && !(place > Places()[i-1]) {
			t.Errorf("%v does not rise", place)
		}
		if err := design.FirstError(d.Validate()); err != nil {
			t.Error(err)
		}
	}
	from := d.Clone()
	At{Honey: 1}.Pull(&d, &from, Moment, 14) // from the boil, nearer to the whirlpool than back
	if d.Honey[1].Moment != design.MomentWhirlpool || d.Honey[0] != from.Honey[0] {
		t.Errorf("pulled from the boil to %v; the other honey at %v", d.Honey[1].Moment, d.Honey[0].Moment)
	}
	for place, want := range map[float64]float64{momentBoil: momentWhirlpool, momentPitching: FirstHour, 0: 12, 90: LastHour} {
		if got := NextMoment(place, 12); got != want {
			t.Errorf("after %v comes %v, want %v", place, got, want)
		}
	}
}

// Honey that is not there yet is made when its lever moves, and only then.
func TestHoneyIsMadeWhereThereIsNone(t *testing.T) {
	d := two(t)
	d.Honey = nil
	if h := (At{Honey: 3}).HoneyOf(&d); h.MassKg != 0 || d.Honey != nil {
		t.Errorf("looked at: %v, %v", h, d.Honey)
	}
	At{Honey: 3}.Put(&d, Rest, 65)
	if d.Honey != nil {
		t.Error("the rest made a honey")
	}
	At{Honey: 3}.Put(&d, Honey, 0.3)
	want := design.NewHoney()
	want.MassKg = 0.3
	if len(d.Honey) != 1 || d.Honey[0] != want {
		t.Errorf("made %v", d.Honey)
	}
}

// A slider and a search reach where the design stands, however odd that is.
func TestTheEndsReachTheDesign(t *testing.T) {
	d := two(t)
	d.Mash.Rest[1].Minutes, d.Honey[1].MassKg = 200, 9
	at := At{Rest: 1, Honey: 1}
	s := at.Setting(&d)
	for _, l := range []Lever{Minutes, Honey, Grain} {
		if low, high := l.Limits(&d, at); l.Get(&s) < low || l.Get(&s) > high {
			t.Errorf("%s stands at %v, its slider ends at %v and %v", l, l.Get(&s), low, high)
		}
	}
	for _, l := range []Lever{Grain, Rest, Minutes, Yeast, Honey} {
		if low, high := l.Search(&d, at); l.Get(&s) < low || l.Get(&s) > high {
			t.Errorf("%s stands at %v, the search ends at %v and %v", l, l.Get(&s), low, high)
		}
		if !(l.Natural(&d) > 0) || !(l.Found() > 0) {
			t.Errorf("%s has no step", l)
		}
	}
	// A hundred grams at 15 L, in proportion elsewhere.
	d.Batch.IntoFermenterL = 30
	if n := Honey.Natural(&d); n != 0.2 {
		t.Errorf("a natural step of honey in 30 L: %v kg", n)
	}
}

func TestWords(t *testing.T) {
	for got, want := range map[string]string{
		Rest.By(-2.5).String(): "2.5 °C cooler", Honey.By(0.15).String(): "150 g more honey", Minutes.By(10).String(): "10 min longer",
		Grain.By(-0.25).String(): "250 g less grain", Yeast.Way(true).String(): "more attenuating yeast", Honey.Toward(false).String(): "less honey",
		Moment.Name().String(): "moment of the honey", Rest.Of(message.New("rest 1")).String(): "temperature of the rest 1",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	if !Moment.By(3).Empty() {
		t.Error("the moment has no amount")
	}
}
