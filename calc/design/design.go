// Package design holds the design document: one brew as a person wrote it down, with
// every key's unit, range and default, and what must hold between values. It knows
// neither text nor file system: package design/file reads and writes the TOML.
//
// Keys and texts come in, values and findings go out. It must not know what a brew
// becomes.
//
// Quantities are metric and carry their unit in the key and in the field name;
// the range, default and allowed words of every key stand in keys.go and
// nowhere else ([Keys], [KeyOf]).
package design

import "time"

// Format is the newest file format this program reads and the one it writes.
const Format = 1

// Design is one brew. Fields left out of a file hold their defaults.
type Design struct {
	Format int     `toml:"format"`
	Title  string  `toml:"title"`
	Notes  string  `toml:"notes"`
	Batch  Batch   `toml:"batch"`
	Kit    Kit     `toml:"kit"`
	Crush  *Crush  `toml:"crush"` // nil: a sound crush is assumed
	Water  *Water  `toml:"water"` // nil: ions are not computed
	Mash   Mash    `toml:"mash"`
	Grain  []Grain `toml:"grain"`
	Yeast  []Yeast `toml:"yeast"` // the first is the one brewed with
	// Temperature is what the fermentation is brought to after its start.
	Temperature []TemperatureStep `toml:"temperature"`
	Honey       []Honey           `toml:"honey"`
	Hop         []Hop             `toml:"hop"`
	Boil        Boil              `toml:"boil"`
	Package     Package           `toml:"package"`
	Taste       Taste             `toml:"taste"`
	Ghost       *Ghost            `toml:"ghost"`
	Reading     []Reading         `toml:"reading"`
}

// Batch is how much is brewed, and where.
type Batch struct {
	IntoFermenterL float64 `toml:"into_fermenter_l"`
	Brewed         Day     `toml:"brewed"` // empty: a plan, not a batch
	Design         string  `toml:"design"` // what it was brewed from; never opened unasked
	Closed         Day     `toml:"closed"` // empty: still going
	NutrientG      float64 `toml:"nutrient_g"`
	AltitudeM      float64 `toml:"altitude_m"`
}

// Kit is the mash vessel and what stays behind in it.
type Kit struct {
	Name              string  `toml:"name"`
	Formerly          string  `toml:"formerly"` // names it had before, between semicolons
	VesselL           float64 `toml:"vessel_l"`
	HeaterW           float64 `toml:"heater_w"`
	VesselHeatKJPerK  float64 `toml:"vessel_heat_kj_per_k"`
	MashEfficiencyPct float64 `toml:"mash_efficiency_pct"`
	UnderTheBedL      float64 `toml:"under_the_bed_l"`
	HeldByGrainLPerKg float64 `toml:"held_by_grain_l_per_kg"`
	SteamLPerH        float64 `toml:"steam_l_per_h"`
	LeftWithBreakL    float64 `toml:"left_with_break_l"`
	LeftInChillerL    float64 `toml:"left_in_chiller_l"`
	TapC              float64 `toml:"tap_c"`
	FermenterL        float64 `toml:"fermenter_l"`
	RestErrorC        float64 `toml:"rest_error_c"`
	// ThermometerReadsHighK is what the thermometer shows too much at mash
	// temperature: rests are what the mash is, and who sets the kit adds this.
	ThermometerReadsHighK float64 `toml:"thermometer_reads_high_k"`
}

// Crush is how the grain was milled: by sieve, or by eye.
type Crush struct {
	OnSievePct []float64 `toml:"on_sieve_pct"` // 1.27, 1.0, 0.6, 0.25, 0.15 mm, through
	ByEye      string    `toml:"by_eye"`       // too-coarse, coarse, sound, fine, too-fine
}

// Water is the liquor before additions, mg/L, and what is added to it.
type Water struct {
	Calcium          float64  `toml:"calcium"`
	Magnesium        float64  `toml:"magnesium"`
	Sodium           float64  `toml:"sodium"`
	Chloride         float64  `toml:"chloride"`
	Sulphate         float64  `toml:"sulphate"`
	Bicarbonate      float64  `toml:"bicarbonate"`
	GypsumG          float64  `toml:"gypsum_g"`
	CalciumChlorideG float64  `toml:"calcium_chloride_g"`
	EpsomG           float64  `toml:"epsom_g"`
	TableSaltG       float64  `toml:"table_salt_g"`
	BakingSodaG      float64  `toml:"baking_soda_g"`
	LacticAcid88ML   float64  `toml:"lactic_acid_88_ml"`
	MashPHWanted     *float64 `toml:"mash_ph_wanted"` // nil: no acid is worked out
	Acid             string   `toml:"acid"`           // at hand
}

// Mash is the liquor, the grain's temperature and the rests in order.
type Mash struct {
	LiquorLPerKg float64 `toml:"liquor_l_per_kg"`
	GrainC       float64 `toml:"grain_c"`
	Rest         []Rest  `toml:"rest"`
}

// Rest is one temperature held for a while.
type Rest struct {
	TemperatureC float64 `toml:"temperature_c"`
	Minutes      float64 `toml:"minutes"`
}

// What a grain brings of enzymes.
const (
	EnzymesOwn      = "own"      // base malt: converts itself and more
	EnzymesNone     = "none"     // specialty malt, sugar: needs none
	EnzymesBorrowed = "borrowed" // raw grain: needs the base malt's
)

