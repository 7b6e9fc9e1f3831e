// Package tune finds lever settings for a taste, and says what the levers can reach.
//
// A design and a wish come in; ways, each a setting of the levers with where it lands,
// go out. It must not know how they are shown.
//
// A taste is any of dryness and body (index, 0 to 100) and strength (% by
// volume). Where a beer lands is the mid value, the 50th percentile, of each,
// as package calc predicts it.
//
// # How it searches
//
// The mid values come from hundreds of draws; the middle draw alone is nearly
// as good and a hundred times quicker. So the search runs on the middle draw
// with its bias at the present setting taken out, and what it finds is landed
// with all draws, mended where the bias was another, and landed again.
//
// The search is over the whole range of the levers: a grid, the best of its
// places followed downhill (Levenberg and Marquardt's damped least squares,
// within the ends of the levers), then rounded lever by lever to what can be
// set, the finer levers making up for the coarser. The same is done for every
// choice of up to three levers with the others as they are: these are the ways
// a person would think of. All of it is the same each time: no random starts,
// no clock.
//
// Misses are counted in index points; a tenth of a percent of strength counts
// as two, since the two are the tolerances within which a taste is reached.
package tune
