package learn

import (
	"math"

	"skep/calc/measured"
	"skep/calc/message"
	"skep/calc/quantity"
)

// thermometer is the lesson of the kit's thermometer: by how much the mash is warmer
// than it says. restErrorC is the doubt of the design about it, °C.
func (l *Lessons) thermometer(here []Batch, restErrorC float64) {
	rest := max(restErrorC, 0.05)
	l.one(here, Lesson{Key: Thermometer, Name: message.New("Mash warmer than set"), Kind: quantity.TemperatureDifference},
		hierarchy{tm: rest * math.Sqrt(offsetShare), sigma: rest * math.Sqrt(1-offsetShare)}, func(m *Measured) Value { return m.RestOffsetC })
}

// restOffset is how much warmer the mash was than set, over all rests read.
func (b *batch) restOffset() {
	sum, n, sd := 0.0, 0.0, 0.0
	for i := range b.line.Points {
		p := &b.line.Points[i]
		if !p.Used || p.What != measured.MashTemperature {
			continue
		}
		best := math.Inf(1)
		for _, r := range b.raw.Mash.Rest {
			if d := p.Value - r.TemperatureC; math.Abs(d) < math.Abs(best) {
				best = d
			}
		}
		if math.Abs(best) <= 4 { // as package follow gives readings to rests
			sum, sd = sum+best, p.SD
			n++
		}
	}
	if n > 0 {
		// The thermometer is the same for all; the place in the bed is not.
		b.RestOffsetC = value(sum/n, math.Hypot(sd, mashGradientC/math.Sqrt(n)))
	}
}
