package app

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"skep/app/command"
	"skep/app/stage"
	"skep/app/ui"
	"skep/assets"
	"skep/calc"
	"skep/calc/design"
	table "skep/calc/lever"
	"skep/calc/measured"
	"skep/calc/quantity"
)

// brewed is a file of the club's beer with what was measured of it.
func brewed(t *testing.T, readings ...design.Reading) string {
	t.Helper()
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range readings {
		src = fmt.Appendf(src, "\n[[reading]]\nwhat = %q\nat = %s\nvalue = %g\ntemperature_c = 20\ninstrument = \"hydrometer\"\n", r.What, r.At.Format(time.RFC3339), r.Value)
	}
	path := filepath.Join(t.TempDir(), "batch.toml")
	if err := os.WriteFile(path, src, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func at(what string, hours, value float64) design.Reading {
	return design.Reading{What: what, At: brewDay.Add(time.Duration(hours * float64(time.Hour))), Value: value}
}

// fermented are a brew day, three gravities and what was put in of the honey.
func fermented() []design.Reading {
	return []design.Reading{
		at(measured.MashTemperature, -5, 66.1), at(measured.OriginalGravity, -0.5, 1.0405), at(measured.Pitched, 0, 1),
		at(measured.Gravity, 24, 1.034), at(measured.Gravity, 48, 1.019), at(measured.HoneyAdded, 50, 0.4), at(measured.Gravity, 96, 1.0135),
	}
}

// A batch is one beer in every place, on the sheet and for the commands: the
// same to the digit that is shown, and no more the plan's.
func TestABatchIsOneBeerEverywhere(t *testing.T) {
	file := brewed(t, fermented()...)
	s := newStage(t, file)
	clock(s, 100)
	s.goTo(0)
	s.Changed()
	s.settle()
	taste := s.taste.Shown.Prediction
	var out, errs bytes.Buffer
	now := s.Now().Format(time.RFC3339)
	if todo := command.Run([]string{"predict", file, "--json", "--now", now}, command.Streams{In: &out, Out: &out, Err: &errs}); todo.Code != command.Done {
		t.Fatal(errs.String())
	}
	var predicted calc.Prediction
	if err := json.Unmarshal(out.Bytes(), &predicted); err != nil {
		t.Fatal(err)
	}
	say := s.Say()
	shown := func(p *calc.Prediction) string {
		var all []string
		for _, x := range []struct {
			kind quantity.Kind
			band calc.Band
		}{
			{quantity.Gravity, p.OriginalGravitySG}, {quantity.Gravity, p.FinalGravitySG}, {quantity.Strength, p.StrengthPct},
			{quantity.Index, p.Dryness}, {quantity.Index, p.Body}, {quantity.Hours, p.HeightHours}, {quantity.Hours, p.FinishedHours},
		} {
			all = append(all, say.Number(x.kind, x.band.Low)+" "+say.Number(x.kind, x.band.Mid)+" "+say.Number(x.kind, x.band.High))
		}
		return strings.Join(all, ", ")
	}
	want := shown(&taste)
	if got := shown(&predicted); got != want {
		t.Errorf("skep predict says\n%s, Taste\n%s", got, want)
	}
	plan, err := calc.NewEngine().Predict(s.Design())
	if err != nil {
		t.Fatal(err)
	}
	if shown(&plan) == want {
		t.Error("the readings change nothing, so this shows nothing")
	}
	fg := say.Format(quantity.Gravity, taste.FinalGravitySG.Mid)
	if planned := say.Format(quantity.Gravity, plan.FinalGravitySG.Mid); planned == fg {
		t.Errorf("planned and measured are both %s, so the day and the sheet show nothing", fg)
	}
	if text := printedSheet(t, s); !strings.Contains(text, fg) {
		t.Errorf("the sheet does not say %s", fg)
	}
	seen := 0
	for i, p := range s.places {
		s.goTo(i)
		s.settle()
		var got calc.Prediction
		switch p.place {
		case s.brew:
			if texts := stage.Texts(s.brew.Object()); !strings.Contains(texts, fg) {
				t.Errorf("Brew does not say %s: %s", fg, texts)
			}
			continue
		case s.yeasts:
			got = s.yeasts.Shown[0].Prediction
		case s.ferment:
			got = s.ferment.Batch().Prediction
		default:
			continue
		}
		seen++
		if shown(&got) != want {
			t.Errorf("place %d says\n%s, Taste\n%s", i, shown(&got), want)
		}
	}
	if seen != 2 {
		t.Errorf("%d of Yeasts and Ferment were looked at", seen)
	}
}

// What has happened can't be moved: the lever stands where it was measured, its
// padlock is closed with the day, and neither a picture nor the plane moves it.
func TestSpentLeversStandLocked(t *testing.T) {
	s := newStage(t, brewed(t, fermented()...))
	clock(s, 100)
	s.goTo(0)
	s.Changed()
	s.settle()
	before := s.Design()
	for _, which := range []table.Lever{table.Rest, table.Minutes, table.Yeast, table.Honey, table.Moment, table.Grain} {
		err := s.Move("move", which.String(), func(d *design.Design) { d.Title = "moved" })
		if err == nil || !strings.Contains(err.Error(), "20 June") && !strings.Contains(err.Error(), "22 June") {
			t.Errorf("%v moves: %v", which, err)
		}
	}
	if !s.Design().Equal(before) {
		t.Fatal("a spent lever has moved")
	}
	rest := s.taste.Levers.Rest
	if got, want := rest.Value(), 66.1; got != want {
		t.Errorf("the rest stands at %v, measured was %v", got, want)
	}
	if label := rest.AccessibilityLabel(); !strings.Contains(label, "locked") || !strings.Contains(label, "mashed at 66.1 °C on 20 June") {
		t.Errorf("the rest says %q", label)
	}
	if got := s.taste.Levers.Honey.AccessibilityLabel(); !strings.Contains(got, "400 g") || !strings.Contains(got, "22 June") {
		t.Errorf("the honey says %q", got)
	}
	rest.TypedRune('l')
	if s.Design().Taste.Hold != nil && !s.Design().Equal(before) {
		t.Error("L frees a lever that is spent")
	}
	// What is wished for moves still, and undo takes it back.
	dryness := 60.0
	if err := s.Move("pin", "pin", func(d *design.Design) { d.Taste.Dryness = &dryness }); err != nil {
		t.Error(err)
	}
	s.EndMove()
	s.settle()
	was := s.taste.Shown.Prediction
	s.Undo()
	s.settle()
	if !s.Design().Equal(before) {
		t.Error("undo does not bring the wish back")
	}
	s.Redo()
	s.settle()
	if got := s.taste.Shown.Prediction; got.Four() != was.Four() {
		t.Errorf("again: %+v, it was %+v", got.Four(), was.Four())
	}
	// Without readings the levers are free.
	ui.Change(s, "a new brew", func(d *design.Design) { d.Reading = nil })
	s.settle()
	if strings.Contains(rest.AccessibilityLabel(), "locked") {
		t.Error("the next brew's rest is locked")
	}
	if err := s.Move("move", table.Rest.String(), func(d *design.Design) { d.Mash.Rest[0].TemperatureC = 67 }); err != nil {
		t.Error(err)
	}
	s.EndMove()
}

// While honey is still to come, its lever moves, and the beer is the same when it
// comes back to where it was.
func TestHoneyToComeStillMoves(t *testing.T) {
	s := newStage(t, brewed(t, fermented()[:5]...))
	clock(s, 50)
	s.goTo(0)
	s.Changed()
	s.settle()
	was := s.taste.Shown.Prediction
	kg := s.Design().Honey[0].MassKg
	set := func(v float64) {
		t.Helper()
		if err := s.Move("honey", table.Honey.String(), func(d *design.Design) { d.Honey[0].MassKg = v }); err != nil {
			t.Fatal(err)
		}
		s.settle()
	}
	set(kg + 0.3)
	moved := s.taste.Shown.Prediction.StrengthPct.Mid
	s.EndMove()
	s.settle()
	rest := s.taste.Shown.Prediction.StrengthPct.Mid
	if moved <= was.StrengthPct.Mid || moved-rest > 0.05 || rest-moved > 0.05 {
		t.Errorf("300 g more: %.2f%% while it moves and %.2f%% at rest, from %.2f%%", moved, rest, was.StrengthPct.Mid)
	}
	set(kg)
	s.EndMove()
	s.settle()
	if got := s.taste.Shown.Prediction; got.Four() != was.Four() {
		t.Errorf("back: %+v, it was %+v", got.Four(), was.Four())
	}
}
