package calc

import (
	"slices"

	"skep/calc/doubt"
	"skep/calc/recipe"
	"skep/calc/stress"
)

// stressInput is the brew as its yeast meets it.
func (b *Brew) stressInput() stress.Input { return recipe.Stress(b.d, b.yeast, &b.plan) }

// readyStress works out how the strain's limits and its food act on every draw.
func (b *Brew) readyStress() {
	in := b.stressInput()
	b.feed = in.Pace()
	b.bears = b.yeast.TolerancePct
	if b.bears == 0 {
		b.bears = stress.UsualTolerancePct
	}
}

// stops are what stands for a beer that stops early: one where that is likelier
// than one in ten, and the strengths at which this strain may stop where the sugar
// is enough for them. A beer that was read below where it would stop has not.
func (b *Brew) stops() (stops []drawn) {
	const tail = 0.1
	if stop := stress.StopRisk(b.stressInput()); stop > tail {
		w := b.middle
		w.reach = stress.Early(1 - tail/stop)
		stops = append(stops, w)
	}
	if over := b.unlimitedPct() - b.bears; over > -doubt.Z90*stress.ToleranceSD {
		for _, score := range [2]float64{-doubt.Z90, doubt.Z90} {
			w := b.middle
			w.bears = stress.Strength(b.bears, score)
			stops = append(stops, w)
		}
	}
	if b.logged.LowestSG > 0 {
		var r Beer
		stops = slices.DeleteFunc(stops, func(w drawn) bool {
			b.at(b.d.Mash.Rest[0].TemperatureC, &w, &r)
			return r.FinalGravitySG > b.logged.LowestSG
		})
	}
	return stops
}

// widen makes the bands reach to what a beer comes to that stops early. The middle
// stays.
func (b *Brew) widen(p *Prediction) {
	var r Beer
	for _, w := range b.stops() {
		b.at(b.d.Mash.Rest[0].TemperatureC, &w, &r)
		for i := range quantities {
			quantities[i].band(p).reach(quantities[i].of(&r))
		}
	}
}

// widenOutcomes is the same of the four pictures' quantities at one temperature of
// the rest.
func (b *Brew) widenOutcomes(stops []drawn, tempC float64, bands *[Outcomes]Band) {
	var r Beer
	for i := range stops {
		b.at(tempC, &stops[i], &r)
		bands[FinalGravity].reach(r.FinalGravitySG)
		bands[Strength].reach(r.ABVPct)
		bands[Dryness].reach(r.Dryness)
		bands[Body].reach(r.Body)
	}
}

// reach makes a band hold a value too.
func (b *Band) reach(v float64) { b.Low, b.High = min(b.Low, v), max(b.High, v) }

// yeastStress fills in what may stop the yeast, and says what to do.
func (b *Brew) yeastStress(p *Prediction) {
	in := b.stressInput()
	in.StrengthPct = b.unlimitedPct()
	p.YeastStress = append([]stress.Stress{}, stress.Of(in)...)
	for _, s := range p.YeastStress {
		if s.Risk < stress.Worth {
			continue
		}
		p.Warnings = append(p.Warnings, stress.Warning(s, b.plan.FermenterL))
	}
}

// unlimitedPct is the strength of the middle beer if nothing stopped it, % vol.
func (b *Brew) unlimitedPct() float64 {
	w := b.middle
	w.bears, w.reach = 0, 0
	var r Beer
	b.at(b.d.Mash.Rest[0].TemperatureC, &w, &r)
	return r.ABVPct
}
