package brewday

import (
	"math"
	"strconv"

	"skep/calc"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/honey"
	"skep/calc/quantity"
	"skep/calc/recipe"
	"skep/calc/water"
)

// Plan works the day of a design out. The prediction is the engine's for the
// same design and the yeast brewed with, the first; a zero prediction leaves
// out what hangs on it.
//
// It answers every design, also one that the engine refuses: what is wrong
// then stands as a warning at its step.
func Plan(d design.Design, p calc.Prediction) Day {
	b := newBrew(d, p)
	day := Day{Shopping: b.shopping()}
	for _, step := range []func() (Step, bool){
		b.crush, b.liquor, b.mashIn, b.rests, b.sparge, b.boil, b.whirlpool,
		b.runOff, b.pitching, b.ferment, b.honeyStep, b.packaging,
	} {
		if s, ok := step(); ok {
			day.Steps = append(day.Steps, s)
		}
	}
	b.timers(&day)
	return day
}

// brew is a design with what all its steps need.
type brew struct {
	d     design.Design
	p     calc.Prediction
	plan  water.Plan
	yeast design.Yeast // the zero Yeast where there is none

	// Gravities with the extract of the prediction; coolSG is of the cool wort in the
	// vessel, with the honey of the whirlpool.
	preBoilSG, postBoilSG, coolSG float64
	predicted                     bool
	lateHoneyKg                   float64 // added while it ferments
}

func newBrew(d design.Design, p calc.Prediction) *brew {
	b := &brew{d: d, p: p, plan: recipe.Liquor(d), predicted: p.OriginalGravitySG.Mid > 0}
	if len(d.Yeast) > 0 {
		b.yeast = d.Yeast[0]
	}
	gravities := b.plan
	if b.predicted {
		gravities = recipe.LiquorForExtract(d, b.extractFor(p.OriginalGravitySG.Mid))
	}
	b.preBoilSG, b.postBoilSG, b.coolSG = gravities.PreBoilGravitySG, gravities.PostBoilGravitySG, gravities.CoolLiquid.GravitySG()
	for _, h := range d.Honey {
		if h.Moment == design.MomentFermenting {
			b.lateHoneyKg += h.MassKg
		}
	}
	return b
}

// extractFor finds the extract from grain that gives the engine's original
// gravity, which counts crush and conversion in: so the gravities of the day
// lead to the one at the head of the sheet. Honey at pitching is in it.
func (b *brew) extractFor(originalSG float64) float64 {
	gives := func(kg float64) float64 {
		plan := recipe.LiquorForExtract(b.d, kg)
		return b.original(&plan)
	}
	low, high := 0.0, math.Max(b.plan.LaboratoryKg, 1e-3)
	for range 50 {
		mid := (low + high) / 2
		if gives(mid) < originalSG {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// like spreads the band of the original gravity over another gravity of the
// same wort, point by point.
func (b *brew) like(sg float64) quantity.Quantity {
	og := b.p.OriginalGravitySG
	if !b.predicted || !(og.Mid > 1) {
		return gravity(sg)
	}
	k := (sg - 1) / (og.Mid - 1)
	return quantity.Quantity{Kind: quantity.Gravity, Value: sg, Low: 1 + k*(og.Low-1), High: 1 + k*(og.High-1)}
}

// pointsOf is what honey adds to the gravity of the whole fermenter, in SG.
func (b *brew) pointsOf(h design.Honey) float64 {
	if !(b.plan.FermenterL > 0) {
		return 0
	}
	kg := h.MassKg * (1 - h.MoisturePct/100)
	return density.SGFromPlato(density.PlatoFromGramsPerLitre(1000*kg/b.plan.FermenterL)) - 1
}

// volumeML is the room a honey takes when warm enough to pour, mL.
func volumeML(h design.Honey) float64 {
	return 1000 * honey.VolumeL(h.MassKg, h.MoisturePct, pourC)
}

func path(list string, i int) string { return list + "." + strconv.Itoa(i) }
