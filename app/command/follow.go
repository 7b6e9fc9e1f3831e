package command

import (
	"fmt"
	"math"
	"time"

	"skep/calc"
	"skep/calc/follow"
)

type followCommand struct {
	File string `arg:"" name:"FILE" help:"The batch: a design with readings; - is standard input."`
	At   string `name:"at" placeholder:"TIME" help:"When it is looked at, as 2026-06-21T18:00:00Z; left out: this minute, as in the window."`
	JSON bool   `name:"json" help:"Print one JSON object instead of the text."`
	// The lessons of a folder, as everywhere.
	Learnt string `name:"learnt" placeholder:"FOLDER" help:"Use what the finished batches of a folder have taught; without it nothing outside the file counts."`
}

func (followCommand) Help() string {
	return `The fermentation as its readings tell it: where it stands, when the honey may go
in, what is still to come, what speaks against bottling, and readings that do not
fit. No answer here says that a bottle is safe.

  skep follow gate-field.toml --at 2026-06-22T18:00:00Z`
}

// stateWords are the states as the JSON has them; the rest are themselves.
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

type followJSON struct {
	At    time.Time `json:"at"`
	Hours *float64  `json:"hours"` // since pitching; null before
	State string    `json:"state"`
	Also  []string  `json:"also"`
	Text  string    `json:"text"`

	Moment momentJSON `json:"moment"`

	OriginalGravitySG      calc.Band  `json:"original_gravity_sg"`
	FinalGravitySG         calc.Band  `json:"final_gravity_sg"`
	StrengthPct            calc.Band  `json:"strength_pct"`
	ApparentAttenuationPct calc.Band  `json:"apparent_attenuation_pct"`
	Dryness                calc.Band  `json:"dryness"`
	Body                   calc.Band  `json:"body"`
	HoneyCharacter         calc.Band  `json:"honey_character"`
	HeightHours            calc.Band  `json:"height_hours"`
	FinishedHours          calc.Band  `json:"finished_hours"`
	Bottle                 bottleJSON `json:"bottle"`

	Doubtful []doubtfulJSON `json:"doubtful"`
	Notes    []string       `json:"notes"`
}

type momentJSON struct {
	State       string    `json:"state"`
	OpensHours  calc.Band `json:"opens_hours"` // after pitching
	ClosesHours calc.Band `json:"closes_hours"`
	OpensSG     calc.Band `json:"opens_sg"` // of the beer at the middle of those hours
	ClosesSG    calc.Band `json:"closes_sg"`
}

type bottleJSON struct {
	Verdict           string   `json:"verdict"`
	Why               []string `json:"why"`
	HeadroomPoints    float64  `json:"headroom_points"`
	EqualReadingsDays float64  `json:"equal_readings_days"`
	VolumesWorst      float64  `json:"volumes_worst"`
}

// doubtfulJSON is a reading, or several, that the others speak against.
type doubtfulJSON struct {
	Readings []int     `json:"readings"` // in the file, from 0
	Expected calc.Band `json:"expected"`
	Text     string    `json:"text"`
}

func (c *followCommand) Run(s *session) error {
	d, err := s.load(c.File)
	if err != nil {
		return err
	}
	now, doubts, d, err := (&evidence{Now: c.At, Learnt: c.Learnt}).given(d)
	if err != nil {
		return err
	}
	var f follow.Follower
	b, err := f.Follow(d, now, follow.Instruments{}, doubts)
	if err != nil {
		return wrong(err)
	}
	out := followed(b, now.Add(-time.Minute)) // the minute that was asked for
	if c.JSON {
		return s.json(out)
	}
	s.follow(d.Title, b, &out)
	return nil
}

// hourly is a band by the hour at an hour.
func hourly(bands []calc.Band, hour float64) calc.Band {
	if len(bands) == 0 || math.IsNaN(hour) {
		return calc.Band{}
	}
	hour = min(max(hour, 0), float64(len(bands)-1))
	i := min(int(hour), max(len(bands)-2, 0))
	if i+1 >= len(bands) {
		return bands[i]
	}
	u, a, b := hour-float64(i), bands[i], bands[i+1]
	mix := func(a, b float64) float64 { return a + u*(b-a) }
	return calc.Band{Low: mix(a.Low, b.Low), Mid: mix(a.Mid, b.Mid), High: mix(a.High, b.High)}
}

