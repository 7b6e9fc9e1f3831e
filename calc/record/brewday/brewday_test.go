package brewday_test

import (
	"math"
	"testing"

	"skep/calc/record/brewday"
)

// TestRecord: every row agrees with its source, or is one of the known misses
// and says why.
func TestRecord(t *testing.T) {
	t.Parallel()
	known := map[string]bool{
		"bitterness of 10 min with 45.36 g of 5.75 % hops at 88.4 °C": true,
		"volumes of CO2 in water, 20 °C, 1 atm":                       true,
		"volumes of CO2 in water, 25 °C, 1 atm":                       true,
	}
	missed := map[string]bool{}
	for _, r := range brewday.Record() {
		if r.Quantity == "" || r.Source == "" || r.Unit == "" || !(r.Tolerance > 0) {
			t.Errorf("row is not complete: %+v", r)
		}
		if math.IsNaN(r.Ours) || math.IsInf(r.Ours, 0) {
			t.Errorf("%s: ours is %v", r.Quantity, r.Ours)
		}
		switch verdict := r.Judge(); {
		case verdict == "misses":
			missed[r.Quantity] = true
			if !known[r.Quantity] || r.Why == "" {
				t.Errorf("%s: ours %v, published %v %s (%s), tolerance %v", r.Quantity, r.Ours, r.Published, r.Unit, r.Source, r.Tolerance)
			}
		case verdict == brewday.Fitted && !(math.Abs(r.Difference()) <= r.Tolerance):
			t.Errorf("%s: fitted, yet ours %v is further than %v from %v", r.Quantity, r.Ours, r.Tolerance, r.Published)
		}
	}
	for q := range known {
		if !missed[q] {
			t.Errorf("%s no longer misses: take it off the list", q)
		}
	}
}

// TestCoolingFit: how good the fit of the two constants is, beside the source's
// own formula (mean error 0.8 °C, worst 1.9 °C over 33 runs).
func TestCoolingFit(t *testing.T) {
	t.Parallel()
	sum, n := 0.0, 0
	for _, r := range brewday.Cooling() {
		if r.Verdict == brewday.Fitted {
			sum += math.Abs(r.Difference())
			n++
		}
	}
	if mean := sum / float64(n); n != 17 || mean > 0.7 {
		t.Errorf("mean error of %d rows is %.2f °C, more than 0.7", n, mean)
	}
}
