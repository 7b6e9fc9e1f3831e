package honey_test

import (
	"fmt"

	"skep/calc/honey"
)

// A refractometer for honey reads 1.4935 at 20 °C.
func Example() {
	moisture, err := honey.MoisturePct(1.4935, 20)
	if err != nil {
		fmt.Println(err)
		return
	}
	_, fermentable, _ := honey.FermentableShare(honey.Blossom)
	solids := honey.SolidsKg(0.5, moisture)
	fmt.Printf("%.1f %% of water; 0.5 kg hold %.2f kg of solids, of which %.2f ferment, in %.2f L\n",
		moisture, solids, solids*fermentable, honey.VolumeL(0.5, moisture, 20))
	// Output:
	// 17.2 % of water; 0.5 kg hold 0.41 kg of solids, of which 0.38 ferment, in 0.35 L
}
