package lever

import (
	"skep/calc"
	"skep/calc/design"
	"skep/calc/quantity"
	"skep/calc/says"
)

// What a lever belongs to: which part of a design its keys count through.
type owner uint8

const (
	ofGrain owner = iota
	ofRest
	ofYeast
	ofHoney
	ofPackage
)

// row is what there is to know of a lever.
type row struct {
	hold string // in taste.hold
	of   owner
	keys []key
	get  func(*calc.Setting) float64
	put  func(*calc.Setting, float64)

	unit       string        // of its place and of a difference
	kind       quantity.Kind // of its place
	difference quantity.Kind // of a difference between two places
	shown      float64       // of that kind for one of the lever's own unit

	ends     func(*design.Design) (low, high float64) // of the slider
	search   func(*design.Design) (low, high float64) // within which ways are sought; nil: as the slider
	hand     Steps                                    // of the slider
	found    float64                                  // what the search for ways rounds to
	natural  float64                                  // one natural step: an arrow of the plane, the measure by which changes are compared
	perBatch bool                                     // the natural step is meant for a batch of atLitres

	// Empty where nobody asks: of a lever without a slider or an arrow.
	name, title, change says.Sentence
	low, high           says.Sentence // what the slider's ends do
	less, more          says.Sentence // on the plane
	lessWay, moreWay    says.Sentence // where nothing says which lever it is
	lessBy, moreBy      says.Sentence // with the amount
	thing               string        // of one among several
}

// Steps are those of a slider: of an arrow key, with Shift, of a Page key.
type Steps struct{ Step, Big, Page float64 }

type key struct {
	path string // %d is the rest or the honey
	get  func(*calc.Setting) any
}

