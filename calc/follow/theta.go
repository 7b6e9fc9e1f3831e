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

// wortInputs is how many of package doubt's inputs stand first in a theta, in its
// order; the palate behind them is nothing that readings tell of.
const wortInputs = int(doubt.PalateDryness)

// The others.
const (
	iRate          = wortInputs + iota // as doubt.Rate
	iLag                               // as doubt.Lag
	iTemperature                       // as doubt.BeerTemperature
	iSpindle                           // zero of the hydrometer, shared by its readings: spindleSD
	iRefractometer                     // correlation of the refractometer, shared by its readings: half of its sd
	iShape                             // as doubt.Shape
	iHeight                            // as doubt.Height; only foam tells of it
	iTail                              // as doubt.Tail, from doubt.Asked
	iAir                               // as doubt.Air, likewise
	dims
)

// planned is the middle of every input as a plan has it.
var planned = theta{iTail: -doubt.Asked, iAir: -doubt.Asked}

// spindleSD is the zero error of a brewing hydrometer, SG: half a mark
// (common practice, no source).
const spindleSD = 0.0005

// theta is one draw of all uncertain inputs as standard normal scores.
type theta [dims]float64

// stretch lengthens the tails of a normal score: nothing up to the 10th and 90th
// percentile, so that bands stay as they are, a cubic more up to two and a half
// sd, straight on from there. At three sd that is two thirds more, at four twice as
// much. Ours: it lets a measurement five sd off the plan be believed.
func stretch(z float64) float64 {
	const knee, bend = 2.5, 0.5
	size := math.Abs(z)
	over := min(max(size-doubt.Z90, 0), knee-doubt.Z90)
	more := bend*over*over*over + 3*bend*over*over*max(size-knee, 0)
	return z + math.Copysign(more, z)
}

// row is the draw as the engine takes it, with a palate in the middle: tails
// stretched, those of lag and temperature cut off where nothing is known.
func (t *theta) row() (z [doubt.Inputs]float64) {
	copy(z[:], t[:wortInputs])
	z[doubt.Rate], z[doubt.Lag], z[doubt.BeerTemperature], z[doubt.Shape], z[doubt.Height] = t[iRate], t[iLag], t[iTemperature], t[iShape], t[iHeight]
	z[doubt.Tail], z[doubt.Air] = t[iTail]+doubt.Asked, t[iAir]+doubt.Asked
	for _, k := range [...]doubt.Input{doubt.Strain, doubt.Efficiency, doubt.Rate} {
		z[k] = stretch(z[k])
	}
	for _, k := range [...]doubt.Input{doubt.Lag, doubt.BeerTemperature} {
		z[k] = min(max(z[k], -4), 4)
	}
	return z
}

// drawCount is how many draws an update of one mode weighs, usually.
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
var scores = sync.OnceValue(func() []theta { return scoresOf(seed) })

func scoresOf(seed uint64) []theta {
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
	for from := 0; from < n; from += drawCount / 2 {
		whiten(out[from : from+drawCount/2])
	}
	return out
}

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
