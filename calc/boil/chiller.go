package boil

import "math"

// Chiller is a counterflow cooler: wort one way, tap water the other.
//
// Symbols: NTU is UA over the smaller heat flow capacity, Cr the smaller over
// the larger, effectiveness the heat passed over the most that could be.
type Chiller struct {
	UAKWPerK     float64 // heat passed for each degree, kW/K
	WortLPerMin  float64
	WaterLPerMin float64
	TapC         float64
}

const (
	waterKJPerLK = 4.18 // tap water
	coolKJPerLK  = 4.0  // wort between the boil and 20 °C, as the check values take it
	// A small counterflow cooler at an easy pace (common practice, no source):
	// twice as much water as wort and three transfer units.
	usualNTU        = 3.0
	usualWaterShare = 2.0
)

// UsualChiller is the estimate for a kit of which nothing is known but the tap.
func UsualChiller(tapC float64) Chiller {
	return Chiller{
		UAKWPerK:    usualNTU * runOffLPerMin * coolKJPerLK / 60,
		WortLPerMin: runOffLPerMin, WaterLPerMin: usualWaterShare * runOffLPerMin, TapC: tapC,
	}
}

// LMTD is the logarithmic mean of the temperature differences at the two ends,
// K; the difference itself where they are equal, 0 where one is not positive.
func LMTD(firstK, secondK float64) float64 {
	if !(firstK > 0) || !(secondK > 0) {
		return 0
	}
	if math.Abs(firstK-secondK) < 1e-9*firstK {
		return firstK
	}
	return (firstK - secondK) / math.Log(firstK/secondK)
}

// Effectiveness of a counterflow exchanger, 0 to 1: ntu is UA over the lesser of the two
// streams' heat capacities, cr that over the greater, both without a unit.
func Effectiveness(ntu, cr float64) float64 {
	if !(ntu > 0) {
		return 0
	}
	if cr >= 1-1e-9 {
		return ntu / (1 + ntu)
	}
	e := math.Exp(-ntu * (1 - cr))
	return (1 - e) / (1 - cr*e)
}

// RunOff is the wort leaving the chiller, the water leaving it, °C, and the heat
// passed, kW. Nothing is cooled without flow.
func (c Chiller) RunOff(wortC float64) (outC, waterOutC, heatKW float64) {
	wort, tap := c.WortLPerMin/60*coolKJPerLK, c.WaterLPerMin/60*waterKJPerLK // kW/K
	if !(wort > 0) || !(tap > 0) {
		return wortC, c.TapC, 0
	}
	small, large := math.Min(wort, tap), math.Max(wort, tap)
	heatKW = Effectiveness(c.UAKWPerK/small, small/large) * small * (wortC - c.TapC)
	return wortC - heatKW/wort, c.TapC + heatKW/tap, heatKW
}

// RunOffMinutes is how long the wort takes to run off.
func (c Chiller) RunOffMinutes(volumeL float64) float64 {
	if !(c.WortLPerMin > 0) {
		return 0
	}
	return math.Max(0, volumeL) / c.WortLPerMin
}
