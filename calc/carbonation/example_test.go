package carbonation_test

import (
	"fmt"

	"skep/calc/carbonation"
)

// Bottles primed with table sugar for 2.4 volumes, the beer never above 19 °C
// since it finished.
func Example() {
	b := carbonation.Bottle(carbonation.Package{
		VolumesCO2: 2.4, Primer: carbonation.TableSugar, WarmestSinceC: 19, StoreC: 25, RatedVolumes: 3,
	})
	fmt.Printf("%.1f g/L of sugar; %.1f volumes, %.1f bar at 25 °C\n", b.PrimerGPerL, b.Volumes, b.BarGauge)
	// Output:
	// 5.8 g/L of sugar; 2.4 volumes, 2.3 bar at 25 °C
}
