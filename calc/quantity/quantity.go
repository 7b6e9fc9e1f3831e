package quantity

import (
	"math"

	"skep/calc/message"
)

// Quantity is a number of a kind. Where Low and High are not both 0 it is
// uncertain, and they are its 10th and 90th percentile.
type Quantity struct {
	Kind             Kind
	Value, Low, High float64
	Bare             bool // without its unit, which stands beside it
}

// Of is a quantity without a band.
func Of(k Kind, v float64) Quantity { return Quantity{Kind: k, Value: v} }

// Number is a whole number of things.
func Number(n int) Quantity { return Of(Count, float64(n)) }

// Banded says whether a quantity is uncertain.
func (q Quantity) Banded() bool { return q.Low != 0 || q.High != 0 }

// Plain is the quantity without its band.
func (q Quantity) Plain() Quantity { q.Low, q.High = 0, 0; return q }

// Unitless is the quantity for a place that has the unit beside it.
func (q Quantity) Unitless() Quantity { q.Bare = true; return q }

// String is the quantity in metric units: "9 h (3 to 14)".
func (q Quantity) String() string {
	f := NewFormatter(Units{}, nil)
	text := f.Quantity(q)
	if q.Banded() {
		text += " (" + f.Number(q.Kind, q.Low) + " to " + f.Number(q.Kind, q.High) + ")"
	}
	return text
}

// Quantity is the value with its unit, unless it is bare, without its band.
func (f Formatter) Quantity(q Quantity) string {
	if q.Bare {
		return f.Number(q.Kind, q.Value)
	}
	return f.Format(q.Kind, q.Value)
}

// Banded is a quantity with its band, if it has one that shows: "1.012 (1.010 to
// 1.014)", hours in days when they are many.
func (f Formatter) Banded(q Quantity) string {
	switch {
	case !q.Banded():
		return f.Quantity(q)
	case q.Kind == WholeHours:
		return f.span(q)
	}
	end := func(v float64) string { return f.Quantity(Of(q.Kind, v).Unitless()) }
	low, high := end(q.Low), end(q.High)
	if low == high { // as sure as it is written
		return f.Quantity(q)
	}
	return f.say("{mid} ({low} to {high})", f.Quantity(q), low, high)
}

// mostHours are those that are not yet said in days.
const mostHours = 96

// span is a band of hours, in days when they are many.
func (f Formatter) span(q Quantity) string {
	unit, n := f.say("h"), 1.0
	if math.Abs(q.Value) > mostHours {
		unit, n = f.say("days"), 24
	}
	text := func(v float64) string { return f.Plain(math.Round(v/n), 0) }
	return f.say("{mid} {unit} ({low} to {high})", text(q.Value), unit, text(q.Low), text(q.High))
}

// Sentence is a message in the person's language and units, each value with its
// band if it has one.
func (f Formatter) Sentence(m message.Message) string {
	return m.In(f.translate, func(v any) string {
		if q, ok := v.(Quantity); ok {
			return f.Banded(q)
		}
		return f.value(v)
	})
}

// Range is a quantity's band with one unit.
func (f Formatter) Range(q Quantity) string { return f.FormatRange(q.Kind, q.Low, q.High) }
