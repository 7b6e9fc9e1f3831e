package explain

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"skep/assets"
	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/ferment"
)

// Every key of predict --json can be opened, and has a formula, and for a
// number inputs and a source.
func TestEveryKeyOpens(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	x, err := New(calc.NewEngine(), d, 0)
	if err != nil {
		t.Fatal(err)
	}
	src, err := json.Marshal(x.prediction)
	if err != nil {
		t.Fatal(err)
	}
	var published map[string]any
	if err := json.Unmarshal(src, &published); err != nil {
		t.Fatal(err)
	}
	keys := Keys()
	for key := range published {
		if !slices.Contains(keys, key) {
			t.Errorf("%s of predict --json cannot be opened", key)
		}
	}
	plain := map[string]bool{"title": true, "yeast": true, "warnings": true, "cautions": true, "yeast_stress": true, "dryness_word": true, "body_word": true, "honey_character_word": true}
	for _, key := range keys {
		e, err := x.Explain(key)
		if err != nil {
			t.Errorf("%s: %v", key, err)
			continue
		}
		if e.Key != key || e.Name.Empty() || len(e.Formula) == 0 {
			t.Errorf("%s: name %q, formula %q", key, e.Name, e.Formula)
		}
		if plain[key] {
			if e.Text.String() == "" && key != "warnings" && key != "yeast_stress" {
				t.Errorf("%s has no text", key)
			}
			continue
		}
		if len(e.Parts) > 0 {
			for _, p := range e.Parts {
				if p.Name.Empty() || p.Unit == "" || !slices.Contains(keys, p.Key) {
					t.Errorf("%s: part %+v", key, p)
				}
			}
			continue
		}
		if len(e.Inputs) == 0 || len(e.Sources) == 0 && !strings.HasPrefix(key, "volumes.") {
			t.Errorf("%s: %d inputs, %d sources", key, len(e.Inputs), len(e.Sources))
		}
		if len(e.Levers) == 0 && key != "equal_readings_days" { // two days at the least: nothing slow is in this beer
			t.Errorf("%s: nothing moves it", key)
		}
		for _, in := range e.Inputs {
			if math.IsNaN(in.Value) || math.IsInf(in.Value, 0) || in.Name.Empty() || in.Unit == "%" && in.Value > 100.1 {
				t.Errorf("%s: input %+v", key, in)
			}
		}
		for _, list := range [][]Effect{e.Levers, e.Doubts} {
			for i, f := range list {
				if math.IsNaN(f.size()) || f.size() == 0 || i > 0 && f.size() > list[i-1].size() {
					t.Errorf("%s: effect %d: %+v", key, i, f)
				}
			}
		}
		// A number with a band says what makes it uncertain, or which package does.
		if !e.Sure && len(e.Doubts) == 0 && len(e.Notes) == 0 {
			t.Errorf("%s has a band and no doubt", key)
		}
		if e.Band != x.values[key].band {
			t.Errorf("%s: band %v, predicted %v", key, e.Band, x.values[key].band)
		}
	}
}

