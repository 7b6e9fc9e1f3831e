package measured

import (
	"math"
	"testing"
	"time"

	"skep/calc/design"
)

// pitchedAt is a midsummer brew day at Gate Field.
var pitchedAt = time.Date(2026, 6, 6, 16, 0, 0, 0, time.UTC)

func at(hours float64) time.Time { return pitchedAt.Add(time.Duration(hours * float64(time.Hour))) }

func reading(what string, hours, value float64) design.Reading {
	return design.Reading{What: what, At: at(hours), Value: value, TemperatureC: 20, Instrument: "hydrometer"}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.5f, expected %.5f within %.5f", what, got, want, within)
	}
}
