package packaging

import (
	"skep/calc/carbonation"
	"skep/calc/message"
)

// Container is a class of bottle by what it is made for, volumes of CO2. Makers
// publish a proof for new glass (10 to 16 bar for a minute) and gas volumes
// (about 4); nobody was found who publishes a limit for swing-tops or reused
// bottles. The classes are ours; a maker's own figure goes before them.
type Container struct {
	Key          string
	RatedVolumes float64
	About        string
}

// UnknownRating is taken for a bottle of which nothing is known, volumes.
const UnknownRating = 3.0

// Containers are the classes, the weakest first.
func Containers() []Container {
	return []Container{
		{"unknown", UnknownRating, "unknown, one-way or light glass"},
		{"returnable", 3.5, "returnable or swing-top bottle of a beer maker, unscratched"},
		{"marked", 4, "glass marked for 4 volumes"},
		{"pet", 4, "PET bottle for sparkling soft drinks, kept under 38 °C"},
		{"sparkling-wine", 6, "sparkling-wine glass with its own closure"},
	}
}

// HeatableVolumes is the most CO2 with which closed glass may be heated, volumes:
// at 60 °C such a bottle of beer stands at 7.2 bar, the least proof of returnable
// glass (10 bar for a minute) less a quarter (ours).
const HeatableVolumes = 2.5

// The range for which heating was worked out, °C.
const (
	minHeatingC = 40.0
	maxHeatingC = 75.0
)

// HeatedBarAbs is the pressure in a closed bottle that is heated, bar absolute:
// as [carbonation.BottleBarAbs], headspace left out. It refuses more than
// [HeatableVolumes].
func HeatedBarAbs(volumes, temperatureC float64) (float64, error) {
	if !(temperatureC >= minHeatingC && temperatureC <= maxHeatingC) {
		return 0, message.NewError("heating to {value} °C is outside {low} to {high} °C, where bottles are pasteurised", temperatureC, minHeatingC, maxHeatingC)
	}
	if !(volumes >= 0 && volumes <= HeatableVolumes) {
		return 0, message.NewError("closed bottles of {volumes} volumes must not be heated: {most} are the most, and glass under pressure bursts and maims; keep the beer cold instead", volumes, HeatableVolumes)
	}
	return carbonation.BottleBarAbs(temperatureC, volumes), nil
}
