package carbonation

import (
	"fmt"
	"math"

	"skep/calc/density"
	"skep/calc/design"
)

// realShare is the real extract that goes with a fall of apparent extract at
// a given original extract (RE = 0.1808 OE + 0.8192 AE).
const realShare = 0.8192

// ExtractBetween is the real extract that ferments while the gravity falls from
// one SG to another, g/L; 0 where it does not fall. A gravity point is about
// 2.1 g/L, half a volume.
func ExtractBetween(nowSG, finalSG float64) float64 {
	drop := realShare * (density.PlatoFromSG(nowSG) - density.PlatoFromSG(finalSG))
	beerKgPerL := finalSG * density.WaterAt20KgM3 / 1000
	return math.Max(0, drop) / 100 * beerKgPerL * 1000
}

// noticeable is a difference of carbonation worth a word, volumes.
const noticeable = 0.2

// Primer is what a design's package asks for, g of primer a litre: from the CO2
// kept at the warmest since the end of fermentation to volumes_co2. A keg, or
// no primer, takes none.
func Primer(p design.Package) (gPerL float64, warnings []string) {
	kept := ResidualVolumes(p.WarmestSinceC)
	switch {
	case p.Vessel == "keg":
	case p.Primer == None && p.VolumesCO2 > kept+noticeable:
		warnings = append(warnings, fmt.Sprintf("without a primer the beer stays at the %.1f volumes of CO2 it kept, below package.volumes_co2 = %.1f: choose a primer or lower it", kept, p.VolumesCO2))
	case p.Primer != None && p.VolumesCO2 < kept:
		warnings = append(warnings, fmt.Sprintf("the beer already holds %.1f volumes of CO2, more than package.volumes_co2 = %.1f: no primer is needed", kept, p.VolumesCO2))
	}
	if p.Vessel == "keg" {
		return 0, warnings
	}
	return PrimerGPerL(p.Primer, p.PrimerMoisturePct, kept, p.VolumesCO2), warnings
}

// Bottled is beer in a closed bottle, when all that can ferment has.
type Bottled struct {
	ResidualVolumes float64 // kept from fermentation
	PrimerGPerL     float64
	Volumes         float64 // kept and primer
	WorstVolumes    float64 // and all extract that could still ferment
	BarGauge        float64 // at store_c
	WorstBarGauge   float64
	RatedVolumes    float64
	Warnings        []string
}

// unknownRating is taken for a bottle of which nothing is known, volumes.
const unknownRating = 3.0

// Bottle works out a design's bottle. leftGPerL is the real extract that could
// still ferment, malt's and honey's, at the drier end of the band
// ([ExtractBetween] of the gravity now and the lowest it may reach). A keg has
// a relief valve and is judged by its own rating: it gets no warning here.
func Bottle(p design.Package, leftGPerL float64) Bottled {
	b := Bottled{ResidualVolumes: ResidualVolumes(p.WarmestSinceC), RatedVolumes: p.RatedVolumes}
	if !(b.RatedVolumes > 0) {
		b.RatedVolumes = unknownRating
	}
	b.PrimerGPerL, b.Warnings = Primer(p)
	per, _ := CO2PerGram(p.Primer, p.PrimerMoisturePct)
	b.Volumes = b.ResidualVolumes + b.PrimerGPerL*per/GramsPerVolume
	if p.Vessel == "keg" {
		b.Volumes = math.Max(b.ResidualVolumes, p.VolumesCO2)
	}
	b.WorstVolumes = b.Volumes + VolumesFromExtract(leftGPerL)
	b.BarGauge = BottleBarGauge(p.StoreC, b.Volumes)
	b.WorstBarGauge = BottleBarGauge(p.StoreC, b.WorstVolumes)
	if p.Vessel != "keg" {
		b.judge(p)
	}
	return b
}

func (b *Bottled) judge(p design.Package) {
	switch {
	case b.Volumes > b.RatedVolumes:
		b.Warnings = append(b.Warnings, fmt.Sprintf(
			"%.1f volumes of CO2 (%.1f bar at %.0f °C) are more than the bottle is made for (%.1f volumes) and may burst it: lower package.volumes_co2, or use stronger bottles and set package.rated_volumes to their maker's figure",
			b.Volumes, b.BarGauge, p.StoreC, b.RatedVolumes))
	case b.WorstVolumes > b.RatedVolumes:
		b.Warnings = append(b.Warnings, fmt.Sprintf(
			"if fermentation was not over the bottle would reach %.1f volumes of CO2 (%.1f bar at %.0f °C), more than the %.1f it is made for, and may burst: wait for the same gravity on two readings days apart",
			b.WorstVolumes, b.WorstBarGauge, p.StoreC, b.RatedVolumes))
	}
}
