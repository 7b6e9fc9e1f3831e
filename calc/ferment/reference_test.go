package ferment

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"skep/calc/sugar"
	"skep/calc/yeast"
)

// tight is a tolerance far below the usual one.
const tight = 1e-11

type referenceCase struct {
	Name             string  `json:"name"`
	TemperatureC     float64 `json:"temperature_c"`
	PitchBillionPerL float64 `json:"pitch_billion_per_l"`
	LagHours         float64 `json:"lag_h"`
	RateFactor       float64 `json:"rate_factor"`
	Start            [4]float64
	Pulses           []struct {
		Hour   float64
		Add    [4]float64
		Volume float64
	}
	Changes []struct {
		Hour float64
		C    float64
	}
	Hours      []float64
	States     []State
	Milestones struct{ Height, Opens, Closes, Finished float64 }
}

func grams(y [4]float64) sugar.Spectrum {
	return sugar.Spectrum{Glucose: y[0] * 0.180156, Maltose: y[1] * 0.342297, Maltotriose: y[2] * 0.504438, Dextrin: y[3]}
}

func (r referenceCase) input() Input {
	in := Input{
		Wort: grams(r.Start), Take: yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 1, Dextrin: 1},
		TemperatureC: r.TemperatureC, PitchBillionPerL: r.PitchBillionPerL,
		LagHours: r.LagHours, RateFactor: r.RateFactor,
	}
	return in
}

func reference(t *testing.T) []referenceCase {
	t.Helper()
	src, err := os.ReadFile("../../testdata/ferment/reference.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Fitted struct{ Uptake, Carrier, Growth, Activation float64 }
		Cases  []referenceCase
	}
	if err := json.Unmarshal(src, &file); err != nil {
		t.Fatal(err)
	}
	if f := file.Fitted; f.Uptake != FittedUptake || f.Carrier != FittedCarrier || f.Growth != FittedGrowth || f.Activation != FittedEaKcal {
		t.Fatalf("reference.json was made with other constants (%v): set them in reference.py and run it anew", f)
	}
	if len(file.Cases) < 5 {
		t.Fatalf("only %d cases in reference.json", len(file.Cases))
	}
	return file.Cases
}

// Against scipy's LSODA (testdata/ferment/reference.py), which integrates in
// hours after pitching: it checks the constants, the equations, the additions
// and the change of clock at once.
func TestStatesAgreeWithLSODA(t *testing.T) {
	t.Parallel()
	for _, r := range reference(t) {
		t.Run(r.Name, func(t *testing.T) {
			t.Parallel()
			var events []Event
			for _, p := range r.Pulses {
				events = append(events, Event{Hours: p.Hour, Fermentable: grams(p.Add), VolumeShare: p.Volume})
			}
			for _, c := range r.Changes {
				events = append(events, Event{Hours: c.Hour, Change: true, ToC: c.C})
			}
			// Nothing added at every hour that is compared, so that a step ends there.
			for _, h := range r.Hours[1:] {
				events = append(events, Event{Hours: h})
			}
			w := Walk{tolerance: tight}
			w.Run(Pitched{Fermentable: grams(r.Start), BillionPerL: r.PitchBillionPerL, TemperatureC: r.TemperatureC,
				LagHours: r.LagHours, RateFactor: r.RateFactor}, events)
			worst := 0.0
			for k, hour := range r.Hours {
				tau, _ := w.clock.yeast(hour)
				y, _ := w.state(w.partAt(tau), tau)
				for i, want := range r.States[k] {
					// 1e-6 relative; below a fiftieth of a mol/m³ the unit
					// is absolute, since both solvers round there.
					d := math.Abs(y[i]-want) / math.Max(math.Abs(want), 2e-2)
					worst = math.Max(worst, d)
					if d > 1e-6 {
						t.Errorf("state %d at %g h is %.10g, LSODA has %.10g", i, hour, y[i], want)
					}
				}
			}
			t.Logf("states differ by %.1e at most", worst)
		})
	}
}

func TestMilestonesAgreeWithLSODA(t *testing.T) {
	t.Parallel()
	for _, r := range reference(t) {
		if len(r.Changes) > 0 {
			continue // its height is a jump
		}
		for _, tol := range []struct {
			name      string
			tolerance float64
			within    float64 // h
		}{{"tight", tight, 1e-3}, {"ordinary", usualTolerance, 0.02}} {
			c, err := run(r.input(), tol.tolerance, nil)
			if err != nil {
				t.Fatal(err)
			}
			where := r.Name + ", " + tol.name + ": "
			// The peak is flat: the place of a maximum is known to the root of
			// what its height is known to.
			near(t, where+"height", c.HeightHours, r.Milestones.Height, math.Max(0.01, tol.within))
			near(t, where+"opening", c.Window[0], r.Milestones.Opens, tol.within)
			near(t, where+"closing", c.Window[1], r.Milestones.Closes, tol.within)
			near(t, where+"finish", c.FinishedHours, r.Milestones.Finished, 2*tol.within)
		}
	}
}
