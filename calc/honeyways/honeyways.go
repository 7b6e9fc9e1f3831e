// Package honeyways tries how much honey should still go into a batch.
//
// A batch as it is known comes in; amounts of the honey that is left, and where the
// beer then lands with each, go out. It must not know the window, nor where the bands
// come from.
package honeyways

import (
	"math"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/lever"
	"skep/calc/tune"
)

// Way is an amount of the honey that is still to go in, and where the beer
// then lands.
type Way struct {
	MassKg  float64
	Lands   [calc.Outcomes]calc.Band
	Miss    float64 // from what is wanted, index points; NaN where nothing is
	Reached bool    // near enough to it
}

// Ways is what the honey that is left can still do.
type Ways struct {
	Honey   int     // of the conditioned design
	Nearest Way     // the amount that lands nearest to what is wanted
	Ladder  []Way   // from none upwards
	More    Way     // a natural step more than planned
	StepKg  float64 // that step
}

// The ladder runs from none to twice the plan, or up to what makes a difference
// where nothing is planned.
const (
	rungs       = 12
	leastSpanKg = 0.5
	roundKg     = 0.01
)

// Of tries amounts of the first honey that is left; false where the wort
// is not pitched or no honey is left.
func Of(b *follow.Batch) (ways Ways, ok bool) {
	c := &b.Conditioned
	if !b.Timeline.Pitched || len(c.HoneyLeft) == 0 {
		return ways, false
	}
	place := c.HoneyLeft[0]
	planned := c.Design.Honey[place].MassKg
	most, _ := design.KeyOf("honey.0.mass_kg")
	wishes := tune.WishesOf(c.Design.Taste)
	wishes.Honey = nil // amounts are landed without the honey's character
	if atHand := c.Design.Taste.HoneyAtHandKg; atHand != nil {
		most.Max = min(most.Max, max(*atHand-c.Design.HoneyBesideKg(place), 0))
	}
	d := c.Design.Clone()
	fine := true
	try := func(kg float64) Way {
		d.Honey[place].MassKg = kg
		lands, err := b.Land(d)
		w := Way{MassKg: kg, Lands: lands}
		w.Miss, w.Reached = wishes.Miss(tune.Mids(lands))
		fine = fine && err == nil
		return w
	}
	rounded := func(kg float64) float64 { return math.Round(kg/roundKg) * roundKg }
	ways = Ways{Honey: place, StepKg: lever.Honey.Natural(&d)}
	span := min(max(2*planned, leastSpanKg), most.Max)
	best := 0
	for i := range rungs + 1 {
		ways.Ladder = append(ways.Ladder, try(rounded(span*float64(i)/rungs)))
		if ways.Ladder[i].Miss < ways.Ladder[best].Miss {
			best = i
		}
	}
	ways.More = try(min(planned+ways.StepKg, most.Max))
	ways.Nearest = ways.Ladder[best]
	if math.IsNaN(ways.Nearest.Miss) {
		return ways, fine
	}
	// Between its neighbours, by thirds: the miss has one valley there.
	low, high := ways.Ladder[max(best-1, 0)].MassKg, ways.Ladder[min(best+1, rungs)].MassKg
	for range 12 {
		a, z := try(low+(high-low)/3), try(high-(high-low)/3)
		if a.Miss < z.Miss {
			high = z.MassKg
		} else {
			low = a.MassKg
		}
	}
	if w := try(rounded((low + high) / 2)); w.Miss < ways.Nearest.Miss {
		ways.Nearest = w
	}
	return ways, fine
}

// Planned tells whether the nearest amount is the planned one, as near as it is
// rounded.
func (w *Ways) Planned(kg float64) bool { return math.Abs(w.Nearest.MassKg-kg) < 1.5*roundKg }
