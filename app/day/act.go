package day

import (
	"math"

	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/running"
)

// steps are those of the day, with the place of the one that is looked at.
func (d *Day) steps() (list []*brewday.Step, at int) {
	if d.frame == nil {
		return nil, 0
	}
	list = running.Steps(&d.frame.day)
	for i, s := range list {
		if s.Key == d.looking {
			at = i
		}
	}
	return list, at
}

// step is the one that is looked at, with its items.
func (d *Day) step() (*brewday.Step, []running.Item) {
	list, at := d.steps()
	if at >= len(list) {
		return nil, nil
	}
	return list[at], running.Items(list[at])
}

// do changes the state as one step that can be taken back.
func (d *Day) do(name string, change func()) {
	d.undo = append(d.undo, before{state: d.state.Clone(), looking: d.looking, name: name})
	if len(d.undo) > mostUndo {
		d.undo = d.undo[1:]
	}
	d.message, d.skipping = "", ""
	change()
	d.keep()
	d.refresh()
}

func (d *Day) refresh() {
	if d.open {
		d.screen.fill()
	}
	d.foot()
}

// Undo takes the last thing back, with what it changed in the design.
func (d *Day) Undo() {
	n := len(d.undo) - 1
	if n < 0 {
		d.message = words.T("Nothing was done that could be taken back.")
		d.refresh()
		return
	}
	last := d.undo[n]
	d.undo = d.undo[:n]
	seen := d.state.Seen
	*d.state, d.looking = last.state, last.looking
	d.state.Seen = seen
	for range last.edits {
		d.host.Undo()
	}
	d.answer, d.typed = nil, ""
	d.message = words.T("Taken back: {step}", last.name)
	d.keep()
	d.Post()
	d.refresh()
}

// Press does what is next: what Space does, and a press of the large button.
func (d *Day) Press() {
	switch {
	case d.frame == nil || d.state == nil:
	case len(d.rings) > 0:
		if d.rings = d.rings[1:]; len(d.rings) == 0 {
			d.host.ShowMessage("") // the foot called too
		}
		d.refresh()
	case d.typed != "":
		d.Write()
	default:
		d.next()
	}
}

func (d *Day) next() {
	step, items := d.step()
	if step == nil {
		return
	}
	n := d.state.NextItem(items)
	if n < 0 {
		d.goOn()
		return
	}
	i := &items[n]
	if !d.state.Ready(i, d.now()) {
		d.message = words.T("The clock still runs. E ends it early.")
		d.refresh()
		return
	}
	if i.Kind == running.Measure && d.skipping != i.ID {
		d.skipping = i.ID
		d.message = words.T("Type what it shows, then press Space. Space once more goes on without it.")
		d.refresh()
		return
	}
	d.toggle(step, i)
}

// toggle does an item, or takes its tick away.
func (d *Day) toggle(step *brewday.Step, i *running.Item) {
	name := d.itemText(i)
	switch i.Kind {
	case running.Start:
		if d.state.Clock(i.Timer.ID) != nil {
			return
		}
		d.do(name, func() { d.state.Start(step.Key, i.Timer, d.now()); d.onTo(step) })
	case running.Stop:
		d.End(i.Timer.ID)
	default:
		d.do(name, func() { d.state.Tick(i.ID); d.onTo(step) })
	}
}

// onTo is the step at which something was done; the answer to what was measured
// before it comes too late then.
func (d *Day) onTo(step *brewday.Step) { d.state.Step, d.answer = step.Key, nil }

// goOn takes the next step up; after the last the day is over.
func (d *Day) goOn() {
	list, at := d.steps()
	if at+1 < len(list) {
		d.do(words.T("on to {step}", d.print(list[at+1].Title)), func() {
			d.state.Step, d.looking = list[at+1].Key, list[at+1].Key
			d.answer = nil
		})
		return
	}
	d.finish()
}

