package glasstest

import (
	"math"

	"skep/calc"
	"skep/calc/taste"
)

// Answer is what a taster said of a pair.
type Answer int

// The answers.
const (
	NotAsked Answer = iota
	First           // has more of it
	Second
	Alike // can't be told apart
)

// Pair is two beers that were tasted blind, and what was said.
type Pair struct {
	First, Second taste.Glass
	Drier, Fuller Answer
}

// Score is one unknown of a palate: its mean and sd in prior sds.
type Score struct{ Mean, SD float64 }

// Palate is what the pairs have told.
type Palate struct {
	Malt    Score // how sweet malt's sugars taste; above 0: sweeter than to most
	Alcohol Score // how full alcohol is
	// Guessed is the share of the answers that are taken for guesses, 0 to 1.
	Guessed float64
	Pairs   int // with any answer
}

// Into puts the palate into the doubts of a prediction; nil, or one of which no pair
// has told, changes nothing. Where beers were tasted and given a number, that lesson
// holds the palate's part already: the less of its doubt is left, the less the glass
// test moves; and where it has told of body, alcohol moves nothing more.
func (p *Palate) Into(x calc.Doubts, bodyTaught bool) calc.Doubts {
	if p == nil || p.Pairs == 0 {
		return x
	}
	share := 1.0
	if x.SweetShare > 0 {
		share = x.SweetShare
	}
	x.MaltSweet = calc.Score{Mean: share * p.Malt.Mean, SD: p.Malt.SD}
	x.AlcoholFull = calc.Score{Mean: share * p.Alcohol.Mean, SD: p.Alcohol.SD}
	if bodyTaught {
		x.AlcoholFull.Mean = 0
	}
	return x
}

// Settled is the number of pairs from which a palate may be called learnt; below it
// the answers move a little, no more (design notes: ten pairs narrow by a third at
// most).
const Settled = 10

// The grids.
const (
	side     = 17
	reach    = 2.5 // scores: package taste's weights stay beyond
	logistic = 1.8 // slope times jnd: three in four at one jnd, near enough
)

type level struct{ value, weight float64 }

var (
	jnds       = [...]level{{4, 0.25}, {8, 0.5}, {16, 0.25}}                // index points
	thresholds = [...]level{{0.15, 0.3}, {0.5, 0.5}, {1, 0.2}}              // shares of the jnd
	guesses    = [...]level{{0.02, 0.3}, {0.15, 0.4}, {0.5, 0.2}, {1, 0.1}} // shares of the answers
)

// Hear is the palate after some pairs, in any order. Pairs without an answer are
// left aside.
func Hear(pairs []Pair) Palate {
	var p Palate
	p.Malt.SD, p.Alcohol.SD = 1, 1
	var asked []Pair
	for _, x := range pairs {
		if x.Drier != NotAsked || x.Fuller != NotAsked {
			asked = append(asked, x)
		}
	}
	if p.Pairs = len(asked); p.Pairs == 0 {
		return p
	}
	axis := make([]float64, side)
	for i := range axis {
		axis[i] = -reach + 2*reach*float64(i)/(side-1)
	}
	nuisances := len(jnds) * len(thresholds) * len(guesses)
	logs := make([]float64, 0, side*side*nuisances)
	most := math.Inf(-1)
	differences := make([][2]float64, len(asked))
	for _, malt := range axis {
		for _, alcohol := range axis {
			for i := range asked {
				dry1, full1 := asked[i].First.Taste(malt, alcohol)
				dry2, full2 := asked[i].Second.Taste(malt, alcohol)
				differences[i] = [2]float64{dry1 - dry2, full1 - full2}
			}
			prior := -(malt*malt + alcohol*alcohol) / 2
			for _, j := range jnds {
				for _, t := range thresholds {
					// What does not hang on guessing is worked out once.
					chance := answers(asked, differences, j.value, t.value)
					for _, g := range guesses {
						log, product := prior+math.Log(j.weight*t.weight*g.weight), 1.0
						for _, c := range chance {
							if product *= (1-g.value)*c + g.value/3; product < 1e-200 {
								log, product = log+math.Log(product), 1
							}
						}
						log += math.Log(product)
						logs = append(logs, log)
						most = max(most, log)
					}
				}
			}
		}
	}
	total, n := 0.0, 0
	var sum, squares [2]float64
	for _, malt := range axis {
		for _, alcohol := range axis {
			for range len(jnds) * len(thresholds) {
				for _, g := range guesses {
					w := math.Exp(logs[n] - most)
					n++
					total += w
					p.Guessed += w * g.value
					for k, z := range [2]float64{malt, alcohol} {
						sum[k] += w * z
						squares[k] += w * z * z
					}
				}
			}
		}
	}
	p.Guessed /= total
	for k, s := range []*Score{&p.Malt, &p.Alcohol} {
		s.Mean = sum[k] / total
		// The grid ends at 2.5 sds, where the prior's own sd is a little below 1.
		s.SD = min(math.Sqrt(max(squares[k]/total-s.Mean*s.Mean, 0))/gridSD, 1)
	}
	return p
}

// gridSD is the sd of a standard normal on the grid.
var gridSD = func() float64 {
	total, squares := 0.0, 0.0
	for i := range side {
		z := -reach + 2*reach*float64(i)/(side-1)
		w := math.Exp(-z * z / 2)
		total, squares = total+w, squares+w*z*z
	}
	return math.Sqrt(squares / total)
}()

// answers are the chances of all that was said, without guessing.
func answers(pairs []Pair, differences [][2]float64, jnd, threshold float64) []float64 {
	out := make([]float64, 0, 2*len(pairs))
	for i := range pairs {
		for k, a := range [2]Answer{pairs[i].Drier, pairs[i].Fuller} {
			if a != NotAsked {
				out = append(out, Chance(a, differences[i][k], jnd, threshold*jnd))
			}
		}
	}
	return out
}

// Chance is how likely an answer is that is no guess, by what the first has more than
// the second, the difference just noticed and the threshold, all in index points.
func Chance(a Answer, differenceIndex, jndIndex, thresholdIndex float64) float64 {
	l := func(x float64) float64 { return 1 / (1 + math.Exp(-logistic*x/jndIndex)) }
	switch a {
	case First:
		return l(differenceIndex - thresholdIndex)
	case Second:
		return l(-differenceIndex - thresholdIndex)
	}
	return max(1-l(differenceIndex-thresholdIndex)-l(-differenceIndex-thresholdIndex), 0)
}
