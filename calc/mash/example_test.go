package mash_test

import (
	"fmt"

	"skep/calc/mash"
)

// One rest of an hour, and the same mash eight degrees hotter.
func Example() {
	in := mash.Input{
		Grain:        []mash.Grain{{MassKg: 4, ExtractPct: 80.5, MoisturePct: 4.5, Enzymes: mash.EnzymesOwn}},
		Rests:        []mash.Rest{{TemperatureC: 64, Minutes: 60}},
		LiquorLPerKg: 3,
	}
	cool, err := mash.Run(in)
	if err != nil {
		fmt.Println(err)
		return
	}
	in.Rests[0].TemperatureC = 72
	hot, err := mash.Run(in)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f kg of extract; limit attenuation higher from the cool mash: %v\n",
		cool.ExtractKg, mash.LimitAttenuationPct(cool.Wort) > mash.LimitAttenuationPct(hot.Wort)+5)
	// Output:
	// 3.1 kg of extract; limit attenuation higher from the cool mash: true
}
