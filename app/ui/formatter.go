package ui

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"skep/app/paper"
	"skep/app/words"
	"skep/calc"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/plotting"
)

// Formatter writes for a person what package quantity writes, and bands,
// sentences and values of the design besides.
type Formatter struct{ quantity.Formatter }

// NewFormatter makes a formatter for a person's units.
func NewFormatter(units quantity.Units) Formatter {
	return Formatter{quantity.NewFormatter(units, words.Translate)}
}

// Why is an error in the person's words and units where it has them.
func (f Formatter) Why(err error) string {
	return f.Sentence(message.OfError(err))
}

// Sentences are each a sentence with capital and full stop.
func (f Formatter) Sentences(list []message.Message) []string {
	var out []string
	for _, s := range list {
		out = append(out, SentenceOf(f.Sentence(s)))
	}
	return out
}

// Quantity is a quantity with its band, if it has one: hours in days when
// they are many.
func (f Formatter) Quantity(q quantity.Quantity) string {
	return f.Banded(q)
}

// Signed is a difference with its sign.
func (f Formatter) Signed(q quantity.Quantity) string {
	sign := "+"
	if q.Value < 0 {
		sign, q.Value = "−", -q.Value
	}
	text := f.Quantity(q)
	if !strings.ContainsAny(text, "123456789") {
		return text
	}
	return sign + text
}

// Span is a band of hours, in days when they are many.
func (f Formatter) Span(v calc.Band) string {
	return f.Banded(quantity.Quantity{Kind: quantity.WholeHours, Value: v.Mid, Low: v.Low, High: v.High})
}

// Band is the middle with its unit, and how sure: "1.012 (1.010 to 1.014)".
func (f Formatter) Band(k quantity.Kind, v calc.Band) string {
	return words.T("{mid} ({low} to {high})", f.Format(k, v.Mid), f.Number(k, v.Low), f.Number(k, v.High))
}

// BandNumber is Band without the unit, for a place that has it beside it.
func (f Formatter) BandNumber(k quantity.Kind, v calc.Band) string {
	return words.T("{mid}   ({low} to {high})", f.Number(k, v.Mid), f.Number(k, v.Low), f.Number(k, v.High))
}

// Whole rounds hours and percentages: their bands leave nothing behind the
// point that a person should trust.
func Whole(k quantity.Kind, v calc.Band) calc.Band {
	if k == quantity.Hours || k == quantity.Percent {
		return calc.Band{Low: math.Round(v.Low), Mid: math.Round(v.Mid), High: math.Round(v.High)}
	}
	return v
}

// PlainNumber writes a number without needless decimals, with the person's
// decimal mark.
func (f Formatter) PlainNumber(v float64) string {
	text := f.Marked(strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64))
	return strings.Replace(text, "-", "−", 1)
}

// FirstUpper begins a text with a capital.
func FirstUpper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// SentenceOf makes a sentence of a text without capital and full stop.
func SentenceOf(text string) string {
	if text == "" || strings.HasSuffix(text, ".") {
		return FirstUpper(text)
	}
	return FirstUpper(text) + "."
}

// OrUnnamed is a name, or a word for none.
func OrUnnamed(name string) string {
	if name == "" {
		return words.T("unnamed")
	}
	return name
}

// PlotUnits is how the pictures show the person's units.
func (f Formatter) PlotUnits() plotting.Units {
	return paper.Formatter{Formatter: f.Formatter}.PlotUnits()
}
