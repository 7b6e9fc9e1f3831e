package command

import (
	"fmt"
	"time"

	"skep/app/command/document"
	"skep/calc"
	"skep/calc/follow"
	"skep/calc/measured"
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
	b, err := f.Follow(d, now, measured.Instruments{}, doubts)
	if err != nil {
		return wrong(err)
	}
	out := document.Follow(b, now.Add(-time.Minute)) // the minute that was asked for
	if c.JSON {
		return s.json(out)
	}
	s.follow(d.Title, b, &out)
	return nil
}

// follow prints the answer for people.
func (s *session) follow(title string, b *follow.Batch, out *document.Followed) {
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
	s.printf("Next: %s.\n", follow.NextText(b.Next()))
	for _, x := range out.Doubtful {
		s.printf("Doubtful: %s\n", x.Text)
	}
	for _, n := range out.Notes {
		s.printf("Note: %s\n", n)
	}
}
