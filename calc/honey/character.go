package honey

import "math"

// Moment is when honey goes in, as far as character goes.
type Moment int

const (
	Boil       Moment = iota // into the boiling wort
	Whirlpool                // hot, after the boil
	Pitching                 // into the cool wort, before or with the yeast
	Fermenting               // during or after fermentation
)

// CharacterInput is one addition of honey.
type CharacterInput struct {
	GramsPerL float64 // honey as it is, g per litre of finished beer, from 0 up
	Moment    Moment
	// CO2VolumesAfter is the CO2 still to come out after the addition, litres
	// of gas per litre of beer, from 0 up: about 20 for a whole 12 °P
	// fermentation, plus what the honey itself gives.
	CO2VolumesAfter float64
}

// Index is a character index, 0 to 100, by its 10th, 50th and 90th percentile.
type Index struct{ Low, Mid, High float64 }

// volatile is one stand-in of the honey's aroma.
type volatile struct {
	weight float64 // share of the character it stands for
	// stripPerL is k of the retention exp(-k v) in litres of CO2 per litre.
	stripPerL, stripLow, stripHigh float64 // middle; least and most stripped
}

// The mix is ours. The stripping constants span what equilibrium stripping
// gives (Morakul 2010; the two ends from memory): 2e-4 for polar volatiles,
// 3e-2 for esters, with terpenes such as linalool between.
var mix = [...]volatile{
	{weight: 0.40, stripPerL: 2e-4, stripLow: 1e-4, stripHigh: 5e-4}, // polar: phenols, acids, furans
	{weight: 0.35, stripPerL: 5e-3, stripLow: 2e-3, stripHigh: 1e-2}, // terpenes, higher alcohols
	{weight: 0.25, stripPerL: 3e-2, stripLow: 1.5e-2, stripHigh: 5e-2},
}

// hotShare is what an addition on the hot side starts with, as a share of a
// cellar one. Whirlpool: late brewhouse additions kept 0.75 of what cellar ones
// did of linalool (60 against 80 %) and about half of it of esters (20 to 40
// against 40 to 80 %; Gahr 2019, hops). Those ratios hold the fermentation, whose
// gas alone leaves seven eighths of the mix (20 against 3 L/L): so the heat itself
// leaves 0.57 to 0.86. The boil loses more: ours.
func hotShare(m Moment) Index {
	switch m {
	case Boil:
		return Index{0.15, 0.30, 0.50}
	case Whirlpool:
		return Index{0.40, 0.70, 0.90}
	}
	return Index{1, 1, 1}
}

// halfGPerL is the honey, g/L, at which half of the full character is there
// when nothing is lost; the band is for honeys weak and strong in aroma. Ours:
// trade rules put the first clear taste near 15 g/L and a strong one above
// 60 g/L (common practice, no source).
var halfGPerL = Index{Low: 40, Mid: 25, High: 15}

// What follows for the moment: hot wort costs a third of the character and more,
// while pitching and the days after the height differ by some hundredths, since
// the gas strips what is polar hardly and only the esters, a quarter of the mix,
// by half. No measurement of honey's volatiles through a fermentation was found
// that would say otherwise.

// Retained is the share (0 to 1) of an addition's character that is still
// there in the finished beer, all kinds weighted together.
func Retained(in CharacterInput) Index {
	hot := hotShare(in.Moment)
	v := max(in.CO2VolumesAfter, 0)
	var low, mid, high float64
	for _, m := range mix {
		low += m.weight * math.Exp(-m.stripHigh*v)
		mid += m.weight * math.Exp(-m.stripPerL*v)
		high += m.weight * math.Exp(-m.stripLow*v)
	}
	return Index{hot.Low * low, hot.Mid * mid, hot.High * high}
}

// Character gives the honey character index, 0 to 100, of one or several
// additions.
//
// It is an index, not a measurement: the retained share of a stand-in mix of
// volatiles, times a saturating function of the honey's grams a litre. It is
// good for comparing two moments or two amounts of the same honey; a buckwheat
// and an acacia honey of the same index taste nothing alike. The band is wide
// and the words (package taste) come first, the number second.
//
//	100 m/(m + half),  m = Σ grams per litre · retained
//
// Amounts that are negative or no number count as nothing.
func Character(additions ...CharacterInput) Index {
	m := kept(additions)
	if !(m.Mid > 0) {
		return Index{}
	}
	mid := full(m.Mid, halfGPerL.Mid)
	// Two independent doubts (what is retained, how strong the honey is), each
	// by its 10 and 90: their distances add in squares.
	side := func(m1, half1 float64) float64 {
		return math.Hypot(full(m1, halfGPerL.Mid)-mid, full(m.Mid, half1)-mid)
	}
	return Index{
		Low:  max(mid-side(m.Low, halfGPerL.Low), 0),
		Mid:  mid,
		High: min(mid+side(m.High, halfGPerL.High), 100),
	}
}

// full is the index for so many grams per litre kept, of a honey half of whose
// full character is there at half.
func full(m, half float64) float64 { return 100 * m / (m + half) }

// CharacterDoubts is the index with only one of its two doubts: what is
// retained, and how strong in aroma the honey is.
func CharacterDoubts(additions ...CharacterInput) (retained, strength Index) {
	m := kept(additions)
	if !(m.Mid > 0) {
		return Index{}, Index{}
	}
	mid := full(m.Mid, halfGPerL.Mid)
	return Index{full(m.Low, halfGPerL.Mid), mid, full(m.High, halfGPerL.Mid)},
		Index{full(m.Mid, halfGPerL.Low), mid, full(m.Mid, halfGPerL.High)}
}

// kept is what of several additions is retained, in grams of honey per litre.
func kept(additions []CharacterInput) Index {
	var m Index
	for _, in := range additions {
		if !(in.GramsPerL > 0) || math.IsInf(in.GramsPerL, 1) || math.IsNaN(in.CO2VolumesAfter) {
			continue
		}
		r := Retained(in)
		m.Low += in.GramsPerL * r.Low
		m.Mid += in.GramsPerL * r.Mid
		m.High += in.GramsPerL * r.High
	}
	return m
}
