package ui

import (
	"strconv"
	"strings"

	"skep/app/safetext"
	"skep/app/words"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
)

// KindOfUnit is the kind of quantity that a unit of the design file, or of a
// calculation, stands for; false where a person has no choice of unit.
func KindOfUnit(path, unit string) (quantity.Kind, bool) {
	kind, ok := quantity.OfUnit(unit)
	if kind == quantity.Temperature && strings.HasSuffix(path, "_error_c") {
		kind = kind.Difference()
	}
	return kind, ok
}

// KeyNumber is a number of the design as the person sees it.
func (f Formatter) KeyNumber(k design.Key, v float64) string {
	if kind, ok := KindOfUnit(k.Path, k.Unit); ok {
		return f.Format(kind, v)
	}
	return WithUnit(f.PlainNumber(v), unitWord(k.Unit))
}

// WithUnit puts a unit behind a number, if there is one.
func WithUnit(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}

// unitWord is a unit as it is shown.
func unitWord(unit string) string {
	switch unit {
	case "volumes":
		return words.T("vol")
	case "billion/L":
		return words.T("bn/L")
	}
	return unit
}

// KeyText is the text of a key's value, as [design.Design.Get] gives it, as
// the person sees it.
func (f Formatter) KeyText(path, text string) string {
	k, ok := design.KeyOf(path)
	if !ok || k.Kind != design.Number {
		return text
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return text
	}
	return f.KeyNumber(k, v)
}

// Parser reads what a person typed: what package quantity reads, and values of
// the design besides.
type Parser struct{ quantity.Parser }

// NewParser makes a parser for a person's units.
func NewParser(units quantity.Units) Parser {
	return Parser{quantity.NewParser(units, words.Translate)}
}

func (p Parser) say() Formatter { return Formatter{p.Formatter()} }

// Key reads what a person typed for a key into what
// [design.Design.Set] takes, and says how it was read where that is not plain.
func (p Parser) Key(path, text string) (value, echo string, err error) {
	k, ok := design.KeyOf(path)
	if !ok || k.Kind != design.Number {
		return strings.TrimSpace(text), "", nil
	}
	var v float64
	if kind, ok := KindOfUnit(k.Path, k.Unit); ok {
		r, err := p.Parse(kind, text, LimitsOf(k))
		if err != nil {
			return "", "", err
		}
		v = r.Value
		if !strings.EqualFold(strings.ReplaceAll(text, " ", ""), strings.ReplaceAll(p.say().Format(kind, v), " ", "")) {
			echo = r.Echo
		}
	} else if v, err = p.Plain(text, k.Unit, k.Min, k.Max); err != nil {
		return "", "", err
	}
	return strconv.FormatFloat(v, 'f', -1, 64), echo, nil
}

// longest is far above any number that a person types, and keeps a pasted page out.
const longest = 80

// Plain reads a number in a unit of which there is only one.
func (p Parser) Plain(text, unit string, low, high float64) (float64, error) {
	least, most := WithUnit(p.say().PlainNumber(low), unitWord(unit)), WithUnit(p.say().PlainNumber(high), unitWord(unit))
	if len(text) > longest {
		return 0, message.NewError("that is too long; it takes {low} to {high}", least, most)
	}
	text = safetext.Line(text)
	t := strings.NewReplacer("−", "-", "\u00a0", " ", "\u202f", " ").Replace(strings.TrimSpace(text))
	for _, u := range []string{unit, unitWord(unit)} {
		if u != "" && len(t) > len(u) && strings.EqualFold(t[len(t)-len(u):], u) {
			t = strings.TrimSpace(t[:len(t)-len(u)])
		}
	}
	if strings.Count(t, ",") == 1 && !strings.Contains(t, ".") {
		t = strings.Replace(t, ",", ".", 1)
	}
	if t == "" {
		return 0, message.NewError("nothing was typed; it takes {low} to {high}", least, most)
	}
	v, err := strconv.ParseFloat(t, 64)
	if err != nil || strings.ContainsAny(t, "xXpP_nNiI") {
		return 0, message.NewError("can't read “{text}”; it takes {low} to {high}", text, least, most)
	}
	if !(v >= low && v <= high) {
		return 0, message.NewError("{text} is outside {low} to {high}", text, least, most)
	}
	return v, nil
}

// SetKey puts a value into the design as one step of undo; what names it for
// the person.
func SetKey(h Host, what, path, value string) error {
	d := h.Design()
	before := d.Validate()
	if err := d.Set(path, value); err != nil {
		return err
	}
	if err := design.NewError(d.Validate(), before); err != nil {
		return err
	}
	name := words.T("{name} {value}", what, WordText(path, h.Say().KeyText(path, value)))
	return h.Edit(name, func(d *design.Design) { _ = d.Set(path, value) })
}

// LimitsOf are a key's, for the parser.
func LimitsOf(k design.Key) quantity.Limits { return quantity.Limits{Low: k.Min, High: k.Max} }

// WordText is a word of the design file in the person's language. Whatever is
// no word of the format, such as a name, stays as it is.
func WordText(path, word string) string { return words.Print(design.WordOf(path, word)) }

// Named puts a field's name before what is wrong with it.
func Named(field string, err error) error {
	return message.NewError("{field}: {why}", field, err)
}
