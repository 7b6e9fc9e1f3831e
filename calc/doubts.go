package calc

import (
	"fmt"
	"slices"

	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/mash"
	"skep/calc/message"
)

// Doubts are how sure the engine is of what a design file has no key for: one
// brewer's kit, hands, yeasts and palate, where finished batches have told of
// them (package learn). A zero is the engine's own, everywhere.
type Doubts struct {
	EfficiencySD float64 // 1 sd of mash efficiency, percentage points, up to 20; the engine's own is 2
	MaltSD       float64 // 1 sd of limit attenuation, points, up to 20; the engine's own is mash.MaltSDPoints
	// SweetShare, up to 1: the scores of how sweet which sugar tastes
	// (doubt.MaltSweet, doubt.SimpleSweet) shrink to this share of themselves.
	SweetShare float64
	// MaltSweet and AlcoholFull are where this palate's own scores lie (package
	// glasstest), in the place of a stranger's 0 ± 1; SweetShare acts on their doubt.
	MaltSweet, AlcoholFull Score
	Clocks                 []Clock // by yeast of the design; the engine's own where there is none
	// RestShiftC: the mash is so much warmer than set, every rest of it, -10 to 10
	// K. Designs, levers and pictures keep to what is set. How sure that is has a
	// key: kit.rest_error_c.
	RestShiftC float64

	// How this palate differs from the indices: dryness and body are predicted
	// as it perceives them, the words and the landing points too.
	Dryness, Body Palate
}

// Clock is one yeast's pace in these hands. Times that are f times the usual,
// lag included, are a lag of f × [ferment.UsualLagHours] and a rate of 1/f.
type Clock struct {
	LagHours   float64 // the middle lag at 20 °C, 0.01 to 500; 0: the usual
	RateFactor float64 // on every rate, 0.05 to 20; 0: 1
	Share      float64 // the scores of lag and rate shrink to it (above 1: grow), up to 4; 0: 1
}

// Palate is how many index points more than the index a person perceives, and
// how sure that is: palate and one tasting together.
type Palate struct {
	Shift float64 // -100 to 100
	SD    float64 // 0 to 100
}

// Score is where a score of the draws lies: (0, 0) is the standard normal.
type Score struct {
	Mean float64 // -2.5 to 2.5
	SD   float64 // above 0, up to 1; 0: 1
}

func (s Score) at(z float64) float64 {
	if s.SD == 0 {
		return s.Mean + z
	}
	return s.Mean + s.SD*z
}

// SetDoubts makes the engine draw with these doubts from now on; the zero
// Doubts bring its own back, to the last bit. A number that is out of its range
// is refused, and the engine stays as it was.
//
// A [Lander], and a tuner, take the doubts of their engine when they are made
// and keep them: make a new one after a change.
func (e *Engine) SetDoubts(x Doubts) error {
	if err := x.Check(); err != nil {
		return err
	}
	old := e.doubts.sd()
	x.Clocks = slices.Clone(x.Clocks)
	e.doubts = x
	if x.sd() != old {
		e.redraw()
	}
	return nil
}

// Doubts are those that the engine draws with, zeros where they are its own.
func (e *Engine) Doubts() Doubts {
	x := e.doubts
	x.Clocks = slices.Clone(x.Clocks)
	return x
}

// Check names the first number that cannot be used.
func (x *Doubts) Check() error {
	type number struct {
		name         string
		v, low, high float64
		unit         string
	}
	all := []number{
		{"doubt of mash efficiency", x.EfficiencySD, 0, 20, "points"},
		{"doubt of the malt", x.MaltSD, 0, 20, "points"},
		{"share of the doubt of sweetness", x.SweetShare, 0, 1, ""},
		{"sweetness of malt's sugars", x.MaltSweet.Mean, -2.5, 2.5, ""},
		{"doubt of the sweetness of malt's sugars", x.MaltSweet.SD, 0, 1, ""},
		{"fullness of alcohol", x.AlcoholFull.Mean, -2.5, 2.5, ""},
		{"doubt of the fullness of alcohol", x.AlcoholFull.SD, 0, 1, ""},
		{"shift of the mash rests", x.RestShiftC, -10, 10, "K"},
		{"shift of dryness", x.Dryness.Shift, -100, 100, "points"},
		{"doubt of the shift of dryness", x.Dryness.SD, 0, 100, "points"},
		{"shift of body", x.Body.Shift, -100, 100, "points"},
		{"doubt of the shift of body", x.Body.SD, 0, 100, "points"},
	}
	for i, c := range x.Clocks {
		of := func(s string) string { return fmt.Sprintf("%s of yeast.%d", s, i) }
		if c.LagHours != 0 {
			all = append(all, number{of("lag"), c.LagHours, 0.01, 500, "hours"})
		}
		if c.RateFactor != 0 {
			all = append(all, number{of("rate factor"), c.RateFactor, 0.05, 20, ""})
		}
		all = append(all, number{of("share of the doubt of the clock"), c.Share, 0, 4, ""})
	}
	for _, n := range all {
		if !(n.v >= n.low && n.v <= n.high) { // NaN too
			return message.Fault("%s is %g, expected %g to %g %s", n.name, n.v, n.low, n.high, n.unit)
		}
	}
	return nil
}

// Filled is x with the engine's own numbers in the place of zeros, and a clock
// for each of so many yeasts.
func (x Doubts) Filled(yeasts int) Doubts {
	usual := func(v *float64, is float64) {
		if *v == 0 {
			*v = is
		}
	}
	usual(&x.EfficiencySD, efficiencyPoints)
	usual(&x.MaltSD, mash.MaltSDPoints)
	usual(&x.SweetShare, 1)
	clocks := make([]Clock, yeasts)
	for i := range clocks {
		clocks[i] = x.pace(i)
	}
	x.Clocks = clocks
	return x
}

// pace is the i-th yeast's clock, the usual put in for zeros.
func (x *Doubts) pace(i int) Clock {
	c := x.clock(i)
	if c.LagHours == 0 {
		c.LagHours = ferment.UsualLagHours
	}
	if c.RateFactor == 0 {
		c.RateFactor = 1
	}
	if c.Share == 0 {
		c.Share = 1
	}
	return c
}

// clock is the i-th yeast's.
func (x *Doubts) clock(i int) Clock {
	if i < len(x.Clocks) {
		return x.Clocks[i]
	}
	return Clock{}
}

// spreads are the doubts that the draws are made with, apart from the mash.
type spreads struct {
	efficiency, malt, sweet float64
	maltSweet, alcoholFull  Score
	dryness, body           Palate
}

// sd are the spreads, the engine's own put in for the zeros.
func (x *Doubts) sd() spreads {
	y := x.Filled(0)
	return spreads{y.EfficiencySD, y.MaltSD, y.SweetShare, y.MaltSweet, y.AlcoholFull, y.Dryness, y.Body}
}

func (s spreads) scores(draws doubt.Draws) []Inputs {
	fixed := make([]Inputs, len(draws))
	for i := range draws {
		fixed[i] = s.of(&draws[i])
	}
	return fixed
}

// above is what is perceived above the index, z the standard score of the doubt.
func (p Palate) above(z float64) float64 { return p.Shift + p.SD*z }
