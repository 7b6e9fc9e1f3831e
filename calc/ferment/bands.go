package ferment

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"skep/calc/doubt"
)

// Band is an uncertain quantity by its 10th, 50th and 90th percentile.
type Band struct{ Low, Mid, High float64 }

// TimeBands are the milestones with their doubt, hours after pitching.
type TimeBands struct {
	HeightHours   Band
	Window        [2]Band // opens, closes
	FinishedHours Band
}

// drawnClock is a draw with its factors worked out.
type drawnClock struct {
	Doubt
	rate, lag float64
}

// drawCount is how many draws a band is made of: their percentiles are within
// two percent of those of eight times as many (a test shows it).
const drawCount = 512

// draws are the uncertain clocks: an additive lattice in three dimensions
// (generalised golden ratio; M. Roberts 2018, from memory), as normal scores.
// It is a constant table: the same for every design.
var draws = lattice(drawCount)

func lattice(n int) []drawnClock {
	const g = 1.2207440846057596 // the root of x⁴ = x + 1
	d := make([]drawnClock, n)
	for i := range d {
		score := func(step float64) float64 {
			_, u := math.Modf(0.5 + step*float64(i+1))
			u = math.Min(math.Max(u, 0.5/float64(n)), 1-0.5/float64(n))
			return distuv.UnitNormal.Quantile(u)
		}
		d[i].Doubt = Doubt{score(1 / g), score(1 / (g * g)), score(1 / (g * g * g))}
		d[i].rate, d[i].lag = d[i].factors()
	}
	return d
}

// Bands gives the milestones of an input with their doubt of rate, lag and
// temperature.
func Bands(in Input) (TimeBands, error) {
	t, err := NewTiming(in)
	if err != nil {
		return TimeBands{}, err
	}
	return t.Bands(), nil
}

// Bands are the milestones with their doubt.
func (t *Timing) Bands() TimeBands { return t.bands(draws) }

func (t *Timing) bands(draws []drawnClock) TimeBands {
	n := len(draws)
	values := make([]float64, 4*n)
	for i, d := range draws {
		var x Times
		if t.share == 1 { // as usual: the factors are known
			x = t.at(d.Doubt, d.rate, d.lag)
		} else {
			x = t.At(d.Doubt)
		}
		values[i], values[n+i], values[2*n+i], values[3*n+i] = x.HeightHours, x.Window[0], x.Window[1], x.FinishedHours
	}
	var b [4]Band
	for j := range b {
		b[j].Low, b[j].Mid, b[j].High = doubt.Percentiles(values[j*n : (j+1)*n])
	}
	return TimeBands{b[0], [2]Band{b[1], b[2]}, b[3]}
}

// CourseBands is a course hour by hour with the doubt of the clock: rate, lag
// and temperature, not of what the yeast leaves in the end.
type CourseBands struct {
	GravitySG     []Band
	CO2RateGPerLH []Band
}

// Course gives the bands of a course that was run with the same input. Sugar
// added on the way is taken to move with the clock of the yeast.
func (t *Timing) Course(c *Course) CourseBands {
	const thin = 4 // every fourth draw: 128 do for a picture
	n := drawCount / thin
	hours, rates := make([]float64, n), make([]float64, n)
	b := CourseBands{make([]Band, len(c.Hours)), make([]Band, len(c.Hours))}
	last := float64(len(c.Hours) - 1)
	for i, hour := range c.Hours {
		for k := range n {
			at, faster := t.Equivalent(hour, draws[k*thin].Doubt)
			hours[k] = math.Min(at, last)
			j := min(int(hours[k]), len(c.Hours)-2)
			u := hours[k] - float64(j)
			rates[k] = faster * (c.CO2RateGPerLH[j] + u*(c.CO2RateGPerLH[j+1]-c.CO2RateGPerLH[j]))
		}
		r := &b.CO2RateGPerLH[i]
		r.Low, r.Mid, r.High = doubt.Percentiles(rates)
		early, mid, late := doubt.Percentiles(hours)
		g := &b.GravitySG[i]
		g.High, _ = c.At(early)
		g.Mid, _ = c.At(mid)
		g.Low, _ = c.At(late)
		g.Low, g.High = math.Min(g.Low, math.Min(g.Mid, g.High)), math.Max(g.Low, math.Max(g.Mid, g.High))
	}
	return b
}
