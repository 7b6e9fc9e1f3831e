package quantity

import (
	"strings"

	"skep/calc/colour"
	"skep/calc/density"
	"skep/calc/units"
)

// measure is one unit that a text may name: metric = number·factor, or
// through convert where a factor won't do.
type measure struct {
	factor  float64
	convert func(float64) float64
	// smaller is what a bare number behind this unit counts in ("1 lb 3").
	smaller string
}

func (m measure) metric(v float64) float64 {
	if m.convert != nil {
		return m.convert(v)
	}
	return v * m.factor
}

func names(m measure, list string, into map[string]measure) {
	for name := range strings.FieldsSeq(list) {
		into[strings.ReplaceAll(name, "_", " ")] = m
	}
}

// measures gives the words for each kind's units, tidied (lower case).
func measures(k Kind) map[string]measure {
	out := map[string]measure{}
	switch k {
	case Temperature:
		names(measure{factor: 1}, "°c c ° °_c deg_c degc celsius degrees_celsius", out)
		names(measure{convert: units.CelsiusFromFahrenheit}, "°f f °_f deg_f degf fahrenheit degrees_fahrenheit", out)
	case TemperatureDifference:
		names(measure{factor: 1}, "°c c °_c k kelvin celsius", out)
		names(measure{factor: units.CelsiusStepFromFahrenheit(1)}, "°f f °_f fahrenheit", out)
	case Gravity:
		names(measure{factor: 1}, "sg s.g. og fg", out)
		names(measure{convert: density.SGFromPlato}, "°p p °_p plato degrees_plato", out)
	case Strength:
		names(measure{factor: 1}, "% %_vol vol_% %vol abv %_abv %abv pct percent vol", out)
	case Percent:
		names(measure{factor: 1}, "% pct percent per_cent", out)
	case Index:
		names(measure{factor: 1}, "/100 /_100 of_100", out)
	case MassG, MassKg:
		gram := 1.0
		if k == MassKg {
			gram = 0.001
		}
		names(measure{factor: 0.001 * gram}, "mg", out)
		names(measure{factor: gram}, "g gr gm gram grams gramme grammes", out)
		names(measure{factor: 1000 * gram, smaller: "g"}, "kg kgs kilo kilos kilogram kilograms", out)
		names(measure{factor: units.GramsPerOunce * gram}, "oz oz. ounce ounces", out)
		names(measure{factor: 1000 * units.KilogramsPerPound * gram, smaller: "oz"}, "lb lb. lbs pound pounds #", out)
	case Volume:
		names(measure{factor: 0.001}, "ml millilitre millilitres milliliter milliliters", out)
		names(measure{factor: 1}, "l litre litres liter liters", out)
		names(measure{factor: 100}, "hl", out)
		names(measure{factor: units.LitresPerUSGallon}, "gal gals gallon gallons us_gal us_gallon us_gallons", out)
		names(measure{factor: units.LitresPerUSQuart}, "qt qts quart quarts", out)
	case Minutes, Hours:
		minute := 1.0
		if k == Hours {
			minute = 1.0 / 60
		}
		names(measure{factor: minute}, "m min mins min. minute minutes '", out)
		names(measure{factor: 60 * minute, smaller: "min"}, "h hr hrs hour hours", out)
		names(measure{factor: 1440 * minute, smaller: "h"}, "d day days", out)
	case Colour:
		names(measure{factor: 1}, "ebc °ebc", out)
		names(measure{factor: units.EBCPerSRM}, "srm °srm", out)
		// A maltster's degrees Lovibond, often written as a bare L.
		names(measure{convert: colour.EBCFromLovibond}, "l °l °_l lovibond °lovibond degrees_lovibond", out)
	case Power:
		names(measure{factor: 1}, "w watt watts", out)
		names(measure{factor: 1000}, "kw kilowatt kilowatts", out)
	case GramsPerLitre:
		names(measure{factor: 1}, "g/l g_/_l gpl g_per_l g_per_litre", out)
	case LitresPerKg:
		names(measure{factor: 1}, "l/kg l_/_kg litres/kg", out)
		names(measure{convert: units.LitresPerKgFromQuartsPerPound}, "qt/lb qt_/_lb qts/lb quarts/lb", out)
	case LitresPerHour:
		names(measure{factor: 1}, "l/h l_/_h l/hr litres/h", out)
		names(measure{factor: units.LitresPerUSGallon}, "gal/h gal_/_h gal/hr gph", out)
	case Bitterness:
		names(measure{factor: 1}, "ibu ibus ebu bu", out)
	}
	return out
}
