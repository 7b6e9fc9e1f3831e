package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"skep/calc/message"
	"skep/calc/units"
)

// Translate gives a message's text in a person's language, its places not
// filled (words.Translate fits).
type Translate func(message.Message) string

// minus is the typographic minus sign: as wide as a plus, and never mistaken
// for the dash of a range.
const minus = "−"

// unknown stands where there is no number to show: a window must never print
// "NaN".
const unknown = "–"

// Formatter writes quantities in one person's units. The zero Formatter is
// not usable; make one with [NewFormatter].
type Formatter struct {
	units     Units
	translate Translate
}

// NewFormatter returns a formatter for the person; a nil translate leaves texts
// English.
func NewFormatter(person Units, translate Translate) Formatter {
	if translate == nil {
		translate = message.Message.English
	}
	return Formatter{units: person, translate: translate}
}

// Translate is a message's text in the person's language, its places not filled.
func (f Formatter) Translate(m message.Message) string { return f.translate(m) }

// Message is a message in the person's language and units.
func (f Formatter) Message(m message.Message) string { return m.In(f.translate, f.value) }

// value writes what stands in a place of a message.
func (f Formatter) value(v any) string {
	switch v := v.(type) {
	case Quantity:
		return f.Quantity(v)
	case float64: // of the physics, in the unit that the sentence names
		return f.Plain(v, -1)
	}
	return fmt.Sprint(v)
}

// say is a text in the person's language.
func (f Formatter) say(text string, with ...any) string {
	return message.New(text, with...).In(f.translate, nil)
}

// Units are those of the person.
func (f Formatter) Units() Units { return f.units }

// Format writes a metric value with its unit in the person's units: "66.5 °C",
// "1.048", "550 g", "1 lb 3 oz". What is not a number is shown as a dash.
func (f Formatter) Format(k Kind, metric float64) string {
	if !finite(metric) || !k.number() {
		return unknown
	}
	if f.massKind(k) {
		return f.mass(k, metric)
	}
	return f.withUnit(f.Plain(f.Shown(k, metric), f.decimals(k, metric)), f.Unit(k))
}

// FormatSigned is Format with a plus before what is above nothing, for
// differences and for moments: "+12 h", "−1.5 °C", "0 h".
func (f Formatter) FormatSigned(k Kind, metric float64) string {
	text := f.Format(k, metric)
	if finite(metric) && f.Shown(k, metric) > 0 && strings.ContainsAny(text, "123456789") {
		return "+" + text
	}
	return text
}

// FormatRange writes low and high with one unit: "73–78 %". Where a part may
// be negative or has two units, a word stands between: "−2.0 to 3.0 °C".
func (f Formatter) FormatRange(k Kind, low, high float64) string {
	if !finite(low) || !finite(high) || !k.number() {
		return unknown
	}
	if f.massKind(k) {
		return f.say("{low} to {high}", f.Format(k, low), f.Format(k, high))
	}
	l, h := f.Number(k, low), f.Number(k, high)
	if l == h {
		return f.withUnit(l, f.Unit(k))
	}
	if strings.Contains(l, minus) || strings.Contains(h, minus) {
		return f.withUnit(f.say("{low} to {high}", l, h), f.Unit(k))
	}
	return f.withUnit(l+"–"+h, f.Unit(k))
}

// Number is Format without the unit, for axes and tables whose heading names
// it. A mass is in the unit that [Formatter.Unit] names.
func (f Formatter) Number(k Kind, metric float64) string {
	if !finite(metric) || !k.number() {
		return unknown
	}
	return f.Plain(f.Shown(k, metric), f.decimals(k, metric))
}

// Plain writes a number of no unit with so many decimals, or with up to six that
// it has if decimals is negative.
func (f Formatter) Plain(v float64, decimals int) string {
	switch {
	case !finite(v):
		return unknown
	case decimals < 0:
		text := strconv.FormatFloat(v, 'f', -1, 64)
		_, after, _ := strings.Cut(text, ".")
		decimals = min(len(after), 6)
	}
	return f.digits(v, decimals)
}

// Unit is the symbol of the kind in the person's units, empty for specific
// gravity and for indices.
func (f Formatter) Unit(k Kind) string {
	if k >= Kinds || f.unit(k).symbol == "" {
		return ""
	}
	symbol := f.unit(k).symbol // listed by [Symbols]
	return message.Message{Text: symbol}.In(f.translate, nil)
}

// decimals says how many decimals the value deserves.
func (f Formatter) decimals(k Kind, metric float64) int {
	u := f.unit(k)
	shown := f.Shown(k, metric)
	if k == MassG && math.Abs(shown) >= 100 {
		return 0
	}
	if u.drop {
		return needed(shown, u.decimals)
	}
	return u.decimals
}

// needed is how many decimals, up to so many, end in something else than nought.
func needed(shown float64, most int) int {
	for whole := math.Round(shown * math.Pow10(most)); most > 0 && math.Mod(whole, 10) == 0; whole /= 10 {
		most--
	}
	return most
}

// digits writes a number already in shown units, with the minus sign, the
// person's decimal mark, and no negative nothing.
func (f Formatter) digits(shown float64, decimals int) string {
	// Halves go away from nought, as people round; strconv alone would take
	// 1.25 to 1.2 and 1.35 to 1.4.
	text := strconv.FormatFloat(roundTo(shown, decimals), 'f', decimals, 64)
	if strings.HasPrefix(text, "-") {
		text = strings.TrimPrefix(text, "-")
		if strings.ContainsAny(text, "123456789") {
			text = minus + text
		}
	}
	return f.Marked(text)
}

// Marked is a number that is written already, with the person's decimal mark.
func (f Formatter) Marked(number string) string {
	if f.units.DecimalComma {
		return strings.Replace(number, ".", ",", 1)
	}
	return number
}

func (f Formatter) withUnit(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}

func (f Formatter) massKind(k Kind) bool { return k == MassG || k == MassKg }

// mass writes grams below one kilogram and kilograms above, or ounces below
// one pound, then pounds and ounces, so that grain and honey read alike
// whichever unit the document keeps them in.
func (f Formatter) mass(k Kind, metric float64) string {
	grams := metric
	if k == MassKg {
		grams = metric * 1000
	}
	// A pinch that would be nothing in ounces is weighed in grams by everybody.
	pinch := math.Abs(grams) >= 0.05 && math.Abs(units.OuncesFromGrams(grams)) < 0.05
	if f.units.Mass == Lb && !pinch {
		return f.poundsOunces(grams)
	}
	// 999.6 g would round to "1000 g".
	if math.Abs(grams) >= 999.5 {
		return f.withUnit(f.digits(grams/1000, 2), f.say("kg"))
	}
	decimals := 0
	if math.Abs(grams) < 99.95 {
		decimals = needed(grams, 1)
	}
	return f.withUnit(f.digits(grams, decimals), f.say("g"))
}
