package tune

import (
	"math"
	"strings"
	"testing"

	"skep/assets/demotest"
	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/message"
)

// A way says what it moves, that the yeast stays where it might have gone, and that
// nothing moves where nothing does.
func TestSummary(t *testing.T) {
	t.Parallel()
	hotter := Part{Lever: lever.Rest, From: 66, To: 68}
	for _, c := range []struct {
		way  Way
		want string
	}{
		{Way{Free: []lever.Lever{lever.Yeast}}, "as it is"},
		{Way{Parts: []Part{hotter}}, "hotter mash"},
		{Way{Parts: []Part{hotter}, Free: []lever.Lever{lever.Rest, lever.Yeast}}, "hotter mash, same yeast"},
		{Way{Parts: []Part{hotter, {Lever: lever.Yeast, From: 76, To: 70}}, Free: []lever.Lever{lever.Yeast}}, "hotter mash, less attenuating yeast"},
		{Way{Parts: []Part{{Lever: lever.Yeast, From: 76, To: 76}}}, "another yeast of the same attenuation"},
		{Way{Parts: []Part{{Lever: lever.Honey, From: 0.5, To: 0}}}, "no honey"},
	} {
		if got := message.InEnglish(c.way.Summary(), ", "); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// The miss beside a way is that of the prediction beside it, to the last digit: the
// grist is rounded after the search.
func TestTheMissIsThePredictions(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	r, err := tuner(t, d).To(taste(66, 33, 5.9), Free(nil))
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range r.Ways {
		p := &w.Prediction
		for key, want := range map[string]float64{DrynessKey: math.Abs(p.Dryness.Mid - 66), BodyKey: math.Abs(p.Body.Mid - 33), StrengthKey: math.Abs(p.StrengthPct.Mid - 5.9)} {
			if math.Abs(w.Miss[key]-want) > 1e-12 {
				t.Errorf("%s: %s misses by %v, the prediction by %v", w.Summary(), key, w.Miss[key], want)
			}
		}
	}
}

// The notes carry the amounts that they speak of.
func TestNotesOnTheHoneyAtHand(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "middle")
	d.Taste = design.Taste{HoneyAtHandKg: ptr(0.3)}
	for free, want := range map[lever.Lever]string{lever.Honey: "more honey than the 300 g at hand", lever.Rest: "takes 550 g of honey, 300 g is at hand"} {
		r, err := tuner(t, d).Live(taste(60, no, no), Levers{Set: lever.SetOf(free)})
		if err != nil || !strings.Contains(notesOf(r), want) {
			t.Errorf("%v, %q does not say %q", err, notesOf(r), want)
		}
	}
}
