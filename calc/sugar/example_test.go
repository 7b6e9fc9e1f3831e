package sugar_test

import (
	"fmt"

	"skep/calc/sugar"
)

// Two worts together, and what share of the whole is sugar.
func Example() {
	malt := sugar.Spectrum{Glucose: 0.08, Maltose: 0.44, Maltotriose: 0.13, Dextrin: 0.25, Other: 0.10}.Times(3)
	honey := sugar.Spectrum{Glucose: 0.39, Fructose: 0.47, Maltose: 0.09, Dextrin: 0.05}.Times(0.5)
	both := malt.Plus(honey)
	fmt.Printf("%.2f kg, %.0f %% of it sugar\n", both.Total(), 100*both.Sugars()/both.Total())
	// Output:
	// 3.50 kg, 69 % of it sugar
}
