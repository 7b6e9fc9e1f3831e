// Package learn says what finished batches have taught about one brewer's kit, hands
// and palate, how sure that is, and how the next prediction uses it. It knows no file
// and no clock: a batch is a design with its readings.
//
// Batches come in, [Lessons] go out, and a design as this kit makes it. It must not
// know where the batches lie.
//
// # Lessons
//
//	efficiency    mash efficiency, %: original gravity and litres in the fermenter
//	boil-off      L/h: litres or gravity before the boil against those after it
//	thermometer   °C the mash is warmer than set: readings of the mash against the rest
//	attenuation   of each strain, apparent % on the reference wort: final gravity
//	speed         of each strain, time to the height over the predicted: gravities, foam
//	dryness, body index points a person perceives more than is predicted from
//	              the gravities as measured
//
// The first three belong to a kit: they are heard from its own batches and act on
// its designs alone ([Kit]). Those of a strain and of the palate go with the
// person from kit to kit.
//
// # The model
//
// Of each lesson a batch gives one number y with an error of measurement s:
//
//	y  ~ N(m + u, σ² + s²)     u of the batch's strain; 0 where there are no strains
//	u  ~ N(0, (a τu)²)         strain from strain
//	m  ~ N(m0, (a τm)²)        this kit, these hands
//	σ  = b σ0                  batch from batch
//
// With a and b given that is the normal-normal hierarchy: everything closed,
// the posterior mean a mean weighted by precision, shrunk to the prior. How far
// a kit may be from its prior (a) and how much its batches scatter (b) are not
// known: each has a few values with prior weights ([usualScales]), and the
// posterior is the exact mixture over them, weighted by the marginal likelihood
// (conjugate within, summed over the grid; no sampling, no iteration). A strain
// not brewed yet borrows m from the others.
//
// Given the variances, more evidence never widens. Over the grid a batch that
// contradicts the others may: it tells that the batches scatter more than was
// thought.
//
// # What the numbers are
//
// m0 and the spreads add up to what the engine draws without any batch
// (efficiency 2 points, kit.rest_error_c, mash.MaltSDPoints, the strain's own
// range): prior.go says which share is the kit's and which the batch's; that
// division is ours. m0 is the design's own value (the reference).
//
// # How a prediction uses them
//
// [Lessons.Apply] puts into a copy of the design what it has keys for
// (efficiency, boil-off, the strains' ranges, kit.rest_error_c) and hands the
// rest on as [Doubts], for the engine and for package follow: spreads, the
// yeasts' pace, how much warmer than set the mash is (the rests stay as set),
// and the palate, with which dryness and body are predicted as this person
// perceives them. [Measure] reads batches without any of it: what is learnt is
// no part of what it is learnt from.
//
// # What is left out
//
// Errors that stay from batch to batch (a spindle that reads 0.001 high, a mark
// a tenth of a litre off) can't be told from the kit's own figure and are
// learnt with it: right for predicting what this brewer will measure. Batches
// are taken as alike in time; a new pump or mill is a reason to leave the old
// ones out.
package learn
