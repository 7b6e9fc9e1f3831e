package honey

import (
	"math"

	"skep/calc/density"
)

// densityRows: specific gravity 20/20 by moisture. White's table, from memory;
// the rows at 17 and 18 % agree with 1.423 and 1.417 read on trade pages.
var densityRows = [...]struct{ moisturePct, sg float64 }{
	{13, 1.4457}, {15, 1.4350}, {17, 1.4237}, {18, 1.4171}, {20, 1.4027},
}

// Outside the rows a straight line: towards dry honey with the table's own
// first slope, towards wet honey with that of sucrose solutions of 70 to 80 %
// (1.3472 and 1.4117 g/mL, from memory), as the table's last slope would lead
// far below any sugar solution.
const (
	dryTailPerPct = -0.00535
	wetTailPerPct = -0.00646
	// densityPerK is the change of honey's density in kg/L per °C (from memory).
	densityPerK = -0.0006
)

// DensityKgL is the density of honey in kg/L by its moisture (10 to 30 %) and
// temperature (10 to 60 °C). Doubt: about 0.005 kg/L, as the published tables
// disagree.
func DensityKgL(moisturePct, temperatureC float64) float64 {
	return density.KgM3FromSG(gravity(moisturePct))/1000 + densityPerK*(temperatureC-20)
}

// gravity interpolates the rows by a cubic that keeps their order (Fritsch and
// Carlson with harmonic slopes), so that more water is always lighter.
func gravity(w float64) float64 {
	first, last := densityRows[0], densityRows[len(densityRows)-1]
	switch {
	case w <= first.moisturePct:
		return first.sg + dryTailPerPct*(w-first.moisturePct)
	case w >= last.moisturePct:
		return last.sg + wetTailPerPct*(w-last.moisturePct)
	case math.IsNaN(w):
		return w
	}
	i := 0
	for w > densityRows[i+1].moisturePct {
		i++
	}
	a, b := densityRows[i], densityRows[i+1]
	h := b.moisturePct - a.moisturePct
	t := (w - a.moisturePct) / h
	ma, mb := slopeAt(i)*h, slopeAt(i+1)*h
	d := b.sg - a.sg
	return a.sg + t*(ma+t*(3*d-2*ma-mb+t*(ma+mb-2*d)))
}

func slopeAt(i int) float64 {
	secant := func(i int) float64 {
		a, b := densityRows[i], densityRows[i+1]
		return (b.sg - a.sg) / (b.moisturePct - a.moisturePct)
	}
	switch i {
	case 0:
		return dryTailPerPct
	case len(densityRows) - 1:
		return wetTailPerPct
	}
	l, r := secant(i-1), secant(i)
	return 2 * l * r / (l + r)
}
