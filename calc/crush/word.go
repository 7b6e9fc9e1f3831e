package crush

import "math"

// The words of a crush.
const (
	TooCoarse = "too-coarse"
	Coarse    = "coarse"
	Sound     = "sound"
	Fine      = "fine"
	TooFine   = "too-fine"
)

// Words are the five, coarse to fine.
func Words() [5]string { return [5]string{TooCoarse, Coarse, Sound, Fine, TooFine} }

// Where on the scale one word gives way to the next, and how much flour or
// husk makes a word whatever the mean (common practice, no source; the mash
// tun's grist comes out coarse, the lauter tun's sound, the mash filter's too
// fine).
const (
	tooCoarseBelow = -1.5
	coarseBelow    = -0.5
	fineAbove      = 0.3
	tooFineAbove   = 0.65
	fineFlourPct   = 26.0 // lauter tun 19, mash filter 50
	tooFlourPct    = 36.0
	tooHuskPct     = 70.0 // mash tun 53
)

// Word is what a sieving is called.
func (s Sieving) Word() string {
	switch {
	case s.Scale > tooFineAbove || s.FinePct > tooFlourPct:
		return TooFine
	case s.Scale > fineAbove || s.FinePct > fineFlourPct:
		return Fine
	case s.Scale < tooCoarseBelow || s.HuskPct > tooHuskPct:
		return TooCoarse
	case s.Scale < coarseBelow:
		return Coarse
	}
	return Sound
}

// Crush is what is known of a crush: what stays on each sieve, coarse to fine,
// and a word for how it looks. The zero value, nothing known, is a sound one.
type Crush struct {
	OnSievePct []float64 // counts before the word where it can be read ([Sift])
	ByEye      string
}

// Word is what the crush is called: by its sieves where they can be read,
// otherwise by eye; sound where nothing is said.
func (c Crush) Word() string {
	if s, ok := Sift(c.OnSievePct); ok {
		return s.Word()
	}
	if _, known := costPoints[c.ByEye]; known {
		return c.ByEye
	}
	return Sound
}

// costPoints is what each word costs in mash efficiency, percentage points
// (common practice, no source: coarse 2 to 3, too coarse 5 to 10).
var costPoints = map[string]float64{TooCoarse: 7.5, Coarse: 2.5, Sound: 0, Fine: 0, TooFine: 0}

// The cost over the scale: nothing from 0 up, coarsePoints at the mash tun's
// grist, and so bent that -2 costs what too coarse costs. A power above 1, so
// that it leaves 0 without a corner.
const (
	coarsePoints = 2.5
	mostPoints   = 10.0
)

var bend = math.Log2(costPoints[TooCoarse] / coarsePoints)

// Points is what a sieving costs in mash efficiency, percentage points, 0 to
// 10. It is smooth in every sieve's figure up to the 10 that no one has seen
// passed.
func (s Sieving) Points() float64 {
	if !(s.Scale < 0) {
		return 0
	}
	return math.Min(mostPoints, coarsePoints*math.Pow(-s.Scale, bend))
}

// EfficiencyPoints is what the crush takes from the mash efficiency, percentage
// points, 0 to 10: by its sieves where they can be read, otherwise by eye.
// Nothing for a crush of which nothing is said.
func (c Crush) EfficiencyPoints() float64 {
	if s, ok := Sift(c.OnSievePct); ok {
		return s.Points()
	}
	return costPoints[c.ByEye]
}
