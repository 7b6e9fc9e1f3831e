// Package honey gives what honey brings into a beer: water, sugars, density, live
// enzymes and character.
//
// Moisture, a variety and temperatures come in; shares, litres and activities go out.
// It must not know which beer the honey goes into.
//
// Units: moisture in % by mass, 10 to 30 (legal honey 13 to 20, heather to 23);
// temperatures in °C; spectra as shares of the honey's solids, which sum to 1.
//
// Sources:
//
//   - moisture from refractive index: Wedmore 1955, checked against all rows of
//     Chataway's table (Bogdanov, Book of Honey, ch. 4). The constant is often
//     printed as 1.73190: that is a logarithm with a barred characteristic,
//     -1 + 0.73190 = -0.26810; as printed it gives 900 % water.
//   - composition of blossom honey: White 1962, 490 US honeys. Honeydew: the
//     same survey, from memory. Limits: directive 2001/110/EC.
//   - fermentable share of solids: 0.90 to 0.95 by composition (derived), the
//     trade says over 0.95.
//   - density at 20 °C: White's table, from memory; 1.423 at 17 % and 1.417 at
//     18 % were read on trade pages (another has 1.423 at 15 %: they disagree).
//   - diastase half-lives: Crane 1980, Table 8, undiluted honey.
//   - what CO2 carries off: equilibrium stripping, Morakul 2010; what the hot
//     side loses: Gahr and others 2019. The mixture is ours: see [Character].
package honey
