package carbonation

import (
	"math"

	"skep/calc/alcohol"
	"skep/calc/density"
	"skep/calc/message"
	"skep/calc/quantity"
)

// UsualWortPlato stands for the original extract where nobody knows it. A wort
// of 20 °P makes 1 % more of a gravity point than this.
const UsualWortPlato = 12.0

// ExtractBetween is the extract that ferments while the gravity of beer falls
// from one SG to another, g per litre of that beer; 0 where it does not fall. By
// Balling, exactly: what ferments also leaves the mass and the volume. Of 100 g
// of wort A' = (OE - RE)/(2.0665 - 0.010665 RE) g are alcohol by then, and
// 100 - 1.0665 A' g of beer are left. A gravity point is 2.14 to 2.17 g/L,
// 0.50 to 0.51 volumes.
func ExtractBetween(originalPlato, nowSG, finalSG float64) float64 {
	alcoholG := func(sg float64) float64 {
		re := alcohol.RealExtract(originalPlato, density.PlatoFromSG(sg))
		return (originalPlato - re) / (alcohol.ExtractPerEthanol - gasPerEthanol/100*re)
	}
	made := alcoholG(finalSG) - alcoholG(nowSG)
	litres := (100 - gasPerEthanol*alcoholG(finalSG)) / density.KgM3FromSG(finalSG)
	return math.Max(0, alcohol.ExtractPerEthanol*made/litres)
}

// gasPerEthanol is what leaves the beer or settles for each g of ethanol.
const gasPerEthanol = alcohol.CO2PerEthanol + alcohol.YeastPerEthanol

// noticeable is a difference of carbonation worth a word, volumes.
const noticeable = 0.2

// Package is how beer is put up and kept.
type Package struct {
	Keg               bool    // with a regulator and a relief valve; otherwise a closed bottle
	VolumesCO2        float64 // wanted
	Primer            string  // one of the primers
	PrimerMoisturePct float64 // of honey as primer
	WarmestSinceC     float64 // warmest the beer has been since it finished
	StoreC            float64 // warmest it will be kept at
	RatedVolumes      float64 // what the bottle is made for; 0: not known
	AirKPa            float64 // of the air where it is put up; 0: 1 atm
}

// KeptVolumes is the CO2 that the beer kept from fermentation.
func (p Package) KeptVolumes() float64 { return ResidualVolumesAt(p.WarmestSinceC, p.AirKPa) }

// Primer is what a package asks for, g of primer a litre: from the CO2
// kept at the warmest since the end of fermentation to volumes_co2. A keg, or
// no primer, takes none.
func Primer(p Package) (gPerL float64, warnings []message.Message) {
	kept := p.KeptVolumes()
	volumes := func(v float64) quantity.Quantity { return quantity.Of(quantity.CO2Volumes, v) }
	switch {
	case p.Keg:
	case p.Primer == None && p.VolumesCO2 > kept+noticeable:
		warnings = append(warnings, message.New("without a primer the beer stays at the {kept} of CO2 it kept, below package.volumes_co2 = {wanted}: choose a primer or lower it", volumes(kept), volumes(p.VolumesCO2).Unitless()))
	case p.Primer != None && p.VolumesCO2 < kept:
		warnings = append(warnings, message.New("the beer already holds {kept} of CO2, more than package.volumes_co2 = {wanted}: no primer is needed", volumes(kept), volumes(p.VolumesCO2).Unitless()))
	}
	if p.Keg {
		return 0, warnings
	}
	return PrimerGPerL(p.Primer, p.PrimerMoisturePct, kept, p.VolumesCO2), warnings
}

// Bottled is beer in a closed bottle, when all that can ferment has.
type Bottled struct {
	ResidualVolumes float64 // kept from fermentation
	PrimerGPerL     float64
	Volumes         float64 // kept and primer
	BarGauge        float64 // at store_c; of a keg what to set on its regulator
	RatedVolumes    float64
	Warnings        []message.Message
}

// unknownRating is taken for a bottle of which nothing is known, volumes.
const unknownRating = 3.0

// Bottle works out what a package comes to. Whether a bottle stands it, and what
// may still ferment in it, is package packaging's.
func Bottle(p Package) Bottled {
	b := Bottled{ResidualVolumes: p.KeptVolumes(), RatedVolumes: p.RatedVolumes}
	if !(b.RatedVolumes > 0) {
		b.RatedVolumes = unknownRating
	}
	b.PrimerGPerL, b.Warnings = Primer(p)
	per, _ := CO2PerGram(p.Primer, p.PrimerMoisturePct)
	b.Volumes = b.ResidualVolumes + b.PrimerGPerL*per/GramsPerVolume
	if p.Keg {
		b.Volumes = math.Max(b.ResidualVolumes, p.VolumesCO2)
	}
	b.BarGauge = BottleBarGauge(p.StoreC, b.Volumes)
	if p.Keg {
		b.BarGauge = KegBarGauge(p.StoreC, b.Volumes, p.AirKPa)
	}
	return b
}
