package day

import (
	"strings"
	"unicode"

	"skep/app/ui"
	"skep/app/words"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/running"
)

// Type adds a letter to what is typed; letters alone are keys.
func (d *Day) Type(r rune) {
	switch {
	case d.state == nil:
	case unicode.IsDigit(r) || d.typed != "" && (unicode.IsLetter(r) || strings.ContainsRune(".,°/'", r)):
		if _, items := d.step(); d.state.ToMeasure(items) < 0 {
			d.message = words.T("Nothing is left to be measured at this step.")
			break
		}
		d.message = ""
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
		d.message = d.host.Say().Why(err)
		d.refresh()
		return
	}
	name := d.blankName(b)
	d.do(words.T("reading: {name}", name), func() {
		d.state.Write(m)
		d.typed = ""
		reply := brewday.AnswerTo(d.frame.design, d.frame.beer, m.What, d.state.Readings())
		d.answers++
		d.answer = &answered{measured: ui.FirstUpper(words.T("{name}: {value}", name, d.shown(b, m))), reply: reply, n: d.answers}
		d.edit(words.T("reading: {name}", name), func(to *design.Design) { to.Reading = append(to.Reading, m.Reading()) })
		d.Post()
	})
}

// read is what was typed as a reading.
func (d *Day) read(b *brewday.Blank) (running.Measured, error) {
	m := running.Measured{What: b.What, At: d.now(), TemperatureC: design.NewReading().TemperatureC, Expected: b.Expect.Value}
	text := d.typed
	if ui.IsGravity(b.What) {
		if brix, ok := brixText(text); ok {
			v, err := d.host.Read().Plain(brix, "°Bx", 0, 60)
			m.Value, m.Instrument = v, measured.Refractometer
			return m, err
		}
	}
	kind, limits := ui.ReadingKind(b.What)
	r, err := d.host.Read().Parse(kind, text, limits)
	if err != nil {
		return m, message.NewError("{name}: {why}", d.blankName(b), err)
	}
	m.Value = r.Value
	return m, nil
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

// Wanted is what is expected of the measurement that is next, as it would be typed.
func (d *Day) Wanted() string {
	_, items := d.step()
	if n := d.state.ToMeasure(items); n >= 0 {
		return d.host.Say().Number(items[n].Blank.Kind, items[n].Blank.Expect.Value)
	}
	return ""
}
