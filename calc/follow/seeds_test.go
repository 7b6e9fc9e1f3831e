package follow_test

import (
	"flag"
	"math"
	"testing"

	"skep/calc"
	"skep/calc/follow"
	"skep/calc/measured"
)

var seeds = flag.Int("seeds", 4, "seeds of the sampler whose bands are compared")

// TestBandsDoNotHangOnTheSeed: what a band's ends move by with another seed of the
// sampler, root mean square over looks, in marks of the hydrometer and hours.
func TestBandsDoNotHangOnTheSeed(t *testing.T) {
	t.Parallel()
	all := measuredBatches(t)
	names := []string{"gravity a day ahead", "final gravity", "height", "opens", "closes"}
	var square, width [5]float64
	var n, ess, least float64
	least = math.Inf(1)
	ends := make([][5][]float64, 2*len(all))
	for seed := range *seeds {
		f := follow.Seeded(uint64(1000 + seed))
		for i, b := range all {
			x, err := f.Follow(b.design, after(b.hours), measured.Instruments{}, calc.Doubts{})
			if err != nil {
				t.Fatal(err)
			}
			ess += x.ESS
			n++
			least = min(least, x.ESS)
			for k, band := range []calc.Band{x.After.GravitySG[int(b.hours)+24], x.After.FinalGravitySG, x.After.HeightHours, x.After.WindowHours[0], x.After.WindowHours[1]} {
				ends[2*i][k] = append(ends[2*i][k], band.Low)
				ends[2*i+1][k] = append(ends[2*i+1][k], band.High)
				width[k] += (band.High - band.Low)
			}
		}
	}
	for _, e := range ends {
		for k := range e {
			mean, s := 0.0, 0.0
			for _, v := range e[k] {
				mean += v / float64(len(e[k]))
			}
			for _, v := range e[k] {
				s += (v - mean) * (v - mean) / float64(len(e[k])-1)
			}
			square[k] += s / float64(len(ends))
		}
	}
	t.Logf("effective draws: mean %.0f, least %.0f", ess/n, least)
	for k, name := range names {
		rms, w := math.Sqrt(square[k]), width[k]/n
		unit := 1.0
		if k < 2 {
			unit = 1000
		}
		t.Logf("%-20s ends move by %.3f (1 sd), width %.3f: %.3f of it", name, unit*rms, unit*w, rms/w)
	}
}
