package batches

import (
	"math"
	"time"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/learn"
	"skep/calc/message"
	"skep/calc/recipe"
)

// Predicted is what the plan of a batch was predicted to be, without any lesson.
type Predicted struct {
	OriginalGravitySG      calc.Band
	FinalGravitySG         calc.Band
	StrengthPct            calc.Band
	ApparentAttenuationPct calc.Band
	HeightHours            calc.Band
	Dryness, Body          calc.Band
}

// Entry is one batch of the folder.
type Entry struct {
	File     string // its name in the folder
	Path     string
	Title    string // the file's name where the design has none
	At       time.Time
	Yeast    string
	Finished bool // a final gravity is read
	Closed   bool // it is history
	Design   design.Design

	Measured  learn.Measured
	Predicted Predicted
	// Unpredicted says why there is no prediction; nil where there is one.
	Unpredicted error
	Warnings    []message.Message // of the file, each with its line
	LeaveOut    bool              // not to be learnt from
	Own         bool              // it is the design that is predicted, which must not be its own teacher

	mash string // batches that mash alike are predicted one after the other
	key  [32]byte
}

// brewedAt is the time of the pitching, or else of the first reading, in the
// zone in which it was written down, or else the batch's day; zero without any.
func brewedAt(d design.Design) (at time.Time) {
	if len(d.Reading) == 0 && d.Batch.Brewed != "" {
		at, _ = time.Parse(time.DateOnly, string(d.Batch.Brewed)) // the file's check has read it
		return at
	}
	for _, r := range d.Reading {
		if r.What == "pitched" {
			return r.At
		}
		if at.IsZero() || r.At.Before(at) {
			at = r.At
		}
	}
	return at
}

// The quantities that are compared, in order.
const (
	OriginalGravity = "original_gravity_sg"
	FinalGravity    = "final_gravity_sg"
	Strength        = "strength_pct"
	Attenuation     = "apparent_attenuation_pct"
	Yield           = "mash_efficiency_pct"
	BoilOff         = "steam_l_per_h"
	Height          = "height_hours"
	Dryness         = "dryness"
	Body            = "body"
)

// Compared is one quantity, predicted and measured.
type Compared struct {
	Key       string
	Name      message.Message
	Unit      string // "SG", "%", "L/h", "h"; empty of an index
	Predicted calc.Band
	HasBand   bool // false: a plain figure of the plan, in Mid; no prediction at all if that is NaN
	Measured  learn.Value
}

// Held tells whether the band held what was measured; ok is false where one of
// the two is wanting.
func (c Compared) Held() (held, ok bool) {
	if !c.HasBand || !c.Measured.Known {
		return false, false
	}
	return c.Predicted.Low <= c.Measured.Mean && c.Measured.Mean <= c.Predicted.High, true
}

// efficiencySD is the engine's doubt of mash efficiency, points.
const efficiencySD = 2.0

// Compare is predicted against measured, all quantities in order.
func (e *Entry) Compare() []Compared {
	m, p := &e.Measured, &e.Predicted
	has := e.Unpredicted == nil
	cost := recipe.Crush(e.Design.Crush).EfficiencyPoints()
	// What is measured has paid for the crush; package learn gives it back.
	yield := e.Design.Kit.MashEfficiencyPct - cost
	got := m.EfficiencyPct
	got.Mean -= cost
	half := doubt.Z90 * efficiencySD
	plain := func(v float64) calc.Band { return calc.Band{Low: v, Mid: v, High: v} }
	steam := e.Design.Kit.SteamLPerH
	list := []Compared{
		{OriginalGravity, message.New("Original gravity"), "SG", p.OriginalGravitySG, has, m.OriginalGravitySG},
		{FinalGravity, message.New("Final gravity"), "SG", p.FinalGravitySG, has, m.FinalGravitySG},
		{Strength, message.New("Strength"), "%", p.StrengthPct, has, m.StrengthPct},
		{Attenuation, message.New("Apparent attenuation"), "%", p.ApparentAttenuationPct, has, m.ApparentAttenuationPct},
		{Yield, message.New("Mash efficiency"), "%", calc.Band{Low: yield - half, Mid: yield, High: yield + half}, true, got},
		{BoilOff, message.New("Boil-off"), "L/h", plain(steam), false, m.SteamLPerH},
		{Height, message.New("Time to the height"), "h", p.HeightHours, has, m.HeightHours},
		{Dryness, message.New("Dryness, predicted and perceived"), "", p.Dryness, has, m.PerceivedDryness},
		{Body, message.New("Body, predicted and perceived"), "", p.Body, has, m.PerceivedBody},
	}
	if !has {
		for i := range list {
			if c := &list[i]; !c.HasBand && c.Key != BoilOff {
				c.Predicted = plain(math.NaN())
			}
		}
	}
	return list
}

// predicted takes what the ledger shows of a prediction.
func predicted(p *calc.Prediction) Predicted {
	return Predicted{
		OriginalGravitySG: p.OriginalGravitySG, FinalGravitySG: p.FinalGravitySG, StrengthPct: p.StrengthPct,
		ApparentAttenuationPct: p.ApparentAttenuationPct, HeightHours: p.HeightHours, Dryness: p.Dryness, Body: p.Body,
	}
}
