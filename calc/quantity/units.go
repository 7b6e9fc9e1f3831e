package quantity

import (
	"strconv"
	"strings"

	"skep/calc/message"
)

// The units that a person may choose between. The zero value of each is the
// metric (or brewing-trade European) one, in which files are written.
type (
	// TemperatureUnit is °C or °F.
	TemperatureUnit uint8
	// GravityUnit is specific gravity at 20/20 °C or degrees Plato.
	GravityUnit uint8
	// VolumeUnit is litres or US gallons.
	VolumeUnit uint8
	// MassUnit is kg and g, or lb and oz (avoirdupois).
	MassUnit uint8
	// ColourUnit is EBC or SRM.
	ColourUnit uint8
)

const (
	C TemperatureUnit = iota
	F
)

const (
	SG GravityUnit = iota
	Plato
)

const (
	Litre VolumeUnit = iota
	USGallon
)

const (
	Kg MassUnit = iota
	Lb
)

const (
	EBC ColourUnit = iota
	SRM
)

// Units is one person's choice. Its zero value is °C, SG, litres, kg, EBC and
// a decimal point.
type Units struct {
	Temperature TemperatureUnit
	Gravity     GravityUnit
	Volume      VolumeUnit
	Mass        MassUnit
	Colour      ColourUnit
	// DecimalComma writes 66,5 instead of 66.5. Both are always understood.
	DecimalComma bool
}

var unitCodes = [...]struct{ first, second string }{
	{"C", "F"}, {"SG", "P"}, {"L", "gal"}, {"kg", "lb"}, {"EBC", "SRM"}, {"point", "comma"},
}

// Encode writes the choice as one short line for the preferences, such as
// "C SG L kg EBC point".
func (u Units) Encode() string {
	words := make([]string, len(unitCodes))
	for i, second := range u.flags() {
		words[i] = unitCodes[i].first
		if second {
			words[i] = unitCodes[i].second
		}
	}
	return strings.Join(words, " ")
}

// DecodeUnits reads what [Units.Encode] wrote. Words that are missing at the
// end keep their metric value, so a choice saved by an older Skep stays good.
func DecodeUnits(text string) (Units, error) {
	words := strings.Fields(text)
	if len(words) > len(unitCodes) {
		return Units{}, message.NewError("units {text}: {count} words where at most {most} are known", strconv.Quote(text), len(words), len(unitCodes))
	}
	var second [len(unitCodes)]bool
	for i, w := range words {
		switch w {
		case unitCodes[i].first:
		case unitCodes[i].second:
			second[i] = true
		default:
			return Units{}, message.NewError("units {text}: {word} where {first} or {other} is expected",
				strconv.Quote(text), strconv.Quote(w), unitCodes[i].first, unitCodes[i].second)
		}
	}
	u := Units{DecimalComma: second[5]}
	if second[0] {
		u.Temperature = F
	}
	if second[1] {
		u.Gravity = Plato
	}
	if second[2] {
		u.Volume = USGallon
	}
	if second[3] {
		u.Mass = Lb
	}
	if second[4] {
		u.Colour = SRM
	}
	return u, nil
}

func (u Units) flags() [len(unitCodes)]bool {
	return [...]bool{u.Temperature == F, u.Gravity == Plato, u.Volume == USGallon,
		u.Mass == Lb, u.Colour == SRM, u.DecimalComma}
}

// Summary is the one-line reminder of the choice, "°C · SG · litres".
func (f Formatter) Summary() string {
	volume := f.say("litres")
	if f.units.Volume == USGallon {
		volume = f.say("US gallons")
	}
	gravity := f.say("SG")
	if f.units.Gravity == Plato {
		gravity = "°P"
	}
	return f.Unit(Temperature) + " · " + gravity + " · " + volume
}
