package quantity

import (
	"skep/calc/density"
	"skep/calc/units"
)

const ouncesPerPound = 16

// Shown turns a metric value into the number in the person's unit, unrounded:
// what axes are scaled by. A mass is in the unit that [Formatter.Unit] names.
func (f Formatter) Shown(k Kind, metric float64) float64 {
	u := f.units
	switch {
	case k == Temperature && u.Temperature == F:
		return units.FahrenheitFromCelsius(metric)
	case k == TemperatureDifference && u.Temperature == F:
		return units.FahrenheitStepFromCelsius(metric)
	case k == Gravity && u.Gravity == Plato:
		return density.PlatoFromSG(metric)
	case k == Volume && u.Volume == USGallon:
		return units.USGallonsFromLitres(metric)
	case k == LitresPerHour && u.Volume == USGallon:
		return units.USGallonsFromLitres(metric)
	case k == LitresPerKg && u.Volume == USGallon:
		return units.QuartsPerPoundFromLitresPerKg(metric)
	case k == MassG && u.Mass == Lb:
		return units.OuncesFromGrams(metric)
	case k == MassKg && u.Mass == Lb:
		return units.PoundsFromKilograms(metric)
	case k == Colour && u.Colour == SRM:
		return units.SRMFromEBC(metric)
	}
	return metric
}

// Metric is the inverse of Shown.
func (f Formatter) Metric(k Kind, shown float64) float64 {
	u := f.units
	switch {
	case k == Temperature && u.Temperature == F:
		return units.CelsiusFromFahrenheit(shown)
	case k == TemperatureDifference && u.Temperature == F:
		return units.CelsiusStepFromFahrenheit(shown)
	case k == Gravity && u.Gravity == Plato:
		return density.SGFromPlato(shown)
	case k == Volume && u.Volume == USGallon:
		return units.LitresFromUSGallons(shown)
	case k == LitresPerHour && u.Volume == USGallon:
		return units.LitresFromUSGallons(shown)
	case k == LitresPerKg && u.Volume == USGallon:
		return units.LitresPerKgFromQuartsPerPound(shown)
	case k == MassG && u.Mass == Lb:
		return units.GramsFromOunces(shown)
	case k == MassKg && u.Mass == Lb:
		return units.KilogramsFromPounds(shown)
	case k == Colour && u.Colour == SRM:
		return units.EBCFromSRM(shown)
	}
	return shown
}
