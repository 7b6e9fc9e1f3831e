package calc_test

import (
	"fmt"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
)

// BenchmarkGrowthStrains is the outcomes of so many strains on one wort, honey
// moving: cost should grow with their number, no faster.
func BenchmarkGrowthStrains(b *testing.B) {
	for _, n := range []int{1, 3, 10, 30} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			d, e := demotest.Design(b, "middle"), calc.NewEngine()
			strain := d.Yeast[0]
			d.Yeast = d.Yeast[:0]
			for i := range n {
				y := strain
				y.Name = fmt.Sprint("strain ", i)
				y.AttenuationLowPct, y.AttenuationHighPct = 65+float64(i)/10, 72+float64(i)/10
				d.Yeast = append(d.Yeast, y)
			}
			if _, err := e.Strains(d); err != nil { // appetites are found once
				b.Fatal(err)
			}
			for i := 0; b.Loop(); i++ {
				moved(b, &d, "honey.0.mass_kg", 0.3, 0.9, i)
				if _, err := e.Strains(d); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkGrowthDraws is one whole prediction with so many draws.
func BenchmarkGrowthDraws(b *testing.B) {
	for _, n := range []int{64, 256, 1024, 4096, 16384, 65536} {
		b.Run(fmt.Sprintf("n=%d", n), func(b *testing.B) {
			d, e := demotest.Design(b, "middle"), calc.NewEngineDraws(n)
			for i := 0; b.Loop(); i++ {
				moved(b, &d, "honey.0.mass_kg", 0.3, 0.9, i)
				if _, err := e.Predict(d); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