func followed(b *follow.Batch, now time.Time) followJSON {
	a := &b.After
	out := followJSON{
		At: now, State: stateWord(b.State.Code), Also: []string{}, Text: b.State.Text.String(),
		Moment: momentJSON{State: string(b.Moment.Phase), OpensHours: a.WindowHours[0], ClosesHours: a.WindowHours[1],
			OpensSG: hourly(a.GravitySG, a.WindowHours[0].Mid), ClosesSG: hourly(a.GravitySG, a.WindowHours[1].Mid)},
		OriginalGravitySG: a.OriginalGravitySG, FinalGravitySG: a.FinalGravitySG, StrengthPct: a.StrengthPct,
		ApparentAttenuationPct: a.ApparentAttenuationPct, Dryness: a.Dryness, Body: a.Body, HoneyCharacter: b.Prediction.HoneyCharacter,
		HeightHours: a.HeightHours, FinishedHours: a.FinishedHours,
		Bottle: bottleJSON{Verdict: string(b.Bottle.Verdict), Why: []string{}, HeadroomPoints: b.Bottle.Guard.HeadroomPoints,
			EqualReadingsDays: b.Bottle.Guard.EqualReadingsDays, VolumesWorst: b.Bottle.WorstVolumes},
		Doubtful: []doubtfulJSON{}, Notes: []string{},
	}
	if b.Timeline.Pitched {
		hours := b.Timeline.NowHours
		out.Hours = &hours
	}
	for _, code := range b.State.Also {
		out.Also = append(out.Also, stateWord(code))
	}
	for _, why := range b.Bottle.Reasons {
		out.Bottle.Why = append(out.Bottle.Why, why.String())
	}
	for _, x := range b.Doubts {
		one := doubtfulJSON{Readings: []int{}, Expected: x.Expected, Text: x.Text.String()}
		for _, i := range x.Points {
			one.Readings = append(one.Readings, b.Timeline.Points[i].Index)
		}
		out.Doubtful = append(out.Doubtful, one)
	}
	for _, n := range b.Notes {
		out.Notes = append(out.Notes, n.String())
	}
	return out
}

// follow prints the answer for people.
func (s *session) follow(title string, b *follow.Batch, out *followJSON) {
	when := "not pitched yet"
	if out.Hours != nil {
		when = fmt.Sprintf("%.0f h after pitching", *out.Hours)
	}
	s.printf("%s, %s: %s\n", title, when, out.Text)
	for _, x := range b.State.Advice {
		s.printf("  %s\n", x)
	}
	band := func(name, format string, v calc.Band) []string {
		return []string{name, fmt.Sprintf(format, v.Low), fmt.Sprintf(format, v.Mid), fmt.Sprintf(format, v.High)}
	}
	s.printf("\n")
	s.grid([][]string{
		{"", "low", "mid", "high"},
		band("final gravity", "%.3f", out.FinalGravitySG), band("strength % vol", "%.1f", out.StrengthPct),
		band("dryness", "%.0f", out.Dryness), band("body", "%.0f", out.Body),
		band("height, h after pitching", "%.0f", out.HeightHours),
		band("honey window opens, h", "%.0f", out.Moment.OpensHours), band("  at a gravity of", "%.3f", out.Moment.OpensSG),
		band("honey window closes, h", "%.0f", out.Moment.ClosesHours), band("  at a gravity of", "%.3f", out.Moment.ClosesSG),
		band("finished, h", "%.0f", out.FinishedHours),
	})
	s.printf("\nHoney: %s.\nBottle: %s.\n", out.Moment.State, out.Bottle.Verdict)
	for _, why := range out.Bottle.Why {
		s.printf("  %s\n", why)
	}
	for _, x := range out.Doubtful {
		s.printf("Doubtful: %s\n", x.Text)
	}
	for _, n := range out.Notes {
		s.printf("Note: %s\n", n)
	}
}
