// Package yeast turns a strain's attenuation range into what it takes of each sugar.
//
// A range of attenuation in % comes in, shares taken of each sugar go out. It must not
// know a design, nor how fast they are taken.
//
// A strain's apparent attenuation is given on the reference wort (one hour at
// 66 °C, all malt: package mash). There it inverts to shares taken: first the
// simple sugars, then maltose, then maltotriose, then, for strains that
// hydrolyse it, dextrin. On any other wort the same shares give another
// attenuation. What is fermented and what a hydrometer then shows are joined by
// the mass balance (alcohol.FermentedFromApparent). Source of the order: sequential uptake, Gee & Ramirez, J. Inst.
// Brew. 100:321, 1994; of the inversion: the design notes, section 3 (derived).
package yeast

import (
	"math"
	"slices"

	"skep/calc/alcohol"
	"skep/calc/sugar"
)

// Take is the share (0 to 1) of each kind of extract that a strain ferments.
type Take struct {
	Simple      float64 // glucose, fructose, sucrose
	Maltose     float64
	Maltotriose float64
	Dextrin     float64
}

// FromAttenuation inverts an apparent attenuation in % on the reference wort,
// given as shares of extract. Each sugar is taken up only when the one before
// it is nearly gone, with a smooth hand-over, so that a small change of the
// attenuation is always a small change of every share.
//
// The answer is exact: Fermented of the reference gives back the attenuation.
// Below zero it is zero; above what the reference holds of carbohydrate
// everything is taken.
func FromAttenuation(apparentPct float64, reference sugar.Spectrum) Take {
	r := NewScale(reference)
	return r.Take(apparentPct)
}

// Scale is [FromAttenuation] on one reference wort, prepared to be asked often.
type Scale struct {
	total float64
	eaten [len(knots)]float64 // extract fermented at each knot of the appetite
}

// NewScale prepares the inversion on a wort, given as shares of extract or in
// any other unit.
func NewScale(reference sugar.Spectrum) Scale {
	s := Scale{total: reference.Total()}
	for i, x := range knots {
		eaten := takeAt(x).Fermented(reference)
		s.eaten[i] = eaten.Total()
	}
	return s
}

// Take is what a strain of an apparent attenuation in % takes; see
// [FromAttenuation].
func (s *Scale) Take(apparentPct float64) Take {
	if !(apparentPct > 0) { // NaN as well
		return Take{}
	}
	// Past what leaves nothing the inverse would turn negative.
	pct := math.Min(apparentPct, alcohol.ApparentFromFermented(alcohol.ReferencePlato, 1))
	want := s.total * alcohol.FermentedFromApparent(alcohol.ReferencePlato, pct)
	last := len(knots) - 1
	if want >= s.eaten[last] {
		return Take{1, 1, 1, 1}
	}
	i := 0
	for s.eaten[i+1] <= want {
		i++
	}
	return takeAt(s.solve(i, want))
}

// solve finds the appetite between knots i and i+1, which are the even ones
// and the middles between them: there the extract fermented is a parabola in
// the appetite.
func (s *Scale) solve(i int, want float64) float64 {
	i -= i % 2
	x0, h := knots[i], knots[i+2]-knots[i]
	y0, ym, y1 := s.eaten[i], s.eaten[i+1], s.eaten[i+2]
	// y = y0 + b u + a u², u from 0 to 1.
	a := 2 * (y0 - 2*ym + y1)
	b := y1 - y0 - a
	c := y0 - want
	// The root that does not cancel; b is positive or nothing, as y rises.
	root := math.Sqrt(math.Max(b*b-4*a*c, 0))
	if b+root == 0 {
		return x0
	}
	return x0 + h*math.Min(math.Max(-2*c/(b+root), 0), 1)
}

// The hand-over: a kind's share begins to rise before the one before it is
// complete. Maltotriose uptake starts while a few percent of maltose is left
// (order of uptake: Gee & Ramirez 1994; the width is ours).
const (
	overlap     = 0.15
	foot        = 0.15 // of a share's rise, in which it begins or ends
	appetiteEnd = 4.0
)

// knots are the appetites between which every share is a parabola, and the
// middles between them.
var knots = func() (k [33]float64) {
	var edges []float64
	for i := range 4 {
		from, to := math.Max(0, float64(i)-overlap), float64(i+1)
		edges = append(edges, from, from+foot*(to-from), to-foot*(to-from), to)
	}
	slices.Sort(edges)
	edges = append(edges, appetiteEnd)
	for i := range edges[:len(edges)-1] {
		k[2*i], k[2*i+1] = edges[i], (edges[i]+edges[i+1])/2
	}
	k[len(k)-1] = appetiteEnd
	return k
}()

func takeAt(x float64) Take {
	return Take{
		Simple:      ramp(x, 0, 1),
		Maltose:     ramp(x, 1-overlap, 2),
		Maltotriose: ramp(x, 2-overlap, 3),
		Dextrin:     ramp(x, 3-overlap, appetiteEnd),
	}
}

// ramp rises from 0 at a to 1 at b, linearly with rounded feet.
func ramp(x, a, b float64) float64 {
	t := (x - a) / (b - a)
	switch {
	case t <= 0:
		return 0
	case t >= 1:
		return 1
	}
	// Integral of a trapezoid: quadratic feet, linear middle, unit total.
	h := 1 / (1 - foot)
	switch {
	case t < foot:
		return h * t * t / (2 * foot)
	case t > 1-foot:
		return 1 - h*(1-t)*(1-t)/(2*foot)
	default:
		return h * (t - foot/2)
	}
}

// Fermented is what of s the strain takes, in the unit of s.
func (k Take) Fermented(s sugar.Spectrum) sugar.Spectrum {
	return sugar.Spectrum{
		Glucose:     s.Glucose * k.Simple,
		Fructose:    s.Fructose * k.Simple,
		Sucrose:     s.Sucrose * k.Simple,
		Maltose:     s.Maltose * k.Maltose,
		Maltotriose: s.Maltotriose * k.Maltotriose,
		Dextrin:     s.Dextrin * k.Dextrin,
	}
}

// ApparentAttenuationPct is what the strain reaches on a wort given as shares
// of extract (or any unit), as apparent attenuation in % at 12 °P: the mass
// balance of package alcohol.
func (k Take) ApparentAttenuationPct(wort sugar.Spectrum) float64 {
	total := wort.Total()
	if total <= 0 {
		return 0
	}
	eaten := k.Fermented(wort)
	return alcohol.ApparentFromFermented(alcohol.ReferencePlato, eaten.Total()/total)
}

// Diastatic reports whether an attenuation on the reference wort can be
// reached only by taking dextrin, and by how many apparent points.
func Diastatic(apparentPct float64, reference sugar.Spectrum) (points float64, yes bool) {
	limit := Take{1, 1, 1, 0}.ApparentAttenuationPct(reference)
	return math.Max(0, apparentPct-limit), apparentPct > limit
}
