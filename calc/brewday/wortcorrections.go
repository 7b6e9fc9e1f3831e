package brewday

import (
	"math"

	"skep/calc/design"
	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/recipe"
	"skep/calc/water"
)

const honeyFermentsPct = 95.0 // of the honey's extract, by real attenuation (ours)

// longestBoilMin is as much longer as a boil is advised: an hour more takes as much
// heat again and darkens the wort (ours). Where it is not enough, what it leads to
// says so.
const longestBoilMin = 60.0

// wort is what is in the vessel before the boil.
func (b *brew) wort(hotL, sg float64) water.Liquid {
	return water.Wort(water.CoolL(hotL, b.plan.BoilingPointC), sg)
}

// original is the original gravity of wort with the honey of pitching in it.
func (b *brew) original(p *water.Plan) float64 {
	return p.IntoFermenterWort.Plus(recipe.HoneyAt(b.d, design.MomentPitching)).GravitySG()
}

// beforeBoilIs answers to volume and gravity before the boil.
func (b *brew) beforeBoilIs(hotL, sg float64, gravityToCome bool) Answer {
	in := recipe.LiquorInput(b.d)
	wort := b.wort(hotL, sg)
	asItIs, err := water.FromPreBoil(in, wort)
	if err != nil {
		return Answer{Means: message.New("{why}", err)}
	}
	if gravityToCome {
		return b.volumeOnly(&asItIs, hotL, b.plan.PreBoil)
	}
	return b.wortIs(&asItIs, func(addL float64) (Way, *water.Plan) {
		then, err := water.FromPreBoil(in, wort.Plus(water.Wort(addL, 1)))
		if err != nil || !b.holds(water.HotL(wort.VolumeL()+addL, b.plan.BoilingPointC)) {
			return Way{}, nil
		}
		return Way{Text: message.New("Add {volume} of water", litres(addL)), Short: message.New("add {volume} of water", litres(addL))}, &then
	}, func(longerMin float64) (Way, *water.Plan) {
		longer := in
		longer.BoilMinutes += longerMin
		then, err := water.FromPreBoil(longer, wort)
		if err != nil {
			return Way{}, nil
		}
		return Way{Text: message.New("Boil {minutes} longer, before the hops", minutes(longerMin)), Short: message.New("boil {minutes} longer before the hops", minutes(longerMin))}, &then
	})
}

// afterBoilIs answers to volume and gravity at the end of the boil.
func (b *brew) afterBoilIs(hotL, sg float64, gravityToCome bool) Answer {
	wort := b.wort(hotL, sg)
	asItIs := b.afterBoil(wort)
	if gravityToCome {
		return b.volumeOnly(&asItIs, hotL, b.plan.PostBoil)
	}
	return b.wortIs(&asItIs, func(addL float64) (Way, *water.Plan) {
		then := b.afterBoil(wort.Plus(water.Wort(addL, 1)))
		if !b.holds(then.PostBoil) {
			return Way{}, nil
		}
		return Way{Text: message.New("Add {volume} of boiling water", litres(addL))}, &then
	}, func(longerMin float64) (Way, *water.Plan) {
		then := b.afterBoil(wort.Minus(water.Wort(longerMin/60*b.d.Kit.SteamLPerH, 1)))
		return Way{Text: message.New("Boil {minutes} more; hops that are in turn bitterer", minutes(longerMin)), Again: measured.PostBoilGravity}, &then
	})
}

