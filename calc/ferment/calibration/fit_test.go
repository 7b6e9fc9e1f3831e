package calibration

import (
	"math"
	"strings"
	"testing"

	"skep/calc/ferment"
)

func rows(t *testing.T) []Row {
	t.Helper()
	path, err := Find()
	if err != nil {
		t.Fatal(err)
	}
	r, err := Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The committed factors are those that the table gives. Fails when either is
// changed without the other.
func TestFitGivesTheCommittedFactors(t *testing.T) {
	t.Parallel()
	f, err := Run(rows(t))
	if err != nil {
		t.Fatal(err)
	}
	var s strings.Builder
	f.Print(&s)
	t.Log("\n" + s.String())
	for _, e := range f.Estimates {
		if d := math.Abs(e.Value/e.Committed - 1); d > 0.005 {
			t.Errorf("%s: the table gives %.4f, committed is %.4f", e.Name, e.Value, e.Committed)
		}
	}
	for i, r := range f.Rows {
		if d := math.Abs(f.Ours[i]-r.Value) / r.Sigma; d > 1 {
			t.Errorf("%s: fitted row missed by %.1f sd", r.ID, d)
		}
	}
}

// Checks may miss only where the row says why; and a row that says why a miss
// is expected for a whole class must still be a check, not a fitted row.
func TestChecksAgreeOrSayWhy(t *testing.T) {
	t.Parallel()
	all := rows(t)
	out, err := RecordOf(all)
	if err != nil {
		t.Fatal(err)
	}
	agree, missed := 0, 0
	for i, r := range out {
		if math.IsNaN(r.Ours) {
			t.Errorf("%s is not a number", r.Quantity)
		}
		switch r.Judge() {
		case "agrees":
			agree++
		case "misses":
			missed++
			if r.Why == "" {
				t.Errorf("%s: published %g, ours %g (tolerance %g) and no word why", all[i].ID, r.Published, r.Ours, r.Tolerance)
			}
		}
		t.Logf("%-60s %9.4f ours %9.4f ± %-6.3g %-5s %s", r.Quantity, r.Published, r.Ours, r.Tolerance, r.Unit, r.Judge())
	}
	if agree < 25 || missed > 2 {
		t.Errorf("%d checks agree, %d miss: expected at least 25 and at most 2", agree, missed)
	}
	if n := len(Record()); n != len(out) {
		t.Errorf("Record has %d rows of %d", n, len(out))
	}
}

// A logistic curve must give back its own B and M.
func TestLogisticRecoversItself(t *testing.T) {
	t.Parallel()
	for _, p := range []struct{ b, m float64 }{{0.055, 52}, {0.0625, 42}, {0.07, 35}, {0.03, 80}} {
		var c ferment.Course
		for h := range 300 {
			c.Hours = append(c.Hours, float64(h))
			c.Attenuated = append(c.Attenuated, 1/(1+math.Exp(-p.b*(float64(h)-p.m))))
		}
		b, m := Logistic(&c)
		if math.Abs(b-p.b) > 1e-6 || math.Abs(m-p.m) > 1e-4 {
			t.Errorf("B %g, M %g come back as %g, %g", p.b, p.m, b, m)
		}
	}
}

func TestLoadRefuses(t *testing.T) {
	t.Parallel()
	if _, err := Load("nowhere.toml"); err == nil || !strings.Contains(err.Error(), "nowhere.toml") {
		t.Errorf("a missing file gives %v", err)
	}
	if _, err := Measure(ferment.Trade(), Row{ID: "x", Quantity: "half-time", Wort: "mud", TemperatureC: 20}); err == nil || !strings.Contains(err.Error(), "mud") {
		t.Errorf("an unknown wort gives %v", err)
	}
	if _, err := Measure(ferment.Trade(), Row{ID: "x", Quantity: "colour", TemperatureC: 20}); err == nil || !strings.Contains(err.Error(), "colour") {
		t.Errorf("an unknown quantity gives %v", err)
	}
	if _, err := Run([]Row{{ID: "x", Use: useFit}}); err == nil {
		t.Error("one row for three factors is accepted")
	}
}
