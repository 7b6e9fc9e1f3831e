package command

import (
	"encoding/json"
	"testing"
	"time"

	"skep/assets"
)

// follow says what to measure next, the most telling first, and when.
func TestNextMeasurement(t *testing.T) {
	t.Parallel()
	src, err := assets.Demo(assets.DemoMiddle)
	if err != nil {
		t.Fatal(err)
	}
	batch := string(src) + `
[[reading]]
what = "pitched"
at = 2026-06-20T16:00:00Z
value = 1
[[reading]]
what = "original-gravity"
at = 2026-06-20T16:00:00Z
value = 1.045
instrument = "hydrometer"
[[reading]]
what = "gravity"
at = 2026-06-21T16:00:00Z
value = 1.040
instrument = "hydrometer"
`
	var all struct {
		Next []struct {
			What    string
			When    *time.Time
			Shrinks map[string]float64
		} `json:"next_measurement"`
	}
	if err := json.Unmarshal([]byte(run(t, batch, "follow", "-", "--at", "2026-06-21T18:00:00Z", "--json")), &all); err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, n := range all.Next {
		seen[n.What] = true
		for _, key := range []string{"final_gravity_sg", "strength_pct", "dryness", "honey_moment_hours"} {
			if v, ok := n.Shrinks[key]; !ok || v < 0 {
				t.Errorf("%s: %s shrinks by %v, %v", n.What, key, v, ok)
			}
		}
		if n.What == "gravity" && (n.When == nil || !n.When.After(time.Date(2026, 6, 21, 18, 0, 0, 0, time.UTC))) {
			t.Errorf("gravity to be read at %v", n.When)
		}
	}
	if !seen["gravity"] || !seen["forced-ferment"] || !seen["beer-temperature"] {
		t.Errorf("to measure: %v", seen)
	}
}
