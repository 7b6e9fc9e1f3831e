package quantity

import (
	"math"
	"strings"

	"skep/calc/message"
)

// Reading is what a text was understood to mean.
type Reading struct {
	// Value is in the kind's metric unit, rounded to about a hundredth of
	// what the screen shows.
	Value float64
	// Echo says how the text was read, in the person's units: "read as
	// 66.1 °C".
	Echo string
}

// RangeReading is what the text of a range was understood to mean.
type RangeReading struct {
	Low, High float64
	Echo      string
}

// Parser reads what people type. It accepts any unit of the kind, whichever
// the person's own is; a bare number is in the person's unit.
type Parser struct{ f Formatter }

// NewParser returns a parser for the units; a nil translate leaves texts English.
func NewParser(units Units, translate Translate) Parser {
	return Parser{NewFormatter(units, translate)}
}

// Formatter is the one that shares the parser's units and words.
func (p Parser) Formatter() Formatter { return p.f }

// longest is far above anything sensible, and keeps a pasted page out.
const longest = 80

// Parse reads one quantity within the limits, which are metric. The error says
// what could not be read and what would be, or the range in the person's units.
func (p Parser) Parse(k Kind, text string, limits Limits) (Reading, error) {
	if !k.typed() {
		return Reading{}, message.NewError("this kind of quantity is not known")
	}
	limits = limits.or(k)
	clean, err := p.tidied(k, text, limits)
	if err != nil {
		return Reading{}, err
	}
	value, err := p.value(k, clean, limits)
	if err != nil {
		return Reading{}, err
	}
	kept, err := p.within(k, value, limits)
	if small := p.smaller(k, clean); err != nil && small != "" {
		// A place that holds less than a kilogram shows grams, and who types there
		// means them: 539 is no honey of half a ton.
		if v, bad := p.value(k, clean+" "+small, limits); bad == nil {
			if v, bad = p.within(k, v, limits); bad == nil {
				kept, err = v, nil
			}
		}
	}
	if value = kept; err != nil {
		return Reading{}, err
	}
	return Reading{Value: value, Echo: p.echo(p.f.Format(k, value))}, nil
}

// smaller is the unit that a place of a kind shows little in; empty where it has one
// unit only, or the text names its own.
func (p Parser) smaller(k Kind, clean string) string {
	switch {
	case k != MassKg || hasUnit(clean):
		return ""
	case p.f.units.Mass == Lb:
		return "oz"
	}
	return "g"
}

// ParseRange reads two quantities of one kind: "73-78", "73–78 %", "73 to 78".
// They may come in either order.
func (p Parser) ParseRange(k Kind, text string, limits Limits) (RangeReading, error) {
	if !k.typed() {
		return RangeReading{}, message.NewError("this kind of quantity is not known")
	}
	limits = limits.or(k)
	clean, err := p.tidied(k, text, limits)
	if err != nil {
		return RangeReading{}, err
	}
	first, second, ok := cutRange(clean)
	if !ok {
		return RangeReading{}, message.NewError("low and high are needed, as in {example}",
			p.rangeExample(k))
	}
	// In "73-78 %" the unit stands once, for both.
	if !hasUnit(first) {
		first += unitOf(second)
	}
	var ends [2]float64
	for i, part := range []string{first, second} {
		v, err := p.value(k, part, limits)
		if err != nil {
			return RangeReading{}, err
		}
		if ends[i], err = p.within(k, v, limits); err != nil {
			return RangeReading{}, err
		}
	}
	low, high := math.Min(ends[0], ends[1]), math.Max(ends[0], ends[1])
	return RangeReading{Low: low, High: high, Echo: p.echo(p.f.FormatRange(k, low, high))}, nil
}

func (p Parser) echo(value string) string {
	return p.f.say("read as {value}", value)
}

func (p Parser) tidied(k Kind, text string, limits Limits) (string, error) {
	low, high := p.ends(k, limits)
	if len(text) > longest {
		return "", message.NewError("that is too long; it takes {low} to {high}", low, high)
	}
	clean := tidy(text)
	if clean == "" {
		return "", message.NewError("nothing was typed; it takes {low} to {high}", low, high)
	}
	return clean, nil
}

