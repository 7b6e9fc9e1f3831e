package boil_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/boil"
)

// TestCool: measured kettles (J.-P. Hosom, article 16), 15 min, room 13 °C.
// The last is covered by three quarters and was not fitted (all: testdata/boil).
func TestCool(t *testing.T) {
	t.Parallel()
	for _, r := range []struct{ l, cm2, opening, c float64 }{
		{3.9, 1083.80, 100, 61.7}, {15.6, 710.33, 100, 86.8}, {31.2, 1083.80, 25, 92.4},
	} {
		k := boil.Kettle{VolumeL: r.l, SurfaceCM2: r.cm2, OpeningPct: r.opening, RoomC: 13}
		near(t, "after 15 min", k.Cool(100, 15), r.c, 1.5)
	}
}

func TestCoolProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		k := boil.Kettle{
			VolumeL:    rapid.Float64Range(0.2, 200).Draw(t, "volume"),
			SurfaceCM2: rapid.Float64Range(100, 4000).Draw(t, "surface"),
			OpeningPct: rapid.Float64Range(0, 100).Draw(t, "opening"),
			RoomC:      rapid.Float64Range(0, 35).Draw(t, "room"),
		}
		m := rapid.Float64Range(0, 720).Draw(t, "minutes")
		c := k.Cool(100, m)
		if math.IsNaN(c) || c > 100 || c < k.RoomC-8 { // a wet surface may cool below dry air
			t.Fatalf("%v °C after %v min", c, m)
		}
		// In two steps it comes to the same.
		if two := k.Cool(k.Cool(100, m/2), m/2); math.Abs(two-c) > 0.02 {
			t.Fatalf("%v in one go, %v in two", c, two)
		}
		more, warmer, covered := k, k, k
		more.VolumeL *= 1.5
		warmer.RoomC += 10
		covered.OpeningPct *= 0.8
		const slack = 1e-6
		if warmer.Cool(100, m) < c-slack || covered.Cool(100, m) < c-slack || more.Cool(100, m) < c-slack {
			t.Fatalf("%v; larger %v, warmer %v, covered %v", c, more.Cool(100, m), warmer.Cool(100, m), covered.Cool(100, m))
		}
	})
	near(t, "no time", boil.Kettle{VolumeL: 10, SurfaceCM2: 700, OpeningPct: 100}.Cool(96, 0), 96, 0)
	near(t, "no wort", boil.Kettle{}.Cool(96, 10), 96, 0)
	near(t, "no surface", boil.Kettle{VolumeL: 10}.Cool(96, 10), 96, 1e-9)
}

// TestVesselSurface: a cylinder of 31.8 L is 30 cm wide and 45 high.
func TestVesselSurface(t *testing.T) {
	t.Parallel()
	near(t, "surface", boil.VesselSurfaceCM2(31.81), math.Pi/4*900, 1)
	near(t, "no vessel", boil.VesselSurfaceCM2(-1), 0, 0)
}
