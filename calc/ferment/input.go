package ferment

import (
	"fmt"
	"math"

	"skep/calc/message"
	"skep/calc/sugar"
	"skep/calc/yeast"
)

// Usual values, taken where the Input holds 0.
const (
	UsualPitchBillionPerL = 9.0   // 0.75 million per mL and °P at 12 °P, G. Fix (design notes, checks 9)
	UsualLagHours         = 12.4  // at 20 °C; fitted with the rates (kinetics.go)
	UsualHorizonHours     = 336.0 // two weeks
)

// Input is what goes into the fermenter.
type Input struct {
	Wort             sugar.Spectrum // g/L at pitching
	Take             yeast.Take     // what the strain takes of it
	TemperatureC     float64        // 0 to 50 °C
	PitchBillionPerL float64        // viable cells, 0.1 to 500; 0: [UsualPitchBillionPerL]
	LagHours         float64        // as at 20 °C, longer where it is colder, up to 500; 0: [UsualLagHours]
	RateFactor       float64        // 0.05 to 20, on every rate; 0: 1
	Additions        []Addition     // honey and other sugars, in any order
	HorizonHours     float64        // how far the course goes at least, up to 2160; 0: two weeks
	Kinetics         *Kinetics      // nil: [Trade]
}

// Addition is sugar given to the fermenter at one moment.
type Addition struct {
	AfterHeight bool           // Hours count from the height; otherwise from pitching
	Hours       float64        // before pitching counts as at pitching
	Sugars      sugar.Spectrum // grams per litre of the wort pitched
	// Fermentable is the share (0 to 1) of all Sugars that ferments, simple
	// sugars first, then maltose and so on (honey: package honey). 0: the
	// strain's Take decides, kind by kind.
	Fermentable float64
	VolumeShare float64 // litres added per litre of the wort pitched, 0 to 1
}

// LongestHours is how far a course is followed, 90 days: what is not over then is
// stuck.
const LongestHours = 2160.0

const (
	greatestExtractGL = 700.0 // beyond it no yeast ferments at all
	longestHours      = LongestHours
)

// outside is a value that cannot be used.
func outside(key string, value, low, high float64, unit string) error {
	return message.Fault("ferment: %s is %g, expected %g to %g %s", key, value, low, high, unit)
}

func within(v, low, high float64) bool { return v >= low && v <= high } // false for NaN

// filled is the input with the usual values put in and everything checked.
func (in Input) filled() (Input, error) {
	usual := func(v *float64, u float64) {
		if *v == 0 {
			*v = u
		}
	}
	usual(&in.PitchBillionPerL, UsualPitchBillionPerL)
	usual(&in.LagHours, UsualLagHours)
	usual(&in.RateFactor, 1)
	usual(&in.HorizonHours, UsualHorizonHours)
	for _, c := range []struct {
		key          string
		v, low, high float64
		unit         string
	}{
		{"temperature", in.TemperatureC, 0, 50, "°C"},
		{"pitch", in.PitchBillionPerL, 0.1, 500, "billion cells per litre"},
		{"lag", in.LagHours, 0.01, 500, "hours"},
		{"rate factor", in.RateFactor, 0.05, 20, ""},
		{"horizon", in.HorizonHours, 1, longestHours, "hours"},
		{"take of simple sugars", in.Take.Simple, 0, 1, "as a share"},
		{"take of maltose", in.Take.Maltose, 0, 1, "as a share"},
		{"take of maltotriose", in.Take.Maltotriose, 0, 1, "as a share"},
		{"take of dextrin", in.Take.Dextrin, 0, 1, "as a share"},
	} {
		if !within(c.v, c.low, c.high) {
			return in, outside(c.key, c.v, c.low, c.high, c.unit)
		}
	}
	if err := checkSugars("wort", in.Wort); err != nil {
		return in, err
	}
	total := in.Wort.Total()
	for i, a := range in.Additions {
		name := fmt.Sprintf("addition %d", i+1)
		if err := checkSugars(name, a.Sugars); err != nil {
			return in, err
		}
		if !within(a.Hours, -longestHours, longestHours) {
			return in, outside(name+" at", a.Hours, -longestHours, longestHours, "hours")
		}
		if !within(a.Fermentable, 0, 1) {
			return in, outside(name+" fermentable share", a.Fermentable, 0, 1, "")
		}
		if !within(a.VolumeShare, 0, 1) {
			return in, outside(name+" volume share", a.VolumeShare, 0, 1, "litres per litre")
		}
		total += a.Sugars.Total()
	}
	if total > greatestExtractGL {
		return in, outside("extract in all", total, 0, greatestExtractGL, "g/L")
	}
	return in, nil
}

func checkSugars(name string, s sugar.Spectrum) error {
	for _, k := range []struct {
		kind string
		v    float64
	}{
		{"glucose", s.Glucose}, {"fructose", s.Fructose}, {"sucrose", s.Sucrose}, {"maltose", s.Maltose},
		{"maltotriose", s.Maltotriose}, {"dextrin", s.Dextrin}, {"other extract", s.Other},
	} {
		if !within(k.v, 0, greatestExtractGL) {
			return outside(name+" "+k.kind, k.v, 0, greatestExtractGL, "g/L")
		}
	}
	return nil
}

// fermentable is what of an addition ferments, by kind, g/L.
func (a Addition) fermentable(take yeast.Take) sugar.Spectrum {
	if a.Fermentable == 0 {
		return take.Fermented(a.Sugars)
	}
	left := a.Fermentable * a.Sugars.Total()
	part := func(have float64) float64 {
		got := math.Min(have, left)
		left -= got
		return got
	}
	var f sugar.Spectrum
	if simple := a.Sugars.Simple(); simple > 0 {
		share := part(simple) / simple
		f.Glucose, f.Fructose, f.Sucrose = a.Sugars.Glucose*share, a.Sugars.Fructose*share, a.Sugars.Sucrose*share
	}
	f.Maltose = part(a.Sugars.Maltose)
	f.Maltotriose = part(a.Sugars.Maltotriose)
	f.Dextrin = part(a.Sugars.Dextrin)
	return f
}

// put adds fermentable sugars, g per litre pitched, to a state. Sucrose enters
// as hexose of the same mass, so that extract is conserved.
func (y *State) put(f sugar.Spectrum) {
	y[iG] += f.Simple() / gramsPerLitre[0]
	y[iM] += f.Maltose / gramsPerLitre[1]
	y[iN] += f.Maltotriose / gramsPerLitre[2]
	y[iD] += f.Dextrin
}

// slow lets a share of what is in ferment as slowly as dextrin does: of the maltose
// and the maltotriose.
func (y *State) slow(share float64) {
	both := gramsPerLitre[1]*y[iM] + gramsPerLitre[2]*y[iN]
	if !(share > 0) || !(both > 0) {
		return
	}
	part := min(share*y.extract()/both, 0.9)
	y[iM] *= 1 - part
	y[iN] *= 1 - part
	y[iD] += part * both
}
