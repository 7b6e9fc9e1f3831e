package units_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/units"
)

// TestKnown: values from the definitions, or printed as named.
func TestKnown(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		what              string
		got, want, within float64
	}{
		{"100 °C in °F (definition)", units.FahrenheitFromCelsius(100), 212, 1e-12},
		{"-40 °C in °F (definition)", units.FahrenheitFromCelsius(-40), -40, 1e-12},
		{"152 °F in °C (mash tables print 66.7)", units.CelsiusFromFahrenheit(152), 66.7, 0.05},
		{"1 K in °F steps", units.FahrenheitStepFromCelsius(1), 1.8, 1e-12},
		{"5 US gal in L", units.LitresFromUSGallons(5), 18.92705892, 1e-12},
		{"US beer barrel in L (trade: 117.35)", units.LitresPerUSBarrel, 117.35, 0.005},
		{"1 lb in g (1959 agreement)", 1000 * units.KilogramsFromPounds(1), 453.59237, 1e-12},
		{"1 oz in g (1959 agreement)", units.GramsFromOunces(1), 28.349523125, 1e-12},
		{"EBC of 10 SRM (definitions, 25 and 12.7 times A430)", units.EBCFromSRM(10), 19.685, 5e-4},
		{"1 bar in psi (tables print 14.504)", units.PSIFromBar(1), 14.504, 5e-4},
		{"1 atm in psi (tables print 14.696)", units.PSIFromKilopascals(units.KilopascalsPerAtm), 14.696, 5e-4},
		{"3 L/kg in qt/lb (tables print 1.44)", units.QuartsPerPoundFromLitresPerKg(3), 1.44, 0.005},
		{"1.048 in points", units.PointsFromSG(1.048), 48, 1e-9},
	} {
		if math.Abs(c.got-c.want) > c.within {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
}

// TestRoundTrips: every pair is an inverse, and both directions rise.
func TestRoundTrips(t *testing.T) {
	t.Parallel()
	pairs := map[string][2]func(float64) float64{
		"°C/°F":       {units.FahrenheitFromCelsius, units.CelsiusFromFahrenheit},
		"K/°F step":   {units.FahrenheitStepFromCelsius, units.CelsiusStepFromFahrenheit},
		"L/gal":       {units.USGallonsFromLitres, units.LitresFromUSGallons},
		"L/kg, qt/lb": {units.QuartsPerPoundFromLitresPerKg, units.LitresPerKgFromQuartsPerPound},
		"kg/lb":       {units.PoundsFromKilograms, units.KilogramsFromPounds},
		"g/oz":        {units.OuncesFromGrams, units.GramsFromOunces},
		"EBC/SRM":     {units.SRMFromEBC, units.EBCFromSRM},
		"kPa/bar":     {units.BarFromKilopascals, units.KilopascalsFromBar},
		"kPa/psi":     {units.PSIFromKilopascals, units.KilopascalsFromPSI},
		"bar/psi":     {units.PSIFromBar, units.BarFromPSI},
	}
	for name, p := range pairs {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			rapid.Check(t, func(t *rapid.T) {
				x := rapid.Float64Range(-1e4, 1e4).Draw(t, "x")
				for i, f := range p {
					back := p[1-i]
					if got := back(f(x)); math.Abs(got-x) > 1e-11*math.Max(1000, math.Abs(x)) {
						t.Fatalf("there and back %v comes out as %v", x, got)
					}
					if !(f(x+1) > f(x)) {
						t.Fatalf("does not rise at %v", x)
					}
				}
			})
		})
	}
}
