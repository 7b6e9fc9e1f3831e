package document

import (
	"time"

	"skep/calc"
	"skep/calc/follow"
	"skep/calc/measured"
	"skep/calc/message"
)

// stateWord is a state as the document has it.
func stateWord(code follow.StateCode) string {
	switch code {
	case follow.Lag:
		return "starting"
	case follow.Fast, follow.PastHeight:
		return "on-course"
	case follow.Stuck:
		return "stalled"
	case follow.Contradicts:
		return "contradicting"
	}
	return string(code)
}

// Followed is a fermentation as its readings tell it.
type Followed struct {
	At    time.Time       `json:"at"`
	Hours *float64        `json:"hours" about:"since pitching; null before"`
	State string          `json:"state" about:"not-pitched, starting, on-course, slow, stalled, finished, contradicting"`
	Also  []string        `json:"also"`
	Text  message.Message `json:"text"`

	Moment Moment `json:"moment"`

	OriginalGravitySG      calc.Band `json:"original_gravity_sg"`
	FinalGravitySG         calc.Band `json:"final_gravity_sg"`
	StrengthPct            calc.Band `json:"strength_pct"`
	ApparentAttenuationPct calc.Band `json:"apparent_attenuation_pct"`
	Dryness                calc.Band `json:"dryness"`
	Body                   calc.Band `json:"body"`
	HoneyCharacter         calc.Band `json:"honey_character"`
	HeightHours            calc.Band `json:"height_hours"`
	FinishedHours          calc.Band `json:"finished_hours"`
	Bottle                 Bottle    `json:"bottle"`

	Doubtful []Doubtful        `json:"doubtful"`
	Next     []Next            `json:"next_measurement" about:"the most telling first"`
	Notes    []message.Message `json:"notes"`
}

// Moment is when the honey may go in.
type Moment struct {
	State       string    `json:"state" about:"not-yet, now, closing, past, in"`
	OpensHours  calc.Band `json:"opens_hours" about:"after pitching"`
	ClosesHours calc.Band `json:"closes_hours"`
	OpensSG     calc.Band `json:"opens_sg" about:"of the beer then, without honey that goes in later"`
	ClosesSG    calc.Band `json:"closes_sg"`
}

// Bottle is what speaks against bottling.
type Bottle struct {
	Verdict           string            `json:"verdict" about:"wait, within, over: never that a bottle is safe"`
	Why               []message.Message `json:"why"`
	HeadroomPoints    float64           `json:"headroom_points" about:"points of gravity that may still ferment before the rating is reached"`
	EqualReadingsDays float64           `json:"equal_readings_days"`
	VolumesWorst      float64           `json:"volumes_worst"`
}

// Doubtful is a reading, or several, that the others speak against.
type Doubtful struct {
	Readings []int           `json:"readings" about:"in the file, from 0"`
	Expected calc.Band       `json:"expected" about:"gravity; nought for what is no gravity"`
	Text     message.Message `json:"text"`
}

// Next is what could be measured next.
type Next struct {
	What    string             `json:"what" about:"gravity, forced-ferment, beer-temperature, honey-moisture, thermometer-in-ice"`
	When    *time.Time         `json:"when,omitempty" about:"left out: at any time"`
	Shrinks map[string]float64 `json:"shrinks" about:"by how much the band of each quality is expected to narrow, in its unit: final_gravity_sg, strength_pct, dryness, honey_moment_hours"`
}

// next makes the list of them.
func next(b *follow.Batch, now time.Time) []Next {
	out := []Next{}
	for _, w := range b.Next() {
		one := Next{What: w.What, Shrinks: map[string]float64{}}
		if w.Hours > 0 {
			at := now.Add(time.Duration(w.Hours * float64(time.Hour)))
			one.When = &at
		}
		for _, n := range w.Narrowings {
			one.Shrinks[n.Key] = max(n.Now-n.Then, 0)
		}
		out = append(out, one)
	}
	return out
}

// Follow makes the document of a batch at a minute.
func Follow(b *follow.Batch, now time.Time) Followed {
	a := &b.After
	out := Followed{
		At: now, State: stateWord(b.State.Code), Also: []string{}, Text: b.State.Text,
		Moment: Moment{State: string(b.Moment.Phase), OpensHours: a.WindowHours[0], ClosesHours: a.WindowHours[1],
			OpensSG: a.WindowSG[0], ClosesSG: a.WindowSG[1]},
		OriginalGravitySG: a.OriginalGravitySG, FinalGravitySG: a.FinalGravitySG, StrengthPct: a.StrengthPct,
		ApparentAttenuationPct: a.ApparentAttenuationPct, Dryness: a.Dryness, Body: a.Body, HoneyCharacter: b.Prediction.HoneyCharacter,
		HeightHours: a.HeightHours, FinishedHours: a.FinishedHours,
		Bottle: Bottle{Verdict: string(b.Bottle.Verdict), Why: list(b.Bottle.Reasons), HeadroomPoints: b.Bottle.Guard.HeadroomPoints,
			EqualReadingsDays: b.Bottle.Guard.EqualReadingsDays, VolumesWorst: b.Bottle.WorstVolumes},
		Doubtful: []Doubtful{}, Next: next(b, now), Notes: list(b.Notes),
	}
	if b.Timeline.Pitched {
		hours := b.Timeline.NowHours
		out.Hours = &hours
	}
	for _, code := range b.State.Also {
		out.Also = append(out.Also, stateWord(code))
	}
	for _, x := range b.Doubts {
		one := Doubtful{Readings: []int{}, Expected: x.Expected, Text: x.Text}
		for _, i := range x.Points {
			one.Readings = append(one.Readings, b.Timeline.Points[i].Index)
		}
		out.Doubtful = append(out.Doubtful, one)
	}
	// A reading that the others leave no room for is not heard at all.
	for _, p := range b.Timeline.Points {
		if p.Used || len(p.Flags) == 0 {
			continue
		}
		expected := a.At(p.Hours)
		if p.What != measured.Gravity {
			expected = calc.Band{}
		}
		for _, f := range p.Flags {
			out.Doubtful = append(out.Doubtful, Doubtful{Readings: []int{p.Index}, Expected: expected, Text: f.Text})
		}
	}
	return out
}
