package measured

import (
	"math"

	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/quantity"
	"skep/calc/units"
)

// What the correction of a fermenting beer's refractometer reading is good to.
const (
	CorrelationSD      = 0.002 // SG, the cubic on finished all-malt beer (package reckon)
	CorrelationHoneySD = 0.003 // with honey, which lowers the factor (Alonso & Porter 2017); the width is ours
	hotSampleSD        = 0.001 // SG, for every 20 K above the warning (checks, 1e: formulas part)
	// brixPerABW: what 1 % by mass of alcohol adds to a refractometer reading,
	// °Bx: the refractive index of 5 % ethanol is 1.3364, of water 1.3330, a °Bx
	// is 0.00144 at that end (CRC Handbook, from memory).
	brixPerABW = 0.44
	// The cubic is a correlation of finished beer; before that share of the
	// original reading is left it is not used at all.
	cubicFrom, cubicFull = 0.75, 0.55
)

const mostHoneyKg = 50.0

func ofSG(sg float64) quantity.Quantity { return quantity.Of(quantity.Gravity, sg) }

func raw(v float64) quantity.Quantity { return quantity.Of(quantity.Raw, v) }

// correct fills in Value and SD of a raw reading, or drops it. Refractometer
// readings of beer wait for [refractometerSG].
func (p *Point) correct(sampleC float64, in Instruments) {
	if math.IsNaN(p.Raw) || math.IsInf(p.Raw, 0) {
		p.drop(Absurd, "not a number")
		return
	}
	switch p.What {
	case OriginalGravity, Gravity, FinalGravity, PreBoilGravity, PostBoilGravity, ForcedFerment:
		if p.Instrument == Refractometer && p.What != ForcedFerment {
			p.correctBrix(sampleC, in)
		} else {
			p.correctSG(sampleC, in)
		}
	case BeerTemperature, MashTemperature, StrikeTemperature:
		p.Value, p.SD = p.Raw, in.ThermometerSD
		if p.What == BeerTemperature {
			p.checkBeerC()
		} else if p.Value < 20 || p.Value > 105 {
			p.drop(Absurd, "a mash at {temperature}", quantity.Of(quantity.Temperature, p.Raw))
		}
	case HoneyAdded:
		p.Value = p.Raw
		if !(p.Raw > 0 && p.Raw <= mostHoneyKg) {
			p.drop(Absurd, "{mass} of honey, expected above 0 to {most}", quantity.Of(quantity.MassKg, p.Raw), quantity.Of(quantity.MassKg, mostHoneyKg))
		}
	case Foam:
		p.Value = p.Raw
		if p.Raw != 0 && p.Raw != 1 && p.Raw != 2 && p.Raw != 3 {
			p.drop(Absurd, "foam {number}, expected 0 none, 1 rising, 2 at its height, 3 falling", raw(p.Raw))
		}
	case PreBoilVolume, PostBoilVolume, VolumeFermenter:
		p.Value, p.SD = p.Raw, 0.02*p.Raw // a dip stick or a mark: 2 % (common practice, no source)
		if !(p.Raw > 0 && p.Raw <= 1000) {
			p.drop(Absurd, "a volume of {volume}", quantity.Of(quantity.Volume, p.Raw))
		}
	default:
		p.Value = p.Raw
	}
}

// correctSG is a hydrometer's reading. A number that is no specific gravity
// but is one in another unit of the trade is taken as that, and says so.
func (p *Point) correctSG(sampleC float64, in Instruments) {
	v := p.Raw
	switch {
	case v >= 900 && v <= 1200:
		v /= 1000
		p.flag(OtherUnit, "{number} read as a gravity of {gravity}", raw(p.Raw), ofSG(v))
	case v >= 2 && v <= 40:
		v = density.SGFromPlato(v)
		p.flag(OtherUnit, "{number} by hydrometer read as °P, a gravity of {gravity}", raw(p.Raw), ofSG(v))
	}
	if !(v >= LeastGravitySG && v <= MostGravitySG) {
		p.drop(Absurd, "a gravity of {number}, expected {least} to {most}", raw(p.Raw), ofSG(LeastGravitySG), ofSG(MostGravitySG))
		return
	}
	sg, err := density.HydrometerSG(v, sampleC, in.HydrometerC)
	if err != nil {
		p.drop(Absurd, "a sample at {temperature} by a hydrometer made for {calibration}: beyond what can be corrected", quantity.Of(quantity.Temperature, sampleC), quantity.Of(quantity.Temperature, in.HydrometerC))
		return
	}
	p.Value = sg
	p.SD = in.HydrometerSD
	if next, err := density.HydrometerSG(v, sampleC+1, in.HydrometerC); err == nil {
		p.SD = math.Hypot(p.SD, in.ThermometerSD*(next-sg))
	}
	if sampleC > density.HydrometerDoubtAboveC {
		p.SD = math.Hypot(p.SD, hotSampleSD*(sampleC-density.HydrometerDoubtAboveC)/20+hotSampleSD)
		p.flag(HotSample, "a sample at {temperature}: let it cool and read again, the correction is only good to about {points}", quantity.Of(quantity.Temperature, sampleC), quantity.Of(quantity.Points, 2*p.SD))
	}
}

