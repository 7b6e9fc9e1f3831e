package says

import (
	"math"
	"strings"
	"testing"

	"skep/calc/quantity"
)

func TestString(t *testing.T) {
	t.Parallel()
	band := quantity.Quantity{Kind: quantity.Gravity, Value: 1.0121, Low: 1.0104, High: 1.0148}
	for want, s := range map[string]Sentence{
		"plain": Say("plain"),
		"stuck: 1.020 on readings 2.0 days apart; 1.012 (1.010 to 1.015) was expected": Say("stuck: {} on readings {} apart; {} was expected", quantity.Of(quantity.Gravity, 1.0198), quantity.Of(quantity.Days, 2.04), band),
		"a b {}":           Say("{} {} {}", Name("a"), Say("b")), // a place without a part stays
		"{} 3 c":           Say("{} {} c", Name("{}"), quantity.Of(quantity.Count, 3)),
		"in 9 h (3 to 14)": Say("in {}", quantity.Quantity{Kind: quantity.WholeHours, Value: 9.2, Low: 2.6, High: 14.1}),
		"2.4 volumes, 3.1": Say("{}, {}", quantity.Of(quantity.CO2Volumes, 2.4), quantity.Of(quantity.CO2Volumes, 3.1).Unitless()),
		"1048 and 1.0485":  Say("{} and {}", quantity.Of(quantity.Raw, 1048), quantity.Of(quantity.Raw, 1.0485)),
		"–":                Say("{}", quantity.Of(quantity.Raw, math.NaN())),
	} {
		if got := s.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A translation reaches the sentences within, and neither names nor figures.
func TestTranslated(t *testing.T) {
	t.Parallel()
	s := Say("{} of {}: {}", Say("time"), Name("ale"), quantity.Of(quantity.Temperature, 20)).Translated(strings.ToUpper)
	if got, want := s.String(), "TIME OF ale: 20.0 °C"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
