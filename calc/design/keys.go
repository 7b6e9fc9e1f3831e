package design

// Limits on text, in bytes, so that a broken file cannot fill a window.
const (
	nameLimit  = 1000
	notesLimit = 200_000
)

// Words of the keys that take a few words only.
var (
	crushWords      = []string{"too-coarse", "coarse", "sound", "fine", "too-fine"}
	enzymeWords     = []string{EnzymesOwn, EnzymesNone, EnzymesBorrowed}
	formWords       = []string{"dry", "liquid", "slurry"}
	momentWords     = []string{MomentBoil, MomentWhirlpool, MomentPitching, MomentFermenting}
	hopWords        = []string{HopBoil, HopWhirlpool, HopCold}
	vesselWords     = []string{"bottle", "keg"}
	primerWords     = []string{"table sugar", "dextrose", "honey", "none"}
	acidWords       = []string{"lactic 80 %", "lactic 88 %", "phosphoric 10 %", "phosphoric 75 %", "phosphoric 85 %"}
	instrumentWords = []string{"hydrometer", "refractometer"}
	leverWords      = []string{LeverRest, LeverMinutes, LeverYeast, LeverYeastC, LeverHoney, LeverMoment, LeverGrain, LeverPrimer}
	whatWords       = []string{
		"pre-boil-volume", "post-boil-volume", "volume-into-fermenter", "volume-packaged",
		"pre-boil-gravity", "post-boil-gravity", "original-gravity", "gravity", "final-gravity",
		"strike-temperature", "mash-temperature", "beer-temperature", "pitched", "honey-added",
		"foam", "perceived-dryness", "perceived-body",
		"forced-ferment", DrierThan, FullerThan,
	}
)

