// Package calc turns a design into a prediction: what the beer will be, and how sure
// that is. It is the one entry to the physics in its sub-packages; it knows no window,
// no file and no clock.
//
// A [design.Design] comes in, a [Prediction] with a band for each number goes out.
package calc

import (
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/stress"
	"skep/calc/sugar"
)

// Band is an uncertain quantity by its 10th, 50th and 90th percentile.
type Band struct {
	Low  float64 `json:"low"`
	Mid  float64 `json:"mid"`
	High float64 `json:"high"`
}

// Prediction is everything the engine says of one design with one strain.
// Field names carry the unit; the JSON keys are the published ones.
type Prediction struct {
	Title string `json:"title"`
	Yeast string `json:"yeast"`

	OriginalGravitySG          Band `json:"original_gravity_sg"`
	EffectiveOriginalGravitySG Band `json:"effective_original_gravity_sg"`
	FinalGravitySG             Band `json:"final_gravity_sg"`
	StrengthPct                Band `json:"strength_pct"`
	ApparentAttenuationPct     Band `json:"apparent_attenuation_pct"`
	RealAttenuationPct         Band `json:"real_attenuation_pct"`
	ResidualSugarGL            Band `json:"residual_sugar_g_l"`
	SweetnessGL                Band `json:"sweetness_g_l"`
	DextrinGL                  Band `json:"dextrin_g_l"`
	RealExtractGL              Band `json:"real_extract_g_l"`
	Dryness                    Band `json:"dryness"`
	Body                       Band `json:"body"`

	DrynessWord        string `json:"dryness_word"`
	BodyWord           string `json:"body_word"`
	HoneyCharacter     Band   `json:"honey_character"`
	HoneyCharacterWord string `json:"honey_character_word"`
	BitternessIBU      Band   `json:"bitterness_ibu"`
	ColourEBC          Band   `json:"colour_ebc"`
	EnergyKJPerL       Band   `json:"energy_kj_per_l"`

	Wort    Wort    `json:"wort"`
	Volumes Volumes `json:"volumes"`

	StrikeTemperatureC float64 `json:"strike_temperature_c"`
	HeightHours        Band    `json:"height_hours"`
	HoneyWindowHours   [2]Band `json:"honey_window_hours"` // opens, closes
	HoneyWindowSG      [2]Band `json:"honey_window_sg"`    // the same by the hydrometer, without honey that goes in later
	FinishedHours      Band    `json:"finished_hours"`

	PrimerGPerL          float64 `json:"primer_g_per_l"`
	BottleVolumes        float64 `json:"bottle_volumes"` // planned: kept and primer
	BottleHeadroomPoints float64 `json:"bottle_headroom_points"`
	EqualReadingsDays    float64 `json:"equal_readings_days"`
	BottleVolumesWorst   float64 `json:"bottle_volumes_worst"` // the most that such readings can have missed
	// Filled as if late honey were not there; only where there is some.
	BottleVolumesHoneyUnfermented float64 `json:"bottle_volumes_honey_unfermented,omitempty"`

	// YeastStress is what may stop the yeast early or slow it down, the gravest first.
	YeastStress []stress.Stress `json:"yeast_stress"`

	Cautions []message.Message `json:"cautions"`
	Warnings []message.Message `json:"warnings"`
	// OutsideWindow is honey that misses the window; the warnings say it too.
	OutsideWindow []OutsideWindow `json:"-"`

	// Residue is what is left in the beer by kind, g/L, of the middle draw.
	Residue sugar.Spectrum `json:"-"`
}

// Wort is the wort in the fermenter before any late honey, g/L.
type Wort struct {
	Glucose     Band `json:"glucose"`
	Fructose    Band `json:"fructose"`
	Sucrose     Band `json:"sucrose"`
	Maltose     Band `json:"maltose"`
	Maltotriose Band `json:"maltotriose"`
	Dextrin     Band `json:"dextrin"`
}

// Volumes are the litres of the day.
type Volumes struct {
	MashLiquor    float64 `json:"mash_liquor"`
	Sparge        float64 `json:"sparge"`
	PreBoil       float64 `json:"pre_boil"`
	PostBoil      float64 `json:"post_boil"`
	IntoFermenter float64 `json:"into_fermenter"`
	Packaged      float64 `json:"packaged"`
}

// The four outcomes drawn as pictures.
type Outcome int

const (
	FinalGravity Outcome = iota // SG
	Strength                    // % by volume
	Dryness                     // 0 to 100
	Body                        // 0 to 100
	Outcomes                    // how many there are
)

// Kind is what it is measured in.
func (o Outcome) Kind() quantity.Kind {
	switch o {
	case FinalGravity:
		return quantity.Gravity
	case Strength:
		return quantity.Strength
	}
	return quantity.Index
}

// Four are the four outcomes of a prediction.
func (p *Prediction) Four() [Outcomes]Band {
	return [Outcomes]Band{FinalGravity: p.FinalGravitySG, Strength: p.StrengthPct, Dryness: p.Dryness, Body: p.Body}
}

// Curves are the four outcomes against the temperature of one rest.
type Curves struct {
	TemperatureC []float64
	Bands        [Outcomes][]Band // each as long as TemperatureC
	// Hotter is what one degree more does where the rest stands, or over the last
	// degree of the levers' range, from the same draws; [Engine.Frame] alone fills it.
	Hotter [Outcomes]Band
}
