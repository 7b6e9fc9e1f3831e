package nextreading

import (
	"math"

	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/quantity"
)

// What could be measured next, by its published key.
const (
	Gravity     = "gravity"
	Forced      = measured.ForcedFerment
	Beer        = "beer-temperature"
	Moisture    = "honey-moisture"
	Thermometer = "thermometer-in-ice"
	Malt        = "malt-attenuation-limit"
	Yield       = "mash-efficiency"
	Glasses     = "glass-test"
)

// Text says in one line which measurement would tell most, and by how much.
func Text(all []Worth) message.Message {
	if len(all) == 0 || all[0].Most().Share() < Least {
		return message.New("no single measurement would narrow the bands much now")
	}
	most := all[0].Most()
	return message.New("what would tell most: {measurement}; the band of {quality} is expected to narrow by {share}",
		all[0].name(), quality(most.Key), quantity.Of(quantity.Percent, math.Round(100*most.Share())))
}

// Short names a measurement in a few words.
func (w *Worth) Short() message.Message {
	switch w.What {
	case Malt:
		return message.New("the malt's certificate")
	case Yield:
		return message.New("one brew's yield")
	case Thermometer:
		return message.New("the thermometer in ice")
	case Moisture:
		return message.New("the honey's moisture")
	case Glasses:
		return message.New("the glass test")
	}
	return w.name()
}

func (w *Worth) name() message.Message {
	switch w.What {
	case Gravity:
		return message.New("another gravity reading in {hours}", quantity.Of(quantity.WholeHours, w.Hours))
	case Forced:
		return message.New("a forced fermentation of a sample, in the warm")
	case Beer:
		return message.New("the temperature of the beer itself")
	case Moisture:
		return message.New("the honey's moisture, by a refractometer")
	case Thermometer:
		return message.New("the mash thermometer in melting ice")
	case Malt:
		return message.New("the malt's limit attenuation, from its certificate or a small mash fermented out")
	case Yield:
		return message.New("gravity and litres of one brew on this kit")
	}
	return message.New("twenty pairs in the glass test, in the Ledger")
}

func quality(key string) message.Message {
	switch key {
	case "final_gravity_sg":
		return message.New("final gravity")
	case "strength_pct":
		return message.New("strength")
	case "dryness":
		return message.New("dryness")
	}
	return message.New("the honey moment")
}
