// Package yeast turns a strain's attenuation range into what it takes of each
// sugar.
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
	if !(apparentPct > 0) { // NaN as well
		return Take{}
	}
	// Past what leaves nothing the inverse would turn negative.
	pct := math.Min(apparentPct, alcohol.ApparentFromFermented(alcohol.ReferencePlato, 1))
	want := reference.Total() * alcohol.FermentedFromApparent(alcohol.ReferencePlato, pct)
	most := reference.Sugars() + reference.Dextrin
	if want >= most {
		return Take{1, 1, 1, 1}
	}
	// The appetite x runs from 0 upwards; every share is a smooth step of it.
	// Solve for the x that ferments the wanted amount: monotone, so bisect,
	// then the last digits by the secant of the final bracket.
	lo, hi := 0.0, appetiteEnd
	for range 60 {
		x := (lo + hi) / 2
		if takeAt(x).Fermented(reference).Total() < want {
			lo = x
		} else {
			hi = x
		}
	}
	return takeAt((lo + hi) / 2)
}

// The hand-over: a kind's share begins to rise before the one before it is
// complete. Maltotriose uptake starts while a few percent of maltose is left
// (order of uptake: Gee & Ramirez 1994; the width is ours).
const (
	overlap     = 0.15
	appetiteEnd = 4.0
)

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
	const foot = 0.15 // half-width of the rounding, in t
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
	return alcohol.ApparentFromFermented(alcohol.ReferencePlato, k.Fermented(wort).Total()/total)
}

// Diastatic reports whether an attenuation on the reference wort can be
// reached only by taking dextrin, and by how many apparent points.
func Diastatic(apparentPct float64, reference sugar.Spectrum) (points float64, yes bool) {
	limit := Take{1, 1, 1, 0}.ApparentAttenuationPct(reference)
	return math.Max(0, apparentPct-limit), apparentPct > limit
}
