package recipe

import (
	"math"

	"skep/calc/alcohol"
	"skep/calc/carbonation"
	"skep/calc/coldside"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/honey"
	"skep/calc/packaging"
)

// monthsDays is long enough for what slow enzymes can do at all.
const monthsDays = 365.0

// Brewed is what is predicted or measured of a beer, as the packaging guard needs it.
type Brewed struct {
	EffectiveOriginalSG, FinalSG float64
	DextrinGL                    float64
	HeightHours, WindowCloses    float64 // hours after pitching; 0: not known
}

// Guard is what the packaging guard of a beer rests on: its design, the strain in it,
// what is known of it. Readings say more ([packaging.Guard.Judge]).
func Guard(d design.Design, yeast design.Yeast, b Brewed) packaging.Plan {
	bottle := carbonation.Bottle(Carbonation(d.Package, d.Batch.AltitudeM))
	plan := packaging.Plan{
		PlannedVolumes: bottle.Volumes, RatedVolumes: bottle.RatedVolumes, Keg: d.Package.Vessel == "keg",
		OriginalPlato: density.PlatoFromSG(b.EffectiveOriginalSG), EndSG: b.FinalSG,
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
			plan.HoneyPastWindow = plan.HoneyPastWindow || b.WindowCloses > 0 && b.HeightHours+h.HoursAfterHeight > b.WindowCloses
		}
	}
	if yeast.EatsDextrin {
		plan.Tails = append(plan.Tails, packaging.TailOf(packaging.EatsDextrin))
	}
	if raw > 0 {
		t := packaging.TailOf(packaging.RawHoney)
		t.MostPoints = pointsOf(honey.DiastaseTrim(raw, monthsDays, d.Package.StoreC).High * b.DextrinGL)
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
		t.MostPoints = pointsOf(math.Min(realPct/100*density.KgM3FromSG(b.FinalSG), b.DextrinGL))
		plan.Tails = append(plan.Tails, t)
	}
	return plan
}

// pointsOf is the fall of gravity that so much fermented extract comes with.
func pointsOf(gPerL float64) float64 {
	return carbonation.VolumesFromExtract(gPerL) / packaging.VolumesPerPoint
}
