package app

import (
	"errors"
	"math"
	"strings"

	"skep/app/paper"
	"skep/app/words"
	"skep/calc"
	"skep/calc/says"
)

// said is a sentence of package calc's in the person's words and units.
func (b *bench) said(s says.Sentence) string { return words.S(s).In(b.quantityText) }

// why is an error in the person's words and units where it has them.
func (b *bench) why(err error) string {
	var e says.Error
	if errors.As(err, &e) {
		return b.said(e.Sentence)
	}
	return err.Error()
}

// sentences are each a sentence with capital and full stop.
func (b *bench) sentences(list []says.Sentence) []string {
	var out []string
	for _, s := range list {
		out = append(out, sentenceOf(b.said(s)))
	}
	return out
}

// quantityText is a quantity with its band, if it has one: hours in days when
// they are many.
func (b *bench) quantityText(q says.Quantity) string {
	f := paper.NewFormatter(b.say)
	switch {
	case !q.Banded():
		return f.Quantity(q)
	case q.Kind == says.Hours:
		return b.span(calc.Band{Low: q.Low, Mid: q.Value, High: q.High})
	}
	end := func(v float64) string { return f.Quantity(says.Of(q.Kind, v).Unitless()) }
	return words.T("{{.Mid}} ({{.Low}} to {{.High}})", map[string]any{"Mid": f.Quantity(q), "Low": end(q.Low), "High": end(q.High)})
}

// signedText is a difference with its sign.
func (b *bench) signedText(q says.Quantity) string {
	sign := "+"
	if q.Value < 0 {
		sign, q.Value = "−", -q.Value
	}
	text := b.quantityText(q)
	if !strings.ContainsAny(text, "123456789") {
		return text
	}
	return sign + text
}

// span is a band of hours, in days when they are many.
func (b *bench) span(v calc.Band) string {
	const mostHours = 96
	unit, n := words.T("h"), 1.0
	if math.Abs(v.Mid) > mostHours {
		unit, n = words.T("days"), 24
	}
	f := func(x float64) string { return b.plainNumber(math.Round(x / n)) }
	return words.T("{{.Mid}} {{.Unit}} ({{.Low}} to {{.High}})", map[string]any{"Mid": f(v.Mid), "Unit": unit, "Low": f(v.Low), "High": f(v.High)})
}
