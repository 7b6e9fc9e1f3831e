// Package quantity is the only place where Skep turns numbers into text for a
// person and a person's text into numbers.
//
// Inside Skep every quantity is metric and its unit stands in its name; what a
// person sees and types is in the units they chose ([Units]). The metric unit
// of each [Kind] is:
//
//	Temperature            °C      TemperatureDifference  °C (kelvin)
//	Gravity                SG      Strength               % by volume
//	MassG                  g       MassKg                 kg
//	Volume                 L       Minutes                min
//	Hours                  h       Percent                %
//	Index                  0..100  Colour                 EBC
//	GramsPerLitre          g/L     Bitterness             IBU
//	LitresPerKg            L/kg    LitresPerHour          L/h
//
// A [Formatter] shows no more digits than the quantity deserves; a [Parser]
// takes what people type ("151F", "66,5", "12 °P", "1 lb 3 oz", "1h 30m",
// "73-78"), says how it read it, and refuses anything else with the reason.
//
// The package knows no toolkit: the translation function is handed in (words.T
// fits), so commands without a display may use it too.
package quantity