// finish ends the day: the yeast is in.
func (d *Day) finish() {
	for _, c := range d.state.Clocks {
		if c.Running() && c.Open {
			d.End(c.Timer)
		}
	}
	pitched := running.Measured{What: measured.Pitched, Value: 1, At: d.now()}
	d.state.Write(pitched)
	d.edit(words.T("yeast pitched"), func(to *design.Design) { to.Reading = append(to.Reading, pitched.Reading()) })
	d.end()
	d.host.ShowMessage(words.T("The day is done: the yeast is pitched. What was measured stands in the batch."))
	d.Save()
}

// end takes the day off the window and the disk.
func (d *Day) end() {
	d.state.Over = true
	d.keep()
	d.halt()
	d.Leave()
	d.state, d.frame, d.rings, d.undo = nil, nil, nil, nil
	d.foot()
}

// Abandon gives the day up; what was measured stays in the design.
func (d *Day) Abandon() {
	if d.state == nil {
		return
	}
	d.end()
	d.host.ShowMessage(words.T("The day was ended. What was measured stands in the design."))
}

// Look goes a step ahead or back, to look; what is at hand stays.
func (d *Day) Look(by int) {
	list, at := d.steps()
	if at+by < 0 || at+by >= len(list) {
		return
	}
	d.looking, d.typed, d.message, d.answer = list[at+by].Key, "", "", nil
	d.refresh()
}

// clock is the one that keys act on: of the step looked at, or the one started last.
func (d *Day) clock() *running.Clock {
	var last *running.Clock
	for i := range d.state.Clocks {
		c := &d.state.Clocks[i]
		if c.Running() && (last == nil || c.Step == d.looking || last.Step != d.looking) {
			last = c
		}
	}
	return last
}

// timer is one of the day's; nil: there is no such, or the day is not worked out yet.
func (d *Day) timer(step brewday.Key, id string) *brewday.Timer {
	if d.frame == nil {
		return nil
	}
	return d.frame.day.Timer(step, id)
}

// Hold stops a clock for a while, or lets it go on.
func (d *Day) Hold(timer string) {
	d.do(words.T("hold a clock"), func() { d.state.Hold(timer, d.now()) })
}

// Shift makes a clock longer or shorter by minutes.
func (d *Day) Shift(timer string, by float64) {
	d.do(words.T("move a clock"), func() { d.state.Shift(timer, by, d.now()) })
}

// End ends a clock; the minutes that it ran go into the design where it has them.
func (d *Day) End(timer string) {
	c := d.state.Clock(timer)
	if c == nil || !c.Running() {
		return
	}
	d.do(words.T("end a clock"), func() {
		real := math.Round(10*d.state.End(timer, d.now())) / 10
		t := d.timer(c.Step, timer)
		if t != nil && t.Key != "" {
			d.set(words.T("{name}: {minutes} min", d.print(t.Name), real), brewday.Setting{Key: t.Key, Value: real})
		}
	})
}

// Take does one of the things that an answer offers.
func (d *Day) Take(n int) {
	a := d.answer
	if a == nil || n >= len(a.reply.Ways) {
		return
	}
	way := a.reply.Ways[n]
	text := d.print(way.Text)
	d.do(text, func() {
		if m, ok := d.state.Value(way.Again); ok && way.Again != "" {
			d.state.Forget(way.Again)
			d.edit(words.T("to be measured again"), func(to *design.Design) { without(to, m) })
		}
		d.set(text, way.Settings...)
		d.answer = nil
		d.message = words.T("{what}. U takes it back.", text)
		d.Post()
	})
	d.focus()
}

// Dismiss takes the answer off the screen.
func (d *Day) Dismiss() {
	d.answer = nil
	d.refresh()
	d.focus()
}

// Next is what the large button says.
func (d *Day) Next() string {
	if d.state == nil {
		return ""
	}
	return d.screen.next.text
}

// Ways are what the answer on the screen offers.
func (d *Day) Ways() (list []string) {
	if d.answer != nil {
		for _, w := range d.answer.reply.Ways {
			list = append(list, d.print(w.Text))
		}
	}
	return list
}

// Rings are the calls that nobody has seen yet.
func (d *Day) Rings() []running.Ring { return d.rings }
