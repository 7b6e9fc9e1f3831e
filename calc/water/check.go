package water

import (
	"strings"

	"skep/calc/message"
	"skep/calc/quantity"
)

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

// Stage is the step of the day at which something does not fit.
type Stage uint8

// The stages.
const (
	AtMash Stage = iota
	AtSparge
	AtBoil
	AtFerment
)

// Warning is what does not fit this vessel, and what to change.
type Warning struct {
	message.Message
	At   Stage
	Keys []string // of the design, where to change it
}

// WithKeys is the sentence with its keys.
func (w Warning) WithKeys() message.Message {
	return message.New("{warning} ({keys})", w.Message, strings.Join(w.Keys, ", "))
}

// String is the sentence in English and metric units, with its keys.
func (w Warning) String() string { return w.WithKeys().String() }

// warnings are gathered in the order of the day.
type warnings []Warning

func (w *warnings) add(at Stage, text message.Message, keys ...string) {
	*w = append(*w, Warning{text, at, keys})
}

func litres(v float64) quantity.Quantity { return quantity.Of(quantity.Volume, v) }

// DryError says that there is no wort left at some step of the day.
type DryError struct{ message.Message }

func (e *DryError) Error() string { return e.String() }

// AsMessage is for a person's language and units.
func (e *DryError) AsMessage() message.Message { return e.Message }

func dry(text string, with ...any) error { return &DryError{message.New(text, with...)} }

// check warns of what does not fit this vessel, in the order of the day.
func (p *Plan) check(in *Input, w *warnings) {
	kit := &in.Kit
	vessel := kit.VesselL
	celsius := func(v float64) quantity.Quantity { return quantity.Of(quantity.Temperature, v) }
	if p.GrainKg > 0 && p.LiquorLPerKg < leastLPerKg {
		w.add(AtMash, message.New("Only {litresPerKg} of liquor is left for the mash, too thick to stir or recirculate: less grain, or a larger batch", quantity.Of(quantity.LitresPerKg, p.LiquorLPerKg)), "grain", "batch.into_fermenter_l")
	}
	if p.MashLevelL > vessel {
		w.add(AtMash, message.New("The mash takes {volume} and the vessel holds {vessel}: less grain, less liquor a kilogram, or a smaller batch", litres(p.MashLevelL), litres(vessel)), "grain", "mash.liquor_l_per_kg", "kit.vessel_l")
	}
	if p.SpentGrainDryKg < 0 {
		w.add(AtMash, message.New("The grain would give more extract than it weighs dry: lower its extract or the efficiency"), "grain", "kit.mash_efficiency_pct")
	}
	if p.MashLiquor > 0 && p.SettlesC < in.FirstRestC {
		w.add(AtMash, message.New("Even boiling liquor, {temperature}, brings this mash only to {reached}, not to {wanted}: more liquor a kilogram, or a cooler first rest and then heat", celsius(p.BoilingPointC), celsius(p.SettlesC), celsius(in.FirstRestC)), "mash.liquor_l_per_kg", "mash.rest.0.temperature_c")
	}
	if p.SpentGrainWaterKg < 0 {
		w.add(AtSparge, message.New("The grain would give back more water than it took: raise what it holds"), "kit.held_by_grain_l_per_kg")
	}
	switch {
	case p.PreBoil > vessel:
		w.add(AtBoil, message.New("The wort before the boil is {volume} and the vessel holds {vessel}: a smaller batch, or a shorter boil", litres(p.PreBoil), litres(vessel)), "batch.into_fermenter_l", "boil.minutes", "kit.vessel_l")
	case p.PreBoil > (1-foamShare)*vessel:
		w.add(AtBoil, message.New("{volume} in a vessel of {vessel} leaves little room for foam: heat back as it rises, stir it down", litres(p.PreBoil), litres(vessel)), "batch.into_fermenter_l", "kit.vessel_l")
	}
	if cool := p.PreBoilLiquid.VolumeL(); p.SteamL > 0 && p.SteamL > 0.5*cool {
		w.add(AtBoil, message.New("The boil takes {steam} of {wort} and may boil dry on the heater: a shorter boil, or the steam as measured", litres(p.SteamL), litres(cool)), "boil.minutes", "kit.steam_l_per_h")
	} else if left := min(cool, vessel) - p.SteamL; p.SteamL > 0 && left <= kit.UnderTheBedL {
		w.add(AtBoil, message.New("Even a full vessel boils down to {volume}, under the bed and the heater's reach: a shorter boil, or the steam as measured", litres(max(0, left))), "boil.minutes", "kit.steam_l_per_h")
	}
	if most := SteamLPerHAt(kit.HeaterW, p.BoilingPointC); kit.HeaterW > 0 && p.SteamL > 0 && kit.SteamLPerH > most {
		w.add(AtBoil, message.New("A heater of {power} can boil away {most} at most, not {planned}: set the steam to what was measured", quantity.Of(quantity.Power, kit.HeaterW), quantity.Of(quantity.LitresPerHour, most), quantity.Of(quantity.LitresPerHour, kit.SteamLPerH)), "kit.steam_l_per_h", "kit.heater_w")
	}
	if soak := hopSoakL(in.HopsG); soak > kit.LeftWithBreakL {
		w.add(AtBoil, message.New("The hops alone keep about {volume}, more than the kit leaves with the break: counted so; press them gently or use less", litres(soak)), "kit.left_with_break_l")
	}
	if limit := (1 - fermenterFoamShare) * kit.FermenterL; kit.FermenterL > 0 && p.FermenterL > limit {
		w.add(AtFerment, message.New("Only {volume} of room in a fermenter of {fermenter}: it will foam over; a larger one, a blow-off hose, or {most} at most", litres(max(0, kit.FermenterL-p.FermenterL)), litres(kit.FermenterL), litres(limit)), "kit.fermenter_l", "batch.into_fermenter_l")
	}
}
