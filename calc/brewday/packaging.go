package brewday

import (
	"math"

	"skep/calc"
	"skep/calc/carbonation"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/honey"
	"skep/calc/says"
)

// worked is a package worked out.
type worked struct {
	carbonation.Bottled
	primerG, litres float64
	honeyVolumes    float64 // if the late honey had not fermented at all
	honeyBar        float64
}

func (b *brew) bottled() worked {
	left := 0.0
	if b.predicted {
		left = carbonation.ExtractBetween(density.PlatoFromSG(b.p.EffectiveOriginalGravitySG.Mid), b.p.FinalGravitySG.High, b.p.FinalGravitySG.Low)
	}
	w := worked{Bottled: carbonation.Bottle(calc.Carbonation(b.d.Package), left), litres: b.plan.Packaged}
	w.primerG = w.PrimerGPerL * w.litres
	unfermented := 0.0
	for _, i := range b.late() {
		h := b.d.Honey[i]
		unfermented += 1000 * h.MassKg * (1 - h.MoisturePct/100) * honey.FermentableShareMid
	}
	if b.plan.FermenterL > 0 {
		w.honeyVolumes = w.Volumes + carbonation.VolumesFromExtract(unfermented/b.plan.FermenterL)
		w.honeyBar = carbonation.BottleBarGauge(b.d.Package.StoreC, w.honeyVolumes)
	}
	return w
}

// packaging is the beer put up: gravity steady first, primer, pressure.
func (b *brew) packaging() (Step, bool) {
	pk := b.d.Package
	w := b.bottled()
	keg := pk.Vessel == "keg"
	s := Step{Key: Packaging, Title: "Bottle", Why: "What can still ferment becomes gas in a closed bottle."}
	if keg {
		s.Title, s.Why = "Keg", "Air stales it and gas lifts it: out with the one, the other by pressure."
	}
	days := readingsDaysApart
	if b.yeast.EatsDextrin || b.rawHoney() {
		days = slowDaysApart
	}
	s.do("Only if readings {} days apart are the same", count(days))
	if b.predicted {
		s.do("Above {} it may be stuck: warm it, swirl, wait; do not package it", gravity(b.p.FinalGravitySG.High))
	}
	s.lead("to package", litres(w.litres))
	s.number("CO2 kept", of(says.CO2Volumes, w.ResidualVolumes))
	switch {
	case keg:
		bar := carbonation.BottleBarGauge(pk.StoreC, pk.VolumesCO2)
		s.lead("aim for", of(says.CO2Volumes, pk.VolumesCO2))
		s.number("pressure to set at", celsius(pk.StoreC))
		s.lead("regulator", of(says.Pressure, math.Max(0, bar)))
		s.do("Flush the keg with CO2, fill from the bottom, flush the top, close, set {} and give it a week", of(says.Pressure, math.Max(0, bar)))
	default:
		b.bottling(&s, w)
	}
	s.blank("gravity first", "gravity", says.Gravity, says.Quantity{})
	expect := says.Quantity{}
	if b.predicted {
		expect = gravity(b.p.FinalGravitySG.Mid)
	}
	s.blank("again", "final-gravity", says.Gravity, expect)
	s.blank("packaged", "volume-packaged", says.Volume, litres(w.litres))
	s.Cautions = append(s.Cautions, cautionGlass, cautionAlcohol)
	if keg {
		s.Cautions[0] = cautionKeg
	} else if len(b.d.Honey) == 0 && pk.Primer == carbonation.Honey {
		s.Cautions = append(s.Cautions, cautionInfant)
	}
	return s, true
}

func (b *brew) rawHoney() bool {
	for _, h := range b.d.Honey {
		if h.Raw && h.MassKg > 0 && (h.Moment == design.MomentPitching || h.Moment == design.MomentFermenting) {
			return true
		}
	}
	return false
}

// bottling is primer and pressure of bottles, and the judgement of both.
func (b *brew) bottling(s *Step, w worked) {
	pk := b.d.Package
	if w.primerG > 0 {
		s.lead(pk.Primer, grams(w.primerG))
		s.number("a litre", of(says.GramsPerLitre, w.PrimerGPerL))
		s.do("{} boiled up in a little water, cooled, in first; beer onto it, no splashing", says.Name(sentenceCase(pk.Primer)))
	} else {
		s.do("No primer goes in")
	}
	s.do("Fill to a thumb under the rim and cap at once; a fortnight in a closed box that holds glass")
	s.number("in the bottle", of(says.CO2Volumes, w.Volumes))
	s.number("pressure", of(says.Pressure, w.BarGauge))
	s.number("at worst", of(says.CO2Volumes, w.WorstVolumes))
	s.number("then", of(says.Pressure, w.WorstBarGauge))
	s.number("made for", of(says.CO2Volumes, w.RatedVolumes))
	b.judge(s, w)
}

// judge says what the numbers mean. No case says that a bottle is safe.
func (b *brew) judge(s *Step, w worked) {
	pk := b.d.Package
	rated, store := of(says.CO2Volumes, w.RatedVolumes), celsius(pk.StoreC)
	switch {
	case w.Volumes > w.RatedVolumes:
		s.warn(keys("package.volumes_co2", "package.rated_volumes", "package.primer"),
			"Do not bottle this: {} ({} at {}) is more than the bottle is made for, {}, and may burst it. Less primer, or stronger bottles and their maker's figure",
			of(says.CO2Volumes, w.Volumes), of(says.Pressure, w.BarGauge), store, rated)
	case w.WorstVolumes > w.RatedVolumes:
		s.warn(keys("package.volumes_co2", "package.rated_volumes"),
			"If it was not over when filled, a bottle reaches {} ({} at {}); it is made for {} and may burst. Nothing but the two readings prevents it",
			of(says.CO2Volumes, w.WorstVolumes), of(says.Pressure, w.WorstBarGauge), store, rated)
	default:
		s.note("By this estimate it stays under the bottle's {}. That is no promise: heat, scratches and a stuck beer are not in it.", rated)
	}
	if w.honeyVolumes > w.RatedVolumes && b.lateHoneyKg > 0 {
		s.warn(keys("honey"), "With the honey still in it, a bottle reaches {} ({}): never bottle by the calendar after honey",
			of(says.CO2Volumes, w.honeyVolumes), of(says.Pressure, w.honeyBar))
	}
	if pk.RatedVolumes <= unknownVolumes {
		s.note("{} is the figure for a bottle of unknown make; set package.rated_volumes to its maker's.", of(says.CO2Volumes, unknownVolumes))
	}
	if pk.Primer == carbonation.None && pk.VolumesCO2 > w.ResidualVolumes+0.2 {
		s.warn(keys("package.primer"), "Without a primer it stays at {}, flat beside the {} asked for", of(says.CO2Volumes, w.ResidualVolumes), of(says.CO2Volumes, pk.VolumesCO2))
	}
}

// unknownVolumes is taken for a bottle of which nothing is known (design notes,
// checks 5e).
const unknownVolumes = 3.0
