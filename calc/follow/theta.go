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

// wortInputs is how many of package doubt's inputs are drawn: the palate behind
// them is put in where bands are made.
const wortInputs = int(doubt.PalateDryness)

// The uncertain inputs after those of package doubt.
const (
	iRate          = wortInputs + iota // of all uptake: a factor of 1.5 as 10 to 90
	iLag                               // a factor of ferment.LagSpread as 10 to 90
	iTemperature                       // of the beer over the days
	iSpindle                           // zero of the hydrometer, shared by its readings: spindleSD
	iRefractometer                     // correlation of the refractometer, shared by its readings: half of its sd
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
	copy(z[:], t[:wortInputs])
	z[doubt.Strain] = stretch(z[doubt.Strain])
	z[doubt.Efficiency] = stretch(z[doubt.Efficiency])
	return z
}

// drawCount is how many draws an update weighs; twice as many where there are
// several modes.
const drawCount = 512

// seed fixes the scrambling; any value would do.
const seed = 20260621

// columns puts the inputs that readings tell most of first: the first columns of
// a Halton sequence are the most even, alone and in pairs.
var columns = [...]int{
	int(doubt.Strain), iRate, int(doubt.Efficiency), iLag, int(doubt.Malt), iTemperature, iSpindle,
	int(doubt.Rest), int(doubt.Response), int(doubt.Diastase),
}

// columnOf is the column of each input: as above, the others behind.
func columnOf() [dims]int {
	var of [dims]int
	for i := range of {
		of[i] = -1
	}
	for c, k := range columns {
		of[k] = c
	}
	next := len(columns)
	for i := range of {
		if of[i] < 0 {
			of[i] = next
			next++
		}
	}
	return of
}

// scores are the quasi-random standard normal draws, the same for every
// update. Their first half is a low-discrepancy sample as well.
var scores = sync.OnceValue(func() []theta {
	const n = 2 * drawCount
	batch := mat.NewDense(n, dims, nil)
	samplemv.Halton{Kind: samplemv.Owen, Q: distmv.NewUnitUniform(dims, nil), Src: rand.NewPCG(seed, n)}.Sample(batch)
	column := columnOf()
	out := make([]theta, n)
	for i := range out {
		for j := range dims {
			u := min(max(batch.At(i, column[j]), 0.5/n), 1-0.5/n)
			out[i][j] = distuv.UnitNormal.Quantile(u)
		}
	}
	whiten(out[:drawCount])
	whiten(out[drawCount:])
	return out
})

// whiten makes mean, spread and correlation of draws exactly those of
// independent standard normals (second-order exact sampling): what is nearly
// linear in the inputs then has its mean and sd without any noise.
func whiten(draws []theta) {
	n := float64(len(draws))
	var mean theta
	for i := range draws {
		for j := range mean {
			mean[j] += draws[i][j] / n
		}
	}
	cov := mat.NewSymDense(dims, nil)
	for i := range draws {
		for a := range dims {
			draws[i][a] -= mean[a]
		}
		for a := range dims {
			for b := a; b < dims; b++ {
				cov.SetSym(a, b, cov.At(a, b)+draws[i][a]*draws[i][b]/n)
			}
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(cov) {
		return // not for this many draws
	}
	var lower mat.TriDense
	chol.LTo(&lower)
	for i := range draws {
		for a := range dims { // z' = L⁻¹ z, forwards
			v := draws[i][a]
			for b := range a {
				v -= lower.At(a, b) * draws[i][b]
			}
			draws[i][a] = v / lower.At(a, a)
		}
	}
}

func half(x *theta) float64 {
	s := 0.0
	for _, v := range x {
		s += v * v
	}
	return s / 2
}

// normalCDF is Φ.
func normalCDF(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
