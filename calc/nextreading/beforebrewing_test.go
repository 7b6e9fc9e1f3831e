package nextreading_test

import (
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/nextreading"
)

// Before the brew the malt and the kit are asked about; without grain neither.
func TestBeforeBrewing(t *testing.T) {
	t.Parallel()
	d := demotest.Design(t, "gate-field-middle.toml")
	d.Reading = nil
	all, err := nextreading.BeforeBrewing(calc.NewEngine(), d)
	if err != nil || len(all) == 0 {
		t.Fatalf("%v, %v", all, err)
	}
	seen := map[string]bool{}
	for _, w := range all {
		seen[w.What] = true
		t.Logf("%s: %+v", w.What, w.Narrowings)
	}
	if !seen[nextreading.Malt] || !seen[nextreading.Yield] || !seen[nextreading.Thermometer] || !seen[nextreading.Moisture] || !seen[nextreading.Glasses] {
		t.Errorf("asked about %v", seen)
	}
	if all[0].Most().Share() < 0.05 {
		t.Errorf("nothing is worth measuring: %+v", all[0])
	}
	if text := nextreading.Text(all).String(); len(text) < 40 {
		t.Errorf("%q", text)
	} else {
		t.Log(text)
	}
}
