package sheet

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"skep/calc/brewday"
	"skep/calc/message"
	"skep/calc/quantity"
)

// lineWidth is how wide plain text is wrapped, in letters.
const lineWidth = 78

// plain gathers the text.
type plain struct {
	strings.Builder
	c *Content
}

// Text writes the same content as [PDF] as plain text, one thing a line, for
// screen readers and terminals.
func Text(w io.Writer, c Content) error {
	if c.Format == nil {
		return message.Fault("sheet: no formatter was given")
	}
	t := &plain{c: &c}
	t.head()
	for i := range c.Day.Steps {
		t.step(i+1, &c.Day.Steps[i])
	}
	t.para("", t.c.fine()+" "+t.c.bandsAre())
	if _, err := io.WriteString(w, t.String()); err != nil {
		return message.NewError("the sheet can't be written: {error}", err)
	}
	return nil
}

func (t *plain) line(s string) { t.WriteString(strings.TrimRight(s, " ") + "\n") }

// para wraps text behind a first mark; the lines below stand under the text.
func (t *plain) para(mark, text string) {
	indent := utf8.RuneCountInString(mark)
	at, line := indent, mark
	for _, w := range strings.Split(text, " ") {
		n := utf8.RuneCountInString(w)
		if at > indent && at+1+n > lineWidth {
			t.line(line)
			line, at = strings.Repeat(" ", indent), indent
		}
		if at > indent {
			line += " "
			at++
		}
		line += w
		at += n
	}
	t.line(strings.ReplaceAll(line, "\u00a0", " "))
}

func (t *plain) rule(title, under string) {
	t.line("")
	t.para("", title)
	t.line(strings.Repeat(under, min(lineWidth, utf8.RuneCountInString(title))))
}

func (t *plain) head() {
	title := t.c.title()
	t.para("", title)
	t.line(strings.Repeat("=", min(lineWidth, utf8.RuneCountInString(title))))
	t.para("", t.c.subtitle())
	t.rule(t.c.text("Target"), "-")
	for _, x := range t.c.targets() {
		s := message.New("{label}: {value}", x.label, t.banded(x.Quantity))
		if !x.word.Empty() {
			s = message.New("{label}: {value}, {word}", x.label, t.banded(x.Quantity), x.word)
		}
		t.line(t.say(s))
	}
	if s := t.c.taught(); s != "" {
		t.para("", s)
	}
	if len(t.c.Compare) > 0 {
		t.rule(t.c.text("Yeasts on this wort"), "-")
		for i := range t.c.Compare {
			p := &t.c.Compare[i]
			q := func(k quantity.Kind, low, mid, high float64) string {
				return t.banded(quantity.Quantity{Kind: k, Value: mid, Low: low, High: high})
			}
			t.para("", t.say(message.New("{yeast}: final gravity {gravity}, strength {strength}, dryness {dryness}, body {body}", clean(p.Yeast),
				q(quantity.Gravity, p.FinalGravitySG.Low, p.FinalGravitySG.Mid, p.FinalGravitySG.High),
				q(quantity.Strength, p.StrengthPct.Low, p.StrengthPct.Mid, p.StrengthPct.High),
				q(quantity.Index, p.Dryness.Low, p.Dryness.Mid, p.Dryness.High),
				q(quantity.Index, p.Body.Low, p.Body.Mid, p.Body.High))))
		}
	}
	t.rule(t.c.text("To buy and weigh"), "-")
	for _, i := range t.c.Day.Shopping {
		s := t.goesIn(i.Amount, t.say(i.Name), quantity.Quantity{})
		if !i.Note.Empty() {
			s += ", " + t.say(i.Note)
		}
		t.para("[ ] ", s)
	}
}

// banded is a quantity with its range.
func (t *plain) banded(q quantity.Quantity) string {
	s := nobreak(t.c.Format.Quantity(q))
	if q.Banded() {
		s += " (" + nobreak(t.c.Format.Range(q)) + ")"
	}
	return s
}

func (t *plain) say(s message.Message) string { return t.c.say(s) }

func (t *plain) goesIn(amount quantity.Quantity, name string, gives quantity.Quantity) string {
	var parts []string
	if amount.Kind != quantity.None {
		parts = append(parts, nobreak(t.c.Format.Quantity(amount)))
	}
	parts = append(parts, clean(name))
	s := strings.Join(parts, " ")
	if gives.Kind != quantity.None {
		s += ", " + t.banded(gives)
	}
	return s
}

func (t *plain) step(n int, s *brewday.Step) {
	title := fmt.Sprintf("%d. %s", n, t.say(s.Title))
	if hour := t.c.stepHour(s); hour != "" {
		title += ", " + hour
	}
	t.rule(title, "-")
	if !s.Why.Empty() {
		t.para("", t.say(s.Why))
	}
	for _, w := range s.Warnings {
		t.para(t.c.text("CHECK:")+" ", t.say(w.Message))
	}
	for _, c := range s.Cautions {
		t.para(t.c.text("TAKE CARE:")+" ", t.say(c))
	}
	for _, x := range s.Numbers {
		t.line(t.say(x.Label) + ": " + strings.ReplaceAll(t.banded(x.Quantity), "\u00a0", " "))
	}
	listed := map[string]bool{}
	for _, e := range s.Events {
		listed[e.Path] = true
	}
	for _, e := range s.Goes {
		if !listed[e.Path] {
			t.para("[ ] ", t.goesIn(e.Amount, t.say(e.Name), e.Gives))
		}
	}
	if len(s.Events) > 0 {
		t.line(t.say(s.Events[0].Clock.Message()) + ":")
	}
	for _, e := range s.Events {
		what := clean(t.say(e.What))
		if e.Path != "" && e.Amount.Kind != quantity.None {
			what = t.goesIn(e.Amount, what, e.Gives)
		}
		when := t.banded(e.At)
		if hour := t.c.hourOf(&e); hour != "" {
			when += ", " + hour
		}
		t.para("[ ] ", when+": "+what)
	}
	for _, d := range s.Do {
		t.para("[ ] ", t.say(d))
	}
	for _, n := range s.Notes {
		t.para("", t.say(n))
	}
	for _, b := range s.Blanks {
		line := t.say(b.Label) + ": ________ " + t.c.Format.Unit(b.Kind)
		if b.Expect.Kind != quantity.None {
			line = strings.TrimRight(line, " ") + " (" + t.say(message.New("want {value}", b.Expect)) + ")"
		}
		t.line(strings.ReplaceAll(line, "\u00a0", " "))
	}
	for _, c := range s.Table {
		t.para(t.c.Format.Quantity(c.Reads)+": ", t.say(c.Either()))
	}
}
