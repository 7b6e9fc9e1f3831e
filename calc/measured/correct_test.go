package measured

import (
	"math"
	"testing"

	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/design"
)

// Hydrometer temperature: design notes, checks 1e (calculated there from
// published densities of sucrose solutions and the OIML glass constant).
func TestHydrometerTemperature(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ sg, temperatureC, add float64 }{
		{1.0000, 10, -0.00125}, {1.0000, 30, 0.00231}, {1.0196, 15, -0.00089}, {1.0400, 25, 0.00125},
		{1.0483, 40, 0.00637}, {1.0611, 30, 0.00292}, {1.0829, 10, -0.00231}, {1.0400, 50, 0.01040},
	} {
		r := reading(OriginalGravity, 0, c.sg-c.add)
		r.TemperatureC = c.temperatureC
		tl := NewTimeline([]design.Reading{r}, at(0), Instruments{})
		p := tl.Points[0]
		near(t, "corrected", p.Value, c.sg, 3e-5)
		if hot := p.Has(HotSample); hot != (c.temperatureC > 40) || p.SD < 0.0005 || hot != (p.SD > 0.0015) {
			t.Errorf("at %.0f °C: hot %v, sd %.5f", c.temperatureC, hot, p.SD)
		}
	}
}

// Refractometer temperature: OIV compendium, Table I (design notes, checks 1e),
// 10 to 20 % sucrose; the sample here without a wort factor.
func TestRefractometerTemperature(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ brix, temperatureC, add float64 }{
		{10, 10, -0.59}, {15, 10, -0.62}, {20, 10, -0.65}, {10, 15, -0.32}, {15, 15, -0.33}, {20, 15, -0.34}, {10, 17, -0.20},
	} {
		r := design.Reading{What: OriginalGravity, At: at(0), Value: c.brix - c.add, TemperatureC: c.temperatureC, Instrument: "refractometer"}
		tl := NewTimeline([]design.Reading{r}, at(0), Instruments{WortFactor: 1})
		near(t, "°Bx at 20 °C", density.PlatoFromSG(tl.Points[0].Value), c.brix, 0.03)
	}
}

// A refractometer in beer: wort unfermented reads as it is, and a finished beer
// as Balling and the refraction of its alcohol have it, which the published
// cubic must agree with to its own 0.002 SG. From ASBC ranges of ordinary beer.
func TestRefractometerInBeer(t *testing.T) {
	t.Parallel()
	for _, oe := range []float64{9, 11, 12, 14, 16} {
		sg, _ := RefractometerSG(oe, oe, false)
		near(t, "wort", sg, density.SGFromPlato(oe), 2e-4)
		for _, attenuation := range []float64{68, 75, 82} {
			ae := oe * (1 - attenuation/100)
			re := alcohol.RealExtract(oe, ae)
			brix := re + brixPerABW*alcohol.ABW(oe, re)
			sg, sd := RefractometerSG(oe, brix, false)
			near(t, "beer", sg, density.SGFromPlato(ae), 0.0025)
			if _, honey := RefractometerSG(oe, brix, true); !(honey > sd) {
				t.Errorf("honey makes the doubt %.4f, without it %.4f", honey, sd)
			}
		}
		// Falling readings are falling gravities all the way, and no jump.
		last := 2.0
		for b := oe; b > oe*0.4; b -= 0.05 {
			sg, sd := RefractometerSG(oe, b, false)
			if sg > last || last < 2 && last-sg > 0.0012 || !(sd > 0 && sd < 0.006) {
				t.Fatalf("%.1f °P at %.2f °Bx: SG %.4f after %.4f, sd %.4f", oe, b, sg, last, sd)
			}
			last = sg
		}
	}
}

func TestReadingsInOtherUnits(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		r    design.Reading
		want float64
		flag FlagCode
		used bool
	}{
		{reading(Gravity, 50, 1046), 1.046, OtherUnit, true},
		{reading(Gravity, 50, 12.4), density.SGFromPlato(12.4), OtherUnit, true},
		{reading(Gravity, 50, 1.5), 0, Absurd, false},
		{reading(Gravity, 50, 1.046), 1.046, "", true},
		{reading(Gravity, 50, 0), 0, Absurd, false},
		{reading(Gravity, 50, -3), 0, Absurd, false},
		{reading(Gravity, 50, math.NaN()), 0, Absurd, false},
		{reading(Gravity, 50, math.Inf(1)), 0, Absurd, false},
		{reading(BeerTemperature, 50, 66.2), 19, OtherUnit, true},
		{reading(BeerTemperature, 50, 19), 19, "", true},
		{reading(BeerTemperature, 50, 500), 0, Absurd, false},
		{reading(Foam, 50, 2.5), 0, Absurd, false},
		{reading(HoneyAdded, 50, -1), 0, Absurd, false},
		{reading(HoneyAdded, 50, 550), 0, Absurd, false},
	} {
		tl := NewTimeline([]design.Reading{reading(Pitched, 0, 1), c.r}, at(100), Instruments{})
		p := tl.Points[len(tl.Points)-1]
		if p.Used != c.used || c.flag != "" && !p.Has(c.flag) || c.flag == "" && len(p.Flags) > 0 {
			t.Errorf("%s %g: used %v, flags %+v", c.r.What, c.r.Value, p.Used, p.Flags)
		}
		if c.used {
			near(t, c.r.What, p.Value, c.want, 1e-4)
		}
	}
}
