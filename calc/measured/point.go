package measured

import (
	"time"

	"skep/calc/message"
)

// The kinds of reading that are used, as a design file names them.
const (
	Pitched           = "pitched"
	PreBoilVolume     = "pre-boil-volume"
	PreBoilGravity    = "pre-boil-gravity"
	VolumeFermenter   = "volume-into-fermenter"
	OriginalGravity   = "original-gravity"
	Gravity           = "gravity"
	FinalGravity      = "final-gravity"
	MashTemperature   = "mash-temperature"
	BeerTemperature   = "beer-temperature"
	HoneyAdded        = "honey-added"
	Foam              = "foam"
	StrikeTemperature = "strike-temperature" // these three tell of the day, not of the beer
	PostBoilVolume    = "post-boil-volume"
	PostBoilGravity   = "post-boil-gravity"
	ForcedFerment     = "forced-ferment" // where a forced fermentation of this wort or beer ended
	Hydrometer        = "hydrometer"
	Refractometer     = "refractometer"
	HoursPerDay       = 24.0
	equalGravitySG    = 0.001 // readings this near are equal: a hydrometer's mark
	longGapHours      = 96.0  // without any gravity: worth a word
	LeastGravitySG    = 0.98  // no beer is lighter (package alcohol)
	MostGravitySG     = 1.18  // the range of the extract tables
	ColdestBeerC      = -3.0
	WarmestBeerC      = 42.0
	LikelyFahrenheit  = 45.0 // a beer temperature above this is taken as °F
)

// FlagCode says what is odd about a reading.
type FlagCode string

// The flags. Those marked (unused) keep the reading out of the update.
const (
	Absurd         FlagCode = "absurd"          // outside what can be (unused)
	Duplicate      FlagCode = "duplicate"       // the same again (unused)
	Spike          FlagCode = "spike"           // one of two between which gravity rises without honey, and the one that the others speak against (unused)
	Future         FlagCode = "future"          // after now (unused)
	BeforePitching FlagCode = "before-pitching" // a gravity or foam before there was yeast (unused); honey counts as at pitching
	AfterHoney     FlagCode = "after-honey"     // foam that is the honey's (unused)
	OutOfOrder     FlagCode = "out-of-order"    // entered after a later one
	OtherUnit      FlagCode = "other-unit"      // read in another unit than the file's
	HotSample      FlagCode = "hot-sample"      // corrected by a lot: wide
	AfterGap       FlagCode = "after-gap"       // days without a gravity before it
	Rising         FlagCode = "rising"          // above the one before, and no honey between
)

// Flag is something to know about a reading.
type Flag struct {
	Code FlagCode
	Text message.Message // no capital, no full stop
}

// Point is one reading, corrected.
type Point struct {
	Index      int // in the design's readings
	What       string
	Instrument string    // of gravities
	At         time.Time // UTC
	Hours      float64   // after pitching; 0 where that is not known
	Raw        float64   // as the instrument showed it
	Value      float64   // SG 20/20, °C, kg, litres, foam 0 to 3
	SD         float64   // of Value
	Used       bool
	Flags      []Flag

	Heated bool    // the forced sample was heated first
	brix   float64 // °Bx at 20 °C over the wort factor; refractometer only
}

// Has tells whether the point carries a flag.
func (p *Point) Has(code FlagCode) bool {
	for _, f := range p.Flags {
		if f.Code == code {
			return true
		}
	}
	return false
}

func (p *Point) flag(code FlagCode, text string, with ...any) {
	p.Flags = append(p.Flags, Flag{code, message.New(text, with...)})
}

func (p *Point) drop(code FlagCode, text string, with ...any) {
	p.Used = false
	p.flag(code, text, with...)
}

func (p *Point) isGravity() bool {
	return p.What == Gravity || p.What == FinalGravity || p.What == OriginalGravity
}

// InBeer is a gravity of the fermenting or finished beer.
func (p *Point) InBeer() bool { return p.What == Gravity || p.What == FinalGravity }

// Instruments are the brewer's own; the zero value is the usual kit.
type Instruments struct {
	HydrometerSD    float64 // SG; 0: 0.0005
	HydrometerC     float64 // calibration; 0: 20
	RefractometerSD float64 // °Bx; 0: 0.1, half a division of the usual scale
	WortFactor      float64 // reading over extract of wort; 0: 1.04
	WortFactorSD    float64 // 0: 0.01 (published factors run from 1.00 to 1.08)
	ThermometerSD   float64 // °C, of a sample's or the beer's temperature; 0: 0.5
}

func (in Instruments) filled() Instruments {
	usual := func(v *float64, u float64) {
		if !(*v > 0) {
			*v = u
		}
	}
	usual(&in.HydrometerSD, 0.0005)
	usual(&in.HydrometerC, 20)
	usual(&in.RefractometerSD, 0.1)
	usual(&in.WortFactor, 1.04)
	usual(&in.WortFactorSD, 0.01)
	usual(&in.ThermometerSD, 0.5)
	return in
}
