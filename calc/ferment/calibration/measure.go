package calibration

import (
	"fmt"
	"math"

	"skep/calc/ferment"
	"skep/calc/sugar"
	"skep/calc/yeast"
)

// referenceGPerL is the extract of a 12 °P wort, g/L.
const referenceGPerL = 125.6

// reference is what 1 h at 66 °C draws from malt, shares of extract (design
// notes, section 2, from a textbook table).
var reference = sugar.Spectrum{
	Fructose: 0.015, Glucose: 0.08, Sucrose: 0.04, Maltose: 0.43, Maltotriose: 0.13, Dextrin: 0.22, Other: 0.085,
}

// neutralAle takes half of the maltotriose: about 75 % apparent on the reference
// (design notes, section 3).
var neutralAle = yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 0.5}

// input is the fermentation of a row with the constants k.
func input(k ferment.Kinetics, lagHours float64, r Row) (ferment.Input, error) {
	in := ferment.Input{
		Wort: reference.Times(referenceGPerL), Take: neutralAle,
		TemperatureC: r.TemperatureC, PitchBillionPerL: r.PitchBillionPerL, LagHours: lagHours, Kinetics: &k,
	}
	switch r.Wort {
	case "", "reference":
	case "derived":
		in.Wort = sugar.Spectrum{Glucose: 70 * 0.180156, Maltose: 220 * 0.342297, Maltotriose: 40 * 0.504438}
		in.Take = yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 1}
	case "mild": // 1.039 is 9.75 °P, 101.1 g/L; to 1.006 is 85 % apparent: all of the maltotriose
		in.Wort = reference.Times(101.1)
		in.Take = yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 1}
	default:
		return in, fmt.Errorf("%s: unknown wort %q", r.ID, r.Wort)
	}
	return in, nil
}

// Measure is what a row's fermentation gives with the constants k and a lag.
func Measure(k ferment.Kinetics, lagHours float64, r Row) (float64, error) {
	switch r.Quantity {
	case "gravity":
		return ferment.GravitySG(r.ExtractGPerL, r.ExtractGPerL-r.LeftGPerL), nil
	case "activation":
		return k.EaKcal, nil
	case "activity":
		return k.Activity(16) / k.Activity(r.TemperatureC), nil
	case "growth":
		return ferment.GrowthIn(7.892 * r.AlcoholPct), nil
	}
	in, err := input(k, lagHours, r)
	if err != nil {
		return 0, err
	}
	c, err := ferment.Run(in)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", r.ID, err)
	}
	f, ok := quantities[r.Quantity]
	if !ok {
		return 0, fmt.Errorf("%s: unknown quantity %q", r.ID, r.Quantity)
	}
	return f(in, &c), nil
}

var quantities = map[string]func(ferment.Input, *ferment.Course) float64{
	"half-time":            func(_ ferment.Input, c *ferment.Course) float64 { return when(c, c.Attenuated, 0.5) },
	"nine-tenths":          func(_ ferment.Input, c *ferment.Course) float64 { return when(c, c.Attenuated, 0.9) },
	"first-fiftieth":       func(_ ferment.Input, c *ferment.Course) float64 { return when(c, c.Attenuated, 0.02) },
	"shape-tenth":          func(_ ferment.Input, c *ferment.Course) float64 { return shape(c, 0.1) },
	"shape-quarter":        func(_ ferment.Input, c *ferment.Course) float64 { return shape(c, 0.25) },
	"shape-three-quarters": func(_ ferment.Input, c *ferment.Course) float64 { return shape(c, 0.75) },
	"shape-nine-tenths":    func(_ ferment.Input, c *ferment.Course) float64 { return shape(c, 0.9) },
	"finished":             func(_ ferment.Input, c *ferment.Course) float64 { return c.FinishedHours },
	"opens":                func(_ ferment.Input, c *ferment.Course) float64 { return c.Window[0] },
	"done-at-opening":      func(_ ferment.Input, c *ferment.Course) float64 { return at(c, c.Attenuated, c.Window[0]) },
	"done-at-78":           func(_ ferment.Input, c *ferment.Course) float64 { return at(c, c.Attenuated, 78) },
	"adiabatic-rise":       func(_ ferment.Input, c *ferment.Course) float64 { return c.AdiabaticRiseK },
	"greatest-rate": func(_ ferment.Input, c *ferment.Course) float64 {
		greatest := 0.0
		for _, r := range c.CO2RateGPerLH {
			greatest = math.Max(greatest, r)
		}
		return greatest
	},
	"multiplication": func(_ ferment.Input, c *ferment.Course) float64 {
		return c.YeastBillionPerL[len(c.Hours)-1] / c.YeastBillionPerL[0]
	},
	"growth-ends": func(_ ferment.Input, c *ferment.Course) float64 {
		first, last := c.YeastBillionPerL[0], c.YeastBillionPerL[len(c.Hours)-1]
		return when(c, c.YeastBillionPerL, first+0.9*(last-first))
	},
	"logistic-steepness": func(_ ferment.Input, c *ferment.Course) float64 { b, _ := Logistic(c); return b },
	"logistic-midpoint":  func(_ ferment.Input, c *ferment.Course) float64 { _, m := Logistic(c); return m },
	"co2-in-all":         co2InAll,
	"co2-of-honey":       co2OfHoney,
}

