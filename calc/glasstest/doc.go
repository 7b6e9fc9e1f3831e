// Package glasstest says what blind comparisons tell of one person's palate. What
// comes in are pairs of beers in two unlabelled glasses, with what they hold and
// what the taster answered (which is drier, which is fuller), and triangles of
// three glasses. What goes out is how sweet malt's sugars and how full alcohol are
// to this person, as scores of package taste's weights, and whether anybody could
// tell two beers apart at all. It knows no file, no window and no chance: who pours
// in which order is not its matter.
//
// # The model
//
// Two unknowns, each standard normal without any answer: how sweet maltose,
// maltotriose and dextrin taste (malt), and how full alcohol is (alcohol). For a
// pair the index of each beer follows from its composition and the palate; their
// difference d is felt with a noise of its own. With a slope k = 1.8/jnd and a
// threshold t:
//
//	P(first)  = (1-g) L(k (d - t)) + g/3         L the logistic function
//	P(second) = (1-g) L(k (-d - t)) + g/3
//	P(alike)  = what is left
//
// (paired comparison with ties after Rao and Kupper, J. Am. Stat. Assoc. 62, 1967;
// from memory.) jnd, the least difference that is noticed three times in four,
// about 8 index points (ours), t and the share g of answers that are guesses are
// not known either: each has a few values with prior weights, and the posterior is
// the exact sum over all of them, so that answers that follow no palate are taken
// for guesses and leave the palate where it was.
package glasstest
