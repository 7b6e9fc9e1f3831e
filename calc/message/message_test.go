package message_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"skep/calc/message"
	"skep/calc/quantity"
)

func TestString(t *testing.T) {
	t.Parallel()
	band := quantity.Quantity{Kind: quantity.Gravity, Value: 1.0121, Low: 1.0104, High: 1.0148}
	for want, m := range map[string]message.Message{
		"plain": message.New("plain"),
		"stuck: 1.020 on readings 2.0 days apart; 1.012 (1.010 to 1.015) was expected": message.New("stuck: {gravity} on readings {span} apart; {expected} was expected",
			quantity.Of(quantity.Gravity, 1.0198), quantity.Of(quantity.Days, 2.04), band),
		"a b {third}":         message.New("{first} {second} {third}", "a", message.New("b")), // a place without a value stays
		"{b} 3 {} c":          message.New("{a} {b} {} c", "{b}", quantity.Number(3)),         // a value is no text with places
		"x and x":             message.New("{name} and {name}", "x"),
		"in 9 h (3 to 14)":    message.New("in {span}", quantity.Quantity{Kind: quantity.WholeHours, Value: 9.2, Low: 2.6, High: 14.1}),
		"2.4 volumes, 3.1":    message.New("{now}, {most}", quantity.Of(quantity.CO2Volumes, 2.4), quantity.Of(quantity.CO2Volumes, 3.1).Unitless()),
		"1 jar of wort":       message.Counted("{count} jar of {what}", "{count} jars of {what}", 1, "wort"),
		"wort in 2 jars, old": message.Counted("{what} in {count} jar, {age}", "{what} in {count} jars, {age}", 2, "wort", "old"),
		"no 7":                message.New("no {error}", message.NewError("{n}", 7)),
		"a.toml:3: no 7":      message.OfError(fmt.Errorf("a.toml:3: %w", message.NewError("no {error}", message.NewError("{n}", 7)))),
		"{plain}":             message.OfError(errors.New("{plain}")),
		"unclosed {a and {":   message.New("unclosed {a and {", 1),
	} {
		if got := m.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Another language has the places in its own order, reaches the messages
// within, and leaves names and figures alone.
func TestIn(t *testing.T) {
	t.Parallel()
	m := message.New("{part} of {strain}: {temperature}", message.New("time"), "ale", 20.0)
	got := m.In(func(m message.Message) string {
		if m.Text == "time" {
			return "Zeit"
		}
		return strings.Replace(m.Text, "{part} of {strain}", "{strain}s {part}", 1)
	}, func(v any) string { return fmt.Sprintf("%v Grad", v) })
	if want := "ales Zeit: 20 Grad"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestPlaces(t *testing.T) {
	t.Parallel()
	if got := message.Places("{a} {b2} {a} {} {c d} {e"); !slices.Equal(got, []string{"a", "b2"}) {
		t.Errorf("%q", got)
	}
}