// wortIs answers to wort that leads to a day as it is, with what water that is added
// or boiled off would make of it; a nil day is one that can't be.
func (b *brew) wortIs(asItIs *water.Plan, add, boil func(howMuch float64) (Way, *water.Plan)) Answer {
	a := b.off(asItIs)
	if a.AsPlanned {
		return a
	}
	c, ok := asItIs.CoolLiquid.Correct(b.coolSG, b.d.Kit.SteamLPerH)
	longer := math.Ceil(c.LongerMinutes)
	switch off := asItIs.CoolLiquid.GravitySG() - b.coolSG; {
	case !ok:
	case off > nearSG:
		if w, then := add(c.AddL); then != nil {
			a.add(b.leadsTo(w, then))
		}
	case off < -nearSG:
		enough := longer <= longestBoilMin
		longer = math.Min(longer, longestBoilMin)
		if w, then := boil(longer); then != nil {
			w = b.leadsTo(w, then)
			if !enough && !w.Short.Empty() {
				w.Short = message.New("boil {minutes} longer before the hops, to {gravity}", minutes(longer), gravity(w.OriginalSG))
			}
			w.Settings = append(w.Settings, Setting{"boil.minutes", b.d.Boil.Minutes + longer})
			a.add(w)
		}
	}
	a.honey(b, asItIs.IntoFermenterWort, b.coolSG)
	a.goOn(b, asItIs)
	return a
}

// volumeOnly answers to a volume whose gravity is not measured yet.
func (b *brew) volumeOnly(p *water.Plan, hotL, plannedL float64) Answer {
	if math.Abs(hotL-plannedL) <= nearShare*plannedL {
		return Answer{AsPlanned: true}
	}
	return Answer{Means: message.New("{volume} would reach the fermenter, not {planned}. Measure the gravity before anything is done about it", litres(p.IntoFermenter), litres(b.plan.IntoFermenter))}
}

// off says how wort in the fermenter differs from the plan.
func (b *brew) off(p *water.Plan) Answer {
	og, want := b.original(p), b.originalWanted()
	if math.Abs(og-want) <= nearSG && math.Abs(p.IntoFermenter-b.plan.IntoFermenter) <= nearShare*b.plan.IntoFermenter {
		return Answer{AsPlanned: true}
	}
	return Answer{Means: message.New("As it is, {volume} of {gravity} would be pitched, not {plannedVolume} of {plannedGravity}",
		litres(p.IntoFermenter), gravity(og), litres(b.plan.IntoFermenter), gravity(want))}
}

func (b *brew) originalWanted() float64 {
	if b.predicted {
		return b.p.OriginalGravitySG.Mid
	}
	return b.original(&b.plan)
}

// holds says whether the vessel holds so much.
func (b *brew) holds(hotL float64) bool { return hotL <= b.d.Kit.VesselL }

// leadsTo fills in what a way ends at, and the volume that the design then has.
func (b *brew) leadsTo(w Way, p *water.Plan) Way {
	w.IntoFermenterL, w.OriginalSG = p.IntoFermenter, b.original(p)
	w.Settings = append(w.Settings, Setting{"batch.into_fermenter_l", math.Round(100*p.IntoFermenter) / 100})
	return w
}

// goOn is to leave it as it is, and to land elsewhere.
func (a *Answer) goOn(b *brew, p *water.Plan) {
	a.add(b.leadsTo(Way{Text: message.New("Leave it: {volume} of {gravity}", litres(p.IntoFermenter), gravity(b.original(p)))}, p))
}

// honey makes up for weak wort with more of the design's honey, so that as much
// alcohol comes of it: of the wort's extract the real attenuation ferments, of
// honey nearly all.
func (a *Answer) honey(b *brew, wort water.Liquid, wantedSG float64) {
	i := b.spareHoney()
	if i < 0 || !b.predicted || wort.GravitySG() > wantedSG-nearSG {
		return
	}
	h := b.d.Honey[i]
	kg := b.makesUpKg(wort, wantedSG, h)
	if kg < 0.005 {
		return
	}
	if most := b.d.Taste.HoneyAtHandKg; most != nil && b.d.HoneyBesideKg(-1)+kg > *most {
		return
	}
	a.add(Way{
		Text:           message.New("{mass} more of {name}: as strong as planned, a little drier", kilos(kg), h.Name),
		Short:          message.New("{mass} more honey", kilos(kg)),
		Settings:       []Setting{{path("honey", i) + ".mass_kg", math.Round(1000*(h.MassKg+kg)) / 1000}},
		IntoFermenterL: wort.VolumeL(),
		OriginalSG:     wort.Plus(recipe.HoneyAt(b.d, design.MomentPitching)).GravitySG(),
	})
}

