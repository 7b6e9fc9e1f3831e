package water

// Mash is a mash in its vessel, as what it takes to warm it.
type Mash struct {
	GrainKg          float64
	LiquorL          float64 // at 20 °C
	VesselHeatKJPerK float64
}

// heatKJPerK is what a degree costs, at a temperature.
func (m Mash) heatKJPerK(atC float64) float64 {
	return m.LiquorL*coolWaterKgPerL()*HeatKJPerKgK(atC) +
		m.GrainKg*MaltHeat(usualMoisturePct)*waterHeatUnitKJ + m.VesselHeatKJPerK
}

// MixL is how much water of one temperature brings a mash from one to another,
// litres at 20 °C, by heat balance:
//
//	C (T - T0) = m c (Tw - T)
//
// ok is false where such water does not: it lies on the wrong side.
func (m Mash) MixL(fromC, toC, waterC float64) (litres float64, ok bool) {
	perL := coolWaterKgPerL() * HeatKJPerKgK((waterC+toC)/2) * (waterC - toC)
	needs := m.heatKJPerK((fromC+toC)/2) * (toC - fromC)
	if perL == 0 || needs/perL < 0 {
		return 0, needs == 0
	}
	return needs / perL, true
}

// ExchangeL is how much of so much hot liquor is to be ladled out and replaced by
// cold, litres, for a lower temperature of the whole:
//
//	V (T0 - T) = x (T0 - Tc)
//
// ok is false where the cold is not cold enough.
func ExchangeL(volumeL, fromC, toC, coldC float64) (litres float64, ok bool) {
	if !(fromC >= toC) || !(toC > coldC) {
		return 0, false
	}
	return volumeL * (fromC - toC) / (fromC - coldC), true
}
