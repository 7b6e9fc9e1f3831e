// Package nextreading says which measurement is expected to narrow the bands of a
// beer most. What comes in are draws of equal weight: what each candidate would show
// in every one of them, and what the qualities come to; before a brew they are taken
// from an engine with its design (beforebrewing.go). What goes out are the candidates,
// the most telling first, with the width that each band is expected to keep, and the
// words for it. It must not know a reading that was made, and adds no draw of its own.
//
// # How
//
// The value of information by the draws at hand: each of some draws is taken for
// the truth, the candidate shows what it shows there and an error of its instrument
// (three nodes of Gauss and Hermite), all draws are weighed by the likelihood of
// that, and the weighted 10 to 90 % of each quality is read off. The mean of those
// widths is what is expected. It is what nested sampling would do with draws of its
// own in the inner loop (the tests hold it against that), at a hundredth of the cost.
package nextreading

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// Candidate is something that could be measured.
type Candidate struct {
	What  string    // its key
	Hours float64   // from now; 0: at once
	Shows []float64 // what it would show in each draw, without its own error
	SD    float64   // 1 sd of that error, in the same unit
}

// Quality is something whose band may narrow.
type Quality struct {
	Key    string // as published, with its unit
	Values []float64
}

// Narrowing is the width of a band, 10 to 90 %, now and as it is expected to be.
type Narrowing struct {
	Key       string
	Now, Then float64
}

// Share is how much of the band is expected to go, 0 to 1.
func (n Narrowing) Share() float64 {
	if !(n.Now > 0) {
		return 0
	}
	return max(1-n.Then/n.Now, 0)
}

// Worth is what a candidate is expected to do.
type Worth struct {
	What       string
	Hours      float64
	Narrowings []Narrowing // in the order of the qualities
}

// Most is the quality that is expected to narrow most, by its share.
func (w *Worth) Most() Narrowing {
	var most Narrowing
	for _, n := range w.Narrowings {
		if most.Key == "" || n.Share() > most.Share() {
			most = n
		}
	}
	return most
}

// Least is the share of a band below which a measurement is not worth its while:
// what the draws themselves leave of noise.
const Least = 0.03

// outcomes is how many draws are taken for the truth.
const outcomes = 64

// narrowestShare holds the error of a candidate to this share of the spread of what
// it shows: with less, too few draws would count. It makes a very exact measurement
// seem a little less telling than it is.
const narrowestShare = 0.12

// nodes and their weights are those of Gauss and Hermite for a standard normal.
var nodes = [...][2]float64{{-math.Sqrt2 * 1.2247448713915890, 1.0 / 6}, {0, 2.0 / 3}, {math.Sqrt2 * 1.2247448713915890, 1.0 / 6}}

// Rank is what each candidate is expected to do, the most telling first. Candidates
// or qualities with another number of draws than the first are left out.
func Rank(candidates []Candidate, qualities []Quality) []Worth {
	var sorted []ordered
	for _, q := range qualities {
		if len(q.Values) > 1 && len(q.Values) == len(qualities[0].Values) {
			sorted = append(sorted, order(q))
		}
	}
	var out []Worth
	for i := range candidates {
		c := &candidates[i]
		if len(sorted) == 0 || len(c.Shows) != len(sorted[0].place) {
			continue
		}
		out = append(out, c.worth(sorted))
	}
	slices.SortStableFunc(out, func(a, b Worth) int { return cmp.Compare(b.Most().Share(), a.Most().Share()) })
	return out
}

// ordered is a quality with its draws in order.
type ordered struct {
	key   string
	value []float64 // rising
	place []int     // the draw of each
	now   float64
}

func order(q Quality) ordered {
	o := ordered{key: q.Key, place: make([]int, len(q.Values)), value: make([]float64, len(q.Values))}
	for i := range o.place {
		o.place[i] = i
	}
	slices.SortFunc(o.place, func(a, b int) int { return cmp.Compare(q.Values[a], q.Values[b]) })
	for k, i := range o.place {
		o.value[k] = q.Values[i]
	}
	even := make([]float64, len(q.Values))
	for i := range even {
		even[i] = 1 / float64(len(even))
	}
	o.now = o.width(even)
	return o
}

// width is from the 10th to the 90th percentile under weights that sum to 1, each
// draw standing at the middle of its weight.
func (o *ordered) width(weights []float64) float64 {
	var at [2]float64
	sum, last, k := 0.0, math.Inf(-1), 0
	marks := [2]float64{0.1, 0.9}
	for i, v := range o.value {
		w := weights[o.place[i]]
		middle := sum + w/2
		for k < 2 && middle >= marks[k] {
			at[k] = v
			if i > 0 && middle > last && last > -1 {
				at[k] = o.value[i-1] + (v-o.value[i-1])*min(max((marks[k]-last)/(middle-last), 0), 1)
			}
			k++
		}
		sum, last = sum+w, middle
	}
	for ; k < 2; k++ {
		at[k] = o.value[len(o.value)-1]
	}
	return at[1] - at[0]
}

func (c *Candidate) worth(qualities []ordered) Worth {
	w := Worth{What: c.What, Hours: c.Hours}
	for i := range qualities {
		w.Narrowings = append(w.Narrowings, Narrowing{qualities[i].key, qualities[i].now, 0})
	}
	n := len(c.Shows)
	sd := max(c.SD, narrowestShare*stat.PopStdDev(c.Shows, nil))
	weights := make([]float64, n)
	truths := min(outcomes, n)
	for k := range truths {
		// By golden steps: every fourth of a low-discrepancy sequence would be a
		// quarter of its range, every fourth of sorted draws a stratum.
		const golden = 0.6180339887498949
		_, u := math.Modf(golden * (float64(k) + 0.5))
		j := int(u * float64(n))
		for _, node := range nodes {
			shown, total := c.Shows[j]+sd*node[0], 0.0
			for i, y := range c.Shows {
				z := 0.0
				if sd > 0 {
					z = (y - shown) / sd
				}
				weights[i] = math.Exp(-z * z / 2)
				total += weights[i]
			}
			for i := range weights {
				weights[i] /= total // never 0: the truth itself is within two sds
			}
			for k := range qualities {
				w.Narrowings[k].Then += node[1] * qualities[k].width(weights)
			}
		}
	}
	for k := range w.Narrowings {
		w.Narrowings[k].Then /= float64(truths)
	}
	return w
}
