package explain

import (
	"fmt"
	"strconv"

	"skep/calc/design"
	"skep/calc/says"
)

// lever is one thing to move, and by how much.
type lever struct {
	name string
	key  string // of the design; several are moved together
	also string
	step float64
	unit string
	word string // instead of a step: the word to set
}

// leversOf are the levers of a design. The steps are what a brewer might do:
// a degree, ten minutes, a hundred grams.
func leversOf(d *design.Design, yeast int) []lever {
	var l []lever
	n := func(name, key string, step float64, unit string) {
		l = append(l, lever{name: name, key: key, step: step, unit: unit})
	}
	for i := range d.Mash.Rest {
		which := numbered("rest", i, len(d.Mash.Rest))
		n("temperature of the "+which, fmt.Sprintf("mash.rest.%d.temperature_c", i), 1, "°C")
		n("length of the "+which, fmt.Sprintf("mash.rest.%d.minutes", i), 10, "min")
	}
	n("mash liquor", "mash.liquor_l_per_kg", 0.5, "L/kg")
	for i, g := range d.Grain {
		n(orElse(g.Name, numbered("grain", i, len(d.Grain))), fmt.Sprintf("grain.%d.mass_kg", i), 0.1, "kg")
	}
	l = append(l, lever{
		name: "attenuation of the strain", key: fmt.Sprintf("yeast.%d.attenuation_low_pct", yeast),
		also: fmt.Sprintf("yeast.%d.attenuation_high_pct", yeast), step: 1, unit: "points",
	})
	n("temperature of the fermentation", fmt.Sprintf("yeast.%d.temperature_c", yeast), 1, "°C")
	n("cells pitched", fmt.Sprintf("yeast.%d.cells_billion_per_l", yeast), 1, "billion/L")
	for i, h := range d.Honey {
		name := orElse(h.Name, numbered("honey", i, len(d.Honey)))
		n(name, fmt.Sprintf("honey.%d.mass_kg", i), 0.1, "kg")
		n("moisture of "+name, fmt.Sprintf("honey.%d.moisture_pct", i), 1, "points")
		if h.Moment == design.MomentFermenting {
			n("hour of "+name, fmt.Sprintf("honey.%d.hours_after_height", i), 12, "h")
		}
		for _, m := range []string{design.MomentBoil, design.MomentWhirlpool, design.MomentPitching, design.MomentFermenting} {
			if m != h.Moment {
				l = append(l, lever{name: "moment of " + name, key: fmt.Sprintf("honey.%d.moment", i), word: m})
			}
		}
	}
	for i, h := range d.Hop {
		name := orElse(h.Name, numbered("hop", i, len(d.Hop)))
		n(name, fmt.Sprintf("hop.%d.mass_g", i), 5, "g")
		n("alpha acid of "+name, fmt.Sprintf("hop.%d.alpha_pct", i), 0.5, "points")
		if h.When == "boil" {
			n("boiling of "+name, fmt.Sprintf("hop.%d.minutes", i), 10, "min")
		}
	}
	n("length of the boil", "boil.minutes", 10, "min")
	n("stand after the boil", "boil.stand_minutes", 5, "min")
	n("wort into the fermenter", "batch.into_fermenter_l", 1, "L")
	n("mash efficiency", "kit.mash_efficiency_pct", 2, "points")
	n("doubt of the thermometer", "kit.rest_error_c", 0.3, "°C")
	n("steam", "kit.steam_l_per_h", 0.5, "L/h")
	n("liquor under the bed", "kit.under_the_bed_l", 0.5, "L")
	n("wort held by the grain", "kit.held_by_grain_l_per_kg", 0.1, "L/kg")
	n("left with the break", "kit.left_with_break_l", 0.5, "L")
	n("left in the chiller", "kit.left_in_chiller_l", 0.2, "L")
	n("heat the vessel takes", "kit.vessel_heat_kj_per_k", 2, "kJ/K")
	n("temperature of the grain", "mash.grain_c", 5, "°C")
	n("CO2 wanted", "package.volumes_co2", 0.2, "volumes")
	n("warmest since it finished", "package.warmest_since_c", 3, "°C")
	n("warmest store", "package.store_c", 5, "°C")
	return l
}

func numbered(what string, i, of int) string {
	if of == 1 {
		return what
	}
	return fmt.Sprintf("%s %d", what, i)
}

func orElse(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// move sets a design's lever by a number of steps; false where it refuses.
func (l lever) move(d design.Design, steps float64) (design.Design, bool) {
	moved := d.Clone()
	if l.word != "" {
		return moved, moved.Set(l.key, l.word) == nil
	}
	for _, key := range []string{l.key, l.also} {
		if key == "" {
			continue
		}
		at, err := moved.Get(key)
		if err != nil {
			return moved, false
		}
		v, err := strconv.ParseFloat(at, 64)
		if err != nil || moved.Set(key, strconv.FormatFloat(v+steps*l.step, 'g', 12, 64)) != nil {
			return moved, false
		}
	}
	return moved, true
}

// stepKinds are the units of steps that a person sees in their own way.
var stepKinds = map[string]says.Kind{
	"°C": says.TemperatureDifference, "kg": says.MassKg, "g": says.MassG, "L": says.Volume, "L/h": says.LitresPerHour, "L/kg": says.LitresPerKg,
	"min": says.Minutes, "h": says.Hours, "points": says.IndexPoints,
}

// says is the step in words.
func (l lever) says(steps float64) string {
	if l.word != "" {
		return l.word
	}
	return fmt.Sprintf("%+g %s", steps*l.step, l.unit)
}
