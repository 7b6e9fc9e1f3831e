package calc

import (
	"math"

	"skep/calc/alcohol"
	"skep/calc/carbonation"
	"skep/calc/coldside"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/honey"
	"skep/calc/packaging"
	"skep/calc/recipe"
)

// monthsDays is long enough for what slow enzymes can do at all.
const monthsDays = 365.0

// GuardInput is what the packaging guard of a beer rests on: its design, the
// strain in it, what is predicted or measured of it. Readings say more
// ([packaging.Guard.Judge]).
func GuardInput(d design.Design, yeast design.Yeast, p *Prediction) packaging.Plan {
	bottle := carbonation.Bottle(recipe.Carbonation(d.Package, d.Batch.AltitudeM))
	plan := packaging.Plan{
		PlannedVolumes: bottle.Volumes, RatedVolumes: bottle.RatedVolumes, Keg: d.Package.Vessel == "keg",
		OriginalPlato: density.PlatoFromSG(p.EffectiveOriginalGravitySG.Mid), EndSG: p.FinalGravitySG.Mid,
	}
	litres := math.Max(d.Batch.IntoFermenterL, 1e-3)
	raw := 0.0
	for _, h := range d.Honey {
		if h.MassKg <= 0 || h.Moment != design.MomentPitching && h.Moment != design.MomentFermenting {
			continue
		}
		if h.Raw {
			raw += 1000 * h.MassKg / litres
		}
		if h.Moment == design.MomentFermenting {
			plan.HoneyUnfermentedGPL += 1000 * h.MassKg * (1 - h.MoisturePct/100) * honey.FermentableShareMid / litres
			plan.HoneyPastWindow = plan.HoneyPastWindow || p.HoneyWindowHours[1].Mid > 0 && p.HeightHours.Mid+h.HoursAfterHeight > p.HoneyWindowHours[1].Mid
		}
	}
	if yeast.EatsDextrin {
		plan.Tails = append(plan.Tails, packaging.TailOf(packaging.EatsDextrin))
	}
	if raw > 0 {
		t := packaging.TailOf(packaging.RawHoney)
		t.MostPoints = pointsOf(honey.DiastaseTrim(raw, monthsDays, d.Package.StoreC).High * p.DextrinGL.Mid)
		plan.Tails = append(plan.Tails, t)
	}
	cold := 0.0
	for _, h := range d.Hop {
		if h.When == design.HopCold {
			cold += h.MassG / litres
		}
	}
	if cold > 0 {
		t := packaging.TailOf(packaging.ColdHops)
		realPct := alcohol.RealPerApparent * coldside.Creep(cold, monthsDays, d.Package.StoreC).High
		t.MostPoints = pointsOf(math.Min(realPct/100*density.KgM3FromSG(p.FinalGravitySG.Mid), p.DextrinGL.Mid))
		plan.Tails = append(plan.Tails, t)
	}
	return plan
}

// pointsOf is the fall of gravity that so much fermented extract comes with.
func pointsOf(gPerL float64) float64 {
	return carbonation.VolumesFromExtract(gPerL) / packaging.VolumesPerPoint
}

// guard fills in what a guard says of the bottle, its alarms among the warnings.
func (p *Prediction) guard(g packaging.Guard) {
	for _, a := range g.Alarms {
		p.Warnings = append(p.Warnings, g.Say(a))
	}
	p.BottleVolumes = g.PlannedVolumes
	p.BottleHeadroomPoints = g.HeadroomPoints
	p.EqualReadingsDays = g.EqualReadingsDays
	p.BottleVolumesWorst = g.WorstVolumes
	p.BottleVolumesHoneyUnfermented = g.HoneyUnfermentedVolumes
}
