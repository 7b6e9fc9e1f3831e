package water

// boilOffL is what boils away, litres of cool water: the kit's own rate, L/h, over
// the minutes of the boil.
func boilOffL(steamLPerH, boilMinutes float64) float64 { return steamLPerH * boilMinutes / 60 }

// SteamLPerHAt is the most that a heater can boil away, litres of cool water
// an hour, with no other loss: its power over the latent heat.
func SteamLPerHAt(heaterW, boilingC float64) float64 {
	return heaterW * 3.6 / LatentHeatKJPerKg(boilingC) / coolWaterKgPerL()
}
