// Package scale makes the same beer in another volume or at another strength. An
// engine and a design come in, a design goes out whose beer the engine predicts with
// the strength that was asked for. It must not know how a beer comes about: it asks
// the engine again and again.
package scale

import (
	"math"

	"skep/calc"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
	"skep/calc/recipe"
)

// How near a scaled beer comes to what is asked, and how many times it is
// corrected at most: what stays behind in the kit does not grow with the volume,
// so that proportions alone miss by some per cent at first.
const (
	enoughStrength   = 2e-4 // share of the strength
	enoughBitterness = 1e-3 // share of the bitterness
	rounds           = 12
	mostGrain        = 60.0 // times the grain by volume: past it there is no such beer
)

// To is the same beer in another volume, at its own strength (strengthPct
// 0) or another. Grain and honey grow together until the strength comes out,
// hops until the bitterness is what it was, salts with the liquor;
// temperatures, times and the kit stay. Masses are rounded to four figures. An
// error is a [message.Error].
func To(e *calc.Engine, d design.Design, intoL, strengthPct float64) (design.Design, error) {
	if k, _ := design.KeyOf("batch.into_fermenter_l"); !(intoL >= k.Min && intoL <= k.Max) {
		return d, message.NewError("a batch is {least} to {most}", quantity.Of(quantity.Volume, k.Min), quantity.Of(quantity.Volume, k.Max))
	}
	before, err := e.Predict(d)
	if err != nil {
		return d, err
	}
	if !(before.StrengthPct.Mid > 0.05) {
		return d, message.NewError("this brew ferments to no strength, so there is nothing to scale by")
	}
	if strengthPct <= 0 {
		strengthPct = before.StrengthPct.Mid
	}
	ratio := intoL / d.Batch.IntoFermenterL
	body, hops := ratio*strengthPct/before.StrengthPct.Mid, ratio
	var out design.Design
	for range rounds {
		out = times(d, intoL, body, hops)
		p, err := e.Predict(out)
		if err != nil { // d itself was predicted: so much of it is past what the model knows
			return d, noSuchBeer()
		}
		up := strengthPct / math.Max(p.StrengthPct.Mid, 1e-3)
		bitter := 1.0
		if before.BitternessIBU.Mid > 0.1 && p.BitternessIBU.Mid > 0.1 {
			bitter = before.BitternessIBU.Mid / p.BitternessIBU.Mid
		}
		if math.Abs(up-1) < enoughStrength && math.Abs(bitter-1) < enoughBitterness {
			break
		}
		body *= up
		hops *= bitter
		if body > mostGrain*ratio || !(body > 0) {
			return d, noSuchBeer()
		}
	}
	out = times(d, intoL, body, hops)
	was, is := recipe.Liquor(d), recipe.Liquor(out)
	if k := (is.MashLiquor + is.Sparge) / (was.MashLiquor + was.Sparge); out.Water != nil && k > 0 && !math.IsInf(k, 0) {
		w := out.Water
		for _, g := range []*float64{&w.GypsumG, &w.CalciumChlorideG, &w.EpsomG, &w.TableSaltG, &w.BakingSodaG, &w.LacticAcid88ML} {
			*g = fourFigures(*g * k)
		}
	}
	return out, design.FirstError(out.Validate())
}

func noSuchBeer() error {
	return message.NewError("no amount of grain and honey gives that strength here")
}

// times multiplies what goes in.
func times(d design.Design, intoL, body, hops float64) design.Design {
	out := d.Clone()
	out.Batch.IntoFermenterL = intoL
	for i := range out.Grain {
		out.Grain[i].MassKg = fourFigures(out.Grain[i].MassKg * body)
	}
	for i := range out.Honey {
		out.Honey[i].MassKg = fourFigures(out.Honey[i].MassKg * body)
	}
	for i := range out.Hop {
		out.Hop[i].MassG = fourFigures(out.Hop[i].MassG * hops)
	}
	return out
}

// fourFigures keeps four figures: a scale shows no more, and proportions hold to
// better than a thousandth.
func fourFigures(v float64) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return v
	}
	p := math.Pow(10, 3-math.Floor(math.Log10(math.Abs(v))))
	return math.Round(v*p) / p
}
