package density_test

import (
	"fmt"

	"skep/calc/density"
)

// A hydrometer made for 20 °C stands in wort of 28 °C.
func Example() {
	sg, err := density.HydrometerSG(1.046, 28, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	plato := density.PlatoFromSG(sg)
	fmt.Printf("gravity %.4f, %.1f °P, %.0f g/L of extract\n", sg, plato, density.GramsPerLitre(plato))
	// Output:
	// gravity 1.0482, 12.0 °P, 125 g/L of extract
}
