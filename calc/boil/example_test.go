package boil_test

import (
	"fmt"

	"skep/calc/boil"
)

// One charge boiled an hour, one in the whirlpool.
func Example() {
	brew := boil.Brew{
		Hops: []boil.Charge{
			{AlphaPct: 5.2, MassG: 14, Minutes: 60},
			{AlphaPct: 5.2, MassG: 20, Whirlpool: true},
		},
		WortSG: 1.044, VolumeL: 16.4, VesselL: 30, BeerShare: 1,
		BoilMinutes: 60, WhirlpoolMinutes: 5, StandMinutes: 10, WhirlpoolStartC: 96,
	}
	for _, b := range brew.ByCharge() {
		fmt.Printf("%.0f IBU (%.0f to %.0f)\n", b.Mid, b.Low, b.High)
	}
	// Output:
	// 11 IBU (8 to 14)
	// 6 IBU (4 to 8)
}
