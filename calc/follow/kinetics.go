package follow

import (
	"math"

	"skep/calc/doubt"
	"skep/calc/ferment"
	"skep/calc/sugar"
)

// The state of a course, per litre of the wort pitched: hexose, maltose and
// maltotriose in mol/m³, dextrin that the strain takes in g, yeast in mol/m³.
const (
	iG = iota
	iM
	iN
	iD
	iX
	iF // extract fermented, g
	states
)

type state [states]float64

// Molar masses, kg/mol (IUPAC atomic weights): mol/m³ to g/L.
const (
	hexoseKg      = 0.180156
	maltoseKg     = 0.342297
	maltotrioseKg = 0.504438
)

func (y *state) extract() float64 {
	return hexoseKg*y[iG] + maltoseKg*y[iM] + maltotrioseKg*y[iN] + y[iD]
}

// put adds fermentable sugars, g per litre pitched.
func (y *state) put(simple, maltose, maltotriose, dextrin float64) {
	y[iG] += simple / hexoseKg
	y[iM] += maltose / maltoseKg
	y[iN] += maltotriose / maltotrioseKg
	y[iD] += dextrin
}

func (y *state) putHoney(s sugar.Spectrum) { y.put(s.Simple(), s.Maltose, s.Maltotriose, 0) }

// rates is package ferment's constants at a temperature, and the pitch.
type rates struct {
	ferment.Rates
	x0 float64
}

func ratesAt(temperatureC, cellsBillionPerL float64) rates {
	k := ferment.Trade()
	if !(cellsBillionPerL > 0) {
		cellsBillionPerL = ferment.UsualPitchBillionPerL
	}
	return rates{k.At(temperatureC), k.PitchX * cellsBillionPerL / ferment.UsualPitchBillionPerL}
}

func (r *rates) derive(y, d *state, volume float64) float64 {
	return r.Derive((*ferment.State)(y), (*ferment.State)(d), r.x0, volume)
}

// stepHours is a step of Runge and Kutta's that follows the quickest uptake:
// hexose by a yeast grown to sixfold.
func (r *rates) stepHours() float64 {
	const fraction = 0.8 // of that time constant
	return fraction * r.HexoseK / (r.Uptake * max(2*r.x0, 750))
}

func (r *rates) step(y *state, h, volume float64, first *state) {
	var k2, k3, k4, z state
	for i := range z {
		z[i] = y[i] + h/2*first[i]
	}
	r.derive(&z, &k2, volume)
	for i := range z {
		z[i] = y[i] + h/2*k2[i]
	}
	r.derive(&z, &k3, volume)
	for i := range z {
		z[i] = y[i] + h*k3[i]
	}
	r.derive(&z, &k4, volume)
	for i := range y {
		y[i] += h / 6 * (first[i] + 2*k2[i] + 2*k3[i] + k4[i])
	}
}

// clock is the yeast's own time against hours after pitching, as package
// ferment has it: a smooth start between half and one and a half times the
// lag, then rate times (hours - lag).
type clock struct{ lag, rate float64 }

func (m *model) clock(t *theta) clock {
	c := &m.priors.Clocks[0]
	lag := c.LagHours * math.Exp(c.Share*min(max(t[iLag], -4), 4)/doubt.Z90*math.Log(ferment.LagSpread))
	k := ferment.Trade()
	lag /= k.Activity(m.beerC + m.beerSD*min(max(t[iTemperature], -4), 4))
	return clock{lag, c.RateFactor * math.Exp(c.Share*stretch(t[iRate])/doubt.Z90*math.Log(ferment.RateSpread))}
}

func (c clock) yeast(hours float64) (tau, activity float64) {
	u := (hours - c.lag/2) / c.lag
	switch {
	case !(u > 0):
		return 0, 0
	case u >= 1:
		return c.rate * (hours - c.lag), c.rate
	}
	return c.rate * c.lag * u * u * u * (1 - u/2), c.rate * u * u * (3 - 2*u)
}

func (c clock) wall(tau float64) float64 {
	want := tau / c.rate
	if want >= c.lag/2 {
		return c.lag + want
	}
	lo, hi := c.lag/2, 1.5*c.lag
	for range 40 {
		mid := (lo + hi) / 2
		if got, _ := c.yeast(mid); got < tau {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}
