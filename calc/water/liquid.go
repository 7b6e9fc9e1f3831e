package water

import "skep/calc/density"

// Liquid is water with extract dissolved in it.
type Liquid struct {
	WaterKg   float64
	ExtractKg float64
}

// Honey is honey of a moisture as what it brings: water, and the rest extract.
func Honey(massKg, moisturePct float64) Liquid {
	water := massKg * moisturePct / 100
	return Liquid{water, massKg - water}
}

// Wort is a volume at 20 °C of a gravity as what is in it.
func Wort(volumeL, gravitySG float64) Liquid {
	mass := volumeL * density.KgM3FromSG(gravitySG) / litresPerM3
	extract := mass * max(density.PlatoFromSG(gravitySG), 0) / 100
	return Liquid{mass - extract, extract}
}

// CoolL is how much of a hot volume is left of it at 20 °C, by the boiling point.
func CoolL(hotL, boilingC float64) float64 { return hotL / hotPerCool(boilingC) }

// HotL is the volume that so much at 20 °C has at the boiling point.
func HotL(coolL, boilingC float64) float64 { return coolL * hotPerCool(boilingC) }

// MassKg is water and extract together.
func (l Liquid) MassKg() float64 { return l.WaterKg + l.ExtractKg }

// MassFraction is extract in the whole, 0 to 1.
func (l Liquid) MassFraction() float64 {
	if l.MassKg() <= 0 {
		return 0
	}
	return l.ExtractKg / l.MassKg()
}

// VolumeL is the volume at 20 °C, litres.
func (l Liquid) VolumeL() float64 {
	if l.MassKg() <= 0 {
		return 0
	}
	return l.MassKg() * litresPerM3 / density.SucroseDensityKgM3(l.MassFraction(), coolC)
}

// GravitySG is the apparent specific gravity 20/20.
func (l Liquid) GravitySG() float64 { return density.SGFromPlato(100 * l.MassFraction()) }

// Plus is both together.
func (l Liquid) Plus(o Liquid) Liquid {
	return Liquid{l.WaterKg + o.WaterKg, l.ExtractKg + o.ExtractKg}
}

// Minus is l with o taken out.
func (l Liquid) Minus(o Liquid) Liquid {
	return Liquid{l.WaterKg - o.WaterKg, l.ExtractKg - o.ExtractKg}
}

// Share is a part of l of the same strength.
func (l Liquid) Share(part float64) Liquid {
	return Liquid{l.WaterKg * part, l.ExtractKg * part}
}

// strongest is the largest mass fraction of extract that a vessel may hold
// here: about where a sucrose solution is saturated at room temperature.
const strongest = 0.66

// fill finds how much water brings extract to a volume at 20 °C. Where the
// extract alone is too much, the answer is as strong as may be and ok is false.
func fill(volumeL, extractKg float64) (l Liquid, ok bool) {
	if extractKg <= 0 {
		return Liquid{WaterKg: volumeL * density.WaterDensityKgM3(coolC) / litresPerM3}, true
	}
	if full := (Liquid{extractKg * (1/strongest - 1), extractKg}); full.VolumeL() > volumeL {
		return full, false
	}
	mass := volumeL
	for range 60 { // contracts by a factor of 0.4 or less each time
		next := volumeL * density.SucroseDensityKgM3(extractKg/max(mass, extractKg/strongest), coolC) / litresPerM3
		if next == mass {
			break
		}
		mass = next
	}
	return Liquid{mass - extractKg, extractKg}, true
}

// coolWaterKgPerL is the density of water at 20 °C, kg/L.
func coolWaterKgPerL() float64 { return density.WaterDensityKgM3(coolC) / litresPerM3 }

// hotPerCool is how much larger wort is at the boiling point than at 20 °C:
// as water is, 1.0416 at the sea (4 % contraction on cooling).
func hotPerCool(boilingC float64) float64 {
	return density.WaterDensityKgM3(coolC) / density.WaterDensityKgM3(boilingC)
}