// shape is the hours to a share of the fall over the hours to half of it.
func shape(c *ferment.Course, share float64) float64 {
	return when(c, c.Attenuated, share) / when(c, c.Attenuated, 0.5)
}

// co2InAll is the gas of the course scaled to 4 % alcohol by mass from 12 °P:
// OE - RE = 4 (2.0665 - 0.010665 · 12) °P of extract fermented by mass, plus
// what the loss of mass hides; by volume 4 % of 1.01 kg/L is 40.4 g of ethanol.
func co2InAll(_ ferment.Input, c *ferment.Course) float64 {
	last := len(c.Hours) - 1
	const ethanolGPerL = 40.4
	made := c.CO2TotalGPerL[last] / 0.9565 // g of ethanol per litre
	return c.CO2AfterLPerL(0) * ethanolGPerL / made
}

// co2OfHoney is what 1 kg of honey (17.2 % water, 93 % of its solids
// fermentable) adds in 20 L.
func co2OfHoney(in ferment.Input, c *ferment.Course) float64 {
	solids := 1000 * (1 - 0.172) / 20
	in.Additions = []ferment.Addition{{AfterHeight: true, Hours: 12, Fermentable: 0.93,
		Sugars: sugar.Spectrum{Fructose: 0.54 * solids, Glucose: 0.46 * solids}}}
	with, err := ferment.Run(in)
	if err != nil {
		return math.NaN()
	}
	return with.CO2AfterLPerL(0) - c.CO2AfterLPerL(0)
}

// when is the hour at which a rising curve passes a value.
func when(c *ferment.Course, y []float64, value float64) float64 {
	for i := 1; i < len(y); i++ {
		if y[i] >= value {
			return c.Hours[i-1] + (value-y[i-1])/(y[i]-y[i-1])
		}
	}
	return c.Hours[len(y)-1]
}

// at is a curve between its hours.
func at(c *ferment.Course, y []float64, hour float64) float64 {
	i := min(int(hour), len(y)-2)
	return y[i] + (hour-c.Hours[i])*(y[i+1]-y[i])
}

// Logistic fits 1 - 1/(1 + exp(B (t - M))), the share attenuated of the
// four-parameter logistic with its ends held, to the first 192 h of a course
// by least squares (Gauss-Newton with halved steps).
func Logistic(c *ferment.Course) (steepness, midpoint float64) {
	n := min(193, len(c.Hours))
	m := when(c, c.Attenuated, 0.5)
	b := 2 / m
	sum := func(b, m float64) float64 {
		s := 0.0
		for i := range n {
			d := 1/(1+math.Exp(-b*(c.Hours[i]-m))) - c.Attenuated[i]
			s += d * d
		}
		return s
	}
	best := sum(b, m)
	for range 50 {
		var bb, bm, mm, gb, gm float64
		for i := range n {
			t := c.Hours[i] - m
			p := 1 / (1 + math.Exp(-b*t))
			d, jb, jm := p-c.Attenuated[i], p*(1-p)*t, -p*(1-p)*b
			bb, bm, mm = bb+jb*jb, bm+jb*jm, mm+jm*jm
			gb, gm = gb+jb*d, gm+jm*d
		}
		det := bb*mm - bm*bm
		if det == 0 {
			break
		}
		db, dm := -(mm*gb-bm*gm)/det, -(bb*gm-bm*gb)/det
		moved := false
		for step := 1.0; step > 1e-6; step /= 2 {
			if s := sum(b+step*db, m+step*dm); s < best {
				moved = best-s > 1e-14*best
				b, m, best = b+step*db, m+step*dm, s
				break
			}
		}
		if !moved {
			break
		}
	}
	return b, m
}
