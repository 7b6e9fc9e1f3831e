package boil_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/boil"
)

// TestChillerFormulas: rows worked out from a heat-exchanger maker's page.
func TestChillerFormulas(t *testing.T) {
	t.Parallel()
	near(t, "wort 95 to 20, water 15 to 60", boil.LMTD(35, 5), 15.417, 0.001)
	near(t, "equal ends", boil.LMTD(10, 10), 10, 0)
	near(t, "crossed", boil.LMTD(10, -1), 0, 0)
	for _, r := range [][3]float64{{1, 1, .5}, {2, 1, .6667}, {3, 1, .75}, {2, .5, .7746}, {3, .5, .8744}, {5, .5, .9572}, {3, .75, .8171}} {
		near(t, "effectiveness", boil.Effectiveness(r[0], r[1]), r[2], 1e-4)
	}
	near(t, "no surface", boil.Effectiveness(0, 0.5), 0, 0)
	// 20 L from 95 to 20 °C in 20 min is 5.0 kW.
	c := boil.Chiller{UAKWPerK: 5.0 / 15.417, WortLPerMin: 1, WaterLPerMin: 5.0 / 45 * 60 / 4.18, TapC: 15}
	out, waterOut, kw := c.RunOff(95)
	near(t, "wort", out, 20, 0.05)
	near(t, "water", waterOut, 60, 0.05)
	near(t, "heat", kw, 5, 0.01)
	near(t, "minutes", c.RunOffMinutes(20), 20, 1e-9)
	near(t, "minutes at 2 L/min", boil.Chiller{WortLPerMin: 2}.RunOffMinutes(20), 10, 1e-9)
	near(t, "no flow, no time", boil.Chiller{}.RunOffMinutes(20), 0, 0)
}

// TestChillerBalance: heat lost is heat gained, and no temperature crosses.
func TestChillerBalance(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		c := boil.Chiller{
			UAKWPerK: rapid.Float64Range(0, 5).Draw(t, "UA"), WortLPerMin: rapid.Float64Range(0, 10).Draw(t, "wort"),
			WaterLPerMin: rapid.Float64Range(0, 20).Draw(t, "water"), TapC: rapid.Float64Range(0, 40).Draw(t, "tap"),
		}
		wort := rapid.Float64Range(41, 100).Draw(t, "wort °C")
		out, waterOut, kw := c.RunOff(wort)
		const slack = 1e-9
		if !(out >= c.TapC-slack && out <= wort+slack && waterOut >= c.TapC-slack && waterOut <= wort+slack && kw >= 0) {
			t.Fatalf("%v and %v °C, %v kW", out, waterOut, kw)
		}
		lost, gained := c.WortLPerMin*4.0*(wort-out)/60, c.WaterLPerMin*4.18*(waterOut-c.TapC)/60
		if math.Abs(lost-gained) > 1e-9*(1+lost) || math.Abs(lost-kw) > 1e-9*(1+lost) {
			t.Fatalf("lost %v, gained %v, %v kW", lost, gained, kw)
		}
	})
	usual := boil.UsualChiller(14)
	if out, _, _ := usual.RunOff(92); out < 18 || out > 30 {
		t.Errorf("an ordinary chiller lets wort out at %v °C", out)
	}
	hot := boil.UsualChiller(35)
	if out, _, _ := hot.RunOff(92); out < 35 {
		t.Errorf("water of 35 °C cools wort to %v", out)
	}
}
