package command

import (
	"time"

	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/app/words"
	"skep/calc"
	"skep/calc/follow"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/nextreading"
	"skep/calc/quantity"
)

type followCommand struct {
	File string `arg:"" name:"FILE" help:"The batch: a design with readings; - is standard input."`
	At   string `name:"at" placeholder:"TIME" help:"When it is looked at, as 2026-06-21T18:00:00Z; left out: this minute, as in the window."`
	JSON bool   `name:"json" help:"Print one JSON object instead of the text."`
	learnt
}

func (followCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("The fermentation as its readings tell it: where it stands, when the honey may go in, what is still to come, what speaks against bottling, and readings that do not fit. No answer here says that a bottle is safe.")), `skep follow gate-field.toml --at 2026-06-22T18:00:00Z`)
}

func (c *followCommand) Run(s *session) error {
	d, err := s.load(c.File)
	if err != nil {
		return err
	}
	now, doubts, d, err := (&evidence{Now: c.At, learnt: c.learnt}).given(s, d)
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
	when := words.T("not pitched yet")
	if out.Hours != nil {
		when = s.text(message.New("{hours} after pitching", quantity.Of(quantity.WholeHours, *out.Hours)))
	}
	s.line("{title}, {when}: {state}", titled(title), when, out.Text)
	for _, x := range b.State.Advice {
		s.printf("  %s\n", s.text(x))
	}
	s.printf("\n")
	s.row("", words.T("low"), words.T("mid"), words.T("high"), "")
	s.band(words.T("final gravity"), out.FinalGravitySG, quantity.Gravity, gravityDecimals)
	s.named(words.T("strength"), out.StrengthPct, strengthDecimals, words.T("% vol"))
	s.named(words.T("dryness"), out.Dryness, indexDecimals, "")
	s.named(words.T("body"), out.Body, indexDecimals, "")
	s.heading(words.T("after pitching"))
	at := func(label string, hours, gravity calc.Band) {
		s.band("  "+label, hours, quantity.WholeHours, 0)
		s.band("    "+words.T("at a gravity of"), gravity, quantity.Gravity, gravityDecimals)
	}
	s.band("  "+words.T("height of fermentation"), out.HeightHours, quantity.WholeHours, 0)
	at(words.T("honey window opens"), out.Moment.OpensHours, out.Moment.OpensSG)
	at(words.T("honey window closes"), out.Moment.ClosesHours, out.Moment.ClosesSG)
	s.band("  "+words.T("finished"), out.FinishedHours, quantity.WholeHours, 0)
	s.flush()
	s.printf("\n")
	s.line("Honey: {state}.", b.Moment.Phase.Message())
	s.line("Bottle: {verdict}.", b.Bottle.Verdict.Message())
	for _, why := range out.Bottle.Why {
		s.printf("  %s\n", s.text(why))
	}
	s.line("Next: {measurement}.", nextreading.Text(b.Next()))
	for _, x := range out.Doubtful {
		s.line("Doubtful: {reading}", x.Text)
	}
	for _, n := range out.Notes {
		s.line("Note: {text}", n)
	}
}
