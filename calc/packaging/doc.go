// Package packaging says when beer may be closed into a bottle: how much gravity the
// bottle can still take ([HeadroomPoints]), how far apart two equal readings must lie
// for what is in this beer ([GapDays]), what they can have missed all the same
// ([MissedPoints]), and what a forced fermentation tells instead ([Forced]).
//
// Gravities, what the beer holds and days come in; points, days and pressures go out.
// It must not know a design, nor a reading's file.
//
// Units: points are thousandths of SG 20/20; volumes are litres of CO2 gas at
// 0 °C and 1 atm per litre of beer; days; °C; bar absolute.
//
// # The argument
//
// What still ferments at the end falls off by halves: what is left after a gap
// of D days is 2^(-D/h) of what was left before it, h being the half-life of the
// slowest thing in the beer. A hydrometer that shows the same twice can have
// missed a fall of one mark, so that at most mark/(2^(D/h) - 1) is to come. The
// gap is the least, and never under two days, for which that fits into the
// bottle. This is arithmetic and derived here; on 54 open series of ordinary
// yeasts equal readings 24 h apart left more than a point to come in 2 % of the
// cases, 48 h apart in none (Sheffield Hallam University, fluid above 15 °C; the
// series end at 120 to 130 h, so that later creep is not seen).
//
// # What counts
//
// Only readings of warm beer within the predicted band count: before the start
// 20 of the same 54 series stood still for a day and 4 for three days, and beer
// chilled unfinished went on by 0.3 to 0.9 points a day at 5 °C between readings
// that were equal.
//
// # The half-lives
//
// They are ours, from what was read of each (see [Tail]), and wide. What can't be
// known is an infection: a trace of a strain that eats dextrin takes months. No
// figure here is a permission; bottles that are scratched, reused or warm are
// weaker than their class.
package packaging