var table = [Count]row{
	Grain: {
		hold: design.LeverGrain, of: ofGrain,
		get:  func(s *calc.Setting) float64 { return s.GrainShare },
		put:  func(s *calc.Setting, x float64) { s.GrainShare = x },
		unit: "share", kind: quantity.MassKg, difference: quantity.MassKg, shown: 1,
		found: 0.005, natural: 0.05,
		ends: fixed(leastShare, mostShare), search: shareRange,
		name: says.Say("grain"), change: says.Say("grain"),
		lessWay: says.Say("less grain"), moreWay: says.Say("more grain"),
		lessBy: says.Say("{} less grain"), moreBy: says.Say("{} more grain"),
		thing: "%s",
	},
	Rest: {
		hold: design.LeverRest, of: ofRest,
		keys: []key{{"mash.rest.%d.temperature_c", func(s *calc.Setting) any { return s.RestC }}},
		get:  func(s *calc.Setting) float64 { return s.RestC },
		put:  func(s *calc.Setting, x float64) { s.RestC = x },
		unit: "°C", kind: quantity.Temperature, difference: quantity.TemperatureDifference, shown: 1,
		hand: Steps{0.1, 1, 2}, found: 0.5, natural: 1,
		ends: fixed(calc.RestLowC, calc.RestHighC),
		name: says.Say("mash rest"), title: says.Say("Mash rest"), change: says.Say("rest temperature"),
		low: says.Say("lighter, drier"), high: says.Say("fuller, sweeter"),
		less: says.Say("cooler"), more: says.Say("hotter"),
		lessWay: says.Say("cooler mash"), moreWay: says.Say("hotter mash"),
		lessBy: says.Say("{} cooler"), moreBy: says.Say("{} hotter"),
		thing: "temperature of the %s",
	},
	Minutes: {
		hold: design.LeverMinutes, of: ofRest,
		keys: []key{{"mash.rest.%d.minutes", func(s *calc.Setting) any { return s.Minutes }}},
		get:  func(s *calc.Setting) float64 { return s.Minutes },
		put:  func(s *calc.Setting, x float64) { s.Minutes = x },
		unit: "min", kind: quantity.Minutes, difference: quantity.Minutes, shown: 1,
		hand: Steps{1, 5, 15}, found: 5, natural: 10,
		ends: fixed(leastMinutes, mostMinutes), search: fixed(leastDependableMin, mostMinutes),
		name: says.Say("rest time"), title: says.Say("Rest time"), change: says.Say("rest time"),
		low: says.Say("shorter"), high: says.Say("longer, drier"),
		less: says.Say("shorter rest"), more: says.Say("longer rest"),
		lessWay: says.Say("shorter rest"), moreWay: says.Say("longer rest"),
		lessBy: says.Say("{} shorter"), moreBy: says.Say("{} longer"),
		thing: "length of the %s",
	},
	Yeast: {
		hold: design.LeverYeast, of: ofYeast,
		keys: []key{
			{"yeast.0.attenuation_low_pct", func(s *calc.Setting) any { return s.AttenuationLowPct }},
			{"yeast.0.attenuation_high_pct", func(s *calc.Setting) any { return s.AttenuationHighPct }},
		},
		get: func(s *calc.Setting) float64 { return (s.AttenuationLowPct + s.AttenuationHighPct) / 2 },
		put: func(s *calc.Setting, x float64) {
			d := x - (s.AttenuationLowPct+s.AttenuationHighPct)/2
			s.AttenuationLowPct += d
			s.AttenuationHighPct += d
		},
		unit: "points", kind: quantity.Percent, difference: quantity.Percent, shown: 1,
		hand: Steps{0.5, 2, 5}, found: 1, natural: 1,
		ends: fixed(leastAttenuationPct, mostAttenuationPct), search: middleRange,
		name: says.Say("yeast"), title: says.Say("Yeast"), change: says.Say("attenuation"),
		low: says.Say("sweeter"), high: says.Say("drier"),
		less: says.Say("less attenuating"), more: says.Say("more attenuating"),
		lessWay: says.Say("less attenuating yeast"), moreWay: says.Say("more attenuating yeast"),
		thing: "attenuation of the %s",
	},
	YeastC: {
		hold: design.LeverYeastC, of: ofYeast,
		keys: []key{{"yeast.0.temperature_c", func(s *calc.Setting) any { return s.YeastC }}},
		get:  func(s *calc.Setting) float64 { return s.YeastC },
		put:  func(s *calc.Setting, x float64) { s.YeastC = x },
		unit: "°C", kind: quantity.Temperature, difference: quantity.TemperatureDifference, shown: 1,
		hand: Steps{0.1, 1, 2}, found: 0.5, natural: 1,
		ends: yeastRangeC,
		name: says.Say("fermentation temperature"), change: says.Say("fermentation temperature"),
		thing: "temperature of the %s",
	},
	Honey: {
		hold: design.LeverHoney, of: ofHoney,
		keys: []key{{"honey.%d.mass_kg", func(s *calc.Setting) any { return s.HoneyKg }}},
		get:  func(s *calc.Setting) float64 { return s.HoneyKg },
		put:  func(s *calc.Setting, x float64) { s.HoneyKg = x },
		unit: "kg", kind: quantity.MassG, difference: quantity.MassG, shown: 1000,
		hand: Steps{0.01, 0.1, 0.2}, found: foundHoneyKg, natural: 0.1,
		ends: mostHoney, search: mostHoneyFound, perBatch: true,
		name: says.Say("honey"), title: says.Say("Honey"), change: says.Say("honey"),
		low: says.Say("none"), high: says.Say("stronger, drier"),
		less: says.Say("less honey"), more: says.Say("more honey"),
		lessWay: says.Say("less honey"), moreWay: says.Say("more honey"),
		lessBy: says.Say("{} less honey"), moreBy: says.Say("{} more honey"),
		thing: "%s",
	},
	Moment: {
		hold: design.LeverMoment, of: ofHoney,
		keys: []key{
			{"honey.%d.moment", func(s *calc.Setting) any { return s.Moment }},
			{"honey.%d.hours_after_height", func(s *calc.Setting) any { return s.HoursAfterHeight }},
		},
		get:  func(s *calc.Setting) float64 { return MomentPlace(s.Moment, s.HoursAfterHeight) },
		put:  func(s *calc.Setting, x float64) { s.Moment, s.HoursAfterHeight = momentAt(x, s.HoursAfterHeight) },
		unit: "h", kind: quantity.WholeHours, difference: quantity.WholeHours, shown: 1,
		hand: Steps{1, 12, 24}, found: 1, natural: 12,
		ends: fixed(momentBoil, LastHour),
		name: says.Say("moment of the honey"), title: says.Say("Honey goes in"), change: says.Say("moment of the honey"),
		less: says.Say("earlier honey"), more: says.Say("later honey"),
		lessWay: says.Say("honey on the hot side"), moreWay: says.Say("honey in the fermenter"),
		thing: "hour of %s",
	},
	Primer: {
		hold: design.LeverPrimer, of: ofPackage,
		get: func(*calc.Setting) float64 { return 0 }, put: func(*calc.Setting, float64) {},
		shown: 1,
		ends:  fixed(0, 0),
		name:  says.Say("primer"), change: says.Say("primer"),
		thing: "%s",
	},
}