// Grain is one line of the grist.
type Grain struct {
	Name        string  `toml:"name"`
	MassKg      float64 `toml:"mass_kg"`
	ExtractPct  float64 `toml:"extract_pct"`
	MoisturePct float64 `toml:"moisture_pct"`
	ColourEBC   float64 `toml:"colour_ebc"`
	Enzymes     string  `toml:"enzymes"`
}

// Yeast is one strain; its attenuation range is apparent, on the reference wort.
type Yeast struct {
	Name               string  `toml:"name"`
	AttenuationLowPct  float64 `toml:"attenuation_low_pct"`
	AttenuationHighPct float64 `toml:"attenuation_high_pct"`
	TemperatureC       float64 `toml:"temperature_c"`
	CellsBillionPerL   float64 `toml:"cells_billion_per_l"`
	Form               string  `toml:"form"` // dry, liquid, slurry
	EatsDextrin        bool    `toml:"eats_dextrin"`
	TolerancePct       float64 `toml:"tolerance_pct"` // by volume; 0: not told
	ColdestC           float64 `toml:"coldest_c"`     // of the range it works in; 0: not told
	WarmestC           float64 `toml:"warmest_c"`
}

// TemperatureStep brings the fermentation to another temperature: at a share of
// the attenuation where there is one, else at an hour after pitching.
type TemperatureStep struct {
	AtHours          float64 `toml:"at_hours"`
	AtAttenuationPct float64 `toml:"at_attenuation_pct"`
	TemperatureC     float64 `toml:"temperature_c"`
}

// When honey goes in.
const (
	MomentBoil       = "boil"
	MomentWhirlpool  = "whirlpool"
	MomentPitching   = "pitching"
	MomentFermenting = "fermenting"
)

// Honey is one addition of honey.
type Honey struct {
	Name             string  `toml:"name"`
	MassKg           float64 `toml:"mass_kg"`
	MoisturePct      float64 `toml:"moisture_pct"`
	Moment           string  `toml:"moment"`
	HoursAfterHeight float64 `toml:"hours_after_height"` // only with fermenting
	Raw              bool    `toml:"raw"`
}

// When hops go in.
const (
	HopBoil      = "boil"
	HopWhirlpool = "whirlpool"
	HopCold      = "cold" // into the beer, after the height
)

// Hop is one addition of hops.
type Hop struct {
	Name     string  `toml:"name"`
	AlphaPct float64 `toml:"alpha_pct"`
	MassG    float64 `toml:"mass_g"`
	When     string  `toml:"when"`    // boil, whirlpool, cold
	Minutes  float64 `toml:"minutes"` // left to boil
	Days     float64 `toml:"days"`    // in the beer, only with cold
}

// Boil is the boil and what follows it in the vessel.
type Boil struct {
	Minutes          float64 `toml:"minutes"`
	WhirlpoolMinutes float64 `toml:"whirlpool_minutes"`
	StandMinutes     float64 `toml:"stand_minutes"`
	WhirlpoolStartC  float64 `toml:"whirlpool_start_c"`
}

// Package is how the beer is put up and kept.
type Package struct {
	Vessel            string  `toml:"vessel"` // bottle, keg
	VolumesCO2        float64 `toml:"volumes_co2"`
	Primer            string  `toml:"primer"` // table sugar, dextrose, honey, none
	PrimerMoisturePct float64 `toml:"primer_moisture_pct"`
	WarmestSinceC     float64 `toml:"warmest_since_c"`
	StoreC            float64 `toml:"store_c"`
	RatedVolumes      float64 `toml:"rated_volumes"`
}

// The levers, as taste.hold names them; what each is stands in package lever.
const (
	LeverRest    = "mash.rest"
	LeverMinutes = "mash.minutes"
	LeverYeast   = "yeast"
	LeverYeastC  = "yeast.temperature"
	LeverHoney   = "honey.mass"
	LeverMoment  = "honey.moment"
	LeverGrain   = "grain"
	LeverPrimer  = "primer"
)

// Taste is where the brewer wants to land; nil where no wish was made.
type Taste struct {
	StrengthPct   *float64 `toml:"strength_pct"`
	Dryness       *float64 `toml:"dryness"`
	Body          *float64 `toml:"body"`
	Honey         *float64 `toml:"honey"` // character
	HoneyAtHandKg *float64 `toml:"honey_at_hand_kg"`
	Hold          []string `toml:"hold"`
}

// Ghost is an earlier state kept for comparison, as settings of [Design.Set].
type Ghost struct {
	Name     string         `toml:"name"`
	Settings map[string]any `toml:"settings"`
}

// Readings that compare two glasses: 1 yes, 0 no.
const (
	DrierThan  = "drier-than"
	FullerThan = "fuller-than"
)

// Reading is one measurement, raw, as the instrument showed it.
type Reading struct {
	What         string    `toml:"what"`
	At           time.Time `toml:"at"`
	Value        float64   `toml:"value"`
	TemperatureC float64   `toml:"temperature_c"`
	Instrument   string    `toml:"instrument"`
	Other        string    `toml:"other"`  // the batch compared with
	Heated       bool      `toml:"heated"` // of a forced fermentation: the sample was heated first, which kills enzymes
}

// HoneyBesideKg is all honey but that of line i; −1: all of it.
func (d *Design) HoneyBesideKg(i int) (kg float64) {
	for k := range d.Honey {
		if k != i {
			kg += d.Honey[k].MassKg
		}
	}
	return kg
}
