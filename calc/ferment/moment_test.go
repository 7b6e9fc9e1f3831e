package ferment

import (
	"math"
	"testing"

	"skep/calc/sugar"
)

// What has fermented is asked for in two ways, which say the same.
func TestFermentedIsThatOfAt(t *testing.T) {
	t.Parallel()
	var w Walk
	in := Pitched{Fermentable: sugar.Spectrum{Glucose: 12, Maltose: 55, Maltotriose: 10}, TemperatureC: 19, LagHours: 8, RateFactor: 1, Shape: 1.1}
	w.Run(in, []Event{{Hours: 30, Change: true, ToC: 16}, {Hours: 12, AfterHeight: true, Fermentable: sugar.Spectrum{Fructose: 9, Glucose: 8}, VolumeShare: 0.02}})
	for h := 0.0; h < 900; h += 1.7 {
		m := w.At(h)
		if got, doses := w.Fermented(h); math.Abs(got-m.FermentedGPerL) > 1e-9 || doses != m.Doses {
			t.Fatalf("at %g h: %g with %d additions, %g with %d", h, got, doses, m.FermentedGPerL, m.Doses)
		}
	}
}
