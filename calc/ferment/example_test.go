package ferment_test

import (
	"fmt"

	"skep/calc/ferment"
	"skep/calc/mash"
	"skep/calc/yeast"
)

// A wort of 12 °P or so with one strain at two temperatures.
func Example() {
	in := ferment.Input{
		Wort: mash.Reference().Times(125), Take: yeast.FromAttenuation(76, mash.Reference()),
		TemperatureC: 18, PitchBillionPerL: 9,
	}
	cool, err := ferment.Run(in)
	if err != nil {
		fmt.Println(err)
		return
	}
	in.TemperatureC = 22
	warm, err := ferment.Run(in)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("at its height sooner when warm: %v\n", warm.HeightHours < cool.HeightHours)
	// Output:
	// at its height sooner when warm: true
}
