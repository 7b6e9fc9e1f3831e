package learn

import (
	"skep/calc"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/doubt"
	"skep/calc/ferment"
)

// tableReachC is how far from its rest a mash is tabulated, K: a batch is read
// at the rest as measured and at one error of the thermometer from it, and the
// response to the temperature acts as two kelvin at most.
const tableReachC = 2.25

// brewed is the engine's brew of a design, with a workspace: what a batch says
// is read backwards through it.
type brewed struct {
	*calc.Brew
	draw calc.Draw
}

// brewedOf makes a design ready. Honey that goes in while the beer ferments
// does so after everything: it moves neither the height nor what is measured
// before it, so the course is the wort's own, to its end.
func brewedOf(d design.Design) (*brewed, error) {
	b, err := calc.NewBrew(d, tableReachC, afterAll(&d))
	if err != nil {
		return nil, err
	}
	return &brewed{Brew: b}, nil
}

// afterAll is honey in the fermenter that goes in when the wort has fermented.
func afterAll(d *design.Design) calc.Logged {
	hours := make([]float64, len(d.Honey))
	for i := range hours {
		hours[i] = ferment.LongestHours
	}
	return calc.Logged{HoneyHours: hours}
}

// middle is every input at its middle.
func (b *brewed) middle() calc.Inputs { return b.Inputs(new([doubt.Inputs]float64)) }

// beer is what inputs come to, until the next one.
func (b *brewed) beer(x *calc.Inputs) *calc.Beer {
	b.Draw(x, &b.draw)
	return &b.draw.Beer
}

// course is how it ferments, until the next one.
func (b *brewed) course(x *calc.Inputs) *calc.Fermentation {
	b.Ferment(x, &b.draw)
	return &b.draw.Fermentation
}

// grainFor is the extract of the grain in the fermenter that shows an original
// gravity, kg, by bisection: it rises with it.
func (b *brewed) grainFor(ogSG float64) (kg float64, ok bool) {
	x, plato := b.middle(), density.PlatoFromSG(ogSG)
	at := func(kg float64) float64 {
		x.GrainKg = kg
		return b.beer(&x).OriginalPlato
	}
	lo, hi := 1e-9, 0.4*b.Design().Batch.IntoFermenterL
	if !b.HasGrain() || !(at(lo) < plato && plato < at(hi)) {
		return 0, false
	}
	for range 60 {
		if mid := (lo + hi) / 2; at(mid) < plato {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2, true
}