// keyTable is the one source of every key's unit, default, range and words.
// Where the published format gives no range, the one here is wide: it catches
// a slipped decimal point or a wrong unit, not an unusual brewery.
func keyTable() []Key {
	return []Key{
		required(Key{Path: "format", Kind: Whole, Min: 1, Max: Format, Def: Format, Note: "version of the file format"}),
		text("title", "name of the design"),
		{Path: "notes", Kind: Text, Max: notesLimit, Def: "", Note: "whatever the brewer wants to remember"},

		required(num("batch.into_fermenter_l", "L", 15, 1, 200, "cool wort run off into the fermenter")),
		day("batch.brewed", "the day; a file with it is a batch, not a plan"),
		text("batch.design", "what it was brewed from, a name"),
		day("batch.closed", "from then on it is history"),
		untold(num("batch.nutrient_g", "g", 0, 0, 500, "diammonium phosphate given to the yeast")),
		num("batch.altitude_m", "m", 0, -400, 5000, "height above the sea"),

		text("kit.name", "as the kit is known in the window"),
		text("kit.formerly", "names it had before, between semicolons: what was brewed under them has taught this kit"),
		num("kit.vessel_l", "L", 30, 2, 400, "mash vessel"),
		num("kit.heater_w", "W", 2000, 0, 30000, "its heater"),
		num("kit.vessel_heat_kj_per_k", "kJ/K", 4, 0, 200, "heat that the vessel itself takes"),
		num("kit.mash_efficiency_pct", "%", 74, 20, 100, "share of laboratory extract that reaches the wort"),
		num("kit.under_the_bed_l", "L", 1.2, 0, 50, "liquor the pump cannot draw"),
		num("kit.held_by_grain_l_per_kg", "L/kg", 0.9, 0.3, 2, "wort that stays in the spent grain"),
		num("kit.steam_l_per_h", "L/h", 2.2, 0, 50, "boiled away"),
		num("kit.left_with_break_l", "L", 1, 0, 50, "hops and break left in the vessel"),
		num("kit.left_in_chiller_l", "L", 0.4, 0, 50, "left in the chiller"),
		num("kit.tap_c", "°C", 14, 0, 40, "tap water"),
		num("kit.fermenter_l", "L", 25, 1, 500, "room for foam when honey goes in"),
		num("kit.rest_error_c", "°C", 0.7, 0, 5, "one standard deviation of thermometer and control"),
		untold(num("kit.thermometer_reads_high_k", "K", 0, -10, 10, "what the thermometer shows too much at mash temperature")),

		{Path: "crush.on_sieve_pct", Unit: "%", Kind: Numbers, Max: 100, Note: "on 1.27, 1.0, 0.6, 0.25, 0.15 mm, and through; counts before by_eye"},
		word("crush.by_eye", "sound", "how the crush looks", crushWords...),

		num("water.calcium", "mg/L", 50, 0, 2000, "of the liquor before additions"),
		num("water.magnesium", "mg/L", 5, 0, 2000, ""),
		num("water.sodium", "mg/L", 12, 0, 2000, ""),
		num("water.chloride", "mg/L", 20, 0, 2000, ""),
		num("water.sulphate", "mg/L", 40, 0, 3000, ""),
		num("water.bicarbonate", "mg/L", 120, 0, 2000, ""),
		num("water.gypsum_g", "g", 0, 0, 500, "added"),
		num("water.calcium_chloride_g", "g", 0, 0, 500, "dihydrate"),
		num("water.epsom_g", "g", 0, 0, 500, ""),
		num("water.table_salt_g", "g", 0, 0, 500, ""),
		num("water.baking_soda_g", "g", 0, 0, 500, ""),
		num("water.lactic_acid_88_ml", "mL", 0, 0, 500, ""),

		wish("water.mash_ph_wanted", "", 4.5, 6.5, "of the mash, cool; left out: no acid is worked out"),
		untold(word("water.acid", "", "at hand, by mass", acidWords...)),

		num("mash.liquor_l_per_kg", "L/kg", 3, 1.5, 8, "mash liquor on grain"),
		num("mash.grain_c", "°C", 18, -20, 50, "the grain's temperature"),
		required(num("mash.rest.N.temperature_c", "°C", 66.5, 40, 80, "in order; ramps between them at the heater's power")),
		required(num("mash.rest.N.minutes", "min", 60, 1, 240, "")),

		text("grain.N.name", ""),
		required(num("grain.N.mass_kg", "kg", 2.7, 0, 200, "")),
		required(num("grain.N.extract_pct", "%", 80.5, 1, 100, "laboratory extract, fine grind, dry")),
		num("grain.N.moisture_pct", "%", 4.5, 0, 30, ""),
		num("grain.N.colour_ebc", "EBC", 5.5, 0, 2500, ""),
		word("grain.N.enzymes", EnzymesOwn, "own (base malt), none (specialty malts, sugar), borrowed (raw grain: needs the base malt's)", enzymeWords...),

		text("yeast.N.name", "the first is the one brewed with"),
		required(num("yeast.N.attenuation_low_pct", "%", 73, 10, 100, "apparent, on the reference wort")),
		required(num("yeast.N.attenuation_high_pct", "%", 78, 10, 100, "not below the low one")),
		num("yeast.N.temperature_c", "°C", 19, 4, 40, ""),
		num("yeast.N.cells_billion_per_l", "billion/L", 9, 0.01, 500, ""),
		word("yeast.N.form", "dry", "", formWords...),
		flag("yeast.N.eats_dextrin", false, "diastatic"),
		untold(num("yeast.N.tolerance_pct", "%", 0, 0, 25, "alcohol by volume that the strain bears; 0: not known")),
		untold(num("yeast.N.coldest_c", "°C", 0, 0, 40, "of the range that the strain works in; 0: not known")),
		untold(num("yeast.N.warmest_c", "°C", 0, 0, 50, "of the range that the strain works in; 0: not known")),

		untold(num("temperature.N.at_hours", "h", 0, 0, 2160, "after pitching, when the fermentation is brought to another temperature")),
		untold(num("temperature.N.at_attenuation_pct", "%", 0, 0, 100, "share of the attenuation that is done then, in place of hours")),
		required(num("temperature.N.temperature_c", "°C", 18, -2, 50, "")),

		text("honey.N.name", ""),
		num("honey.N.mass_kg", "kg", 0.55, 0, 50, ""),
		num("honey.N.moisture_pct", "%", 17.5, 10, 30, ""),
		word("honey.N.moment", MomentFermenting, "when it goes in", momentWords...),
		num("honey.N.hours_after_height", "h", 12, -48, 240, "only with fermenting"),
		flag("honey.N.raw", true, "live enzymes"),

		text("hop.N.name", ""),
		num("hop.N.alpha_pct", "%", 5.2, 0, 30, ""),
		num("hop.N.mass_g", "g", 14, 0, 5000, ""),
		word("hop.N.when", HopBoil, "", hopWords...),
		num("hop.N.minutes", "min", 60, 0, 240, "left to boil"),
		num("hop.N.days", "days", 4, 0, 60, "in the beer, only with cold"),

		num("boil.minutes", "min", 60, 0, 240, ""),
		num("boil.whirlpool_minutes", "min", 5, 0, 240, ""),
		num("boil.stand_minutes", "min", 5, 0, 720, ""),
		num("boil.whirlpool_start_c", "°C", 96, 20, 105, ""),

		word("package.vessel", "bottle", "", vesselWords...),
		num("package.volumes_co2", "volumes", 2.4, 0, 6, "CO2 wanted"),
		word("package.primer", "table sugar", "the only way for honey into a bottle", primerWords...),
		num("package.primer_moisture_pct", "%", 17.5, 10, 30, "of honey as primer"),
		num("package.warmest_since_c", "°C", 19, -2, 45, "warmest the beer has been since it finished: what CO2 it kept"),
		num("package.store_c", "°C", 25, -2, 60, "warmest it will be kept at"),
		num("package.rated_volumes", "volumes", 3, 0.5, 10, "what the bottle is made for; unknown is 3.0"),

		wish("taste.strength_pct", "%", 0, 20, "where the brewer wants to land; each may be left out"),
		wish("taste.dryness", "", 0, 100, ""),
		wish("taste.body", "", 0, 100, ""),
		wish("taste.honey", "", 0, 100, "honey character"),
		wish("taste.honey_at_hand_kg", "kg", 0, 50, "ways use no more"),
		{Path: "taste.hold", Kind: Words, Words: leverWords, Note: "levers that may not move"},

		text("ghost.name", "the earlier state kept for comparison"),
		{Path: "ghost.settings", Kind: Settings, Note: "as in --set"},

		required(word("reading.N.what", "original-gravity", "what was measured", whatWords...)),
		{Path: "reading.N.at", Kind: Time, Note: "when"},
		required(num("reading.N.value", "", 1, -5, 1000, "raw, as the instrument showed it; its unit and range follow from what")),
		num("reading.N.temperature_c", "°C", 20, -5, 105, "of the sample"),
		word("reading.N.instrument", "hydrometer", "hydrometer (SG), refractometer (°Bx)", instrumentWords...),
		text("reading.N.other", "the batch that this one was compared with, a name; only with drier-than and fuller-than"),
		flag("reading.N.heated", false, "forced-ferment: the sample was heated first, which kills enzymes; for safety test it unheated"),
	}
}

// ValueRange is the unit and range of a reading's value.
func ValueRange(what, instrument string) (unit string, min, max float64) {
	switch what {
	case "pre-boil-volume", "post-boil-volume", "volume-into-fermenter", "volume-packaged":
		return "L", 0, 1000
	case "pre-boil-gravity", "post-boil-gravity", "original-gravity", "gravity", "final-gravity", "forced-ferment":
		if instrument == "refractometer" {
			return "°Bx", 0, 60
		}
		return "SG", 0.95, 1.25
	case "strike-temperature", "mash-temperature":
		return "°C", 0, 105
	case "beer-temperature":
		return "°C", -5, 50
	case "pitched":
		return "", 1, 1
	case "honey-added":
		return "kg", 0, 50
	case DrierThan, FullerThan:
		return "", 0, 1
	case "foam":
		return "", 0, 3
	}
	return "", 0, 100 // perceived-dryness, perceived-body
}
