// Package ghost keeps an earlier state of a design's levers beside it, as the
// design file does under [ghost], to compare with and to change places with.
//
// A design comes in, a design with other settings goes out. It must not know
// how either is shown.
package ghost

import (
	"fmt"
	"slices"

	"skep/calc/design"
)

// keysOf are the settings that a kept state remembers: everything that a
// lever moves. What else changes in the design changes for the ghost too.
func keysOf(d *design.Design) []string {
	var keys []string
	for i := range d.Mash.Rest {
		keys = append(keys, fmt.Sprintf("mash.rest.%d.temperature_c", i), fmt.Sprintf("mash.rest.%d.minutes", i))
	}
	keys = append(keys, "yeast.0.name", "yeast.0.attenuation_low_pct", "yeast.0.attenuation_high_pct",
		"yeast.0.temperature_c", "yeast.0.eats_dextrin")
	for i := range d.Honey {
		for _, k := range []string{"mass_kg", "moisture_pct", "moment", "hours_after_height", "raw"} {
			keys = append(keys, fmt.Sprintf("honey.%d.%s", i, k))
		}
	}
	return keys
}

// Keep makes the design as it stands its own earlier state.
func Keep(d *design.Design, name string) {
	d.Ghost = Of(d, name)
}

// Of is a state to keep, under a name.
func Of(d *design.Design, name string) *design.Ghost {
	kept := d.Clone()
	kept.Ghost = &design.Ghost{}
	for _, key := range keysOf(d) {
		value, err := kept.Get(key)
		if err != nil {
			continue // not there: nothing to remember
		}
		_ = kept.Set("ghost.settings."+key, value)
	}
	kept.Ghost.Name = name
	return kept.Ghost
}

// Swap changes places with the earlier state.
func Swap(d *design.Design) {
	g, ok := Design(*d)
	if !ok {
		return
	}
	g.Ghost = Of(d, d.Ghost.Name)
	*d = g
}

// Design is the design with its earlier state's settings. Settings that
// no longer fit (a honey taken out since) are left aside.
func Design(d design.Design) (design.Design, bool) {
	if d.Ghost == nil {
		return d, false
	}
	g := d
	g.Ghost = nil
	g = g.Clone()
	keys := make([]string, 0, len(d.Ghost.Settings))
	for key := range d.Ghost.Settings {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	// The low attenuation may pass the old high one on its way: set all, judge
	// afterwards.
	for _, key := range keys {
		_ = g.Set(key, fmt.Sprint(d.Ghost.Settings[key]))
	}
	return g, design.FirstError(g.Validate()) == nil
}
