package quantity

import (
	"math"

	"skep/calc/density"
	"skep/calc/units"
)

// Kind says what a number measures, and so its metric unit, its precision for a
// person and the words accepted for it.
type Kind uint8

// The kinds, with the unit in which their numbers are kept. MassG and MassKg
// differ in what a bare number means: "550" is grams (or ounces) for the one,
// kilograms (or pounds) for the other.
const (
	None                  Kind = iota // no quantity
	Count                             // a whole number of things
	Temperature                       // °C
	TemperatureDifference             // K
	Degrees                           // K, no finer than a degree
	Gravity                           // SG 20/20
	Points                            // a difference of gravity, in SG (0.003 is three points)
	FinePoints                        // the same, where a tenth of a point counts
	Strength                          // % by volume
	MassG                             // g
	MassKg                            // kg
	Volume                            // L
	Millilitres                       // mL
	Minutes                           // min
	Hours                             // h
	WholeHours                        // h, no finer than an hour
	Days                              // days
	Moment                            // a day and a time; its number means nothing
	Percent                           // %
	Index                             // 0 to 100
	IndexPoints                       // a difference of what runs from 0 to 100
	Colour                            // EBC
	GramsPerLitre                     // g/L
	MgPerLitre                        // mg/L
	Bitterness                        // IBU
	PH                                // pH
	CO2Volumes                        // litres of gas at 0 °C and 1 atm a litre
	Pressure                          // bar above the atmosphere
	Regulator                         // the same, as a regulator is set: in hundredths
	Cells                             // 1e9 cells
	Flow                              // L/min
	Power                             // W
	Energy                            // kJ/L
	LitresPerKg                       // liquor to grain, or what grain keeps
	LitresPerHour                     // boil-off
	Tenths                            // a number of no unit, to a tenth
	Factor                            // a number of no unit, to a hundredth
	Raw                               // a number as somebody wrote it
	Kinds                             // how many there are
)

// Limits is the range a value may lie in, in the kind's metric unit. The zero
// value stands for the kind's own widest range.
type Limits struct{ Low, High float64 }

// unit is how a kind is written for a person: the symbol in English, and how
// many decimals the number deserves. Strength and temperature keep theirs so
// that a number does not change its width under the hand; where drop is set, a
// needless ".0" goes.
type unit struct {
	symbol   string
	decimals int
	drop     bool
	// shown and metric turn the kept number into the one shown, and back; nil
	// where they are the same.
	shown, metric func(float64) float64
}

// scaled is a unit that many times smaller than the kept one.
func scaled(symbol string, decimals int, times float64) unit {
	return unit{symbol: symbol, decimals: decimals,
		shown: func(v float64) float64 { return v * times }, metric: func(v float64) float64 { return v / times }}
}

// row is all that is fixed about a kind.
type row struct {
	code   string // of the unit in a design file, where a person may choose another
	metric unit
	// other is the unit of a person who has made the other choice.
	other  unit
	chosen func(Units) bool
	// widest is no physics, only a guard against slips of the key: the design
	// file's own ranges are narrower and handed in by the caller. Without one,
	// a kind is never typed.
	widest Limits
	// kept is the number of decimals that a typed metric value is rounded to:
	// at least two digits finer than any unit shows, so that a value in one
	// unit comes back unchanged in another, yet files don't fill with dust.
	kept int
}

func fahrenheit(u Units) bool { return u.Temperature == F }
func plato(u Units) bool      { return u.Gravity == Plato }

func platoStep(v float64) float64     { return density.PlatoFromSG(1 + v) }
func pointsOfPlato(v float64) float64 { return density.SGFromPlato(v) - 1 }
func gallons(u Units) bool            { return u.Volume == USGallon }
func pounds(u Units) bool             { return u.Mass == Lb }
func srm(u Units) bool                { return u.Colour == SRM }