// makesUpKg is the honey that makes up for weak wort.
func (b *brew) makesUpKg(wort water.Liquid, wantedSG float64, h design.Honey) float64 {
	short := water.Wort(wort.VolumeL(), wantedSG).ExtractKg - wort.ExtractKg
	return short * b.p.RealAttenuationPct.Mid / honeyFermentsPct / (1 - h.MoisturePct/100)
}

// spareHoney is the honey that may still be more: the first that goes in late, or at
// pitching; −1: none.
func (b *brew) spareHoney() int {
	for _, moment := range []string{design.MomentFermenting, design.MomentPitching} {
		for i, h := range b.d.Honey {
			if h.Moment == moment && h.MassKg > 0 {
				return i
			}
		}
	}
	return -1
}

// afterBoil is the day from the wort at the end of the boil.
func (b *brew) afterBoil(wort water.Liquid) water.Plan {
	in := recipe.LiquorInput(b.d)
	in.BoilMinutes, in.BoilHoney = 0, water.Liquid{}
	p, err := water.FromPreBoil(in, wort)
	if err != nil {
		return b.plan
	}
	return p
}

// fermenterIs answers to volume and original gravity in the fermenter.
func (b *brew) fermenterIs(volumeL, sg float64) Answer {
	planned := b.plan.IntoFermenter
	if math.IsNaN(sg) {
		if math.Abs(volumeL-planned) <= nearShare*planned {
			return Answer{AsPlanned: true}
		}
		return Answer{Means: message.New("{volume} are in the fermenter, not {planned}: the honey is for the planned", litres(volumeL), litres(planned)), Ways: b.scaledHoney(volumeL)}
	}
	want := b.originalWanted()
	if math.Abs(sg-want) <= nearSG {
		return Answer{AsPlanned: true}
	}
	wort := water.Wort(volumeL, sg)
	a := Answer{Means: message.New("It is pitched at {gravity}, not at {planned}", gravity(sg), gravity(want))}
	if sg > want {
		lacks, ok := wort.WaterL(want)
		if ok && volumeL+lacks+b.honeyRoomL() <= b.d.Kit.FermenterL {
			a.add(Way{Text: message.New("Add {volume} of boiled, cooled water", litres(lacks)), Settings: []Setting{{"batch.into_fermenter_l", math.Round(100*(volumeL+lacks)) / 100}},
				IntoFermenterL: volumeL + lacks, OriginalSG: want, Again: measured.OriginalGravity})
		}
	} else {
		a.honey(b, wort, want)
	}
	a.add(Way{Text: message.New("Leave it: {volume} of {gravity}", litres(volumeL), gravity(sg)), IntoFermenterL: volumeL, OriginalSG: sg})
	return a
}

func (b *brew) honeyRoomL() float64 {
	return math.Max(0, b.plan.FermenterL-b.plan.IntoFermenter)
}

// scaledHoney gives other litres the same share of honey.
func (b *brew) scaledHoney(volumeL float64) []Way {
	i := b.spareHoney()
	if i < 0 || !(b.plan.IntoFermenter > 0) {
		return nil
	}
	kg := b.d.Honey[i].MassKg * volumeL / b.plan.IntoFermenter
	return []Way{{
		Text:     message.New("{mass} of {name} in place of {planned}: as much a litre", kilos(kg), b.d.Honey[i].Name, kilos(b.d.Honey[i].MassKg)),
		Settings: []Setting{{path("honey", i) + ".mass_kg", math.Round(1000*kg) / 1000}},
	}}
}
