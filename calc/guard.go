package calc

import (
	"skep/calc/packaging"
	"skep/calc/recipe"
)

// Brewed is what the packaging guard rests on of a prediction.
func (p *Prediction) Brewed() recipe.Brewed {
	return recipe.Brewed{
		EffectiveOriginalSG: p.EffectiveOriginalGravitySG.Mid, FinalSG: p.FinalGravitySG.Mid, DextrinGL: p.DextrinGL.Mid,
		HeightHours: p.HeightHours.Mid, WindowCloses: p.HoneyWindowHours[1].Mid,
	}
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
