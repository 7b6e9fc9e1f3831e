package water

import "fmt"

const (
	// foamShare is the room that the hot break wants above the wort (common
	// practice, no source: a tenth of the vessel).
	foamShare = 0.1
	// HotBreakShare is how much of a vessel the wort may fill before the boil.
	HotBreakShare = 1 - foamShare
	// fermenterFoamShare is the head that a fermentation wants.
	fermenterFoamShare = 0.15 // common practice, no source
	// leastLPerKg is about where a mash can no longer be stirred through or
	// recirculated; the design allows 1.5.
	leastLPerKg = 1.5
)

// notes gathers warnings in the order of the day.
type notes []string

func (n *notes) add(format string, args ...any) { *n = append(*n, fmt.Sprintf(format, args...)) }

// DryError says that there is no wort left at some step of the day.
type DryError struct{ Message string }

func (e *DryError) Error() string { return e.Message }

func dry(format string, args ...any) error { return &DryError{fmt.Sprintf(format, args...)} }

// check warns of what does not fit this vessel, in the order of the day.
func (p *Plan) check(in *Input, n *notes) {
	kit := &in.Kit
	vessel := kit.VesselL
	if p.GrainKg > 0 && p.LiquorLPerKg < leastLPerKg {
		n.add("only %.1f L/kg of liquor is left for the mash, too thick to recirculate: use less grain or raise batch.into_fermenter_l", p.LiquorLPerKg)
	}
	if p.MashLevelL > vessel {
		n.add("the mash takes %.1f L and the vessel holds %.1f: use less grain, lower mash.liquor_l_per_kg, or brew a smaller batch", p.MashLevelL, vessel)
	}
	if p.SpentGrainDryKg < 0 {
		n.add("the grist would give more extract than it weighs dry: lower extract_pct, moisture_pct or kit.mash_efficiency_pct")
	}
	if p.MashLiquor > 0 && p.SettlesC < in.FirstRestC {
		n.add("even boiling strike liquor (%.0f °C) brings the mash only to %.0f °C, not to the first rest of %.0f: raise mash.liquor_l_per_kg, or start at a cooler rest and heat", p.BoilingPointC, p.SettlesC, in.FirstRestC)
	}
	if p.SpentGrainWaterKg < 0 {
		n.add("the grain would give back more water than it took: raise kit.held_by_grain_l_per_kg")
	}
	switch {
	case p.PreBoil > vessel:
		n.add("the wort before the boil is %.1f L and the vessel holds %.1f: boil for less long, lower kit.steam_l_per_h, or brew a smaller batch", p.PreBoil, vessel)
	case p.PreBoil > HotBreakShare*vessel:
		n.add("the wort before the boil is %.1f L in a vessel of %.1f L: little room for the hot break, so stir the foam down and turn the heat back as it rises", p.PreBoil, vessel)
	}
	if cool := p.PreBoilLiquid.VolumeL(); p.SteamL > 0 && p.SteamL > 0.5*cool {
		n.add("the boil takes %.1f of %.1f L and may boil dry: shorten boil.minutes or lower kit.steam_l_per_h", p.SteamL, cool)
	} else if left := min(cool, vessel) - p.SteamL; p.SteamL > 0 && left <= kit.UnderTheBedL {
		n.add("even a full vessel boils down to %.1f L, under the bed and the heater's reach: shorten boil.minutes or lower kit.steam_l_per_h", max(0, left))
	}
	if most := SteamLPerHAt(kit.HeaterW, p.BoilingPointC); kit.HeaterW > 0 && p.SteamL > 0 && kit.SteamLPerH > most {
		n.add("a heater of %.0f W can boil away %.1f L/h at most, not %.1f: lower kit.steam_l_per_h to what was measured", kit.HeaterW, most, kit.SteamLPerH)
	}
	if soak := HopSoakL(in.HopsG); soak > kit.LeftWithBreakL {
		n.add("the hops alone keep about %.1f L of wort, more than kit.left_with_break_l: counted so; press them gently or use less", soak)
	}
	if limit := (1 - fermenterFoamShare) * kit.FermenterL; kit.FermenterL > 0 && p.FermenterL > limit {
		n.add("%.1f L in a fermenter of %.1f L leaves little room for foam when the honey goes in: use a larger fermenter, a blow-off tube, or %.1f L at most", p.FermenterL, kit.FermenterL, limit)
	}
}

// SteamLPerHAt is the most that a heater can boil away, litres of cool water
// an hour, with no other loss: its power over the latent heat.
func SteamLPerHAt(heaterW, boilingC float64) float64 {
	return heaterW * 3.6 / LatentHeatKJPerKg(boilingC) / coolWaterKgPerL()
}
