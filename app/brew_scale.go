package app

import (
	"errors"
	"math"
	"strconv"

	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
)

// scaled is the same beer in another volume, or at another strength. Grain and
// honey grow together until the strength comes out, hops until the bitterness
// is what it was, salts with the liquor; temperatures, times and the kit stay.
func scaled(e *calc.Engine, d design.Design, intoL, strengthPct float64) (design.Design, error) {
	k, _ := design.KeyOf("batch.into_fermenter_l")
	if !(intoL >= k.Min && intoL <= k.Max) {
		return d, errors.New(words.T("a batch is {{.Low}} to {{.High}} L", map[string]any{
			"Low": strconv.FormatFloat(k.Min, 'f', -1, 64), "High": strconv.FormatFloat(k.Max, 'f', -1, 64)}))
	}
	before, err := e.Predict(d)
	if err != nil {
		return d, err
	}
	if !(before.StrengthPct.Mid > 0.05) {
		return d, errors.New(words.T("this brew ferments to no strength, so there is nothing to scale by"))
	}
	if strengthPct <= 0 {
		strengthPct = before.StrengthPct.Mid
	}
	liquor := func(d design.Design) float64 { v := calc.Liquor(d); return v.MashLiquor + v.Sparge }
	was := liquor(d)
	ratio := intoL / d.Batch.IntoFermenterL
	body, hops := ratio*strengthPct/before.StrengthPct.Mid, ratio
	var out design.Design
	for range 12 {
		out = times(d, intoL, body, hops)
		p, err := e.Predict(out)
		if err != nil {
			return d, err
		}
		up := strengthPct / math.Max(p.StrengthPct.Mid, 1e-3)
		bitter := 1.0
		if before.BitternessIBU.Mid > 0.1 && p.BitternessIBU.Mid > 0.1 {
			bitter = before.BitternessIBU.Mid / p.BitternessIBU.Mid
		}
		if math.Abs(up-1) < 2e-4 && math.Abs(bitter-1) < 1e-3 {
			break
		}
		body *= up
		hops *= bitter
		if body > 60*ratio || !(body > 0) {
			return d, errors.New(words.T("no amount of grain and honey gives that strength here"))
		}
	}
	out = times(d, intoL, body, hops)
	if out.Water != nil && was > 0 {
		k := liquor(out) / was
		for _, s := range salts() {
			a := s.amount(out.Water)
			*a = fourFigures(*a * k)
		}
	}
	return out, design.FirstError(out.Validate())
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
