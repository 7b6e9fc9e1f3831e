// Package follow compares what was measured in a fermentation with what was predicted,
// and lets each learn from the other: updated bands, the state in words, the honey
// moment, what is left to tune, and whether the beer may be bottled.
//
// A design with its readings and the hour come in, a [Batch] goes out. It must not
// know the window.
//
// It knows no file and no clock: readings come as [design.Reading] and are
// corrected by package measured, "now" is given. All times are compared as instants, so a change of time zone or of the
// clocks inside a fermentation is no matter.
//
// # Units
//
// Gravity SG 20/20, extract °P, temperatures °C, hours after pitching, rates in
// grams of CO2 per litre pitched and hour. sd is one standard deviation.
//
// # The uncertain inputs
//
// θ is a vector of standard normal scores: the columns of package doubt as the
// engine draws them, the clock among them, without the palate, which readings tell
// nothing of; then what the instruments share from reading to reading (the
// spindle's zero, the refractometer's correlation). How much of the sugar goes slowly
// and how little air the wort had are asked once a gravity of the beer was read; a plan
// has neither (package doubt). Prior: independent standard normals; what finished batches have taught of their spread, of the yeast's
// pace, of how warm a mash really is that nobody measured, and of the palate
// comes as [calc.Doubts]. Efficiency, strain and rate are stretched beyond the
// 10th and 90th percentile ([stretch]): there is more in a brewer's life than a
// normal curve's tail, and a measured original gravity far from the plan is a
// fact, not an outlier.
//
// # The forward model
//
// θ gives the beer and its course by [calc.Brew]: nothing of it is stated here.
// The posterior goes back into an engine as draws of equal weight ([Known]), and
// every band of it is what that engine predicts (even.go).
//
// # The likelihood
//
// A gravity: Student's t with five degrees of freedom about the course, scale
// of the instrument and of the model's own error half way down (1 sd 3 % of the
// fall, as the measured series have it; none at both ends). The model errs alike for a day or so: that part
// of the scale grows with the readings about, so that many of one day weigh as one
// ([alike]). The t lets one wrong reading be overruled by the others. Readings within six hours of each other count as one, by their
// median: a logger does not know more than the model. Foam: see foam.go.
//
// Each reading is judged by what all others make of it, and named where that is too
// unlikely for an honest one and the others agree without it (leaveout.go).
//
// Of two gravities between which it rises without honey one is wrong: the one which
// all others, the plan among them, expect less by a factor of ten, else the later. It
// is left out (wrong.go).
//
// A gravity of the wort, before the boil, after it or at pitching, is one of its
// extract: before the boil in the volume of the vessel, as well as that is known.
//
// # The update
//
// The posterior mode by damped Gauss and Newton steps. Where a reading is off the
// others, more modes are looked for, in which it is the others that are wrong.
// The curvature at each gives a normal approximation; along the directions that
// the readings tell of it is given the tails of Student's t with four degrees of
// freedom. 256 quasi-random draws (Halton, Owen-scrambled, whitened, fixed seed;
// twice as many for several modes) of the mixture of these and a tenth of the
// prior are weighted by posterior over proposal (defensive mixture importance
// sampling: Hesterberg 1995, from memory). While too few count, as many are added
// about their weighted mean and covariance, up to four times, and all are weighted
// over the mixture of every proposal (adaptive multiple importance sampling: Cornuet
// and others 2012, from memory).
//
// Tests hold means, sds and percentiles against brute-force quadrature of
// problems of two and three inputs: means agree within a tenth of the posterior's
// sd, sds within an eighth of themselves.
//
// # What it does not know
//
// A beer's temperature is that of its last reading, to a degree or so. A stuck
// yeast is not in the model: it is told by rule (see [State]). No openly
// licensed gravity series of a small honey beer was found to check the model's
// own error against; the day for which it errs alike is ours.
package follow
