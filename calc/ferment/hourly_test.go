package ferment

import (
	"math"
	"testing"

	"skep/calc/sugar"
)

// What is noted by the hour is the course itself at those hours, whatever happens to
// the beer: honey at any time, warmth, a chill, enzymes of raw honey.
func TestHourlyIsTheCourse(t *testing.T) {
	t.Parallel()
	honey := sugar.Spectrum{Glucose: 15, Fructose: 18, Maltose: 3}
	in := func(hours float64) Event { return Event{Hours: hours, Fermentable: honey, VolumeShare: 0.02} }
	to := func(hours, celsius float64) Event { return Event{Hours: hours, Change: true, ToC: celsius} }
	const hours = 400
	worst, worstRate, looked, noted := 0.0, 0.0, 0, 0
	for _, events := range [][]Event{nil, {in(52)}, {in(9.5), in(10), in(200.25)}, {to(60, 23), to(140, 4)}, {to(30, 12), in(30), to(31, 20)}, {in(0.5)}} {
		for _, shape := range []float64{0.7, 1, 1.4} {
			for _, rate := range []float64{0.5, 1, 2} {
				for _, lag := range []float64{1, 12, 40} {
					for _, trimmed := range []float64{0, 0.1} {
						var c Fermentation
						c.Run(Pitched{
							Fermentable: sugar.Spectrum{Glucose: 12, Fructose: 3, Maltose: 50, Maltotriose: 12, Dextrin: 3}, TemperatureC: 19,
							LagHours: lag, RateFactor: rate, Shape: shape,
						}, events)
						c.Balance = Balance{Litres: 20, VolumeL: 1, TemperatureC: 19, In: []Contents{{2.4, 20.9}}, DextrinKg: 0.4, Trimmed: trimmed, TrimFromHours: 30}
						for range events {
							last := c.Balance.In[len(c.Balance.In)-1]
							c.Balance.In = append(c.Balance.In, Contents{last.ExtractKg + 0.6, last.MassKg + 0.8})
						}
						next := 0
						c.Hourly(hours, func(hour int, gravitySG, co2RateGPerLH float64) {
							if hour != next {
								t.Fatalf("hour %d, expected %d", hour, next)
							}
							next++
							x := c.At(float64(hour))
							worst = max(worst, math.Abs(gravitySG-x.GravitySG))
							worstRate = max(worstRate, math.Abs(co2RateGPerLH-x.CO2RateGPerLH))
							noted++
							if gravitySG == x.GravitySG && co2RateGPerLH == x.CO2RateGPerLH {
								looked++
							}
						})
						if next != hours {
							t.Fatalf("%d hours, expected %d", next, hours)
						}
					}
				}
			}
		}
	}
	t.Logf("gravity off by %.2g SG at most, the rate by %.2g g/L/h; %d %% worked out in full", worst, worstRate, 100*looked/noted)
	if !(worst < 1e-6) || !(worstRate < 0.001) || looked > noted/2 {
		t.Errorf("gravity off by %.2g SG, the rate by %.2g g/L/h, %d of %d hours worked out in full", worst, worstRate, looked, noted)
	}
}
