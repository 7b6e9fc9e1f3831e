// Package alcohol turns extracts into strength, attenuation and energy.
//
// Extracts in °P and gravities come in; strength in %, attenuation and kJ go out. It
// must not know which beer they are of.
//
// Symbols and units:
//
//	OE   original extract, °P
//	AE   apparent extract, °P: what a hydrometer shows in beer; may be negative
//	RE   real extract, °P: what is left when the alcohol is taken away
//	ABW  alcohol, % by mass; ABV, % by volume at 20 °C
//	RDF  real degree of fermentation (ASBC), %
//
// Sources:
//
//   - Balling: 2.0665 g of extract make 1 g of ethanol, 0.9565 g of CO2 and
//     0.11 g of yeast (course formula sheet; Nielsen and others; EBC).
//   - RE = 0.1808 OE + 0.8192 AE (several pages; the modern line). Balling's own
//     table of alcohol factors (after Eckhardt 1995) lies 0.4 % (6 °P) to 2.4 %
//     (30 °P) below what this line gives; we use the line, as the trade does.
//   - Cutaia, Reid and Speers, J. Inst. Brew. 115:318-327, 2009: 532 beers; the
//     chain RE from OE and AE, then ABW from OE and RE, meets their means
//     within 1 %. Their own formula is [CutaiaABW], a cross-check.
//   - OIML R 22 (1975): density of ethanol in water.
//   - UK excise factor table (Notice 226, section 30.3), a legal rule rather
//     than physics; see [DutyStrength].
//   - Energy: EBC, 6.9 kcal/g alcohol and 4.0 kcal/g extract less 0.1 % for ash.
//
// ABV is ABW times the beer's density over that of ethanol, both in kg/L at
// 20 °C. Written with the specific gravity 20/20 that is ABW · SG/0.7907; the
// form ABW · SG/0.7893 that is also printed takes SG for a density and comes
// out 0.18 % of the value higher (5.136 for 5.127 % by volume).
//
// Range: OE 0 to 40 °P, AE -5 to 40 °P. The plain functions are arithmetic
// without checks and pass NaN through; [CheckStrength] belongs at the door.
//
// Beer with honey: the original extract that fermented is the malt's and the
// honey's together in the final volume (effective original gravity). Give that
// to [Strength], not the reading taken before the honey went in.
package alcohol
