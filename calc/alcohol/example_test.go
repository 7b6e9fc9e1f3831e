package alcohol_test

import (
	"fmt"

	"skep/calc/alcohol"
)

// What two gravities say of a beer.
func Example() {
	beer := alcohol.Strength(1.048, 1.010)
	fmt.Printf("%.1f %% by volume, real extract %.1f °P\n", beer.StrengthPct, beer.RealExtractPlato)
	// Output:
	// 5.0 % by volume, real extract 4.3 °P
}
