package brewday

import (
	"math"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/follow"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/recipe"
	"skep/calc/water"
)

// Measured is what the instruments said on the day so far: NaN where they said
// nothing yet. Temperatures in °C, volumes in litres (before and after the boil hot,
// in the fermenter cool), gravities of a cooled sample.
type Measured struct {
	StrikeC, MashC         float64
	PreBoilL, PreBoilSG    float64
	PostBoilL, PostBoilSG  float64
	FermenterL, OriginalSG float64
	PitchC                 float64
}

// Nothing is a day of which nothing was measured.
func Nothing() Measured {
	n := math.NaN()
	return Measured{n, n, n, n, n, n, n, n, n}
}

// Of is where a kind of reading stands; nil for one that the day does not know.
func (m *Measured) Of(what string) *float64 {
	switch what {
	case follow.StrikeTemperature:
		return &m.StrikeC
	case follow.MashTemperature:
		return &m.MashC
	case follow.PreBoilVolume:
		return &m.PreBoilL
	case follow.PreBoilGravity:
		return &m.PreBoilSG
	case follow.PostBoilVolume:
		return &m.PostBoilL
	case follow.PostBoilGravity:
		return &m.PostBoilSG
	case follow.VolumeFermenter:
		return &m.FermenterL
	case follow.OriginalGravity:
		return &m.OriginalSG
	case follow.BeerTemperature:
		return &m.PitchC
	}
	return nil
}

// Setting is a value of the design by its key.
type Setting struct {
	Key   string
	Value float64
}

// Way is one thing that can still be done about a measurement.
type Way struct {
	Text     message.Message
	Short    message.Message // for the table on paper; empty: it is not there
	Settings []Setting       // of the design, when it is taken; none: nothing of it changes
	Again    string          // what is to be measured anew afterwards; "": nothing

	IntoFermenterL, OriginalSG float64 // what it leads to, by the balance; 0: not told
}

// Answer is what the plan says to a measurement.
type Answer struct {
	AsPlanned bool
	Means     message.Message // what it means for the beer
	Ways      []Way           // what can still be done, what costs least first
}

// So near to the plan a measurement is as planned: what a good instrument and a mark
// on the vessel are good to (common practice, no source).
const (
	nearC     = 0.5
	nearSG    = 0.0015
	nearShare = 0.03 // of a volume
	pitchNear = 1.0  // °C
)

const honeyFermentsPct = 95.0 // of the honey's extract, by real attenuation (ours)

// AnswerTo compares a measurement with the plan of the design, and says what can
// still be done. what is the kind of the reading that was made last, and m has it
// already; the prediction is that of before it was made.
//
// Extract stays what it is, only water comes and goes: V1 (SG1 - 1) = V2 (SG2 - 1),
// counted by mass. Heat is a balance: water, grain and vessel.
func AnswerTo(d design.Design, p calc.Prediction, what string, m Measured) Answer {
	at := m.Of(what)
	if at == nil || math.IsNaN(*at) {
		return Answer{AsPlanned: true}
	}
	b := newBrew(d, p)
	switch what {
	case follow.StrikeTemperature:
		return b.strikeIs(m.StrikeC)
	case follow.MashTemperature:
		return b.mashIs(m.MashC)
	case follow.PreBoilVolume, follow.PreBoilGravity:
		return b.beforeBoilIs(or(m.PreBoilL, b.plan.PreBoil), or(m.PreBoilSG, b.preBoilSG), math.IsNaN(m.PreBoilSG))
	case follow.PostBoilVolume, follow.PostBoilGravity:
		return b.afterBoilIs(or(m.PostBoilL, b.plan.PostBoil), or(m.PostBoilSG, b.postBoilSG), math.IsNaN(m.PostBoilSG))
	case follow.VolumeFermenter, follow.OriginalGravity:
		return b.fermenterIs(or(m.FermenterL, b.plan.IntoFermenter), m.OriginalSG)
	}
	return b.pitchIs(m.PitchC)
}

func or(v, otherwise float64) float64 {
	if math.IsNaN(v) {
		return otherwise
	}
	return v
}

func (b *brew) mash() water.Mash {
	return water.Mash{GrainKg: b.plan.GrainKg, LiquorL: b.plan.MashLiquor, VesselHeatKJPerK: b.d.Kit.VesselHeatKJPerK}
}

