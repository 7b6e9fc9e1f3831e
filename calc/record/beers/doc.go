// Package beers lists the outside checks of the engine as a whole: measured
// beers beside what it predicts, honey beers above all, and for each how the
// band of doubt holds the measured value. It is for tests and the validation
// report; the program does not link it.
//
// A band is right when about four in five measured values lie between its 10th
// and 90th percentile: never and always are both wrong. [Coverage] counts.
//
// What a source does not tell (its strain, its mash, its honey) is taken as
// ordinary and wide, and said in the row. Nothing here was fitted.
package beers

import (
	"fmt"

	"skep/calc/record"
)

// Held is one measured value and the band that should hold it.
type Held struct {
	Group          string // rows that are counted together
	Quantity       string
	Unit           string
	Published      float64
	Source         string
	Low, Mid, High float64
	Why            string // what is known of a miss
}

// Inside tells whether the band holds the value.
func (h Held) Inside() bool { return h.Published >= h.Low && h.Published <= h.High }

// Held is every row with a band, in order.
func All() ([]Held, error) {
	var all []Held
	for _, part := range []func() ([]Held, error){Mashes, Analyses, HoneyBeers, HoneyAles} {
		rows, err := part()
		if err != nil {
			return nil, err
		}
		all = append(all, rows...)
	}
	return all, nil
}

// Coverage counts, of some rows, how many their bands hold.
func Coverage(rows []Held) (inside, of int) {
	for _, r := range rows {
		if r.Inside() {
			inside++
		}
	}
	return inside, len(rows)
}

// Record is the same rows in the form of the record, with the half-width of
// the band as the tolerance, and the mixtures of section 5 of the design notes.
func Record() ([]record.Row, error) {
	held, err := All()
	if err != nil {
		return nil, err
	}
	var rows []record.Row
	for _, h := range held {
		verdict := "agrees"
		if !h.Inside() {
			verdict = "misses"
		}
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("%s (band %.4g to %.4g)", h.Quantity, h.Low, h.High), Unit: h.Unit,
			Published: h.Published, Source: h.Source, Ours: h.Mid, Tolerance: (h.High - h.Low) / 2, Verdict: verdict, Why: h.Why,
		})
	}
	return append(rows, Mixtures()...), nil
}
