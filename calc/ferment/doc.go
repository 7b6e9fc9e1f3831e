// Package ferment follows a primary fermentation hour by hour: what is eaten,
// what gravity shows, how fast carbon dioxide leaves, when the height is, when
// the honey window opens and closes, when it is finished, and how sure that is.
//
// # Equations
//
// Sequential uptake after Gee & Ramirez, J. Inst. Brew. 100:321, 1994 (read
// through two independent re-implementations, design notes, section 4), in the
// clock of the yeast τ (h), amounts per litre of the wort pitched:
//
//	mu1 = VG G/(KG+G)
//	mu2 = VM M/(KM+M) · KiG/(KiG+G)
//	mu3 = VN N/(KN+N) · KiG/(KiG+G) · KiM/(KiM+M)
//	G' = -mu1 X    M' = -mu2 X    N' = -mu3 X    D' = -kD D
//	X' = γ (0.134 mu1 + 0.268 mu2 + 0.402 mu3) X · KX/(KX + (X-X0)²)
//
// G hexose, M maltose, N maltotriose (mol/m³) and D dextrin (g/L): only the
// part that the strain takes ([yeast.Take]); the rest never ferments. X yeast
// in the units of the source, 125 mol/m³ at the usual pitch. In the Monod and
// repression terms the sugars stand as concentrations in what the fermenter
// holds at the time. V and K by temperature: [Kinetics.At].
//
// # Departures from the source, and why
//
//   - The K are held at their 16 °C values above it (the source was fitted at
//     4 to 16 °C; extrapolated, they collapse).
//   - KG is 20 mol/m³ throughout. The published KG falls from 26 (4 °C) to
//     0.15 (16 °C): glucose would vanish between one minute and the next, with
//     a spike in the CO2 rate and a stiff system. 20 mM is the low-affinity
//     hexose uptake of brewer's yeast (from memory: Bisson & Fraenkel 1983).
//   - Three factors are fitted in package calibration: the rate (all V and
//     kD), the affinity (KM and KN) and the growth γ. As published, the yeast
//     grows by half only and the last tenth takes as long again as the rest:
//     no rate scale alone meets both the midpoint and the completion of ales.
//   - Dextrin that a diastatic strain frees is eaten as it is freed.
//
// # Lag and scaling
//
// Every rate has one common factor, so a rate factor s is exactly a change of
// clock, and so is the lag: τ(t) = s·w(t), w(t) rising smoothly from 0 to
// t - Lag between half and one and a half times the lag. Hence a milestone at
// τ falls at t = Lag + τ/s (exactly, once past the smooth start): [Timing]
// gives the times of any draw of rate and lag without integrating anew. The lag
// is taken as given, whatever the temperature and the pitch.
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
// warning. Not modelled: want of nutrient or oxygen, harm by alcohol or sugar
// (a warning above 24 °P), and the slow secondary attenuation of months (an
// ale of USDA Bulletin 493 fell from 1.0253 to 1.0208 in eleven weeks).
package ferment
