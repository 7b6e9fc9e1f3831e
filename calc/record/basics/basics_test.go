package basics_test

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"

	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/honey"
	"skep/calc/record/basics"
)

// TestRecord: every row agrees with its source, or says why it does not.
func TestRecord(t *testing.T) {
	t.Parallel()
	rows := basics.Record()
	var missed []string
	for _, r := range rows {
		if r.Quantity == "" || r.Source == "" || r.Unit == "" || !(r.Tolerance > 0) {
			t.Errorf("row is not complete: %+v", r)
		}
		if math.IsNaN(r.Ours) || math.IsInf(r.Ours, 0) {
			t.Errorf("%s: ours is %v", r.Quantity, r.Ours)
		}
		switch verdict := r.Judge(); {
		case verdict == "misses" && r.Why == "":
			t.Errorf("%s: ours %v, published %v (%s), tolerance %v, and no reason given", r.Quantity, r.Ours, r.Published, r.Source, r.Tolerance)
		case verdict == "misses":
			missed = append(missed, r.Quantity)
		case verdict == basics.Fitted && math.Abs(r.Difference()) > r.Tolerance:
			t.Errorf("%s: fitted, yet ours %v is further than %v from %v", r.Quantity, r.Ours, r.Tolerance, r.Published)
		}
		if testing.Verbose() {
			t.Logf("%-9s %12.6g %12.6g  %s", r.Judge(), r.Published, r.Ours, r.Quantity)
		}
	}
	// A row that newly misses, even with a reason at hand, must be looked at.
	const known = 25
	if len(missed) != known {
		t.Errorf("%d rows miss, %d are known to: %v", len(missed), known, missed)
	}
}

// TestRefractometerRefit: the three constants of the refractometer correction
// are least squares on the fitted rows, found again here with gonum.
func TestRefractometerRefit(t *testing.T) {
	t.Parallel()
	var x, y []float64
	for _, r := range basics.OIV() {
		if r.Verdict != basics.Fitted {
			continue
		}
		var c, brix float64
		if _, err := fmt.Sscanf(r.Quantity, "refractometer correction at %f °C, %f °Bx", &c, &brix); err != nil {
			t.Fatal(err)
		}
		d := c - 20
		x = append(x, d, d*brix, d*d)
		y = append(y, r.Published)
	}
	var fit mat.Dense
	if err := fit.Solve(mat.NewDense(len(y), 3, x), mat.NewDense(len(y), 1, y)); err != nil {
		t.Fatal(err)
	}
	for _, brix := range []float64{0, 10, 25} {
		for _, c := range []float64{8, 13, 27} {
			d := c - 20
			want := d*fit.At(0, 0) + d*brix*fit.At(1, 0) + d*d*fit.At(2, 0)
			if got := density.BrixAt20(brix, c) - brix; math.Abs(got-want) > 1e-3 {
				t.Errorf("correction at %v °C, %v °Bx is %v, the refit gives %v", c, brix, got, want)
			}
		}
	}
}

// TestTraps: misprints found in the wild must not come back.
func TestTraps(t *testing.T) {
	t.Parallel()
	// Wedmore's formula with the constant as printed, 1.73190, gives 900 %.
	if printed := (1.73190 - math.Log10(1.4940-1)) / 0.002243; printed < 800 {
		t.Errorf("the misprinted formula gives %v, which no longer shows the trap", printed)
	}
	if w, err := honey.MoisturePct(1.4940, 20); err != nil || math.Abs(w-17) > 0.03 {
		t.Errorf("moisture at 1.4940 is %v (%v), want 17.0 (Chataway)", w, err)
	}
	// CO2 quoted "from memory" as 1.054 g for a gram of ethanol.
	if math.Abs(alcohol.CO2PerEthanol-0.9565) > 1e-12 {
		t.Errorf("CO2 per gram of ethanol is %v, Balling has 0.9565", alcohol.CO2PerEthanol)
	}
	// The excise rule cuts, it does not round: 57.1 degrees are 7.4801 (7.4),
	// 10.4 are 1.3104 (1.3), 17.2 are 2.1844 (2.1, not 2.2).
	for degrees, want := range map[float64]float64{57.1: 7.4, 10.4: 1.3, 17.2: 2.1, 67.9: 8.9} {
		if _, declared, err := alcohol.DutyStrength(1+degrees/1000, 1); err != nil || declared != want {
			t.Errorf("declared strength of %v degrees is %v (%v), want %v", degrees, declared, err, want)
		}
	}
}
