package calibration

import (
	"fmt"
	"math"
	"path/filepath"

	"gonum.org/v1/gonum/stat/distuv"

	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/record"
)

// Timed is a measured hour to a share of the fall beside the band planned for it.
type Timed struct {
	Series         string
	Row            string // in the design notes
	Share          float64
	Measured       float64
	Low, Mid, High float64
}

// Inside tells whether the band holds what was measured.
func (t Timed) Inside() bool { return t.Low <= t.Measured && t.Measured <= t.High }

// fallShares are those of the columns of times.csv.
var fallShares = []float64{0.05, 0.25, 0.5, 0.75, 0.9, 0.95}

// Times lists what times.csv holds beside bands of the reference wort at the
// temperature that was kept, with the usual doubt of rate and lag and half a kelvin.
func Times(folder string) ([]Timed, error) {
	lines, err := readCSV(filepath.Join(folder, "times.csv"), 3+len(fallShares))
	if err != nil {
		return nil, err
	}
	var out []Timed
	for _, l := range lines {
		celsius := l.values[0]
		var hours [][]float64 // by share
		if hours, err = planned(celsius); err != nil {
			return nil, err
		}
		for i, share := range fallShares {
			if math.IsNaN(l.values[1+i]) {
				continue
			}
			t := Timed{Series: l.name, Row: l.row, Share: share, Measured: l.values[1+i]}
			t.Low, t.Mid, t.High = doubt.Percentiles(hours[i])
			out = append(out, t)
		}
	}
	return out, nil
}

// planned are the hours to each share over draws of rate, lag and temperature.
func planned(celsius float64) ([][]float64, error) {
	const n = 256
	hours := make([][]float64, len(fallShares))
	for k := range n {
		// An additive lattice (generalised golden ratio), as normal scores.
		score := func(step float64) float64 {
			_, u := math.Modf(0.5 + step*float64(k+1))
			return distuv.UnitNormal.Quantile(u)
		}
		const g = 1.2207440846057596 // the root of x⁴ = x + 1
		c, err := ferment.Run(ferment.Input{
			Wort: reference.Times(referenceGPerL), Take: neutralAle, TemperatureC: celsius + 0.5*score(1/(g*g*g)),
			RateFactor: ferment.RateFactor(score(1 / g)), LagHours: ferment.UsualLagHours * ferment.LagFactor(score(1/(g*g))),
		})
		if err != nil {
			return nil, err
		}
		for i, share := range fallShares {
			hours[i] = append(hours[i], when(&c, c.Attenuated, share))
		}
	}
	return hours, nil
}

// timeRows are the measured times as rows of the record, and how many the bands hold.
func timeRows(folder string) ([]record.Row, error) {
	times, err := Times(folder)
	if err != nil {
		return nil, err
	}
	const source = "E. Lwele, Sheffield Hallam University, 2025 (testdata/ferment/times.csv)"
	var out []record.Row
	inside := 0
	for _, t := range times {
		row := record.Row{
			Quantity: fmt.Sprintf("fermentation: hours to %g %% of the fall, %s (band %.3g to %.3g)", 100*t.Share, t.Series, t.Low, t.High),
			Unit:     "h", Published: t.Measured, Ours: t.Mid, Source: source, Verdict: "agrees",
		}
		if t.Inside() {
			inside++
		} else {
			row.Verdict = "misses"
			row.Why = "outside the middle four fifths of what is planned; one in five should be, and the pilot's worts held little oxygen"
		}
		out = append(out, row)
	}
	return append(out, record.Row{
		Quantity: "fermentation: share of the measured times inside bands of four fifths", Unit: "%", Source: source,
		Published: 80, Ours: 100 * float64(inside) / float64(len(times)), Tolerance: 10,
		Why: "the ends of the sets are in it, which are one in fifteen and not one in ten; and the pilot's worts held little oxygen",
	}), nil
}
