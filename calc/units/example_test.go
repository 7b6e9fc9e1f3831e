package units_test

import (
	"fmt"

	"skep/calc/units"
)

func Example() {
	fmt.Printf("152 °F are %.1f °C\n", units.CelsiusFromFahrenheit(152))
	fmt.Printf("12 psi are %.2f bar\n", units.BarFromPSI(12))
	fmt.Printf("1.25 qt/lb are %.2f L/kg\n", units.LitresPerKgFromQuartsPerPound(1.25))
	// Output:
	// 152 °F are 66.7 °C
	// 12 psi are 0.83 bar
	// 1.25 qt/lb are 2.61 L/kg
}
