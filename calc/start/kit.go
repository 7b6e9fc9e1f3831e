package start

import (
	"math"

	"skep/calc/design"
)

// UsualKit is a kettle of some litres of which nothing else is known: what the
// design file's own default kit of 30 L has, by volume where it goes with the
// volume (boil-off and break with it, the metal's heat with its surface). A water
// test replaces these guesses (common practice, no source).
func UsualKit(vesselL float64) design.Kit {
	k := design.New().Kit
	by := vesselL / k.VesselL
	tenth := func(v float64) float64 { return math.Round(v*10) / 10 }
	k.VesselL = vesselL
	k.VesselHeatKJPerK = tenth(k.VesselHeatKJPerK * math.Pow(by, 2.0/3))
	// So that it heats and boils as the default one does, in steps that are sold.
	k.HeaterW = math.Max(math.Round(k.HeaterW*by/100)*100, 1000)
	k.UnderTheBedL = tenth(k.UnderTheBedL * math.Pow(by, 2.0/3))
	k.SteamLPerH = tenth(k.SteamLPerH * by)
	k.LeftWithBreakL = tenth(k.LeftWithBreakL * by)
	k.FermenterL = math.Max(math.Round(k.FermenterL*by), 1)
	lim, _ := design.KeyOf("kit.fermenter_l")
	k.FermenterL = min(k.FermenterL, lim.Max)
	if heater, _ := design.KeyOf("kit.heater_w"); k.HeaterW > heater.Max {
		k.HeaterW = heater.Max
	}
	if steam, _ := design.KeyOf("kit.steam_l_per_h"); k.SteamLPerH > steam.Max {
		k.SteamLPerH = steam.Max
	}
	return k
}

// First values of the questions, each sensible by itself.
const (
	FirstStrengthPct = 5.0
	firstHoneyGPerL  = 30.0 // at hand, about a seventh of the extract at 5 % (ours)
)

// FirstHoneyKg is how much honey a person has who has not said, in jars of 50 g.
func FirstHoneyKg(litres float64) float64 {
	return math.Max(math.Round(firstHoneyGPerL*litres/50), 1) * 50 / 1000
}
