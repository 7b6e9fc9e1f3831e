package packaging

import "math"

// Kind is what goes on fermenting at the end.
type Kind string

// The kinds.
const (
	Ordinary    Kind = "ordinary"     // what a brewing strain takes of wort
	ColdHops    Kind = "cold-hops"    // sugar that the enzymes of hops added cold free from dextrin
	RawHoney    Kind = "raw-honey"    // the same by the diastase of honey that never was hot
	EatsDextrin Kind = "eats-dextrin" // a strain that takes dextrin
)

// Tail is one thing that goes on, with its half-life in days: the middle, which
// the gap is worked out with, and the ends of the band.
type Tail struct {
	Kind                    Kind
	HalfLifeDays, Low, High float64
	// MostPoints is all that it can still take, where that is known; 0 where not.
	MostPoints float64
}

// TailOf is the tail of a kind. All half-lives are ours.
//
//   - ordinary: 1 day; the open series reach their end within a day or two of nine
//     tenths.
//   - hops: 5 days, which is how long 10 g/L took for 1 °P of real extract
//     (Kirkpatrick and Shellhammer 2018); they went on for 40.
//   - raw honey: 10 days and more, to 8 weeks. No measured rate was found.
//   - a strain that eats dextrin: 10 days; some end as soon as any yeast, others
//     took 16 days for a wort of 12.4 °P (a yeast laboratory, 2018, second-hand).
func TailOf(k Kind) Tail {
	switch k {
	case ColdHops:
		return Tail{Kind: k, HalfLifeDays: 5, Low: 3, High: 20}
	case RawHoney:
		return Tail{Kind: k, HalfLifeDays: 10, Low: 7, High: 56}
	case EatsDextrin:
		return Tail{Kind: k, HalfLifeDays: 10, Low: 2, High: 20}
	}
	return Tail{Kind: Ordinary, HalfLifeDays: 1, Low: 0.5, High: 2}
}

// harmless says that all a tail can still take fits into the headroom: then no
// gap is needed for it.
func (t Tail) harmless(headroomPoints float64) bool {
	return t.MostPoints > 0 && t.MostPoints <= headroomPoints
}

// A verdict is meant to hold for nearly every beer, the gap for the middle one: so
// readings of a slow tail are judged by a longer half-life, and by half as much
// again for their noise (ours; see the simulations in the tests). Of a strain that
// eats dextrin it is the end of the band, as its contamination runs at 14 days and
// such a beer is not told from another before it is late; of the others half way
// there.
const slowCaution = 1.5

func (t Tail) cautiousDays() float64 {
	switch t.Kind {
	case Ordinary:
		return t.HalfLifeDays
	case EatsDextrin:
		return t.High
	}
	return math.Sqrt(t.HalfLifeDays * t.High)
}

func (t Tail) caution() float64 {
	if t.Kind == Ordinary {
		return 1
	}
	return slowCaution
}

// slowest is the tail that asks for the longest gap; the ordinary one is always
// there.
func slowest(tails []Tail, headroomPoints float64) Tail {
	s := TailOf(Ordinary)
	for _, t := range tails {
		if t.HalfLifeDays > s.HalfLifeDays && !t.harmless(headroomPoints) {
			s = t
		}
	}
	return s
}
