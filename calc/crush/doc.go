// Package crush says what a crush of malt will do in a recirculated mash: from what
// stays on each of a set of sieves, or from what the eye sees.
//
// Shares on sieves or answers come in; the coarseness, and what it does to yield and
// run-off, go out. It must not know a design.
//
// # Sieves
//
// The set is the plansifter's of the trade, openings in mm ([sieveMM]); a
// sieving is what stays on each, and what falls through, in % of the grist.
//
// # Scale
//
// One number says how coarse a grist is: the mean logarithm of the particle
// size, each fraction taken at the middle of its sieves, stretched so that the
// three published grists stand at
//
//	-1  for a mash tun    (coarse, a deep bed that drains by itself)
//	 0  for a lauter tun  (what a pumped bed wants)
//	+1  for a mash filter (flour and torn husk: sets like cement in a bed)
//
// Source of the three: a brewers' supplier's table of grists (two of its
// figures, 53 % on the coarsest sieve and 36 % on the finest, are a reading of
// a damaged page; the columns then sum to 100 or 101). That a basket with a
// pump is nearest to a lauter tun, and where one word gives way to the next,
// is common practice, no source.
//
// # Efficiency
//
// A coarse crush costs 2 to 3 points of mash efficiency, a too coarse one 5 to
// 10 (common practice, no source); a fine one costs a stuck bed, not yield
// ([EfficiencyPoints]).
package crush
