package day

import (
	"fmt"
	"time"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/running"
)

// print is a message in the person's language and units.
func (d *Day) print(m message.Message) string { return d.host.Say().Message(m) }

// quantity is one in the person's units.
func (d *Day) quantity(q quantity.Quantity) string { return d.host.Say().Quantity(q.Plain()) }

// itemText is what an item says.
func (d *Day) itemText(i *running.Item) string {
	switch i.Kind {
	case running.Start:
		return words.T("Start: {clock}, {minutes}", d.print(i.Timer.Name), d.quantity(quantity.Of(quantity.Minutes, i.Timer.Minutes)))
	case running.Stop:
		return words.T("End: {clock}", d.print(i.Timer.Name))
	case running.Measure:
		if m, ok := d.state.Value(i.Blank.What); ok {
			return ui.FirstUpper(words.T("{name}: {value}", d.blankName(i.Blank), d.valueText(i.Blank, m)))
		}
		return words.T("Measure: {name}", d.blankName(i.Blank))
	}
	text := d.print(i.Text)
	if i.Amount.Kind != quantity.None {
		text = words.T("{amount} {name}", d.quantity(i.Amount), text)
	}
	if i.Left > 0 {
		text = words.T("{minutes} left: {what}", d.quantity(quantity.Of(quantity.Minutes, i.Left)), text)
	}
	return text
}

// valueText is a measurement as it was made, with what was expected.
func (d *Day) valueText(b *brewday.Blank, m running.Measured) string {
	if m.Expected != 0 {
		return words.T("{value}, expected {expected}", d.shown(b, m), d.host.Say().Format(b.Kind, m.Expected))
	}
	return d.shown(b, m)
}

// shown is what the instrument showed.
func (d *Day) shown(b *brewday.Blank, m running.Measured) string {
	if m.Instrument == measured.Refractometer {
		return words.T("{value} °Bx", d.host.Say().PlainNumber(m.Value))
	}
	return d.host.Say().Format(b.Kind, m.Value)
}

// blankName says what is measured.
func (d *Day) blankName(b *brewday.Blank) string { return ui.BlankLabel(d.looking, b) }

// beerWords is a beer in a line.
func (d *Day) beerWords(p *calc.Prediction) string {
	if !(p.OriginalGravitySG.Mid > 0) {
		return ""
	}
	say := d.host.Say()
	return words.T("{volume} of {strength}, dryness {dryness}, body {body}", say.Format(quantity.Volume, p.Volumes.IntoFermenter),
		say.Format(quantity.Strength, p.StrengthPct.Mid), say.Format(quantity.Index, p.Dryness.Mid), say.Format(quantity.Index, p.Body.Mid))
}

// leftText is what a clock has left, "23:10", or by how much it is over, "+2:10".
func leftText(c *running.Clock, now time.Time) string {
	left := c.Left(now)
	sign := ""
	if left < 0 {
		sign, left = "+", -left
	} else {
		left += time.Second - time.Millisecond // a minute begins full
	}
	s := int(left / time.Second)
	return fmt.Sprintf("%s%d:%02d", sign, s/60, s%60)
}

// clockText is a clock in a line: its name and what it has left.
func (d *Day) clockText(c *running.Clock, now time.Time) string {
	name := c.Timer
	if t := d.timer(c.Step, c.Timer); t != nil {
		name = d.print(t.Name)
	}
	return words.T("{clock} {left}", name, leftText(c, now))
}

// clockNote says when a clock is over, or that it stands.
func (d *Day) clockNote(c *running.Clock, now time.Time) string {
	if c.IsHeld() {
		return words.T("held; it has run {minutes} min", int(c.Real(now)))
	}
	end, _ := c.EndsAt()
	hour := end.In(d.zone).Format("15:04")
	if c.Left(now) <= 0 {
		return words.T("over since {hour}", hour)
	}
	if next, ok := d.state.Next(&d.frame.day, c.Timer); ok && !next.What.Empty() {
		return words.T("until {hour}; {next}: {what}", hour, next.At.In(d.zone).Format("15:04"), d.print(next.What))
	}
	return words.T("until {hour}", hour)
}

// ringWords are what a clock calls out.
func (d *Day) ringWords(r *running.Ring, now time.Time) (title, text string) {
	if r.What.Empty() {
		text = d.print(r.Name)
		if t := d.timer(r.Step, r.Timer); t != nil {
			text = words.T("{clock}: {over}", d.print(t.Name), d.print(t.Over))
		}
	} else if text = d.print(r.What); r.Amount.Kind != quantity.None {
		text = words.T("{amount} {name}", d.quantity(r.Amount), text)
	}
	if late := now.Sub(r.At); late > time.Minute {
		text = words.T("{what} ({minutes} min ago)", text, int(late.Minutes()))
	}
	return words.T("Brew day: {title}", d.state.Title), text
}

// foot says at the foot of the window how the day stands, while it is not shown.
func (d *Day) foot() {
	if d.state == nil || d.open {
		d.Foot("")
		return
	}
	now := d.now()
	if d.frame == nil || !d.ours() {
		d.Foot(words.T("The brew day of {title} goes on", d.state.Title))
		return
	}
	for i := range d.state.Clocks {
		if c := &d.state.Clocks[i]; c.Running() {
			text := d.clockText(c, now)
			for j := i + 1; j < len(d.state.Clocks); j++ {
				if c := &d.state.Clocks[j]; c.Running() {
					text = words.T("{first}, {second}", text, d.clockText(c, now))
				}
			}
			d.Foot(words.T("Brew day: {clocks}", text))
			return
		}
	}
	step, ok := d.frame.day.Step(d.state.Step)
	if !ok {
		return
	}
	d.Foot(words.T("Brew day: {step}", d.print(step.Title)))
}
