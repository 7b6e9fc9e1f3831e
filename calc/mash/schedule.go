package mash

import (
	"math"

	"skep/calc/message"
)

// Rest is one temperature held for a while.
type Rest struct {
	TemperatureC float64 // 20 to 100
	Minutes      float64 // 0 to 1440, counted from when the temperature is reached
}

// Ranges that are refused beyond; within them every mash has an answer.
const (
	restLowC, restHighC       = 20.0, 100.0
	longestRestMin            = 1440.0
	shortestLegMin            = 1e-9 // what is shorter takes no time: no step can be so short an hour into the mash
	liquorLow, liquorHigh     = 1.0, 20.0
	heatLow, heatHigh         = 0.01, 100.0
	defaultHeatKPerMin        = 1.0 // the rise of the congress mash (EBC; from memory)
	coldestMashC, hottestMash = 58.0, 72.0
)

// leg is a stretch of time over which the temperature runs straight.
type leg struct {
	fromMin, toMin float64
	fromC, toC     float64
}

func (l leg) temperature(t float64) float64 {
	if l.fromC == l.toC || l.toMin <= l.fromMin {
		return l.toC
	}
	return l.fromC + (l.toC-l.fromC)*(t-l.fromMin)/(l.toMin-l.fromMin)
}

// schedule lays the rests end to end with straight ramps between them.
func schedule(rests []Rest, heatKPerMin float64) ([]leg, error) {
	if heatKPerMin == 0 {
		heatKPerMin = defaultHeatKPerMin
	}
	if !(heatKPerMin >= heatLow && heatKPerMin <= heatHigh) {
		return nil, message.NewError("the mash heats by {value} K/min: outside {low} to {high}", heatKPerMin, heatLow, heatHigh)
	}
	if len(rests) == 0 {
		return nil, message.NewError("the mash has no rest: give at least one temperature and time")
	}
	legs := make([]leg, 0, 2*len(rests))
	t := 0.0
	for i, r := range rests {
		if !(r.TemperatureC >= restLowC && r.TemperatureC <= restHighC) {
			return nil, message.NewError("rest {number}: {key} = {value} is outside {low} to {high}", i+1, "temperature_c", r.TemperatureC, restLowC, restHighC)
		}
		if !(r.Minutes >= 0 && r.Minutes <= longestRestMin) {
			return nil, message.NewError("rest {number}: {key} = {value} is outside {low} to {high}", i+1, "minutes", r.Minutes, 0, longestRestMin)
		}
		if i > 0 {
			d := math.Abs(r.TemperatureC - rests[i-1].TemperatureC)
			if minutes := d / heatKPerMin; minutes >= shortestLegMin {
				legs = append(legs, leg{t, t + minutes, rests[i-1].TemperatureC, r.TemperatureC})
				t += minutes
			}
		}
		minutes := r.Minutes
		if minutes < shortestLegMin {
			minutes = 0
		}
		legs = append(legs, leg{t, t + minutes, r.TemperatureC, r.TemperatureC})
		t += minutes
	}
	return legs, nil
}
