package ferment

import (
	"math"
	"testing"

	"skep/calc/sugar"
	"skep/calc/yeast"
)

// wort12 is a 12 °P all-malt wort, 1 h at 66 °C (design notes, section 2).
var wort12 = sugar.Spectrum{
	Fructose: 0.015, Glucose: 0.08, Sucrose: 0.04, Maltose: 0.43, Maltotriose: 0.13, Dextrin: 0.22, Other: 0.085,
}.Times(125.6)

var neutralAle = yeast.Take{Simple: 1, Maltose: 1, Maltotriose: 0.5}

// honeyGPerL is 37 g/L of honey solids (550 g of honey in 12 L).
var honeyGPerL = sugar.Spectrum{Fructose: 17.1, Glucose: 14, Sucrose: 0.6, Maltose: 3.3, Other: 2}

func ale() Input {
	return Input{Wort: wort12, Take: neutralAle, TemperatureC: 20}
}

func honeyAle() Input {
	in := ale()
	in.Additions = []Addition{{AfterHeight: true, Hours: 12, Sugars: honeyGPerL, Fermentable: 0.93, VolumeShare: 0.03}}
	return in
}

func mustRun(t *testing.T, in Input) Course {
	t.Helper()
	c, err := Run(in)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.9g, expected %.9g within %.2g", what, got, want, within)
	}
}

func finite(v ...float64) bool {
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

// sound reports what is wrong with a course, whatever it was made of.
func sound(c *Course) string {
	n := len(c.Hours)
	for _, s := range [][]float64{c.GravitySG, c.CO2RateGPerLH, c.CO2TotalGPerL, c.Attenuated, c.YeastBillionPerL, c.FermentableGPerL} {
		if len(s) != n {
			return "the slices differ in length"
		}
		if !finite(s...) {
			return "a value is not finite"
		}
	}
	if n < 2 || !finite(c.HeightHours, c.Window[0], c.Window[1], c.FinishedHours, c.FinalSG, c.EffectiveOriginal, c.AdiabaticRiseK, c.CO2AfterLPerL(0)) {
		return "a figure is not finite, or there is no course"
	}
	if !(0 < c.HeightHours && c.HeightHours <= c.Window[0] && c.Window[0] <= c.Window[1]) {
		return "height and window are out of order"
	}
	for i := range n {
		switch {
		case c.Hours[i] != float64(i):
			return "an hour is missing"
		case c.CO2RateGPerLH[i] < 0:
			return "carbon dioxide is taken in"
		case i > 0 && c.CO2TotalGPerL[i] < c.CO2TotalGPerL[i-1]-1e-5:
			return "made carbon dioxide falls"
		case c.Attenuated[i] < 0 || c.Attenuated[i] > 1:
			return "the share attenuated is outside 0 to 1"
		case c.FermentableGPerL[i] < 0:
			return "less than nothing is left"
		}
	}
	return ""
}
