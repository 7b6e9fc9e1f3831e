package calc

import (
	"fmt"
	"math"

	"skep/calc/carbonation"
	"skep/calc/density"
	"skep/calc/design"
	"skep/calc/ferment"
	"skep/calc/honey"
	"skep/calc/sugar"
	"skep/calc/taste"
)

// day fills in what the brew day and the fermentation add to a prediction.
func (b *brew) day(p *Prediction, tempC float64) error {
	plan := &b.plan
	p.Volumes = Volumes{
		MashLiquor: plan.MashLiquor, Sparge: plan.Sparge, PreBoil: plan.PreBoil,
		PostBoil: plan.PostBoil, IntoFermenter: plan.IntoFermenter, Packaged: plan.Packaged,
	}
	p.StrikeTemperatureC = plan.StrikeTemperatureC
	p.BitternessIBU = Band(Hops(b.d, plan.PostBoilGravitySG, plan.CoolL).Bitterness())
	p.ColourEBC = bandFrom(Colour(b.d, plan.CoolL))

	in := b.fermentInput(tempC)
	course, timing, err := ferment.Follow(in)
	if err != nil {
		return err
	}
	times := timing.Bands()
	p.HeightHours = Band(times.HeightHours)
	p.HoneyWindowHours = [2]Band{Band(times.Window[0]), Band(times.Window[1])}
	p.FinishedHours = Band(times.FinishedHours)
	character := b.character(&course)
	p.HoneyCharacter = Band(character)
	p.HoneyCharacterWord = taste.CharacterWord(character.Mid)

	// The bottle's worst: filled while the beer stood at the sweet end of its
	// band, and gone on to the dry end.
	left := carbonation.ExtractBetween(density.PlatoFromSG(p.EffectiveOriginalGravitySG.Mid), p.FinalGravitySG.High, p.FinalGravitySG.Low)
	bottle := carbonation.Bottle(Carbonation(b.d.Package), left)
	p.PrimerGPerL = bottle.PrimerGPerL
	p.BottleVolumes = bottle.Volumes
	p.BottleVolumesWorst = bottle.WorstVolumes

	p.Warnings = append([]string{}, b.notes...)
	p.Warnings = append(p.Warnings, course.Warnings...)
	p.Warnings = append(p.Warnings, yeastNotes(b.yeast)...)
	p.Warnings = append(p.Warnings, b.honeyNotes(p)...)
	p.Cautions = append(b.cautions(p), bottle.Warnings...)
	return nil
}

func bandFrom(low, mid, high float64) Band { return Band{low, mid, high} }

// fermentInput is the middle draw as it is pitched.
func (b *brew) fermentInput(tempC float64) ferment.Input {
	w := &b.mid
	in := ferment.Input{
		Take:             w.take,
		TemperatureC:     b.yeast.TemperatureC,
		PitchBillionPerL: b.yeast.CellsBillionPerL,
		LagHours:         b.clock.LagHours, RateFactor: b.clock.RateFactor, ClockShare: b.clock.Share,
	}
	// The wort without any honey: what strain and honey do to each other is
	// package ferment's business, which takes honey as additions with sugars of
	// their own, all of whose fermentable share ferments.
	litres := b.d.Batch.IntoFermenterL
	grain := sugar.Spectrum{}
	if b.mash != nil {
		s, conversion := b.mash.at(tempC, w)
		grain = s.Times(w.grainKg * conversion)
	}
	in.Wort = grain.Times(1000 / litres)
	add := func(after bool, hours, massKg, litresAdded float64, kg sugar.Spectrum) {
		if massKg <= 0 {
			return
		}
		total := kg.Total()
		in.Additions = append(in.Additions, ferment.Addition{
			AfterHeight: after, Hours: hours, Sugars: kg.Times(1000 / litres),
			Fermentable: (total - kg.Dextrin - kg.Other) / total, VolumeShare: litresAdded / litres,
		})
	}
	for _, h := range b.d.Honey {
		kg := honey.Extract(h.MassKg, h.MoisturePct, honey.Blossom, honey.FermentableShareMid)
		volume := honey.VolumeL(h.MassKg, h.MoisturePct, 20)
		switch h.Moment {
		case design.MomentBoil, design.MomentWhirlpool:
			add(false, 0, h.MassKg*w.kept, 0, kg.Times(w.kept)) // its room is in the wort already
		case design.MomentPitching:
			add(false, 0, h.MassKg, volume, kg)
		default:
			add(true, h.HoursAfterHeight, h.MassKg, volume, kg)
		}
	}
	return in
}

// character is the honey character of all additions together.
func (b *brew) character(course *ferment.Course) honey.Index {
	return honey.Character(b.characterInput(course)...)
}

func (b *brew) characterInput(course *ferment.Course) []honey.CharacterInput {
	var in []honey.CharacterInput
	for _, h := range b.d.Honey {
		c := honey.CharacterInput{GramsPerL: 1000 * h.MassKg / b.plan.FermenterL}
		hour := 0.0
		switch h.Moment {
		case design.MomentBoil:
			c.Moment = honey.Boil
		case design.MomentWhirlpool:
			c.Moment = honey.Whirlpool
		case design.MomentPitching:
			c.Moment = honey.Pitching
		default:
			c.Moment = honey.Fermenting
			hour = course.HeightHours + h.HoursAfterHeight
		}
		c.CO2VolumesAfter = course.CO2AfterLPerL(math.Max(0, hour))
		in = append(in, c)
	}
	return in
}

// honeyNotes says where an addition of honey lies badly.
func (b *brew) honeyNotes(p *Prediction) []string {
	var notes []string
	for i, h := range b.d.Honey {
		for _, f := range honey.Findings(h.MoisturePct, honey.Blossom) {
			notes = append(notes, fmt.Sprintf("honey.%d: %s", i, f))
		}
		if h.Moment != design.MomentFermenting || h.MassKg <= 0 {
			continue
		}
		hour := p.HeightHours.Mid + h.HoursAfterHeight
		opens, closes := p.HoneyWindowHours[0], p.HoneyWindowHours[1]
		switch {
		case hour < opens.Mid && h.HoursAfterHeight > 0:
			notes = append(notes, fmt.Sprintf("honey.%d goes in at %.0f h, before the honey window opens (%.0f h): more of its aroma leaves with the gas", i, hour, opens.Mid))
		case hour > closes.Mid:
			notes = append(notes, fmt.Sprintf("honey.%d goes in at %.0f h, after the honey window closes (%.0f h): the yeast may be too tired to finish it, so allow time and bottle only on a steady gravity", i, hour, closes.Mid))
		}
	}
	if share := b.honeyShare(); share > 0.25 {
		notes = append(notes, fmt.Sprintf("honey makes %.0f %% of the extract: it brings almost no nitrogen, so give yeast nutrient", 100*share))
	}
	return notes
}

// honeyShare is honey's share of all extract, 0 to 1.
func (b *brew) honeyShare() float64 {
	kg := b.mid.hot.Total() + b.mid.pitched.kg.Total() + b.mid.late.kg.Total()
	if kg <= 0 {
		return 0
	}
	return kg / (kg + b.mid.grainKg)
}
