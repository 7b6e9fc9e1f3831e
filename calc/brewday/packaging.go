package brewday

import (
	"skep/calc/carbonation"
	"skep/calc/cautions"
	"skep/calc/coldside"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/packaging"
	"skep/calc/quantity"
	"skep/calc/recipe"
)

// worked is a package worked out.
type worked struct {
	carbonation.Bottled
	packaging.Guard
	primerG, litres float64
}

func (b *brew) bottled() worked {
	w := worked{Bottled: carbonation.Bottle(recipe.Carbonation(b.d.Package, b.d.Batch.AltitudeM)), Guard: packaging.New(recipe.Guard(b.d, b.yeast, b.p.Brewed())), litres: b.plan.Packaged}
	w.primerG = weighed(w.PrimerGPerL * w.litres)
	return w
}

// packaging is the beer put up: gravity steady first, primer, pressure.
func (b *brew) packaging() (Step, bool) {
	pk := b.d.Package
	w := b.bottled()
	keg := pk.Vessel == "keg"
	s := Step{Key: Packaging, Title: message.New("Bottle"), Why: message.New("What can still ferment becomes gas in a closed bottle.")}
	if keg {
		s.Title, s.Why = message.New("Keg"), message.New("Air stales it and gas lifts it: out with the one, the other by pressure.")
	}
	s.do("Only if readings of the warm beer {gap} days apart or more are the same", w.Gap())
	if w.Slowest.Kind != packaging.Ordinary {
		s.do("Or after a forced fermentation: half a litre of it, unheated, kept at {temperature} with much fresh yeast until it stands, foretells the end in days", celsius(packaging.ForcedC))
	}
	if b.predicted {
		s.do("Above {gravity} it may be stuck: warm it, swirl, wait; do not package it", gravity(b.p.FinalGravitySG.High))
	}
	if b.yeast.EatsDextrin {
		s.do("Clean twice whatever this strain touched, and keep hoses and seals for it: a trace goes on for months in other beer")
	}
	s.lead("to package", litres(w.litres))
	s.number("CO2 kept", of(quantity.CO2Volumes, w.ResidualVolumes))
	switch {
	case keg:
		s.lead("aim for", of(quantity.CO2Volumes, pk.VolumesCO2))
		s.number("pressure to set at", celsius(pk.StoreC))
		s.lead("regulator", of(quantity.Regulator, w.BarGauge))
		s.do("Flush the keg with CO2, fill from the bottom, flush the top, close, set {regulator} and give it a week", of(quantity.Regulator, w.BarGauge))
	default:
		b.bottling(&s, w)
	}
	s.blank("gravity first", "gravity", quantity.Gravity, quantity.Quantity{})
	expect := quantity.Quantity{}
	if b.predicted {
		expect = gravity(b.p.FinalGravitySG.Mid)
	}
	s.blank("again", "final-gravity", quantity.Gravity, expect)
	s.blank("packaged", "volume-packaged", quantity.Volume, litres(w.litres))
	var grains []string
	for _, g := range b.d.Grain {
		grains = append(grains, g.Name)
	}
	if cereals := coldside.Cereals(grains); len(cereals) > 0 {
		s.note("Given away or sold, a label names {cereals}; sulphite from {threshold} on; local law says what else.", coldside.Named(cereals), of(quantity.MgPerLitre, coldside.SulphiteNamedMgPerL))
	}
	s.Cautions = append(s.Cautions, cautions.Glass(), cautions.Alcohol())
	if keg {
		s.Cautions[0] = cautions.Keg()
	} else if len(b.d.Honey) == 0 && pk.Primer == carbonation.Honey {
		s.Cautions = append(s.Cautions, cautions.HoneyInfants())
	}
	return s, true
}

// bottling is primer and pressure of bottles, and the judgement of both.
func (b *brew) bottling(s *Step, w worked) {
	pk := b.d.Package
	if w.primerG > 0 {
		s.add(design.WordOf("primer", pk.Primer), grams(w.primerG), true)
		s.number("a litre", of(quantity.GramsPerLitre, w.PrimerGPerL))
		s.do("Boil up the {primer} in a little water, cool it, and put it in first; beer onto it, no splashing", design.WordOf("primer", pk.Primer))
	} else {
		s.do("No primer goes in")
	}
	s.do("Fill to a thumb under the rim and cap on foam, which drives the air out; a fortnight in a closed box that holds glass")
	s.number("in the bottle", of(quantity.CO2Volumes, w.Volumes))
	s.number("pressure", of(quantity.Pressure, w.BarGauge))
	s.number("may still fall by", w.Headroom())
	s.number("made for", of(quantity.CO2Volumes, w.RatedVolumes))
	b.judge(s, w)
}

// judge says what the numbers mean. No case says that a bottle is safe.
func (b *brew) judge(s *Step, w worked) {
	pk := b.d.Package
	for _, a := range w.Alarms {
		s.Warnings = append(s.Warnings, Warning{w.Say(a), alarmKeys[a.Kind]})
	}
	if len(w.Alarms) == 0 {
		s.note("By this estimate it stays under the bottle's {volumes}. That is no promise: heat, scratches and a stuck beer are not in it.", of(quantity.CO2Volumes, w.RatedVolumes))
	}
	if n := len(w.Table); n > 2 {
		early := func(i int) (quantity.Quantity, quantity.Quantity) {
			return gravity(w.Table[i].PackagedSG), of(quantity.CO2Volumes, w.Table[i].Volumes).Unitless()
		}
		sg1, v1 := early(1)
		sg2, v2 := early(n / 2)
		sg3, v3 := early(n - 1)
		s.note("Filled too early, if it ends at {gravity}: at {packaged} a bottle reaches {volumes} volumes, at {packagedHigher} {volumesHigher}, at {packagedHighest} {volumesHighest}.", gravity(w.Table[0].PackagedSG), sg1, v1, sg2, v2, sg3, v3)
	}
	if v := w.HoneyUnfermentedVolumes; v > w.RatedVolumes {
		s.warn(keys("honey"), "With the honey still in it, a bottle reaches {volumes} ({pressure}): never bottle by the calendar after honey",
			of(quantity.CO2Volumes, v), of(quantity.Pressure, carbonation.BottleBarGauge(pk.StoreC, v)))
	}
	if pk.RatedVolumes <= packaging.UnknownRating {
		s.note("{volumes} is the figure for a bottle of unknown make; its maker tells what it is made for.", of(quantity.CO2Volumes, packaging.UnknownRating))
	}
	if pk.Primer == carbonation.None && pk.VolumesCO2 > w.ResidualVolumes+0.2 {
		s.warn(keys("package.primer"), "Without a primer it stays at {volumes}, flat beside the {wanted} asked for", of(quantity.CO2Volumes, w.ResidualVolumes), of(quantity.CO2Volumes, pk.VolumesCO2))
	}
}

// alarmKeys are the settings that an alarm is about.
var alarmKeys = map[packaging.AlarmKind][]string{
	packaging.OverRated:       {"package.volumes_co2", "package.rated_volumes", "package.primer"},
	packaging.LittleHeadroom:  {"package.volumes_co2", "package.rated_volumes"},
	packaging.SlowStrain:      {"yeast.0.eats_dextrin"},
	packaging.SlowHoney:       {"honey"},
	packaging.SlowHops:        {"hop"},
	packaging.HoneyPastWindow: {"honey"},
}
