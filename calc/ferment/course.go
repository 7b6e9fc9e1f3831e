package ferment

import (
	"math"

	"skep/calc/message"
)

// Course is a fermentation hour by hour. The slices are of one length; amounts
// "per litre pitched" are per litre of the wort at pitching.
type Course struct {
	Hours             []float64 // after pitching, 0, 1, 2 …
	GravitySG         []float64 // apparent, at 20 °C, of what the fermenter holds
	CO2RateGPerLH     []float64 // given off per litre pitched and hour
	CO2TotalGPerL     []float64 // made since pitching, per litre pitched
	Attenuated        []float64 // share of all that will ferment, later additions included
	YeastBillionPerL  []float64 // cells grown so far, settled ones included, per litre pitched
	FermentableGPerL  []float64 // what is still to ferment of what is in, per litre pitched
	TemperatureC      float64   // as asked, held throughout
	Times                       // height and window of the wort's own fermentation; finished with everything
	FinalSG           float64   // the mass balance that GravitySG ends in
	EffectiveOriginal float64   // °P of everything that went in, in the final volume
	AdiabaticRiseK    float64   // how far the heat made would warm the wort if none were lost
	AdditionHours     []float64 // when each addition went in, in the order of the input
	Warnings          []message.Message

	totalCO2    float64 // per litre pitched, when all has fermented
	finalVolume float64 // litres per litre pitched
	steps       []step  // what went in when, in order of time
}

// step is the extract and volume from one moment on, per litre pitched.
type step struct {
	hour, extract, volume float64
	plato                 float64
}

// At gives gravity and CO2 total between the hours. Before pitching it is
// pitching, after the course its end.
func (c *Course) At(hours float64) (gravitySG, co2TotalGPerL float64) {
	last := len(c.Hours) - 1
	if last < 0 { // no course
		return 1, 0
	}
	if !(hours > 0) {
		return c.GravitySG[0], c.CO2TotalGPerL[0]
	}
	if hours >= c.Hours[last] {
		return c.GravitySG[last], c.CO2TotalGPerL[last]
	}
	i := int(hours)
	u := hours - float64(i)
	co2 := c.CO2TotalGPerL[i] + u*(c.CO2TotalGPerL[i+1]-c.CO2TotalGPerL[i])
	s := c.stepAt(hours)
	return gravityAt(s.plato, share(co2/CO2PerExtract, s.extract)), co2
}

func (c *Course) stepAt(hours float64) step {
	s := c.steps[0]
	for _, next := range c.steps[1:] {
		if next.hour > hours {
			break
		}
		s = next
	}
	return s
}

// share is part of whole, held between 0 and 1 against round-off.
func share(part, whole float64) float64 {
	if whole <= 0 {
		return 0
	}
	return min(max(part/whole, 0), 1)
}

// CO2AfterLPerL is the carbon dioxide still to come after a moment: litres of
// gas at the temperature of the beer and 101.325 kPa per litre of the finished
// beer, from everything that is in or will be added. It is what strips aroma
// (package honey). All of it counts as leaving; what the beer keeps dissolved
// (0.8 to 1 litre per litre) matters only for moments in the first hours.
func (c *Course) CO2AfterLPerL(hours float64) float64 {
	if c.finalVolume <= 0 { // no course
		return 0
	}
	_, made := c.At(hours)
	return CO2Litres(math.Max(0, c.totalCO2-made)/c.finalVolume, c.TemperatureC)
}

// CO2Litres is the volume of so much carbon dioxide at 101.325 kPa.
func CO2Litres(grams, temperatureC float64) float64 { return grams / co2GramsPerLitre(temperatureC) }

// co2GramsPerLitre is the density of the gas at 101.325 kPa, as an ideal gas
// (within 0.6 %): 44.0095 g/mol, R = 8.314462618 J/mol/K (CODATA).
func co2GramsPerLitre(temperatureC float64) float64 {
	return 44.0095 * 101.325 / (8.314462618 * (temperatureC + zeroC))
}
