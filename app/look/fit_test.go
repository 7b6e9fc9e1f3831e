package look

import (
	"slices"
	"testing"
)

func TestNumbersKeepTheirUnits(t *testing.T) {
	for text, want := range map[string][]string{
		"":                        nil,
		"finished in 40 h":        {"finished", "in", "40 h"},
		"a pinch, 0.2 g, stirred": {"a", "pinch,", "0.2 g,", "stirred"},
		"66,5 °C (64 °F).":        {"66,5 °C", "(64 °F)."},
		"5 whole kernels in 100":  {"5", "whole", "kernels", "in", "100"},
		"  60   min  ":            {"60 min"},
		"1 lb 3 oz":               {"1 lb", "3 oz"},
		"1.5 volumes":             {"1.5", "volumes"},
		"step 4\nof 9 of the day": {"step", "4 of", "9 of", "the", "day"},
	} {
		if got := pieces(text); !slices.Equal(got, want) {
			t.Errorf("%q breaks between %q, not %q", text, got, want)
		}
	}
}
