package lever

import (
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
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
	get  func(*Setting) float64
	put  func(*Setting, float64)

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
	name, title, change message.Message
	low, high           message.Message // what the slider's ends do
	less, more          message.Message // on the plane
	lessWay, moreWay    message.Message // where nothing says which lever it is
	lessBy, moreBy      message.Message // with the amount
	thing               message.Message // of one among several
}

// Steps are those of a slider: of an arrow key, with Shift, of a Page key.
type Steps struct{ Step, Big, Page float64 }

type key struct {
	path string // %d is the rest or the honey
	get  func(*Setting) any
}

var table = [Count]row{
	Grain: {
		hold: design.LeverGrain, of: ofGrain,
		get:  func(s *Setting) float64 { return s.GrainShare },
		put:  func(s *Setting, x float64) { s.GrainShare = x },
		unit: "share", kind: quantity.MassKg, difference: quantity.MassKg, shown: 1,
		found: 0.005, natural: 0.05,
		ends: fixed(leastShare, mostShare), search: shareRange,
		name: message.New("grain"), change: message.New("grain"),
		lessWay: message.New("less grain"), moreWay: message.New("more grain"),
		lessBy: message.New("{amount} less grain"), moreBy: message.New("{amount} more grain"),
		thing: message.New("{thing}"),
	},
	Rest: {
		hold: design.LeverRest, of: ofRest,
		keys: []key{{"mash.rest.%d.temperature_c", func(s *Setting) any { return s.RestC }}},
		get:  func(s *Setting) float64 { return s.RestC },
		put:  func(s *Setting, x float64) { s.RestC = x },
		unit: "°C", kind: quantity.Temperature, difference: quantity.TemperatureDifference, shown: 1,
		hand: Steps{0.1, 1, 2}, found: 0.5, natural: 1,
		ends: fixed(RestLowC, RestHighC),
		name: message.New("mash rest"), title: message.New("Mash rest"), change: message.New("rest temperature"),
		low: message.New("lighter, drier"), high: message.New("fuller, sweeter"),
		less: message.New("cooler"), more: message.New("hotter"),
		lessWay: message.New("cooler mash"), moreWay: message.New("hotter mash"),
		lessBy: message.New("{amount} cooler"), moreBy: message.New("{amount} hotter"),
		thing: message.New("temperature of the {thing}"),
	},
	Minutes: {
		hold: design.LeverMinutes, of: ofRest,
		keys: []key{{"mash.rest.%d.minutes", func(s *Setting) any { return s.Minutes }}},
		get:  func(s *Setting) float64 { return s.Minutes },
		put:  func(s *Setting, x float64) { s.Minutes = x },
		unit: "min", kind: quantity.Minutes, difference: quantity.Minutes, shown: 1,
		hand: Steps{1, 5, 15}, found: 5, natural: 10,
		ends: fixed(leastMinutes, mostMinutes), search: fixed(leastDependableMin, mostMinutes),
		name: message.New("rest time"), title: message.New("Rest time"), change: message.New("rest time"),
		low: message.New("shorter"), high: message.New("longer, drier"),
		less: message.New("shorter rest"), more: message.New("longer rest"),
		lessWay: message.New("shorter rest"), moreWay: message.New("longer rest"),
		lessBy: message.New("{amount} shorter"), moreBy: message.New("{amount} longer"),
		thing: message.New("length of the {thing}"),
	},
	Yeast: {
		hold: design.LeverYeast, of: ofYeast,
		keys: []key{
			{"yeast.0.attenuation_low_pct", func(s *Setting) any { return s.AttenuationLowPct }},
			{"yeast.0.attenuation_high_pct", func(s *Setting) any { return s.AttenuationHighPct }},
		},
		get: func(s *Setting) float64 { return (s.AttenuationLowPct + s.AttenuationHighPct) / 2 },
		put: func(s *Setting, x float64) {
			d := x - (s.AttenuationLowPct+s.AttenuationHighPct)/2
			s.AttenuationLowPct += d
			s.AttenuationHighPct += d
		},
		unit: "points", kind: quantity.Percent, difference: quantity.Percent, shown: 1,
		hand: Steps{0.5, 2, 5}, found: 1, natural: 1,
		ends: fixed(leastAttenuationPct, mostAttenuationPct), search: middleRange,
		name: message.New("yeast"), title: message.New("Yeast"), change: message.New("attenuation"),
		low: message.New("sweeter"), high: message.New("drier"),
		less: message.New("less attenuating"), more: message.New("more attenuating"),
		lessWay: message.New("less attenuating yeast"), moreWay: message.New("more attenuating yeast"),
		thing: message.New("attenuation of the {thing}"),
	},
	YeastC: {
		hold: design.LeverYeastC, of: ofYeast,
		keys: []key{{"yeast.0.temperature_c", func(s *Setting) any { return s.YeastC }}},
		get:  func(s *Setting) float64 { return s.YeastC },
		put:  func(s *Setting, x float64) { s.YeastC = x },
		unit: "°C", kind: quantity.Temperature, difference: quantity.TemperatureDifference, shown: 1,
		hand: Steps{0.1, 1, 2}, found: 0.5, natural: 1,
		ends: yeastRangeC,
		name: message.New("fermentation temperature"), change: message.New("fermentation temperature"),
		thing: message.New("temperature of the {thing}"),
	},
	Honey: {
		hold: design.LeverHoney, of: ofHoney,
		keys: []key{{"honey.%d.mass_kg", func(s *Setting) any { return s.HoneyKg }}},
		get:  func(s *Setting) float64 { return s.HoneyKg },
		put:  func(s *Setting, x float64) { s.HoneyKg = x },
		unit: "kg", kind: quantity.MassG, difference: quantity.MassG, shown: 1000,
		hand: Steps{0.01, 0.1, 0.2}, found: foundHoneyKg, natural: 0.1,
		ends: mostHoney, search: mostHoneyFound, perBatch: true,
		name: message.New("honey"), title: message.New("Honey"), change: message.New("honey"),
		low: message.New("none"), high: message.New("stronger, drier"),
		less: message.New("less honey"), more: message.New("more honey"),
		lessWay: message.New("less honey"), moreWay: message.New("more honey"),
		lessBy: message.New("{amount} less honey"), moreBy: message.New("{amount} more honey"),
		thing: message.New("{thing}"),
	},
	Moment: {
		hold: design.LeverMoment, of: ofHoney,
		keys: []key{
			{"honey.%d.moment", func(s *Setting) any { return s.Moment }},
			{"honey.%d.hours_after_height", func(s *Setting) any { return s.HoursAfterHeight }},
		},
		get:  func(s *Setting) float64 { return MomentPlace(s.Moment, s.HoursAfterHeight) },
		put:  func(s *Setting, x float64) { s.Moment, s.HoursAfterHeight = momentAt(x, s.HoursAfterHeight) },
		unit: "h", kind: quantity.WholeHours, difference: quantity.WholeHours, shown: 1,
		hand: Steps{1, 12, 24}, found: 1, natural: 12,
		ends: fixed(momentBoil, LastHour),
		name: message.New("moment of the honey"), title: message.New("Honey goes in"), change: message.New("moment of the honey"),
		less: message.New("earlier honey"), more: message.New("later honey"),
		lessWay: message.New("honey on the hot side"), moreWay: message.New("honey in the fermenter"),
		thing: message.New("hour of {thing}"),
	},
	Primer: {
		hold: design.LeverPrimer, of: ofPackage,
		get: func(*Setting) float64 { return 0 }, put: func(*Setting, float64) {},
		shown: 1,
		ends:  fixed(0, 0),
		name:  message.New("primer"), change: message.New("primer"),
		thing: message.New("{thing}"),
	},
}
