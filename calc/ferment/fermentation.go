package ferment

import (
	"math"

	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/honey"
)

// Fermentation is how one beer ferments: a walk with the beer's mass balance. It is a
// workspace.
type Fermentation struct {
	Walk
	Balance Balance
}

// Balance is what turns sugar that has fermented into what a hydrometer shows.
type Balance struct {
	Litres       float64    // pitched
	VolumeL      float64    // in the end, per litre pitched
	TemperatureC float64    // of the beer at pitching
	In           []Contents // by how many additions are in, from none

	DextrinKg     float64 // left, that live enzymes of honey may trim
	Trimmed       float64 // share of it that they take in all
	TrimFromHours float64 // after pitching: the first raw honey
}

// Contents are the extract and the mass of everything that is in.
type Contents struct{ ExtractKg, MassKg float64 }

// TemperatureC is what the beer is kept at, at an hour after pitching.
func (c *Fermentation) TemperatureC(hours float64) float64 {
	t := c.Balance.TemperatureC
	for i := range c.Events {
		if e := &c.Events[i]; e.Change && e.Hours <= hours {
			t = e.ToC
		}
	}
	return t
}

// Sample is a beer at one hour.
type Sample struct {
	GravitySG        float64 // what a hydrometer shows at 20 °C
	CO2RateGPerLH    float64 // given off, per litre pitched and hour
	Attenuated       float64 // share of all that will ferment, later additions included
	FermentableGPerL float64 // still to ferment of what is in, per litre pitched
	YeastShare       float64 // over what was pitched, settled cells included
}

// At is the beer at an hour after pitching.
func (c *Fermentation) At(hours float64) Sample {
	m := c.Walk.At(hours)
	x := Sample{
		GravitySG:     c.gravity(hours, m.FermentedGPerL, m.Doses),
		CO2RateGPerLH: CO2PerExtract * m.RateGPerLH, FermentableGPerL: m.LeftGPerL, YeastShare: m.YeastShare,
	}
	if all := c.AllGPerL(); all > 0 {
		x.Attenuated = min(max(m.FermentedGPerL/all, 0), 1)
	}
	return x
}

// GravityAt is the gravity of [Fermentation.At] alone, sooner.
func (c *Fermentation) GravityAt(hours float64) float64 {
	fermented, doses := c.Fermented(hours)
	return c.gravity(hours, fermented, doses)
}

// EndSG is the gravity when all sugar that is in by some hour has gone, live
// enzymes of honey as far as they are then.
func (c *Fermentation) EndSG(hours float64) float64 {
	m := c.Walk.At(hours)
	return c.gravity(hours, m.FermentedGPerL+m.LeftGPerL, m.Doses)
}

func (c *Fermentation) gravity(hours, fermentedGPerL float64, doses int) float64 {
	return c.Balance.gravity(c.Balance.gone(hours, fermentedGPerL, doses), doses)
}

// gone is how much of the extract that is in has gone by an hour, as a share: what has
// fermented, and what honey's enzymes have taken.
func (b *Balance) gone(hours, fermentedGPerL float64, doses int) float64 {
	return (fermentedGPerL*b.Litres/1000 + b.DextrinKg*b.trim(hours)) / b.In[doses].ExtractKg
}

// gravity is what a hydrometer shows when a share of the extract has gone.
func (b *Balance) gravity(gone float64, doses int) float64 {
	in := &b.In[doses]
	if !(in.ExtractKg > 0) {
		return 1
	}
	original := 100 * in.ExtractKg / in.MassKg
	re := alcohol.RealExtractAfter(original, gone)
	return density.QuickSG(alcohol.ApparentExtract(original, re))
}

// trim is the share of dextrin that honey's enzymes have taken by an hour: all that
// they take when they have worked their days.
func (b *Balance) trim(hours float64) float64 {
	days := (hours - b.TrimFromHours) / 24
	if !(days > 0) || b.Trimmed == 0 {
		return 0
	}
	return b.Trimmed * min(1, math.Expm1(-days/honey.TrimDays)/(1/math.E-1))
}

// CO2AfterLPerL is the carbon dioxide still to come after an hour: litres of gas
// at the temperature of the beer and 101.325 kPa per litre of the finished beer.
// It is what strips aroma (package honey). All of it counts as leaving; what the
// beer keeps dissolved (0.8 to 1 litre per litre) matters only in the first hours.
func (c *Fermentation) CO2AfterLPerL(hours float64) float64 {
	left := max(c.AllGPerL()-c.Walk.At(hours).FermentedGPerL, 0)
	return CO2Litres(CO2PerExtract*left/c.Balance.VolumeL, c.Balance.TemperatureC)
}