// The effects are those of predictions: here made anew, by hand.
func TestLeversAreDifferencesOfPredictions(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, assets.DemoMiddle)
	e, err := Explain(calc.NewEngine(), d, "final_gravity_sg")
	if err != nil {
		t.Fatal(err)
	}
	at := func(key, value string) float64 {
		moved := d.Clone()
		if err := moved.Set(key, value); err != nil {
			t.Fatal(err)
		}
		p, err := calc.NewEngine().Predict(moved)
		if err != nil {
			t.Fatal(err)
		}
		return p.FinalGravitySG.Mid
	}
	found := 0
	for _, f := range e.Levers {
		switch f.Key {
		case "mash.rest.0.temperature_c":
			found++
			if want := at(f.Key, "67.5") - e.Band.Mid; f.ByUp != want || !(want > 0) || f.Up.String() != "+1 °C" || f.Down.String() != "-1 °C" {
				t.Errorf("a degree more: %v, by hand %v", f, want)
			}
		case "honey.0.mass_kg":
			found++
			if want := at(f.Key, "0.45") - e.Band.Mid; math.Abs(f.ByDown-want) > 1e-12 || !(want > 0) {
				t.Errorf("100 g of honey less: %v, by hand %v", f, want)
			}
		case "yeast.0.attenuation_low_pct":
			found++
			if !(f.ByUp < 0 && f.ByDown > 0) {
				t.Errorf("attenuation: %+v", f)
			}
		case "hop.0.mass_g", "package.store_c":
			t.Errorf("%s moves the final gravity: %+v", f.Key, f)
		}
	}
	if found != 3 {
		t.Errorf("%d of three levers found", found)
	}
	// The strain, the malt and the response of the mash are what is doubted most.
	for _, f := range e.Doubts[:2] {
		if !strings.HasPrefix(f.Name.String(), "strain") && !strings.HasPrefix(f.Name.String(), "malt") && !strings.HasPrefix(f.Name.String(), "how strongly") && !strings.HasPrefix(f.Name.String(), "live") {
			t.Errorf("most doubted: %s", f.Name)
		}
	}
}