// strikeIs answers to the liquor's temperature before the grain goes in.
func (b *brew) strikeIs(c float64) Answer {
	want := b.plan.StrikeTemperatureC
	settles, err := b.strike().MashC(c)
	if err != nil || math.Abs(c-want) <= nearC {
		return Answer{AsPlanned: true}
	}
	a := Answer{Means: message.New("The mash would settle at {temperature}, not at {planned}", celsius(settles), celsius(b.plan.SettlesC))}
	if c < want {
		if m := water.HeatingMinutes(b.plan.MashLiquor, 0, b.d.Kit.VesselHeatKJPerK, c, want, b.d.Kit.HeaterW); m > 0 {
			a.add(Way{Text: message.New("Heat for about {minutes} more, to {temperature}", upMinutes(m), celsius(want)), Again: follow.StrikeTemperature})
		}
		return a
	}
	a.add(Way{Text: message.New("Lid off and stir until it shows {temperature}", celsius(want)), Again: follow.StrikeTemperature})
	if l, ok := water.ExchangeL(b.plan.MashLiquor, c, want, b.d.Kit.TapC); ok && l > 0.05 {
		a.add(Way{Text: message.New("Ladle out {volume} and pour in as much from the tap", litres(l)), Again: follow.StrikeTemperature})
	}
	return a
}

func (b *brew) strike() water.Strike {
	moisture := math.NaN()
	if g := recipe.Grist(b.d); g.MassKg > 0 {
		moisture = 100 * g.MoistureKg / g.MassKg
	}
	return water.Strike{GrainKg: b.plan.GrainKg, LiquorL: b.plan.MashLiquor, GrainTemperatureC: b.d.Mash.GrainC,
		VesselHeatKJPerK: b.d.Kit.VesselHeatKJPerK, VesselC: math.NaN(), MaltMoisturePct: moisture}
}

// mashIs answers to the mash's temperature once it is mixed.
func (b *brew) mashIs(c float64) Answer {
	if len(b.d.Mash.Rest) == 0 {
		return Answer{AsPlanned: true}
	}
	want := b.d.Mash.Rest[0].TemperatureC
	if math.Abs(c-want) <= nearC {
		return Answer{AsPlanned: true}
	}
	a := Answer{Means: message.New("Cooler than planned by {difference}: it would end drier and lighter", of(quantity.TemperatureDifference, want-c))}
	if c > want {
		a.Means = message.New("Warmer than planned by {difference}: it would end sweeter and fuller", of(quantity.TemperatureDifference, c-want))
	}
	a.Ways = b.mashWays(c, want)
	return a
}

func (b *brew) mashWays(c, want float64) []Way {
	var a Answer
	if c < want {
		if m := b.heatingMash(c, want); m > 0 {
			a.add(Way{Text: message.New("Heater on for about {minutes}, pump running", upMinutes(m)), Short: message.New("heater {minutes}", upMinutes(m)), Again: follow.MashTemperature})
		}
		if l, ok := b.mash().MixL(c, want, b.plan.BoilingPointC); ok {
			a.add(b.thinner(l, message.New("Stir in {volume} of boiling water, and sparge with as much less", litres(l)), message.New("{volume} of boiling water", litres(l))))
		}
		return a.Ways
	}
	if l, ok := b.mash().MixL(c, want, b.d.Kit.TapC); ok {
		a.add(b.thinner(l, message.New("Stir in {volume} from the tap, and sparge with as much less", litres(l)), message.New("{volume} from the tap", litres(l))))
	}
	return a.Ways
}

// thinner is a mash with so much more water in it.
func (b *brew) thinner(more float64, text, short message.Message) Way {
	w := Way{Text: text, Short: short, Again: follow.MashTemperature}
	if b.plan.GrainKg > 0 {
		w.Settings = []Setting{{"mash.liquor_l_per_kg", b.plan.LiquorLPerKg + more/b.plan.GrainKg}}
	}
	return w
}

// wanted is the gravity of the cool wort in the vessel that leads to the original
// gravity of the prediction.
func (b *brew) wanted() float64 {
	plan := b.plan
	if b.predicted {
		plan = recipe.LiquorForExtract(b.d, b.extractFor(b.p.OriginalGravitySG.Mid))
	}
	return plan.CoolLiquid.GravitySG()
}

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
		return b.volumeOnly(&asItIs, hotL)
	}
	wanted := b.wanted()
	off := b.off(&asItIs)
	if off.AsPlanned {
		return off
	}
	a := off
	if lacks, ok := asItIs.CoolLiquid.WaterL(wanted); ok && asItIs.CoolLiquid.GravitySG() > wanted+nearSG {
		if then, err := water.FromPreBoil(in, wort.Plus(water.Liquid{WaterKg: lacks * waterKgPerL})); err == nil && b.holds(water.HotL(wort.VolumeL()+lacks, b.plan.BoilingPointC)) {
			a.add(b.leadsTo(Way{Text: message.New("Add {volume} of water", litres(lacks)), Short: message.New("add {volume} of water", litres(lacks))}, &then))
		}
	} else if ok && asItIs.CoolLiquid.GravitySG() < wanted-nearSG && b.d.Kit.SteamLPerH > 0 {
		longer := in
		more := math.Ceil(-lacks / b.d.Kit.SteamLPerH * 60)
		longer.BoilMinutes += more
		if then, err := water.FromPreBoil(longer, wort); err == nil && more <= longestBoilMin {
			w := b.leadsTo(Way{Text: message.New("Boil {minutes} longer, before the hops", minutes(more)), Short: message.New("boil {minutes} longer before the hops", minutes(more))}, &then)
			w.Settings = append(w.Settings, Setting{"boil.minutes", longer.BoilMinutes})
			a.add(w)
		}
	}
	a.honey(b, asItIs.IntoFermenterWort, wanted)
	a.goOn(b, &asItIs)
	return a
}

