// Package carbonation follows carbon dioxide: what water and beer hold at a
// temperature and pressure, what is left after fermentation, what a primer adds, and
// what a bottle then has to stand.
//
// Temperatures, pressures and grams of primer come in; volumes, grams and bars go out.
// It must not know a design.
//
// Units: volumes are litres of CO2 gas at 0 °C and 1 atm per litre of beer
// (22.263 L/mol, the real gas; 22.414 would be 0.7 % off); g/L; kPa absolute;
// bar gauge above 1 atm.
//
// Sources:
//
//   - water: J. J. Carroll, J. D. Slupsky, A. E. Mather, J. Phys. Chem. Ref. Data
//     20 (1991) 1201, 273 to 433 K, below 1 MPa ([MoleFraction]).
//   - beer: two regressions of the ASBC chart as brewers quote them ([ChartVolumes]);
//     where the chart itself comes from is unknown (Speers & MacIntosh 2013).
//   - residual CO2 at 1 atm: a regression quoted by brewers, within 3 % of pure
//     water at 15 to 25 °C ([ResidualVolumes]).
//   - primers: stoichiometry, C6H12O6 -> 2 CO2, no yield lost to yeast growth.
//   - extract left over: Balling, 0.9565 g CO2 of 2.0665 g real extract.
//
// Bottle pressure takes beer to hold 0.945 of what water does ([BottleBarAbs]) and
// ignores the headspace and the air in it: an estimate, never a permission.
// Bottles that are scratched, reused or warm are weaker than their rating.
package carbonation
