// Package ferment follows a primary fermentation hour by hour: what is eaten, what
// gravity shows, how fast carbon dioxide leaves, when the height is, when the honey
// window opens and closes, when it is finished, and how sure that is.
//
// A wort with its sugars in g/L, a pitch and temperatures come in; courses by the hour
// go out. It must not know a design, nor a reading.
//
// [Run] is the entry for whoever uses the package as a library, and for the measured
// fermentations that it is held to: a wort by the hour, its input checked. The program
// follows its draws by [Walk] and [Fermentation], which Run stands on.
//
// # Equations
//
// In the clock of the yeast τ (hours of full activity at 20 °C), amounts per litre
// of the wort pitched, in the manner of Gee & Ramirez, J. Inst. Brew. 100:321, 1994:
//
//	v   = V/(1 + E/80)                          a cell's uptake in E g/L of alcohol
//	c   = v · 120/(120+G) · 1/(22.4+M+N)          the carrier of maltose and maltotriose
//	mu1 = 1.25 v G/(20+G)    mu2 = c M    mu3 = 0.6 c N
//	G' = -mu1 X    M' = -mu2 X    N' = -mu3 X    D' = -kD D
//	X' = γ (0.134 mu1 + 0.268 mu2 + 0.402 mu3) X · (1 - X/(1.5 X0 + 4.5 · 125)) · w(E)
//
// G hexose, M maltose, N maltotriose (mol/m³) and D dextrin (g/L): only the
// part that the strain takes ([yeast.Take]); the rest never ferments. X yeast in
// the units of Gee & Ramirez, 125 mol/m³ at the usual pitch, X0 what is pitched.
// The sugars stand as concentrations in what the fermenter holds at the time.
// kD = 0.010 1/h (ours: a diastatic strain is finished in two weeks or so).
//
//   - Uptake: hexose has carriers of its own and holds the other sugars back; maltose
//     and maltotriose share one, so that neither waits for the other to be gone. The
//     half-saturation of hexose, and how strongly it holds back, are ours within what
//     is published of brewer's yeast (from memory); apparent extract alone cannot
//     tell them, and what it can is in V. That of the carrier sets how long the rate
//     holds, and so where the height is: measured courses have it at the half-way
//     hour, with 40 it came a quarter too early.
//   - Growth ends where the sterols do that the cells bring and that the air of the
//     wort lets them make (the quota of Droop 1968, from memory: cells share what
//     there is). More yeast pitched: faster, and fewer grown (Verbelen et al., Appl.
//     Microbiol. Biotechnol. 82:155, 2009). So the time does not hang on the sugar
//     as such: weak worts are not last to be done.
//     What the air makes is less where there was little of it, and a part of maltose
//     and maltotriose may be as slow as dextrin (spread.go): both none in a plan, asked
//     where a beer is followed.
//   - w(E): growth falls with alcohol (Warren, Hill & Macdonald, Biotechnol. Prog.
//     6:319, 1990); uptake falls less: v.
//   - Dextrin that a diastatic strain frees is eaten as it is freed.
//
// V, the carrier's half-saturation, γ, the activation and the usual lag are fitted
// in calc/record, in the open, to four measured fermentations and a few rows of the
// trade; five more measured ones and the times of thirty others are its checks.
// Courses of this form begin later, fall faster and stop sooner than those of Gee & Ramirez' own
// constants, as measured ones do.
//
// # Temperature, rate and lag
//
// Everything the yeast does follows temperature by one activity, exp(-Ea/RT) with
// Ea = 17.8 kcal/mol (between the 22.6 of hexose and the 11.3 of maltose of Gee &
// Ramirez; half-saturations and yields do not move, as Coleman, Fish & Block, Appl.
// Environ. Microbiol. 73:5875, 2007, found for wine). So a change of temperature, a
// rate factor s and a lag are exactly a change of clock: τ(t) = s·a(T)·w(t), w(t)
// rising smoothly from 0 to t - lag between half and one and a half times the lag.
// The lag is given as at 20 °C and is longer where it is colder, by the same
// activity; it does not follow the pitch.
//
// # Mass
//
// Balling on fermented extract: 2.0665 g of extract make 1 g of ethanol,
// 0.9565 g of CO2 and 0.11 g of yeast, whatever the sugar. Water taken up in
// hydrolysis (5 % for maltose and sucrose, 7 % for maltotriose, 11 % for
// dextrin) is in Balling's figures for an all-malt wort; honey, which is
// mostly single sugars, makes 4 to 5 % less alcohol per gram than they say.
// Extract is conserved exactly; the change of volume by fermenting (about half
// a percent) is not modelled.
//
// # Range
//
// Rates hold from 4 to 30 °C; outside they are held at the bound, with a
// warning. Not modelled here: want of nutrient, harm by cold, heat or alcohol
// (package stress says how likely it is; a warning above 24 °P), and the slow secondary attenuation of months (an
// ale of USDA Bulletin 493 fell from 1.0253 to 1.0208 in eleven weeks).
package ferment
