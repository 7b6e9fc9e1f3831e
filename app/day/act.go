package day

import (
	"errors"
	"math"
	"strings"
	"unicode"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/running"
)

var zeroBeer calc.Prediction

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
	d.said, d.skipping = "", ""
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
		d.said = words.T("Nothing was done that could be taken back.")
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
	d.said = words.T("Taken back: {step}", last.name)
	d.keep()
	d.Post()
	d.refresh()
}

// Press does what is next: what Space does, and a press of the large button.
func (d *Day) Press() {
	switch {
	case d.frame == nil || d.state == nil:
	case len(d.rings) > 0:
		d.rings = d.rings[1:]
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
		d.said = words.T("The clock still runs. E ends it early.")
		d.refresh()
		return
	}
	if i.Kind == running.Measure && d.skipping != i.ID {
		d.skipping = i.ID
		d.said = words.T("Type what it shows, then press Space. Space once more goes on without it.")
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
		d.do(name, func() { d.state.Start(step.Key, i.Timer, d.now()); d.state.Step = step.Key })
	case running.Stop:
		d.End(i.Timer.ID)
	default:
		d.do(name, func() { d.state.Tick(i.ID); d.state.Step = step.Key })
	}
}

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
	pitched := running.Measured{What: "pitched", Value: 1, At: d.now()}
	d.state.Write(pitched)
	d.edit(words.T("yeast pitched"), func(to *design.Design) { to.Reading = append(to.Reading, pitched.Reading()) })
	d.state.Over = true
	d.keep()
	d.halt()
	d.Leave()
	d.state, d.frame, d.rings, d.undo = nil, nil, nil, nil
	d.foot()
	d.host.Tell(words.T("The day is done: the yeast is pitched. What was measured stands in the batch."))
	d.Save()
}

// Abandon gives the day up; what was measured stays in the design.
func (d *Day) Abandon() {
	if d.state == nil {
		return
	}
	d.state.Over = true
	d.keep()
	d.halt()
	d.Leave()
	d.state, d.frame, d.rings, d.undo = nil, nil, nil, nil
	d.foot()
	d.host.Tell(words.T("The day was ended. What was measured stands in the design."))
}

// Look goes a step ahead or back, to look; what is at hand stays.
func (d *Day) Look(by int) {
	list, at := d.steps()
	if at+by < 0 || at+by >= len(list) {
		return
	}
	d.looking, d.typed, d.said, d.answer = list[at+by].Key, "", "", nil
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

func (d *Day) timer(step brewday.Key, id string) *brewday.Timer {
	if d.frame == nil {
		return nil
	}
	s, ok := d.frame.day.Step(step)
	if !ok {
		return nil
	}
	for i := range s.Timers {
		if s.Timers[i].ID == id {
			return &s.Timers[i]
		}
	}
	return nil
}

// Type adds a letter to what is typed; letters alone are keys.
func (d *Day) Type(r rune) {
	switch {
	case d.state == nil:
	case unicode.IsDigit(r) || d.typed != "" && (unicode.IsLetter(r) || strings.ContainsRune(".,°/'", r)):
		if _, items := d.step(); d.state.ToMeasure(items) < 0 {
			d.said = words.T("Nothing is left to be measured at this step.")
			break
		}
		d.said = ""
		if len(d.typed) < 24 {
			d.typed += string(r)
		}
	case r == '+' || r == '-':
		if c := d.clock(); c != nil {
			by := 1.0
			if r == '-' {
				by = -1
			}
			d.Shift(c.Timer, by)
		}
		return
	case r == 'h' || r == 'H':
		if c := d.clock(); c != nil {
			d.Hold(c.Timer)
		}
		return
	case r == 'e' || r == 'E':
		if c := d.clock(); c != nil {
			d.End(c.Timer)
		}
		return
	case r == 'u' || r == 'U':
		d.Undo()
		return
	}
	d.refresh()
}

// Back takes the last letter away.
func (d *Day) Back() {
	if r := []rune(d.typed); len(r) > 0 {
		d.typed = string(r[:len(r)-1])
	}
	d.refresh()
}

// Write takes what was typed for what is measured at this step.
func (d *Day) Write() {
	_, items := d.step()
	n := d.state.ToMeasure(items)
	if n < 0 || d.typed == "" {
		return
	}
	b := items[n].Blank
	m, err := d.read(b)
	if err != nil {
		d.said = err.Error()
		d.refresh()
		return
	}
	name := d.blankName(b)
	d.do(words.T("reading: {name}", name), func() {
		d.state.Write(m)
		d.typed = ""
		reply := brewday.AnswerTo(d.frame.design, d.frame.beer, m.What, d.state.Readings())
		d.answers++
		d.answer = &answered{what: m.What, name: name, reply: reply, n: d.answers}
		d.edit(words.T("reading: {name}", name), func(to *design.Design) { to.Reading = append(to.Reading, m.Reading()) })
		d.Post()
	})
}

// read is what was typed as a reading.
func (d *Day) read(b *brewday.Blank) (running.Measured, error) {
	m := running.Measured{What: b.What, At: d.now(), TemperatureC: design.NewReading().TemperatureC, Expected: b.Expect.Value}
	text := d.typed
	if ui.IsGravity(b.What) {
		text = gravityText(text)
		if brix, ok := brixText(text); ok {
			v, err := d.host.Read().Plain(brix, "°Bx", 0, 60)
			m.Value, m.Instrument = v, "refractometer"
			return m, err
		}
	}
	kind, limits := ui.ReadingKind(b.What)
	r, err := d.host.Read().Parse(kind, text, limits)
	if err != nil {
		return m, errors.New(words.T("{name}: {why}", d.blankName(b), err.Error()))
	}
	m.Value = r.Value
	return m, nil
}

// gravityText puts the point into a gravity that was typed as 1042.
func gravityText(text string) string {
	if len(text) == 4 && (strings.HasPrefix(text, "10") || strings.HasPrefix(text, "11") || strings.HasPrefix(text, "09")) {
		return text[:1] + "." + text[1:]
	}
	return text
}

// brixText is a reading by refractometer, as "10bx".
func brixText(text string) (string, bool) {
	for _, ending := range []string{"°bx", "bx", "brix"} {
		if rest, ok := strings.CutSuffix(strings.ToLower(text), ending); ok {
			return rest, true
		}
	}
	return "", false
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
		d.said = words.T("{what}. U takes it back.", text)
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

// Wanted is what is expected of the measurement that is next, as it would be typed.
func (d *Day) Wanted() string {
	_, items := d.step()
	if n := d.state.ToMeasure(items); n >= 0 {
		return d.host.Say().Number(items[n].Blank.Kind, items[n].Blank.Expect.Value)
	}
	return ""
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
