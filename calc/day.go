package calc

import (
	"math"

	"skep/calc/carbonation"
	"skep/calc/cautions"
	"skep/calc/design"
	"skep/calc/honey"
	"skep/calc/message"
	"skep/calc/packaging"
	"skep/calc/quantity"
	"skep/calc/recipe"
	"skep/calc/taste"
)

// day fills in what the brew day and the fermentation add to a prediction.
func (e *Engine) day(b *Brew, p *Prediction) {
	plan := &b.plan
	p.Volumes = Volumes{
		MashLiquor: plan.MashLiquor, Sparge: plan.Sparge, PreBoil: plan.PreBoil,
		PostBoil: plan.PostBoil, IntoFermenter: plan.IntoFermenter, Packaged: plan.Packaged,
	}
	p.StrikeTemperatureC = plan.StrikeTemperatureC
	hops := recipe.Hops(b.d, plan.PostBoilGravitySG, plan.CoolL)
	p.BitternessIBU = Band(hops.Bitterness())
	p.ColourEBC = bandFrom(recipe.Colour(b.d, plan.CoolL))

	// How honey's aroma fares, and what there is to warn of, by the middle course.
	x := &e.work[0]
	b.Ferment(&b.mid, x)
	character := honey.Character(b.CharacterInput(&x.Fermentation)...)
	p.HoneyCharacter = Band(character)
	p.HoneyCharacterWord = taste.CharacterWord(character.Mid)

	primer, bottleNotes := carbonation.Primer(recipe.Carbonation(b.d.Package, b.d.Batch.AltitudeM))
	p.PrimerGPerL = primer
	p.Warnings = append([]message.Message{}, b.notes...)
	p.Warnings = append(p.Warnings, hops.Notes()...)
	p.Warnings = append(p.Warnings, x.Walk.Warnings(b.yeast.TemperatureC, x.EffectivePlato)...)
	p.Warnings = append(p.Warnings, recipe.YeastNotes(b.yeast)...)
	b.yeastStress(p)
	p.OutsideWindow = b.outsideWindow(p)
	p.Warnings = append(p.Warnings, b.honeyNotes(p)...)
	p.Warnings = append(p.Warnings, bottleNotes...)
	p.guard(packaging.New(recipe.Guard(b.d, b.yeast, p.Brewed())))
	b.widen(p)
	p.Cautions = cautions.Of(recipe.Cautions(b.d))
}

func bandFrom(low, mid, high float64) Band { return Band{low, mid, high} }

// CharacterInput is what the honey character of each addition hangs on.
func (b *Brew) CharacterInput(course *Fermentation) []honey.CharacterInput {
	var in []honey.CharacterInput
	for i, h := range b.d.Honey {
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
			if at, logged := b.logged.honeyHours(i); logged {
				hour = at
			}
		}
		c.CO2VolumesAfter = course.CO2AfterLPerL(math.Max(0, hour))
		in = append(in, c)
	}
	return in
}

// honeyNotes says where an addition of honey lies badly.
func (b *Brew) honeyNotes(p *Prediction) []message.Message {
	var notes []message.Message
	of := func(i int, text message.Message) {
		notes = append(notes, message.New("{honey}: {text}", recipe.HoneyName(&b.d, i), text))
	}
	for i, h := range b.d.Honey {
		for _, f := range honey.Findings(h.MoisturePct, honey.Blossom) {
			of(i, f)
		}
	}
	for _, o := range p.OutsideWindow {
		of(o.Honey, o.Text)
	}
	return notes
}

// OutsideWindow is honey that is to go in before the honey window opens or after it
// closes, and what comes of it.
type OutsideWindow struct {
	Honey int // in the design
	Text  message.Message
}

// nearWindowHours is how near the window counts as in it: its ends are good to half
// a day (ours).
const nearWindowHours = 2.0

// outsideWindow finds the honey that misses the window.
func (b *Brew) outsideWindow(p *Prediction) []OutsideWindow {
	var out []OutsideWindow
	whole := func(v float64) quantity.Quantity { return quantity.Of(quantity.WholeHours, v) }
	for i, h := range b.d.Honey {
		if h.Moment != design.MomentFermenting || h.MassKg <= 0 {
			continue
		}
		at := math.Max(0, p.HeightHours.Mid+h.HoursAfterHeight)
		if logged, known := b.logged.honeyHours(i); known {
			at = logged
		}
		switch opens, closes := p.HoneyWindowHours[0].Mid, p.HoneyWindowHours[1].Mid; {
		case at < opens-nearWindowHours:
			out = append(out, OutsideWindow{i, message.New("{hours} is before the window opens at {opens}: it foams harder, and a little more of the scent leaves with the gas", whole(at), whole(opens))})
		case at > closes+nearWindowHours:
			out = append(out, OutsideWindow{i, message.New("{hours} is after the window closes at {closes}: the yeast may be too tired to finish the honey, so wait long for a steady gravity", whole(at), whole(closes))})
		}
	}
	return out
}
