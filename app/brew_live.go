package app

import (
	"skep/calc"
	"skep/calc/brewday"
	"skep/calc/design"
	"skep/calc/mash"
	"skep/calc/water"
)

// brewDay works the day out, on the worker's goroutine. A design that the
// engine refuses has a day too: what is wrong stands at its step.
func (l *live) brewDay(d design.Design) frame {
	f := &brewFrame{design: d}
	p, err := l.engine.Predict(d)
	if err != nil {
		f.refused = err.Error()
	}
	f.day = brewday.Plan(d, p)
	f.mash = mashCourse(d)
	return frame{prediction: p, day: f}
}

// mashPoint is the mash on its way: shares of the grist's extract.
type mashPoint struct {
	minute, temperatureC float64
	extract, sugars      float64
}

// courseEveryMin is how finely the mash is drawn.
const courseEveryMin = 1

// mashCourse is the mash minute by minute; nothing where there is none.
func mashCourse(d design.Design) []mashPoint {
	in := mash.Input{LiquorLPerKg: d.Mash.LiquorLPerKg}
	kg := 0.0
	for _, g := range d.Grain {
		in.Grain = append(in.Grain, mash.Grain{MassKg: g.MassKg, ExtractPct: g.ExtractPct, MoisturePct: g.MoisturePct, Enzymes: g.Enzymes})
		kg += g.MassKg
	}
	if kg <= 0 {
		return nil
	}
	for _, r := range d.Mash.Rest {
		in.Rests = append(in.Rests, mash.Rest{TemperatureC: r.TemperatureC, Minutes: r.Minutes})
	}
	if d.Kit.HeaterW > 0 {
		minutes := water.HeatingMinutes(d.Mash.LiquorLPerKg*kg, kg, d.Kit.VesselHeatKJPerK, 60, 70, d.Kit.HeaterW)
		in.HeatKPerMin = min(max(10/minutes, 0.05), 50)
	}
	points, err := mash.Course(in, courseEveryMin)
	if err != nil {
		return nil
	}
	// Shares of what a laboratory would find.
	all := calc.Grist(d).LaboratoryKg
	out := make([]mashPoint, 0, len(points))
	for _, p := range points {
		if !(all > 0) {
			break
		}
		extract := p.ExtractKg / all
		out = append(out, mashPoint{p.Minute, p.TemperatureC, extract, extract * p.Wort.Sugars()})
	}
	return out
}
