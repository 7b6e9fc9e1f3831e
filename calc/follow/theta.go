package follow

import (
	"math"
	"math/rand/v2"
	"sync"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/stat/samplemv"

	"skep/calc/doubt"
)

// The uncertain inputs after those of package doubt.
const (
	iRate          = int(doubt.Inputs) + iota // of all uptake: a factor of 1.5 as 10 to 90
	iLag                                      // 3 to 15 h about 8 as 10 to 90
	iTemperature                              // of the beer over the days
	iSpindle                                  // zero of the hydrometer, shared by its readings: spindleSD
	iRefractometer                            // correlation of the refractometer, shared by its readings: half of its sd
	dims
)

// spindleSD is the zero error of a brewing hydrometer, SG: half a mark
// (common practice, no source).
const spindleSD = 0.0005

// theta is one draw of all uncertain inputs as standard normal scores.
type theta [dims]float64

// stretch lengthens the tails of a normal score: z + z⁵/100 to two and a half
// sd, straight on from there. At the 90th percentile that is 3 % more, at three
// sd 65 %, at four twice as much. Ours: it leaves the bands as they are, and
// lets a measurement five sd off the plan be believed.
func stretch(z float64) float64 {
	const knee = 2.5
	inner := min(max(z, -knee), knee)
	fourth := inner * inner * inner * inner
	return inner + 0.01*fourth*inner + (1+0.05*fourth)*(z-inner)
}

// engine is the draw as the engine takes it: tails stretched.
func (t *theta) engine() (z [doubt.Inputs]float64) {
	copy(z[:], t[:doubt.Inputs])
	z[doubt.Strain] = stretch(z[doubt.Strain])
	z[doubt.Efficiency] = stretch(z[doubt.Efficiency])
	return z
}

// drawCount is how many draws an update weighs.
const drawCount = 512

// seed fixes the scrambling; any value would do.
const seed = 20260621

// scores are the quasi-random standard normal draws, the same for every update.
var scores = sync.OnceValue(func() []theta {
	batch := mat.NewDense(drawCount, dims, nil)
	samplemv.Halton{Kind: samplemv.Owen, Q: distmv.NewUnitUniform(dims, nil), Src: rand.NewPCG(seed, drawCount)}.Sample(batch)
	out := make([]theta, drawCount)
	for i := range out {
		for j := range dims {
			u := min(max(batch.At(i, j), 0.5/drawCount), 1-0.5/drawCount)
			out[i][j] = distuv.UnitNormal.Quantile(u)
		}
	}
	return out
})

func half(x *theta) float64 {
	s := 0.0
	for _, v := range x {
		s += v * v
	}
	return s / 2
}

// normalCDF is Φ.
func normalCDF(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
