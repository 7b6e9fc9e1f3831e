// Package mixture is the proposal of an importance sampler: a mixture of
// components, each by its mean and precision, with the prior's own tenth in it.
// Standard normal scores come in, places and the log density that they were drawn
// with go out; and weighted draws become draws of equal weight. It knows nothing of beer, readings or what is sampled for.
package mixture

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Component is one part of a proposal, over the free inputs: independent in
// the directions of the columns of basis (orthonormal), Student's t with four
// degrees of freedom where the readings tell something, normal where they
// don't. The heavy tails are there because the likelihood of a gravity has
// them too.
type Component struct {
	share float64 // of the draws
	mean  []float64
	basis []float64 // n rows of n; nil: the inputs themselves
	per   []float64 // 1 over the scale
	heavy []bool
	log   float64 // of the density at the mean
}

const (
	heavyFrom   = 1.5 // times the prior's precision: from there a direction is heavy
	widen       = 1.1
	widenPrior  = 1.02
	priorShare  = 0.1 // of the draws are the prior's own, whatever the readings say
	leastShare  = 0.25
	heavyFactor = 0.375 // density of t with 4 degrees at 0: 3/8
)

// priorComponent draws as if nothing had been read.
func priorComponent(n int, share float64) Component {
	c := Component{share: share, mean: make([]float64, n), per: make([]float64, n), heavy: make([]bool, n)}
	for i := range c.per {
		c.per[i] = 1
	}
	return c
}

// Around is a component by its mean and its precision (or covariance).
func Around(mean []float64, matrix *mat.SymDense, isCovariance bool) (Component, bool) {
	n := len(mean)
	c := Component{share: 1, mean: mean, per: make([]float64, n), heavy: make([]bool, n)}
	var e mat.EigenSym
	if !e.Factorize(matrix, true) {
		return c, false
	}
	values := e.Values(nil)
	var vectors mat.Dense
	e.VectorsTo(&vectors)
	c.basis = vectors.RawMatrix().Data
	for i, v := range values {
		if isCovariance {
			v = 1 / max(v, 1e-9)
		}
		if !(v > 0) {
			return c, false
		}
		c.heavy[i] = v >= heavyFrom
		c.per[i] = math.Sqrt(v) / widenPrior
		if c.heavy[i] {
			c.per[i] = math.Sqrt(v) / widen
			c.log += math.Log(heavyFactor * math.Sqrt(2*math.Pi))
		}
		c.log += math.Log(c.per[i])
	}
	return c, true
}

// Draw turns standard normal scores into a place. The scores are turned into
// the basis and back, so that what the readings leave alone keeps the draws of
// the prior, and a difference from it is no noise.
func (c *Component) Draw(u, into []float64) {
	n := len(c.mean)
	copy(into, c.mean)
	var room [mostInputs]float64
	v := c.along(u, room[:n])
	for j := range v {
		if c.heavy[j] {
			v[j] = heavyQuantile(v[j])
		}
		v[j] /= c.per[j]
	}
	for i := range n {
		if c.basis == nil {
			into[i] += v[i]
			continue
		}
		for j, b := range c.basis[i*n : (i+1)*n] {
			into[i] += b * v[j]
		}
	}
}

// along is a vector in the directions of the basis.
func (c *Component) along(x, into []float64) []float64 {
	n := len(c.mean)
	if c.basis == nil {
		copy(into, x)
		return into
	}
	for i, xi := range x[:n] {
		for j, b := range c.basis[i*n : (i+1)*n] {
			into[j] += b * xi
		}
	}
	return into
}

// logDensity of a place, up to the constant that all components share.
func (c *Component) logDensity(x []float64) float64 {
	n := len(c.mean)
	var off, room [mostInputs]float64
	for i, m := range c.mean {
		off[i] = x[i] - m
	}
	squares, heavy := 0.0, 1.0
	for j, v := range c.along(off[:n], room[:n]) {
		v *= c.per[j]
		if c.heavy[j] {
			heavy *= 1 + v*v/4
		} else {
			squares += v * v
		}
	}
	return c.log - squares/2 - 2.5*math.Log(heavy)
}

// heavyQuantile is the quantile of Student's t with four degrees of freedom at
// the place of a standard normal score: exact (W. T. Shaw 2006, from memory;
// tested against gonum).
func heavyQuantile(z float64) float64 {
	if z == 0 {
		return 0
	}
	p := distuv.UnitNormal.CDF(-math.Abs(z)) // the small tail, where no digits are lost
	root := 2 * math.Sqrt(p*(1-p))
	t := 2 * math.Sqrt(max(0, math.Cos(math.Acos(min(root, 1))/3)/root-1))
	return math.Copysign(t, z)
}

// Proposal is a mixture of components whose shares sum to 1.
type Proposal []Component

// mostInputs is how many inputs a component can be over.
const mostInputs = 32

// MostParts is how many a proposal can have.
const MostParts = 18

// Densities are the logarithms of those of a proposal's parts at a place, each up
// to the constant that all share.
type Densities [MostParts]float64

// LogDensities fills in those of the parts from one of them on.
func (p Proposal) LogDensities(x []float64, from int, into *Densities) {
	for k := from; k < len(p); k++ {
		into[k] = p[k].logDensity(x)
	}
}

// Mixed is the logarithm of the mixture's density, by those of its parts.
func (p Proposal) Mixed(of *Densities) float64 {
	most := math.Inf(-1)
	for k := range p {
		most = max(most, of[k])
	}
	s := 0.0
	for k := range p {
		s += p[k].share * math.Exp(of[k]-most)
	}
	return most + math.Log(s)
}

// Mix shares the draws out: to the prior its tenth, to each of the others by
// its weight, a little at least. Without any, of n inputs, it is the prior.
func Mix(n int, parts []Component, weights []float64) Proposal {
	if len(parts) == 0 {
		return Proposal{priorComponent(n, 1)}
	}
	total := 0.0
	for i := range weights {
		weights[i] = max(weights[i], leastShare)
		total += weights[i]
	}
	p := Proposal{priorComponent(n, priorShare)}
	for i := range parts {
		parts[i].share = (1 - priorShare) * weights[i] / total
		p = append(p, parts[i])
	}
	return p
}

// And is the mixture of p and of q, which has a share of the draws in all.
func (p Proposal) And(q Proposal, share float64) Proposal {
	merged := make(Proposal, 0, len(p)+len(q))
	for _, c := range p {
		c.share *= 1 - share
		merged = append(merged, c)
	}
	for _, c := range q {
		c.share *= share
		merged = append(merged, c)
	}
	return merged
}

// From component the i-th of n draws is from: each has its share of every
// stretch of the sequence, so that all see a low-discrepancy sample.
func (p Proposal) From(i int) int {
	const golden = 0.6180339887498949
	_, u := math.Modf(0.5 + golden*float64(i))
	for k := range p {
		if u -= p[k].share; u < 0 {
			return k
		}
	}
	return len(p) - 1
}
