package lever

import (
	"math"

	"skep/calc/design"
	"skep/calc/mash"
	"skep/calc/recipe"
	"skep/calc/yeast"
)

// Where the levers end. A design that stands beyond an end moves the end there.
const (
	leastMinutes        = 5.0
	leastDependableMin  = 30.0  // shorter does not convert dependably (common practice, no source)
	mostMinutes         = 120.0 // nothing more happens
	leastAttenuationPct = 60.0  // of the handles
	mostAttenuationPct  = 100.0
	// The middle of the yeast's range in a way: from strains that leave some of
	// the maltose (wine yeast on wort, 60 to 72 %, common practice) to the most
	// that a strain reaches which leaves dextrin alone, or to a diastatic one's
	// end.
	leastMiddlePct         = 62.0
	mostDiastaticMiddlePct = 95.0
	mostHoneyGPerL         = 80.0     // g per litre into the fermenter; g/L
	leastShare, mostShare  = 0.6, 1.5 // of the grist as it is
	atLitres               = 15.0     // the batch that a natural step of honey is meant for
	leastMashLPerKg        = 1.5      // thicker can't be stirred
	foundHoneyKg           = 0.005
)

// Steps are those of the lever's slider.
func (l Lever) Steps() Steps { return table[l].hand }

// Found is what the search for ways rounds the lever's places to. For the
// grist it is a mass in kg, of its heaviest line.
func (l Lever) Found() float64 { return table[l].found }

// Natural is one natural step of the lever in a design: a degree, ten minutes,
// a hundred grams of honey at 15 L and in proportion elsewhere.
func (l Lever) Natural(d *design.Design) float64 {
	n := table[l].natural
	if table[l].perBatch {
		return max(0.01, math.Round(n*d.Batch.IntoFermenterL/atLitres*100)/100)
	}
	return n
}

// Limits are the ends of the lever's slider: what a sensible brew holds, where
// the design file allows more. Where the design stands above, its place is the
// end, but for the rest, over whose range the pictures are drawn. Those of the
// yeast are for either handle.
func (l Lever) Limits(d *design.Design, at At) (low, high float64) {
	low, high = table[l].ends(d)
	if l != Rest && l != Yeast {
		s := at.Setting(d)
		high = max(high, l.Get(&s))
	}
	return low, high
}

// Search are the ends within which ways to a taste are sought; a design that
// stands beyond one moves it there.
func (l Lever) Search(d *design.Design, at At) (low, high float64) {
	ends := table[l].search
	if ends == nil {
		ends = table[l].ends
	}
	low, high = ends(d)
	s := at.Setting(d)
	x := l.Get(&s)
	return min(low, x), max(high, x)
}

func fixed(low, high float64) func(*design.Design) (float64, float64) {
	return func(*design.Design) (float64, float64) { return low, high }
}

func yeastRangeC(*design.Design) (low, high float64) {
	k, _ := design.KeyOf("yeast.0.temperature_c")
	return k.Min, k.Max
}

// mostHoney is rounded up to 100 g for the slider, mostHoneyFound down to what
// a way may ask for.
func mostHoney(d *design.Design) (low, high float64) {
	return 0, math.Ceil(mostHoneyGPerL*d.Batch.IntoFermenterL/100) / 10
}

func mostHoneyFound(d *design.Design) (low, high float64) {
	return 0, math.Floor(mostHoneyGPerL*d.Batch.IntoFermenterL/1000/foundHoneyKg) * foundHoneyKg
}

// middleRange is where the middle of a strain's range may stand.
func middleRange(d *design.Design) (low, high float64) {
	y := d.Yeast[0]
	half := (y.AttenuationHighPct - y.AttenuationLowPct) / 2
	if y.EatsDextrin {
		high = mostDiastaticMiddlePct
	} else {
		// The high handle at most where a strain takes all sugars and no dextrin.
		high = math.Floor(yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 1}.ApparentAttenuationPct(mash.Reference())) - half
	}
	low = max(leastMiddlePct, 10+half)
	return min(low, high), min(high, 100-half)
}

// shareRange is how far the grist may be scaled and still be mashed in this
// vessel.
func shareRange(d *design.Design) (low, high float64) {
	now := recipe.Liquor(*d)
	most, _ := design.KeyOf("grain.0.mass_kg")
	fits := func(share float64) bool {
		with := d.Clone()
		for i := range with.Grain {
			with.Grain[i].MassKg *= share
			if with.Grain[i].MassKg > most.Max {
				return false
			}
		}
		p, vessel := recipe.Liquor(with), d.Kit.VesselL
		return p.MashLevelL <= max(vessel, now.MashLevelL) && p.PreBoil <= max(vessel, now.PreBoil) &&
			p.LiquorLPerKg >= min(leastMashLPerKg, now.LiquorLPerKg) && p.SpentGrainWaterKg >= min(0, now.SpentGrainWaterKg)
	}
	if fits(mostShare) {
		return leastShare, mostShare
	}
	low, high = 1, mostShare
	for range 10 {
		if m := (low + high) / 2; fits(m) {
			low = m
		} else {
			high = m
		}
	}
	return leastShare, low
}
