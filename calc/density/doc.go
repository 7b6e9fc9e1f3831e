// Package density ties specific gravity, extract and temperature together.
//
// One of the three comes in with its temperature, another goes out. It must not know
// which liquid it is of.
//
// Symbols and units:
//
//	SG     specific gravity, 20 °C / 20 °C, weighed in air (what a brewing
//	       hydrometer is marked in); water is 1
//	Plato  °P, % by mass of extract as sucrose; °Bx (Brix) is the same scale
//	       within 0.0005
//	kg/m³  true density, in vacuo; g/L of extract per litre at 20 °C
//
// Beer and wort range: SG 0.95 to 1.18, -13 to 40 °P. Inside it the two
// directions of every conversion agree to better than 1e-11.
//
// Apparent extract below 0 °P is real and common in honey beers and with
// diastatic strains: nothing here clamps it.
//
// Sources, with the tables they were checked against in testdata/density:
//
//   - ASBC cubic, °P from SG (an encyclopaedia's table page; beer range). It
//     parts from the sucrose table by 0.005 °P and more above 24 °P.
//   - sucrose density by mass fraction and temperature: the polynomial printed
//     by Llano-Restrepo 2005 (the ICUMSA 1990 density polynomial; that name is
//     from memory), 0 to 80 °C.
//   - water density: Kell's rational form, 0 to 100 °C.
//   - glass expansion 25e-6 per K: the constant of the OIML alcoholometer
//     tables, for soda-lime glass.
//   - refractive index to Brix: ICUMSA fit, 20 °C, 589.3 nm.
//   - refractometer temperature correction: fitted to the OIV compendium,
//     Table I (see refractometer.go).
//
// The conversions are plain arithmetic and pass NaN through; [CheckSG] and
// [CheckPlato] refuse what is out of range, with the range, and belong at the
// door where a person's number comes in.
package density