// A doubt moves a number from its middle, so by less than the band is wide and
// some; effects stand in order of the larger of their two sides.
func TestDoubtsAreWithinTheBand(t *testing.T) {
	t.Parallel()
	x, err := New(calc.NewEngine(), demotest.Design(t, assets.DemoMiddle), 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range Keys() {
		e, err := x.Explain(key)
		if err != nil {
			t.Fatal(err)
		}
		width := e.Band.High - e.Band.Low
		for _, f := range e.Doubts {
			if big := math.Max(math.Abs(f.ByDown), math.Abs(f.ByUp)); big > 1.5*width {
				t.Errorf("%s: %s moves it by %v, the band is %v wide", key, f.Name, big, width)
			}
		}
		for _, list := range [][]Effect{e.Levers, e.Doubts} {
			last := math.Inf(1)
			for _, f := range list {
				big := math.Max(math.Abs(f.ByDown), math.Abs(f.ByUp))
				if big > last {
					t.Errorf("%s: %s moves it by %v, the one before by %v", key, f.Name, big, last)
				}
				last = big
			}
		}
	}
	find := func(key, name string) Effect {
		t.Helper()
		e, err := x.Explain(key)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range e.Doubts {
			if strings.HasPrefix(f.Name.String(), name) {
				return f
			}
		}
		t.Fatalf("%s has no doubt %s", key, name)
		return Effect{}
	}
	// A strain that attenuates less, a honey weak in aroma, a slow yeast. The
	// pace is a factor of 1.6 either way of the time after the lag: three fifths longer
	// or three eighths less.
	if f := find("final_gravity_sg", "strain"); !(f.ByDown > 0 && f.ByUp < 0) {
		t.Errorf("strain: %+v", f)
	}
	if f := find("honey_character", "how strong"); !(f.ByDown < 0 && f.ByUp > 0) {
		t.Errorf("aroma: %+v", f)
	}
	if f := find("honey_window_hours.closes", "pace"); !(f.ByDown > 0) || math.Abs(f.ByUp/f.ByDown+1/ferment.RateSpread) > 0.001 {
		t.Errorf("pace: %+v", f)
	}
	if f := find("honey_window_hours.closes", "lag"); !(f.ByDown < 0 && f.ByUp > 0) {
		t.Errorf("lag: %+v", f)
	}
}

// The middle beer's own formula can be checked by hand from the inputs shown.
func TestTheInputsGiveTheNumber(t *testing.T) {
	t.Parallel()
	e, err := Explain(calc.NewEngine(), demotest.Design(t, assets.DemoMiddle), "final_gravity_sg")
	if err != nil {
		t.Fatal(err)
	}
	in := map[string]float64{}
	for _, i := range e.Inputs {
		in[i.Name.String()] = i.Value
	}
	oe, share := in["OE with all honey"], in["fermented share of the extract"]/100
	if got := in["the strain takes of simple sugars"]; got != 100 && got != 0 {
		t.Errorf("the strain takes %v %% of the simple sugars", got)
	}
	f := oe * share
	re := 100 * (oe - f) / (100 - 1.0665*f/2.0665)
	ae := (re - 0.1808*oe) / 0.8192
	if math.Abs(re-in["RE"]) > 1e-9 || math.Abs(ae-in["AE"]) > 1e-9 {
		t.Errorf("RE %v, shown %v; AE %v, shown %v", re, in["RE"], ae, in["AE"])
	}
	sg := in["final gravity of the middle beer"]
	if back := 135.997*sg*sg*sg - 630.272*sg*sg + 1111.14*sg - 616.868; math.Abs(back-ae) > 0.003 {
		t.Errorf("SG %v is %v °P by the ASBC cubic, shown %v", sg, back, ae)
	}
	if math.Abs(sg-e.Band.Mid) > 0.0015 {
		t.Errorf("the middle beer has %v, the middle of the band %v", sg, e.Band.Mid)
	}
}

func TestUnknownKeys(t *testing.T) {
	t.Parallel()
	x, err := New(calc.NewEngine(), demotest.Design(t, assets.DemoMiddle), 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{"", "gravity", "wort.starch", "Residue", "honey_window_hours.0"} {
		if _, err := x.Explain(key); err == nil || !strings.Contains(err.Error(), "final_gravity_sg") {
			t.Errorf("%q: %v", key, err)
		}
	}
	if _, err := New(calc.NewEngine(), demotest.Design(t, assets.DemoMiddle), 7); err == nil {
		t.Error("yeast 7 was explained")
	}
	if _, err := Explain(calc.NewEngine(), design.Design{}, "body"); err == nil {
		t.Error("an empty design was explained")
	}
}

func BenchmarkExplain(b *testing.B) {
	d, e := demotest.Design(b, assets.DemoMiddle), calc.NewEngine()
	for b.Loop() {
		if _, err := Explain(e, d, "final_gravity_sg"); err != nil {
			b.Fatal(err)
		}
	}
}

// What batches have taught of the mash and the palate is among what went in,
// and the doubts bear the spread that is left.
func TestWhatIsTaughtIsSaid(t *testing.T) {
	t.Parallel()
	says := func(x calc.Doubts, key string) string {
		t.Helper()
		e := calc.NewEngine()
		if err := e.SetDoubts(x); err != nil {
			t.Fatal(err)
		}
		got, err := Explain(e, demotest.Design(t, assets.DemoMiddle), key)
		if err != nil {
			t.Fatal(err)
		}
		return fmt.Sprintf("%+v %+v", got.Inputs, got.Doubts)
	}
	x := calc.Doubts{
		MaltSD: 2.5, EfficiencySD: 1.2, RestShiftC: 1.5, Clocks: []calc.Clock{{LagHours: 11, RateFactor: 0.7, Share: 0.5}},
		Dryness: calc.Palate{Shift: -7, SD: 6},
	}
	for _, c := range []struct{ key, want string }{
		{"final_gravity_sg", "the mash is warmer than set, as this kit has taught, by Key: Value:1.5 Unit:K"},
		{"final_gravity_sg", "(2.5 points, 1 sd)"}, {"final_gravity_sg", "mash efficiency (1.2 points, 1 sd)"},
		{"dryness", "as your tastings have taught Key: Value:-7"}, {"dryness", "your palate, and one tasting"},
		{"height_hours", "a factor of 1.3 either way"}, {"height_hours", "lag (about 11 h, as this kit has taught)"},
	} {
		if got := says(x, c.key); !strings.Contains(got, c.want) {
			t.Errorf("%s does not say %q: %s", c.key, c.want, got)
		}
		if got := says(calc.Doubts{}, c.key); strings.Contains(got, c.want) {
			t.Errorf("%s says %q, and nothing was taught", c.key, c.want)
		}
	}
}
