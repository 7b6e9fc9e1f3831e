package honey

// AcidMEqPerKg is the total acidity of honey: 8.68 to 59.49, sd 10.33 (White
// 1962, 490 US honeys; the law allows 50 of free acid).
const AcidMEqPerKg = 29.12

// beerBufferMEqLPH is what beer buffers (from memory).
const beerBufferMEqLPH = 15.0

// BeerPHDrop is about how much lower the pH of a beer ends for the acid of so
// much honey: a tenth for 50 g/L. Nothing to warn of.
func BeerPHDrop(gramsPerL float64) float64 {
	return AcidMEqPerKg * gramsPerL / 1000 / beerBufferMEqLPH
}
