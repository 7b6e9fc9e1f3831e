package follow

import (
	"math"

	"skep/calc"
	"skep/calc/design"
)

// Bands is what is thought of the beer, 10 to 90 %: what an engine predicts with
// draws of equal weight.
type Bands struct {
	OriginalGravitySG          calc.Band
	EffectiveOriginalGravitySG calc.Band
	FinalGravitySG             calc.Band
	StrengthPct                calc.Band
	ApparentAttenuationPct     calc.Band
	RealAttenuationPct         calc.Band
	SweetnessGL                calc.Band
	ResidualSugarGL            calc.Band
	DextrinGL                  calc.Band
	RealExtractGL              calc.Band
	Dryness                    calc.Band
	Body                       calc.Band
	HeightHours                calc.Band // after pitching
	WindowHours                [2]calc.Band
	WindowSG                   [2]calc.Band // without honey that goes in later
	FinishedHours              calc.Band

	// By the hour after pitching: 0, 1, 2 …
	Hours         []float64
	GravitySG     []calc.Band
	CO2RateGPerLH []calc.Band
	TemperatureC  []float64 // that the beer is kept at
}

// bandsOf are a prediction's.
func bandsOf(p *calc.Prediction) Bands {
	return Bands{
		OriginalGravitySG: p.OriginalGravitySG, EffectiveOriginalGravitySG: p.EffectiveOriginalGravitySG, FinalGravitySG: p.FinalGravitySG,
		StrengthPct: p.StrengthPct, ApparentAttenuationPct: p.ApparentAttenuationPct, RealAttenuationPct: p.RealAttenuationPct,
		SweetnessGL: p.SweetnessGL, ResidualSugarGL: p.ResidualSugarGL, DextrinGL: p.DextrinGL, RealExtractGL: p.RealExtractGL,
		Dryness: p.Dryness, Body: p.Body,
		HeightHours: p.HeightHours, WindowHours: p.HoneyWindowHours, WindowSG: p.HoneyWindowSG, FinishedHours: p.FinishedHours,
	}
}

// predicted are the engine's bands of a design, by the hour as well; visit sees
// every draw, from two goroutines.
func predicted(e *calc.Engine, d design.Design, lastHour int, visit func(i int, x *calc.Draw)) (Bands, calc.Prediction, error) {
	p, c, err := e.PredictCourse(d, 0, lastHour, visit)
	if err != nil {
		return Bands{}, p, err
	}
	b := bandsOf(&p)
	b.Hours, b.GravitySG, b.CO2RateGPerLH, b.TemperatureC = c.Hours, c.GravitySG, c.CO2RateGPerLH, c.TemperatureC
	return b, p, nil
}

// share is how many of the draws are so, 0 to 1.
func (b *Batch) share(is func(t *calc.Times) bool) float64 {
	n := 0
	for i := range b.times {
		if is(&b.times[i]) {
			n++
		}
	}
	return float64(n) / float64(max(len(b.times), 1))
}

// At is the band of gravity at an hour after pitching, linear between the full ones;
// beyond them it is the nearest, and without any the end.
func (b *Bands) At(hours float64) calc.Band {
	last := len(b.GravitySG) - 1
	if last < 0 || math.IsNaN(hours) {
		return b.FinalGravitySG
	}
	from, u := math.Modf(min(max(hours, 0), float64(last)))
	x, y := b.GravitySG[int(from)], b.GravitySG[min(int(from)+1, last)]
	mix := func(p, q float64) float64 { return p + u*(q-p) }
	return calc.Band{Low: mix(x.Low, y.Low), Mid: mix(x.Mid, y.Mid), High: mix(x.High, y.High)}
}
