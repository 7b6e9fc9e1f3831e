package crush_test

import (
	"fmt"

	"skep/calc/crush"
)

// What stays on the sieves, and what by eye is nearly the same.
func Example() {
	sieved := crush.Crush{OnSievePct: []float64{53, 14, 16, 6, 3, 8}}
	seen := crush.Look{Kernels: crush.KernelsFew}
	fmt.Printf("%s by the sieves, %s by eye; it costs %.1f points of yield\n", sieved.Word(), seen.Word(), sieved.EfficiencyPoints())
	// Output:
	// coarse by the sieves, coarse by eye; it costs 2.5 points of yield
}