// within checks the limits and rounds to what is kept. A value that looks the
// same as a limit on the screen is the limit: who types the range's own end as
// it is shown must not be refused for a rounding.
func (p Parser) within(k Kind, value float64, limits Limits) (float64, error) {
	value = roundTo(value, kinds[k].kept)
	for _, end := range []float64{limits.Low, limits.High} {
		outside := value < limits.Low || value > limits.High
		if outside && p.f.Format(k, value) == p.f.Format(k, end) {
			value = end
		}
	}
	if !(value >= limits.Low && value <= limits.High) { // also true for NaN
		low, high := p.ends(k, limits)
		if math.Abs(value) > farOutside { // a slip, of which every digit would only hide the range
			return 0, message.NewError("that is far outside {low} to {high}", low, high)
		}
		return 0, message.NewError("{value} is outside {low} to {high}", p.f.Format(k, value), low, high)
	}
	return value, nil
}

// farOutside is beyond anything that a person means in any unit.
const farOutside = 1e7

// ends are a range's as this person would write them: they show what may be typed.
func (p Parser) ends(k Kind, limits Limits) (low, high string) {
	return p.f.Format(k, limits.Low), p.f.Format(k, limits.High)
}

func (p Parser) unreadable(k Kind, text string, limits Limits) error {
	low, high := p.ends(k, limits)
	return message.NewError("can't read “{text}”; it takes {low} to {high}", text, low, high)
}

func (p Parser) rangeExample(k Kind) string {
	if k == Percent {
		return p.f.FormatRange(k, 73, 78)
	}
	w := k.Widest()
	return p.f.FormatRange(k, w.Low, w.High)
}

// value reads a tidied text as one metric value, limits not yet checked.
func (p Parser) value(k Kind, clean string, limits Limits) (float64, error) {
	if v, ok := clock(k, clean); ok {
		return v, nil
	}
	sign, list, ok := tokens(clean)
	if !ok || strings.Contains(clean, ":") {
		return 0, p.unreadable(k, clean, limits)
	}
	known := measures(k)
	total, unit := 0.0, measure{factor: math.Inf(1)}
	for i, t := range list {
		v, ok := number(t.digits)
		if !ok {
			return 0, p.unreadable(k, clean, limits)
		}
		if k != Gravity && ambiguousComma(t.digits) {
			return 0, message.NewError("does “{text}” mean thousands? write {whole} or {part}",
				t.digits, strings.Replace(t.digits, ",", "", 1), strings.Replace(t.digits, ",", ".", 1))
		}
		if t.unit == "" && i == 0 {
			if len(list) > 1 {
				return 0, p.unreadable(k, clean, limits)
			}
			return p.bare(k, sign*v, t.digits), nil
		}
		word := t.unit
		if word == "" {
			word = unit.smaller
		}
		m, found := known[word]
		if !found {
			low, high := p.ends(k, limits)
			return 0, message.NewError("the unit “{unit}” is not known here; it takes {low} to {high}", t.unit, low, high)
		}
		// Only pieces that grow smaller make one quantity: "3 oz 1 lb" and
		// "1 °C 2 °C" are slips.
		if i > 0 && (m.convert != nil || unit.smaller == "" || m.factor >= unit.factor) {
			return 0, p.unreadable(k, clean, limits)
		}
		if len(list) == 1 {
			v *= sign
		}
		total, unit = total+m.metric(v), m
	}
	if len(list) > 1 {
		total *= sign
	}
	if !finite(total) {
		return 0, p.unreadable(k, clean, limits)
	}
	return total, nil
}

// bare reads a number without a unit: the person's own unit, except that a
// gravity shows by its form what it is. 1048 is the brewer's short way for
// 1.048, and three decimals near one are no degrees Plato.
func (p Parser) bare(k Kind, v float64, digits string) float64 {
	if k == Gravity {
		whole, fraction, _ := strings.Cut(strings.Replace(digits, ",", ".", 1), ".")
		if fraction == "" && len(whole) >= 3 && v >= 900 && v <= 1300 {
			return v / 1000
		}
		if len(fraction) >= 3 && v >= 0.9 && v <= 1.3 {
			return v
		}
	}
	return p.f.Metric(k, v)
}

// clock reads "1:30", hours and minutes.
func clock(k Kind, clean string) (float64, bool) {
	if k != Minutes && k != Hours {
		return 0, false
	}
	sign := 1.0
	body := strings.TrimPrefix(clean, "+")
	if strings.HasPrefix(body, "-") {
		sign, body = -1, body[1:]
	}
	h, m, found := strings.Cut(strings.TrimSpace(body), ":")
	if !found || len(m) != 2 || len(h) == 0 || len(h) > 3 ||
		strings.Trim(h, "0123456789") != "" || strings.Trim(m, "0123456789") != "" {
		return 0, false
	}
	hours, _ := number(h)
	minutes, _ := number(m)
	if minutes >= 60 {
		return 0, false
	}
	total := sign * (hours*60 + minutes)
	if k == Hours {
		total /= 60
	}
	return total, true
}
