// Package boil says what hops give in the boil and after it, and how the vessel cools
// meanwhile.
//
// Hops in g with their alpha acids, minutes and the wort come in; IBU and temperatures
// in °C go out. It must not know a design.
//
// Symbols and units: t minutes; T temperature (°C in arguments, K in the
// kinetics); G wort SG; alpha the hops' alpha acids, % by mass, or mg/L once in
// the wort; bitterness in IBU (absorbance at 275 nm of the acid iso-octane
// extract, times 50).
//
// Sources:
//
//   - boil: G. Tinseth's utilisation, U = 1.65 * 0.000125^(G-1) * (1 - e^(-0.04 t))/4.15,
//     table for SG 1.030 to 1.130, 0 to 33 min ([TinsethUtilisation]).
//   - stand: M. G. Malowicki & T. H. Shellhammer, J. Agric. Food Chem. 53 (2005)
//     4434, first-order kinetics measured at 90 to 130 °C and pH 5.2; cooler is
//     extrapolated ([Isomerise]).
//   - saturation and what is counted that is no iso-alpha: laboratory
//     measurements by J.-P. Hosom, articles 10 and 13 ([EffectiveAlpha], [IBU]).
//   - cooling: our own heat loss by evaporation and by the walls, its two
//     constants fitted to 11 of Hosom's kettle runs, article 16, and checked on 6
//     others ([Kettle.Cool]).
//   - run-off: counterflow effectiveness by transfer units ([Chiller]).
//
// What is not known. The fall of utilisation with gravity is Tinseth's; two
// laboratory series found none up to SG 1.075. Alpha falls in storage by
// a tenth to a half a year. So a bitterness is a band ([Band]) and a quarter
// either way is ordinary.
package boil
