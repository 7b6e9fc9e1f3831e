package water_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"skep/calc/water"
)

// TestWater: rows of IAPWS-IF97 (python3-iapws 1.5.3).
func TestWater(t *testing.T) {
	t.Parallel()
	near(t, "cp at 60 °C", water.HeatKJPerKgK(60), 4.1828, 1e-9)
	near(t, "latent heat at 100 °C", water.LatentHeatKJPerKg(100), 2256.47, 1e-9)
	near(t, "held below", water.HeatKJPerKgK(0), 4.1954, 1e-9)
	near(t, "held above", water.HeatKJPerKgK(120), 4.2166, 1e-9)
	near(t, "not a number", water.HeatKJPerKgK(math.NaN()), 4.1954, 1e-9)
	for _, r := range [][2]float64{{10, 1.2282}, {60, 19.9458}, {100, 101.418}} {
		near(t, "vapour pressure", water.VapourPressureKPa(r[0]), r[1], 2e-4*r[1])
	}
	for _, r := range [][2]float64{{0, 99.97}, {1000, 96.65}, {2000, 93.32}} {
		near(t, "boiling point", water.BoilingPointC(r[0]), r[1], 0.02)
	}
	// The two equations of the saturation line are inverse to each other.
	for h := -400.0; h <= 5000; h += 200 {
		near(t, "vapour pressure at the boil", water.VapourPressureKPa(water.BoilingPointC(h)), water.AirPressureKPa(h), 1e-4)
	}
}

// TestStrike: the maltster's book's example (its slaking of 2.3 °C counted):
// malt of 2 % at 27 °C, 2.68 hL a 100 kg at 69 °C.
func TestStrike(t *testing.T) {
	t.Parallel()
	s := water.Strike{GrainKg: 100, LiquorL: 268, GrainTemperatureC: 27, VesselC: math.NaN(), MaltMoisturePct: 2}
	mash, err := s.MashC(69)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mash", mash, 65.96, 0.05)
	near(t, "malt of 2 %", water.MaltHeat(2), 0.39, 1e-9)
	near(t, "malt of 7 %", water.MaltHeat(7), 0.415, 1e-9)
	near(t, "slaking of 3 %, 3.5 °F", water.SlakingC(3), 3.5/1.8, 0.05)
	near(t, "slaking is held", water.SlakingC(20), 1.0, 1e-9)
	if _, err := (water.Strike{GrainKg: 1, TargetC: 66}).TemperatureC(); err == nil {
		t.Error("no liquor is not refused")
	}
	if _, err := (water.Strike{GrainKg: 1}).MashC(70); err == nil {
		t.Error("no liquor is not refused by MashC")
	}
}

// TestStrikeBalance: heat given is heat taken, with a cold vessel, a hot one
// and one at the mash's temperature.
func TestStrikeBalance(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := water.Strike{
			GrainKg: rapid.Float64Range(0, 20).Draw(t, "grain"), LiquorL: rapid.Float64Range(5, 100).Draw(t, "liquor"),
			GrainTemperatureC: rapid.Float64Range(-10, 40).Draw(t, "grain °C"), TargetC: rapid.Float64Range(40, 78).Draw(t, "target"),
			VesselHeatKJPerK: rapid.Float64Range(0, 40).Draw(t, "vessel"), VesselC: rapid.Float64Range(0, 90).Draw(t, "vessel °C"),
			MaltMoisturePct: math.NaN(),
		}
		c, err := s.TemperatureC()
		if err != nil {
			t.Fatal(err)
		}
		gives := s.LiquorL * 0.9982030730984213 * water.HeatKJPerKgK((c+s.TargetC)/2) * (c - s.TargetC)
		takes := s.GrainKg*0.40*4.1868*(s.TargetC-s.GrainTemperatureC) + s.VesselHeatKJPerK*(s.TargetC-s.VesselC)
		if math.Abs(gives-takes) > 1e-3*(1+math.Abs(takes)) {
			t.Fatalf("gives %v kJ, takes %v", gives, takes)
		}
		back, err := s.MashC(c)
		if err != nil || math.Abs(back-s.TargetC) > 0.01 {
			t.Fatalf("mash would be %v, not %v (%v)", back, s.TargetC, err)
		}
		// A vessel heated with the liquor only helps.
		hot := s
		hot.VesselC = math.NaN()
		warm, _ := hot.TemperatureC()
		hot.VesselHeatKJPerK = 0
		bare, _ := hot.TemperatureC()
		if s.TargetC > s.GrainTemperatureC && warm > bare+1e-9 {
			t.Fatalf("with the hot vessel %v, without %v", warm, bare)
		}
	})
}

// TestStrikeOfBrew: 2.7 kg of malt of 4.5 % at 18 °C into 9.3 L in a vessel of
// 4 kJ/K, by hand: the malt takes 2.7*0.4025*4.187*48.5 = 220.7 kJ and gives
// 2.7*1.45*(2.68*0.9982*4.186 + 0.4025*4.187) = 50.4 by slaking, so
// 66.5 + 170.3/(9.283*4.188 + 4). Slaking makes 1.2 °C of it.
func TestStrikeOfBrew(t *testing.T) {
	t.Parallel()
	near(t, "strike", water.For(gateField()).StrikeTemperatureC, 66.5+170.3/42.88, 0.02)
	in := gateField()
	in.Grist = water.Grist{}
	near(t, "no grain", water.For(in).StrikeTemperatureC, 66.5, 1e-9)
	in.Kit.UnderTheBedL = 0
	near(t, "no grain and no liquor", water.For(in).StrikeTemperatureC, 0, 0)
}

func TestHeatingMinutes(t *testing.T) {
	t.Parallel()
	// Heat balance, computed: 20 kg of liquor, 5 kg of grain, 66 to 76 °C, 2 kW.
	near(t, "step", water.HeatingMinutes(20/0.9982, 5, 0, 66, 76, 2000), 7.67, 0.05)
	// By IAPWS-IF97 c is 4.1888 kJ/(kg K) at 71 °C; grain 0.40 of 4.1868.
	near(t, "step, closely", water.HeatingMinutes(20/0.9982031, 5, 0, 66, 76, 2000), (20*4.1888+5*0.40*4.1868)*10/2/60, 0.002)
	near(t, "and the vessel", water.HeatingMinutes(20, 5, 4, 66, 76, 2000)-water.HeatingMinutes(20, 5, 0, 66, 76, 2000), 4*10.0/2/60, 1e-9)
	near(t, "no heater", water.HeatingMinutes(20, 5, 0, 66, 76, 0), 0, 0)
	near(t, "cooler", water.HeatingMinutes(20, 5, 0, 76, 66, 2000), 0, 0)
}

// TestMashOfOneTemperature: where all is as cold, nothing is exchanged.
func TestMashOfOneTemperature(t *testing.T) {
	t.Parallel()
	for _, c := range []float64{-5, 2, 20, 66} {
		s := water.Strike{GrainKg: 3, LiquorL: 9, GrainTemperatureC: c, VesselHeatKJPerK: 4, VesselC: c, MaltMoisturePct: math.NaN()}
		mash, err := s.MashC(c)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mash", mash, c, 1e-6)
	}
}

// TestSteam: a kilowatt boils away 3600/2256.47 kg of water an hour at 100 °C
// (latent heat: IAPWS-IF97), 0.9982 kg to the litre.
func TestSteam(t *testing.T) {
	t.Parallel()
	near(t, "steam", water.SteamLPerHAt(1000, 100), 3600/2256.47/0.9982031, 1e-4)
}