// correctBrix brings a refractometer's reading to 20 °C. Wort is done with
// that; beer needs its original extract.
func (p *Point) correctBrix(sampleC float64, in Instruments) {
	v := p.Raw
	if v >= LeastGravitySG && v <= MostGravitySG {
		v = density.PlatoFromSG(v) * in.WortFactor
		p.flag(OtherUnit, "{number} by refractometer read on its SG scale, {brix} °Bx", raw(p.Raw), quantity.Of(quantity.Tenths, v))
	}
	if err := density.CheckBrix(v, sampleC); err != nil {
		p.drop(Absurd, "{brix} °Bx at {temperature}: beyond what can be corrected", quantity.Of(quantity.Tenths, v), quantity.Of(quantity.Temperature, sampleC))
		return
	}
	p.brix = math.Max(0, density.BrixAt20(v, sampleC)) / in.WortFactor
	if p.What == OriginalGravity || p.What == PreBoilGravity || p.What == PostBoilGravity {
		p.Value = density.SGFromPlato(p.brix)
		p.SD = wortSD(p.brix, in)
	}
}

// wortSD is the sd of a wort's gravity by refractometer.
func wortSD(brix float64, in Instruments) float64 {
	perPlato := density.SGFromPlato(brix+1) - density.SGFromPlato(brix)
	return perPlato * math.Hypot(in.RefractometerSD, brix*in.WortFactorSD/in.WortFactor)
}

// RefractometerSG is the gravity of a beer of so much original extract (°P,
// all honey counted in) from a refractometer's reading over the wort factor,
// with its sd but for the instrument's. Finished beer goes by the published
// cubic; early in a fermentation, where that is off by up to 0.008, by the
// refraction of extract and alcohol, which is exact for wort; between the two a
// smooth hand-over, and half of what they differ by is doubt.
func RefractometerSG(originalPlato, brix float64, honey bool) (sg, sd float64) {
	sd = CorrelationSD
	if honey {
		sd = CorrelationHoneySD
	}
	if !(originalPlato > 0) {
		return density.SGFromPlato(brix), sd
	}
	early := mixingSG(originalPlato, brix)
	late := density.RefractometerSG(originalPlato, brix)
	u := min(max((brix/originalPlato-cubicFull)/(cubicFrom-cubicFull), 0), 1)
	u *= u * (3 - 2*u)
	return u*early + (1-u)*late, math.Hypot(sd*(1-0.7*u), 2*u*(1-u)*(early-late)/2)
}

// mixingSG: brix = RE + 0.44 A with Balling's A from OE and RE.
func mixingSG(oe, brix float64) float64 {
	perRE := brixPerABW / (alcohol.ExtractPerEthanol - (alcohol.CO2PerEthanol+alcohol.YeastPerEthanol)/100*oe)
	re := (brix - perRE*oe) / (1 - perRE)
	return density.SGFromPlato(alcohol.ApparentExtract(oe, re))
}

// refract finishes a refractometer's reading of beer.
func (p *Point) refract(originalPlato float64, honey bool, in Instruments) {
	sg, sd := RefractometerSG(originalPlato, p.brix, honey)
	next, _ := RefractometerSG(originalPlato, p.brix+0.1, honey)
	// Factor and correlation err the same way in every reading: the update has
	// an input for it. What differs from reading to reading is the instrument.
	p.Value, p.SD = sg, math.Hypot((next-sg)/0.1*in.RefractometerSD, sd/2)
	if !(sg >= LeastGravitySG && sg <= MostGravitySG) {
		p.drop(Absurd, "{brix} °Bx would be a gravity of {gravity} from {original}, beyond the correlation", quantity.Of(quantity.Tenths, p.Raw), ofSG(sg), ofSG(density.SGFromPlato(originalPlato)))
	}
}

func (p *Point) checkBeerC() {
	if p.Value > LikelyFahrenheit && p.Value <= 110 {
		p.Value = units.CelsiusFromFahrenheit(p.Value)
		p.flag(OtherUnit, "{number} read as °F, that is {temperature}", raw(p.Raw), quantity.Of(quantity.Temperature, p.Value))
	}
	if !(p.Value >= ColdestBeerC && p.Value <= WarmestBeerC) {
		p.drop(Absurd, "a beer at {temperature}", quantity.Of(quantity.Temperature, p.Raw))
	}
}
