package calc

import (
	"math"

	"skep/calc/design"
	"skep/calc/ferment"
)

// Course is a fermentation hour by hour, with its doubt. The slices are of one
// length.
type Course struct {
	Hours            []float64 // after pitching, 0, 1, 2 …
	GravitySG        []Band    // what a hydrometer shows at 20 °C
	CO2RateGPerLH    []Band    // given off, per litre pitched and hour
	AttenuatedPct    []float64 // of all that will ferment, later honey included
	FermentableGPerL []float64 // still to ferment of what is in, per litre pitched
	YeastBillionPerL []float64 // grown so far, settled cells included

	HeightHours      Band
	HoneyWindowHours [2]Band
	FinishedHours    Band
	HoneyHours       []float64 // when each honey of the design goes in; 0 with the wort
	Warnings         []string
}

// Course follows the fermentation of a design with one of its yeasts.
//
// The band of gravity holds the doubt of the clock (rate, lag, temperature:
// package ferment) and, growing from the one to the other as it ferments, that
// of the original and of the final gravity; they are taken as independent, so
// their distances from the middle add in squares. The middle starts and ends
// at the prediction's own middle. The middle of the rate is that of the middle
// course; where honey goes in, the band holds that it may not yet have.
func (e *Engine) Course(d design.Design, i int) (Course, error) {
	b, err := e.ready(d, i)
	if err != nil {
		return Course{}, err
	}
	t := d.Mash.Rest[0].TemperatureC
	p := b.predict(t)
	f, timing, err := ferment.Follow(b.fermentInput(t))
	if err != nil {
		return Course{}, err
	}
	times, clock := timing.Bands(), timing.Course(&f)
	c := Course{
		Hours: f.Hours, AttenuatedPct: make([]float64, len(f.Hours)), FermentableGPerL: f.FermentableGPerL, YeastBillionPerL: f.YeastBillionPerL,
		GravitySG: make([]Band, len(f.Hours)), CO2RateGPerLH: make([]Band, len(f.Hours)),
		HeightHours: Band(times.HeightHours), HoneyWindowHours: [2]Band{Band(times.Window[0]), Band(times.Window[1])},
		FinishedHours: Band(times.FinishedHours), HoneyHours: honeyHours(d, &f), Warnings: f.Warnings,
	}
	start, end := p.OriginalGravitySG, p.FinalGravitySG
	for k := range c.Hours {
		a := f.Attenuated[k]
		c.AttenuatedPct[k] = 100 * a
		rate := clock.CO2RateGPerLH[k]
		c.CO2RateGPerLH[k] = Band{min(rate.Low, f.CO2RateGPerLH[k]), f.CO2RateGPerLH[k], max(rate.High, f.CO2RateGPerLH[k])}
		g := clock.GravitySG[k]
		mid := f.GravitySG[k] + (1-a)*(start.Mid-f.GravitySG[0]) + a*(end.Mid-f.FinalSG)
		side := func(clock, start, end float64) float64 {
			return math.Hypot(clock, (1-a)*start+a*end)
		}
		c.GravitySG[k] = Band{
			Low: mid - side(math.Max(0, f.GravitySG[k]-g.Low), start.Mid-start.Low, end.Mid-end.Low),
			Mid: mid, High: mid + side(math.Max(0, g.High-f.GravitySG[k]), start.High-start.Mid, end.High-end.Mid),
		}
	}
	return c, nil
}

// honeyHours is when each honey of a design goes in, in its order.
func honeyHours(d design.Design, f *ferment.Course) []float64 {
	hours := make([]float64, len(d.Honey))
	k := 0
	for i, h := range d.Honey {
		if h.MassKg <= 0 { // not among the additions
			continue
		}
		hours[i] = f.AdditionHours[k]
		k++
	}
	return hours
}
