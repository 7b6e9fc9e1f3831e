package calibration

import (
	"math"
	"path/filepath"
	"strings"
	"testing"

	"skep/calc/ferment"
)

func series(t *testing.T) []Series {
	t.Helper()
	path, err := Find()
	if err != nil {
		t.Fatal(err)
	}
	s, err := LoadSeries(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

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
	f, err := Run(rows(t), series(t))
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
		if d := math.Abs(f.Ours[i]-r.Value) / r.Sigma; d > 1.5 {
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
	if agree < 25 || missed > 4 {
		t.Errorf("%d checks agree, %d miss: expected at least 25 and at most 4", agree, missed)
	}
	if n := len(Record()); n <= len(out) {
		t.Errorf("Record has %d rows of %d, and the measured times", n, len(out))
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
	if _, err := Measure(ferment.Trade(), ferment.UsualLagHours, Row{ID: "x", Quantity: "half-time", Wort: "mud", TemperatureC: 20}); err == nil || !strings.Contains(err.Error(), "mud") {
		t.Errorf("an unknown wort gives %v", err)
	}
	if _, err := Measure(ferment.Trade(), ferment.UsualLagHours, Row{ID: "x", Quantity: "colour", TemperatureC: 20}); err == nil || !strings.Contains(err.Error(), "colour") {
		t.Errorf("an unknown quantity gives %v", err)
	}
	if _, err := Run([]Row{{ID: "x", Use: useFit}}, nil); err == nil {
		t.Error("one row for four constants is accepted")
	}
}

// The series kept aside are met as well as those fitted, each with its own rate,
// lag and end: it is the shape that is tested. Half a degree Plato is what a
// hydrometer in foam may err by.
func TestShapesOfTheChecks(t *testing.T) {
	t.Parallel()
	all := series(t)
	if len(all) != 9 {
		t.Fatalf("%d series", len(all))
	}
	for i := range all {
		s := &all[i]
		m, err := match(ferment.Trade(), ferment.UsualLagHours, s)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%-18s %-5s rate %.2f, lag %4.1f h, end %.2f °P, scatter %.2f °P", s.Name, s.Use, m.Rate, m.LagHours, m.LastPlato, m.RMS(s))
		if rms := m.RMS(s); rms > 0.3 {
			t.Errorf("%s: scatter %.2f °P about its match", s.Name, rms)
		}
		if m.Rate < 1/2.5 || m.Rate > 2.5 || m.LagHours > 5*ferment.UsualLagHours {
			t.Errorf("%s: rate %.2f, lag %.1f h", s.Name, m.Rate, m.LagHours)
		}
	}
}

// Nominal four in five: of the measured single courses and the middles and ends of
// the sets, that share of the midpoints, and of all times, lies in what is planned.
func TestTimesAreCovered(t *testing.T) {
	t.Parallel()
	path, err := Find()
	if err != nil {
		t.Fatal(err)
	}
	times, err := Times(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	var all, in, halves, halvesIn int
	for _, x := range times {
		all++
		if x.Inside() {
			in++
		}
		if x.Share == 0.5 {
			halves++
			if x.Inside() {
				halvesIn++
			}
		}
		t.Logf("%-28s %2.0f %%: %5.1f h, planned %5.1f (%5.1f to %5.1f) %v", x.Series, 100*x.Share, x.Measured, x.Mid, x.Low, x.High, x.Inside())
	}
	t.Logf("%d of %d midpoints, %d of %d times", halvesIn, halves, in, all)
	if halvesIn*100 < 70*halves || in*100 < 65*all {
		t.Errorf("%d of %d midpoints and %d of %d times are inside bands of four fifths", halvesIn, halves, in, all)
	}
}
