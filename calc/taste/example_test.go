package taste_test

import (
	"fmt"

	"skep/calc/sugar"
	"skep/calc/taste"
)

// What is left in a beer, g/L, and how sweet it tastes, as g/L of sucrose.
func Example() {
	left := sugar.Spectrum{Maltose: 2, Maltotriose: 5, Dextrin: 22, Other: 9}
	sweet := taste.SweetnessGL(left, taste.Mid())
	dryness := taste.Dryness(68, sweet)
	fmt.Printf("as sweet as %.1f g/L of sucrose: %s\n", sweet, taste.DrynessWord(dryness))
	// Output:
	// as sweet as 4.2 g/L of sucrose: balanced
}
