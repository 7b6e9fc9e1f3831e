package coldside

// Air at 20 °C: 20.95 % oxygen by volume, 31.998 g/mol in 24.055 L.
const oxygenMgPerMLOfAir = 0.2095 * 31.998 / 24.055

// FreshOxygenMgPerL is the oxygen of a good bright beer in its package, mg/L
// (trade, read).
const FreshOxygenMgPerL = 0.02

// HeadspaceOxygenMgPerL is the oxygen of air left over beer in a bottle, mg per
// litre of that beer. Yeast with primer takes it up in hours; capping on foam
// drives it out.
func HeadspaceOxygenMgPerL(airML, beerML float64) float64 {
	if !(airML > 0 && beerML > 0) {
		return 0
	}
	return airML * oxygenMgPerMLOfAir / beerML * 1000
}