// kinds is the one list of what is measured and in which unit.
var kinds = [Kinds]row{
	Temperature: {code: "°C", metric: unit{symbol: "°C", decimals: 1},
		other:  unit{"°F", 1, false, units.FahrenheitFromCelsius, units.CelsiusFromFahrenheit},
		chosen: fahrenheit, widest: Limits{-50, 200}, kept: 3},
	TemperatureDifference: {code: "K", metric: unit{symbol: "°C", decimals: 1},
		other:  unit{"°F", 1, false, units.FahrenheitStepFromCelsius, units.CelsiusStepFromFahrenheit},
		chosen: fahrenheit, widest: Limits{-250, 250}, kept: 3},
	Degrees: {metric: unit{symbol: "°C"},
		other:  unit{"°F", 0, false, units.FahrenheitStepFromCelsius, units.CelsiusStepFromFahrenheit},
		chosen: fahrenheit},
	Gravity: {metric: unit{decimals: 3},
		other:  unit{"°P", 1, false, density.PlatoFromSG, density.SGFromPlato},
		chosen: plato, widest: Limits{0.9, 1.3}, kept: 5},
	Points:     {metric: scaled("points", 0, 1000), other: unit{"°P", 1, false, platoStep, pointsOfPlato}, chosen: plato},
	FinePoints: {metric: scaled("points", 1, 1000), other: unit{"°P", 2, false, platoStep, pointsOfPlato}, chosen: plato},
	Strength:   {metric: unit{symbol: "%", decimals: 1}, widest: Limits{0, 30}, kept: 3},
	MassG: {code: "g", metric: unit{symbol: "g", decimals: 1, drop: true},
		other:  unit{"oz", 1, true, units.OuncesFromGrams, units.GramsFromOunces},
		chosen: pounds, widest: Limits{0, 1e6}, kept: 2},
	MassKg: {code: "kg", metric: unit{symbol: "kg", decimals: 2},
		other:  unit{"lb", 2, false, units.PoundsFromKilograms, units.KilogramsFromPounds},
		chosen: pounds, widest: Limits{0, 1000}, kept: 5},
	Volume: {code: "L", metric: unit{symbol: "L", decimals: 1},
		other:  unit{"gal", 2, false, units.USGallonsFromLitres, units.LitresFromUSGallons},
		chosen: gallons, widest: Limits{0, 10000}, kept: 4},
	Millilitres: {metric: unit{symbol: "mL"}, other: scaled("fl oz", 1, 128/(units.LitresPerUSGallon*1000)), chosen: gallons},
	Minutes:     {code: "min", metric: unit{symbol: "min"}, widest: Limits{0, 20160}, kept: 2},
	Hours:       {code: "h", metric: unit{symbol: "h", decimals: 1, drop: true}, widest: Limits{-2400, 8760}, kept: 3},
	WholeHours:  {metric: unit{symbol: "h"}},
	Days:        {metric: unit{symbol: "days", decimals: 1}},
	Percent:     {code: "%", metric: unit{symbol: "%", decimals: 1, drop: true}, widest: Limits{-100, 200}, kept: 3},
	Index:       {widest: Limits{0, 100}, kept: 2},
	IndexPoints: {metric: unit{symbol: "points", decimals: 1}},
	Colour: {code: "EBC", metric: unit{symbol: "EBC"},
		other:  unit{"SRM", 1, false, units.SRMFromEBC, units.EBCFromSRM},
		chosen: srm, widest: Limits{0, 2000}, kept: 3},
	GramsPerLitre: {metric: unit{symbol: "g/L", decimals: 1}, widest: Limits{0, 2000}, kept: 4},
	MgPerLitre:    {metric: unit{symbol: "mg/L"}},
	Bitterness:    {metric: unit{symbol: "IBU"}, widest: Limits{0, 500}, kept: 2},
	PH:            {metric: unit{decimals: 1}},
	CO2Volumes:    {metric: unit{symbol: "volumes", decimals: 1}},
	Pressure:      {metric: unit{symbol: "bar", decimals: 1}, other: scaled("psi", 0, units.KilopascalsPerBar/units.KilopascalsPerPSI), chosen: gallons},
	Regulator:     {metric: unit{symbol: "bar", decimals: 2}, other: scaled("psi", 1, units.KilopascalsPerBar/units.KilopascalsPerPSI), chosen: gallons},
	Flow:          {metric: unit{symbol: "L/min", decimals: 1}, other: scaled("gal/min", 1, 1/units.LitresPerUSGallon), chosen: gallons},
	Power:         {code: "W", metric: unit{symbol: "W"}, widest: Limits{0, 1e6}, kept: 2},
	Energy:        {metric: unit{symbol: "kJ/L"}},
	LitresPerKg: {code: "L/kg", metric: unit{symbol: "L/kg", decimals: 2, drop: true},
		other:  unit{"qt/lb", 2, true, units.QuartsPerPoundFromLitresPerKg, units.LitresPerKgFromQuartsPerPound},
		chosen: gallons, widest: Limits{0, 100}, kept: 4},
	LitresPerHour: {code: "L/h", metric: unit{symbol: "L/h", decimals: 2, drop: true},
		other:  unit{"gal/h", 2, true, units.USGallonsFromLitres, units.LitresFromUSGallons},
		chosen: gallons, widest: Limits{0, 1000}, kept: 4},
	Tenths: {metric: unit{decimals: 1}},
	Factor: {metric: unit{decimals: 2}},
	Raw:    {metric: unit{decimals: -1}},
}

// OfUnit is the kind that a unit of the design file or of a calculation stands
// for; false where a person has no choice of unit.
func OfUnit(code string) (Kind, bool) {
	for k := range Kinds {
		if code != "" && kinds[k].code == code {
			return k, true
		}
	}
	return None, false
}

// Difference is the kind of the difference of two.
func (k Kind) Difference() Kind {
	switch k {
	case Temperature:
		return TemperatureDifference
	case Gravity:
		return Points
	case Index:
		return IndexPoints
	}
	return k
}

// Symbols are those of all units, as English writes them.
func Symbols() (list []string) {
	seen := map[string]bool{"": true}
	for k := range Kinds {
		for _, u := range []unit{kinds[k].metric, kinds[k].other} {
			if !seen[u.symbol] {
				seen[u.symbol] = true
				list = append(list, u.symbol)
			}
		}
	}
	return list
}

// typed says whether a person types values of the kind.
func (k Kind) typed() bool { return k < Kinds && kinds[k].widest != Limits{} }

// number says whether a kind has numbers to show at all.
func (k Kind) number() bool { return k < Kinds && k != None && k != Moment }

// Widest is the range outside which a value of the kind is taken for a slip.
func (k Kind) Widest() Limits {
	if k >= Kinds {
		return Limits{}
	}
	return kinds[k].widest
}

func (l Limits) or(k Kind) Limits {
	if l == (Limits{}) || math.IsNaN(l.Low) || math.IsNaN(l.High) || l.Low > l.High {
		return k.Widest()
	}
	return l
}

func roundTo(v float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Round(v*p) / p
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
