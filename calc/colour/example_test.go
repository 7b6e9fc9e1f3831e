package colour_test

import (
	"fmt"

	"skep/calc/colour"
)

// Four kilograms of pale malt and a little crystal in 20 L.
func Example() {
	mcu := colour.MCU(4, colour.LovibondFromEBC(5), 20) + colour.MCU(0.2, colour.LovibondFromEBC(120), 20)
	low, mid, high := colour.Beer(mcu)
	fmt.Printf("%.0f EBC (%.0f to %.0f)\n", mid, low, high)
	// Output:
	// 12 EBC (9 to 15)
}
