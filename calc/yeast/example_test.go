package yeast_test

import (
	"fmt"

	"skep/calc/mash"
	"skep/calc/yeast"
)

// A strain said to attenuate 73 to 78 %, in a wort mashed hot.
func Example() {
	strain := yeast.FromAttenuation(75.5, mash.Reference())
	hot, err := mash.Run(mash.Input{
		Grain:        []mash.Grain{{MassKg: 4, ExtractPct: 80.5, MoisturePct: 4.5}},
		Rests:        []mash.Rest{{TemperatureC: 70, Minutes: 60}},
		LiquorLPerKg: 3,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("it takes %.0f %% of the reference wort, less of a hot one: %v\n",
		strain.ApparentAttenuationPct(mash.Reference()), strain.ApparentAttenuationPct(hot.Wort) < 75)
	// Output:
	// it takes 76 % of the reference wort, less of a hot one: true
}
