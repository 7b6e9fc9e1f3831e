// Package record is the form in which every outside check reports itself, so that one
// page can show the whole record, the misses included.
//
// Rows of a published table and what the program makes of them come in, a page of
// figures with their deviations goes out. It must not know which field a row is of;
// nothing in the program knows it.
package record

import "math"

// Row is one outside check: a published value beside ours.
type Row struct {
	Quantity  string  // what, with its conditions
	Unit      string  // of Published, Ours and Tolerance
	Published float64 // the value in the source
	Source    string  // where it was read
	Ours      float64 // what Skep computes
	Tolerance float64 // largest difference that still agrees
	Verdict   string  // empty: computed by Judge
	Why       string  // for a miss: why; for a fitted row: that it is fitted

	// Of a row read from a file ([Read]).
	ID      string
	Compare string // what is compared
	Given   Given  // what the published value holds for
	Bound   string // AtLeast or AtMost; empty: a value
}

// Bounds of a row whose source gives no value.
const (
	AtLeast = "at least"
	AtMost  = "at most"
)

// Difference is ours less the published value.
func (r Row) Difference() float64 { return r.Ours - r.Published }

// Judge says whether the row agrees. A Verdict set beforehand (such as
// "fitted") stands.
func (r Row) Judge() string {
	switch {
	case r.Verdict != "":
		return r.Verdict
	case r.Bound == AtLeast && r.Ours >= r.Published, r.Bound == AtMost && r.Ours <= r.Published,
		r.Bound == "" && math.Abs(r.Difference()) <= r.Tolerance:
		return "agrees"
	default:
		return "misses"
	}
}
