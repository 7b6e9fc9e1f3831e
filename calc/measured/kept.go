package measured

import (
	"math"

	"skep/calc/ferment"
)

const (
	// swingSD is how far a single reading is from the mean of its days, °C (common
	// practice, no source).
	swingSD = 1.0
	// changedC: a reading so far off the mean of those before it is of a beer that
	// was brought to another temperature, and no swing (ours).
	changedC = 3.0
	// mostStretches bounds what a logger in a cold shed makes of its nights.
	mostStretches = 8
)

// stretch is a time in which the beer was kept at one temperature.
type stretch struct{ from, meanC float64 } // hours after pitching; 0 for the first

// kept is how the beer was kept, by its temperature readings, and the sd of it
// (never more than unmeasured). A course goes by each stretch's own temperature:
// one mean over the days would have a beer that was cooled at its end ferment cold
// from the start.
func (t *Timeline) kept() (all []stretch, sd float64) {
	var points []*Point
	for _, p := range t.Used(BeerTemperature) {
		if p.Hours >= 0 {
			points = append(points, p)
		}
	}
	if len(points) == 0 {
		return nil, 0
	}
	for apart := changedC; len(all) == 0 || len(all) > mostStretches; apart *= 1.5 {
		all = stretches(points, apart)
	}
	days, last := 0.0, math.Inf(-1)
	for _, p := range points {
		if p.Hours-last >= 12 {
			days++
			last = p.Hours
		}
	}
	return all, min(math.Hypot(t.in.ThermometerSD, swingSD/math.Sqrt(days)), ferment.UsualTemperatureErrorC)
}

// stretches begins a new one half way before a reading that is so far off.
func stretches(points []*Point, apartC float64) (all []stretch) {
	sum, weight := 0.0, 0.0
	for i, p := range points {
		if n := len(all); n == 0 || math.Abs(p.Value-all[n-1].meanC) > apartC {
			from := 0.0
			if i > 0 {
				from = (points[i-1].Hours + p.Hours) / 2
			}
			all = append(all, stretch{from: from})
			sum, weight = 0, 0
		}
		// Each stands for half the way to its neighbours, two days at most.
		w := 1.0
		if i > 0 {
			w += min(p.Hours-points[i-1].Hours, 48) / 2
		}
		if i < len(points)-1 {
			w += min(points[i+1].Hours-p.Hours, 48) / 2
		}
		sum, weight = sum+w*p.Value, weight+w
		all[len(all)-1].meanC = sum / weight
	}
	return all
}
