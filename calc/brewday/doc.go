// Package brewday works a design out into a day: what to buy and weigh, and what to do
// in order, from the crush to the closed bottle, each step with its numbers, the
// reason, what can hurt, what does not fit this vessel, and what to measure. The
// window and the printed sheet both show a [Day]; it holds no formatted number, so
// either can show it in the person's own units.
//
// A design with its prediction comes in, a [Day] goes out. It must not know a screen,
// a page, nor the hour.
//
// # How text carries numbers
//
// A [Sentence] is a text with a place {} for each of its quantities, in their
// order; a [Quantity] is a metric value with its kind (and, where it is
// uncertain, its band). [Sentence.In] puts them together.
//
// # Where the numbers come from
//
//	volumes, strike, heating     package water (backwards from batch.into_fermenter_l)
//	gravities of the day         the same, with the extract that gives the engine's original gravity
//	bitterness, stand, run-off   package boil
//	crush                        package crush
//	priming and pressure         package carbonation
//	beer, window of the honey    the prediction handed in
//	stress of the yeast          the same, in the words of package stress
//	what does not fit the vessel package water
//	what can hurt                package cautions
//
// Paces, portions, waits and doses that brewers go by are common practice, no
// source, unless a source stands beside the constant. The whole is an estimate
// for this kit as the design describes it: it never says that something is
// safe, and defers to local law and the makers' instructions.
package brewday
