package brewday

import (
	"math"

	"skep/calc/message"
	"skep/calc/quantity"
)

// Of a temperature programme (kelvin, °C; the steps of the trade).
const (
	restWarmerK = 2.0 // a step up by so much late in the fermentation is a rest for diacetyl
	crashC      = 8.0 // a step down to here or below is a cold crash
	restFrom    = 50  // % of the attenuation
)

// restDays is how long a rest for diacetyl takes at a temperature: two days at 18 to
// 20 °C (White & Zainasheff, quoted), longer where it is colder by what the slow step,
// the decay of acetolactate, is taken to need: 2.7 times for 10 K (from memory).
func restDays(temperatureC float64) float64 {
	return math.Ceil(2*math.Pow(2.7, (19-temperatureC)/10) - 0.25)
}

// programme is what the temperature programme has the brewer do.
func (b *brew) programme(s *Step) {
	before, warmest, late := b.yeast.TemperatureC, 0.0, false
	for i := range b.d.Temperature {
		t := &b.d.Temperature[i]
		share := t.AtAttenuationPct
		if share > 0 {
			og, fg := b.p.OriginalGravitySG.Mid, b.p.FinalGravitySG.Mid
			s.do("At {share} of the attenuation, about {gravity}: bring it to {temperature}", percent(share), gravity(og-share/100*(og-fg)), celsius(t.TemperatureC))
		} else {
			s.Events = append(s.Events, Event{Clock: SincePitch, At: hours(t.AtHours), What: message.New("Bring it to {temperature}", celsius(t.TemperatureC)), Path: path("temperature", i)})
		}
		end := t.AtHours >= b.p.FinishedHours.Mid || share >= 95
		late = late || share >= restFrom || t.AtHours >= b.p.HeightHours.Mid
		switch {
		case t.TemperatureC >= before+restWarmerK && late:
			s.do("Rest for diacetyl: {days} at {temperature}; then warm one sample to {sample} for twenty minutes, cool it, and smell it beside another: rest on until they are alike",
				of(quantity.Days, restDays(t.TemperatureC)), celsius(t.TemperatureC), celsius(60))
		case t.TemperatureC <= crashC && t.TemperatureC < before-restWarmerK:
			s.do("Before cooling to {temperature}: two equal readings, warm; cold beer stands still unfinished and looks done", celsius(t.TemperatureC))
			s.note("It clears in two to four days; air is drawn in as it cools: a full airlock, or a bag of CO2. What CO2 it holds is of the warmest since it finished, not of the cold.")
		}
		if end || late {
			warmest = max(warmest, before)
		}
		before = t.TemperatureC
		warmest = max(warmest, before)
	}
	if len(b.d.Temperature) > 0 && late && warmest > b.d.Package.WarmestSinceC+0.5 {
		s.warn(keys("package.warmest_since_c"), "The programme warms the beer to {temperature} and its CO2 is reckoned for less: set what it was at its warmest since it finished", celsius(warmest))
	}
}
