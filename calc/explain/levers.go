package explain

import (
	"fmt"
	"strconv"

	"skep/calc/design"
	"skep/calc/lever"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/recipe"
)

// moved is one thing to move, and by how much.
type moved struct {
	name message.Message
	keys []string // of the design; several are moved together
	step float64
	unit string
	word string // instead of a step: the word to set
}

// leversOf are the levers of a design: those of taste as their table has them,
// for each rest and each honey, and what else a brewer might move.
func leversOf(d *design.Design, yeast int) []moved {
	var l []moved
	n := func(name message.Message, key string, step float64, unit string) {
		l = append(l, moved{name: name, keys: []string{key}, step: step, unit: unit})
	}
	of := func(which lever.Lever, thing message.Message, keys ...string) {
		l = append(l, moved{name: which.Of(thing), keys: keys, step: which.Natural(d), unit: which.Unit()})
	}
	for i := range d.Mash.Rest {
		which := recipe.RestNumber(i, len(d.Mash.Rest))
		of(lever.Rest, which, fmt.Sprintf("mash.rest.%d.temperature_c", i))
		of(lever.Minutes, which, fmt.Sprintf("mash.rest.%d.minutes", i))
	}
	n(message.New("mash liquor"), "mash.liquor_l_per_kg", 0.5, "L/kg")
	for i := range d.Grain {
		n(recipe.GrainName(d, i), fmt.Sprintf("grain.%d.mass_kg", i), 0.1, "kg")
	}
	y := fmt.Sprintf("yeast.%d.", yeast)
	of(lever.Yeast, message.New("strain"), y+"attenuation_low_pct", y+"attenuation_high_pct")
	of(lever.YeastC, message.New("fermentation"), y+"temperature_c")
	n(message.New("cells pitched"), y+"cells_billion_per_l", 1, "billion/L")
	for i, h := range d.Honey {
		name := recipe.HoneyName(d, i)
		of(lever.Honey, name, fmt.Sprintf("honey.%d.mass_kg", i))
		n(message.New("moisture of {honey}", name), fmt.Sprintf("honey.%d.moisture_pct", i), 1, "points")
		if h.Moment == design.MomentFermenting {
			of(lever.Moment, name, fmt.Sprintf("honey.%d.hours_after_height", i))
		}
		for _, m := range []string{design.MomentBoil, design.MomentWhirlpool, design.MomentPitching, design.MomentFermenting} {
			if m != h.Moment {
				l = append(l, moved{name: message.New("moment of {honey}", name), keys: []string{fmt.Sprintf("honey.%d.moment", i)}, word: m})
			}
		}
	}
	for i, h := range d.Hop {
		name := recipe.HopName(d, i)
		n(name, fmt.Sprintf("hop.%d.mass_g", i), 5, "g")
		n(message.New("alpha acid of {hop}", name), fmt.Sprintf("hop.%d.alpha_pct", i), 0.5, "points")
		if h.When == "boil" {
			n(message.New("boiling of {hop}", name), fmt.Sprintf("hop.%d.minutes", i), 10, "min")
		}
	}
	n(message.New("length of the boil"), "boil.minutes", 10, "min")
	n(message.New("stand after the boil"), "boil.stand_minutes", 5, "min")
	n(message.New("wort into the fermenter"), "batch.into_fermenter_l", 1, "L")
	n(message.New("mash efficiency"), "kit.mash_efficiency_pct", 2, "points")
	n(message.New("doubt of the thermometer"), "kit.rest_error_c", 0.3, "°C")
	n(message.New("steam"), "kit.steam_l_per_h", 0.5, "L/h")
	n(message.New("liquor under the bed"), "kit.under_the_bed_l", 0.5, "L")
	n(message.New("wort held by the grain"), "kit.held_by_grain_l_per_kg", 0.1, "L/kg")
	n(message.New("left with the break"), "kit.left_with_break_l", 0.5, "L")
	n(message.New("left in the chiller"), "kit.left_in_chiller_l", 0.2, "L")
	n(message.New("heat the vessel takes"), "kit.vessel_heat_kj_per_k", 2, "kJ/K")
	n(message.New("temperature of the grain"), "mash.grain_c", 5, "°C")
	n(message.New("CO2 wanted"), "package.volumes_co2", 0.2, "volumes")
	n(message.New("warmest since it finished"), "package.warmest_since_c", 3, "°C")
	n(message.New("warmest store"), "package.store_c", 5, "°C")
	return l
}

// move sets a design's lever by a number of steps; false where it refuses.
func (l moved) move(d design.Design, steps float64) (design.Design, bool) {
	to := d.Clone()
	if l.word != "" {
		return to, to.Set(l.keys[0], l.word) == nil
	}
	for _, key := range l.keys {
		at, err := to.Get(key)
		if err != nil {
			return to, false
		}
		v, err := strconv.ParseFloat(at, 64)
		if err != nil || to.Set(key, strconv.FormatFloat(v+steps*l.step, 'g', 12, 64)) != nil {
			return to, false
		}
	}
	return to, true
}

// stepKind is the kind of a step in a unit of the design file.
func stepKind(unit string) quantity.Kind {
	if unit == "points" {
		return quantity.IndexPoints
	}
	kind, _ := quantity.OfUnit(unit)
	return kind.Difference()
}

// moments are the words to set.
var moments = map[string]message.Message{
	design.MomentBoil: message.New("boil"), design.MomentWhirlpool: message.New("whirlpool"),
	design.MomentPitching: message.New("pitching"), design.MomentFermenting: message.New("fermenting"),
}

// inWords is the step in words.
func (l moved) inWords(steps float64) message.Message {
	if l.word != "" {
		return moments[l.word]
	}
	return message.New("{step} {unit}", fmt.Sprintf("%+g", steps*l.step), message.Message{Text: l.unit})
}