const waterKgPerL = 0.9982 // at 20 °C

// longestBoilMin is when boiling longer is no answer any more.
const longestBoilMin = 180.0

// volumeOnly answers to a volume whose gravity is not measured yet.
func (b *brew) volumeOnly(p *water.Plan, hotL float64) Answer {
	if math.Abs(hotL-b.plan.PreBoil) <= nearShare*b.plan.PreBoil {
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

func (a *Answer) add(w Way) { a.Ways = append(a.Ways, w) }

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
	if most := b.d.Taste.HoneyAtHandKg; most != nil && b.honeyKg()+kg > *most {
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

func (b *brew) honeyKg() (sum float64) {
	for _, h := range b.d.Honey {
		sum += h.MassKg
	}
	return sum
}

// afterBoilIs answers to volume and gravity at the end of the boil.
func (b *brew) afterBoilIs(hotL, sg float64, gravityToCome bool) Answer {
	asItIs := b.afterBoil(b.wort(hotL, sg))
	if gravityToCome {
		if math.Abs(hotL-b.plan.PostBoil) <= nearShare*b.plan.PostBoil {
			return Answer{AsPlanned: true}
		}
		return Answer{Means: message.New("{volume} would reach the fermenter, not {planned}. Measure the gravity before anything is done about it", litres(asItIs.IntoFermenter), litres(b.plan.IntoFermenter))}
	}
	wanted := b.wanted()
	a := b.off(&asItIs)
	if a.AsPlanned {
		return a
	}
	if lacks, ok := asItIs.CoolLiquid.WaterL(wanted); ok && asItIs.CoolLiquid.GravitySG() > wanted+nearSG {
		then := b.afterBoil(b.wort(hotL, sg).Plus(water.Liquid{WaterKg: lacks * waterKgPerL}))
		if b.holds(then.PostBoil) {
			a.add(b.leadsTo(Way{Text: message.New("Add {volume} of boiling water", litres(lacks))}, &then))
		}
	} else if ok && asItIs.CoolLiquid.GravitySG() < wanted-nearSG && b.d.Kit.SteamLPerH > 0 {
		more := math.Ceil(-lacks / b.d.Kit.SteamLPerH * 60)
		if more <= longestBoilMin {
			then := b.afterBoil(b.wort(hotL, sg).Minus(water.Liquid{WaterKg: more / 60 * b.d.Kit.SteamLPerH * waterKgPerL}))
			w := b.leadsTo(Way{Text: message.New("Boil {minutes} more; hops that are in turn bitterer", minutes(more)), Again: follow.PostBoilGravity}, &then)
			w.Settings = append(w.Settings, Setting{"boil.minutes", b.d.Boil.Minutes + more})
			a.add(w)
		}
	}
	a.honey(b, asItIs.IntoFermenterWort, wanted)
	a.goOn(b, &asItIs)
	return a
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
				IntoFermenterL: volumeL + lacks, OriginalSG: want, Again: follow.OriginalGravity})
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

// pitchIs answers to the wort's temperature before the yeast goes in.
func (b *brew) pitchIs(c float64) Answer {
	want := b.yeast.TemperatureC
	switch {
	case math.Abs(c-want) <= pitchNear || want <= 0:
		return Answer{AsPlanned: true}
	case c > want+pitchOverC:
		return Answer{
			Means: message.New("Too warm to pitch: yeast grows fast and makes fusel alcohols and esters above {temperature}", celsius(want+pitchOverC)),
			Ways:  []Way{{Text: message.New("Close it, cool it to {temperature} or less, then pitch", celsius(want+pitchOverC)), Again: follow.BeerTemperature}},
		}
	case c > want:
		return Answer{
			Means: message.New("A little warm: pitch, and bring it to {temperature} within half a day", celsius(want)),
			Ways:  []Way{{Text: message.New("Pitch now and cool on to {temperature}", celsius(want))}},
		}
	}
	return Answer{
		Means: message.New("Colder than planned: it starts later, by hours"),
		Ways: []Way{
			{Text: message.New("Pitch, and let it warm to {temperature}", celsius(want))},
			{Text: message.New("Stand it warm until it shows {temperature}, then pitch", celsius(want-pitchNear)), Again: follow.BeerTemperature},
		},
	}
}

// upMinutes are minutes that a person sets a heater for.
func upMinutes(m float64) quantity.Quantity { return minutes(math.Max(1, math.Ceil(m))) }
