// Package water follows the liquor of the day through one vessel, from the tap to the
// fermenter and back, and the heat it carries.
//
// A kit's numbers, masses and times come in; litres, °C and minutes go out. It must
// not know a design.
//
// # The vessel
//
// Mash, boil and whirlpool happen in one pump-recirculated vessel; the grain
// hangs in it in a basket. So the liquor under the bed, which the pump cannot
// draw, thins no mash (it is added to mash.liquor_l_per_kg) but is not lost
// either: it stays in the vessel and is boiled with the rest.
//
// # Volumes, all in litres
//
//	mash liquor     at 20 °C: liquor_l_per_kg times the grist, and what lies under the bed
//	sparge          at 20 °C
//	pre-boil        hot, at the boiling point, before the boil takes or honey adds anything
//	post-boil       hot, at the end of the boil, boil honey in, whirlpool honey not yet
//	cool            at 20 °C, everything in the vessel after the whirlpool
//	into fermenter  at 20 °C: cool less what stays with hops and break and in the chiller
//	packaged        at 20 °C: with the late honey, less what stays on the yeast
//
// Steam is counted as litres of water at 20 °C. What grain holds is the net
// loss that a brewer measures: liquor in less wort out, both cool. Honey of
// the boil counts from post-boil on, honey of the whirlpool from cool on;
// honey at pitching and later is not in "into fermenter" but needs room in the
// fermenter and ends up packaged.
//
// # Bookkeeping
//
// Every stage is held as kilograms of water and of extract ([Liquid]); litres
// follow from the density of sucrose solutions (package density). Nothing is
// created or lost: what goes in is found in the fermenter, the break, the
// chiller, the steam or the spent grain. Laboratory extract is taken as dry
// matter dissolved: the water that starch binds when it is split (a few per
// cent of the extract) is already counted in it.
package water
