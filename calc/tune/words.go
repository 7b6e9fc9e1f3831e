package tune

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"skep/calc"
	"skep/calc/lever"
)

// parts lists the levers that a place moves, in the order of the brew.
func (t *Tuner) parts(f *found) []Part {
	var parts []Part
	s, now := f.setting, t.start
	for _, l := range lever.All() {
		p := Part{Lever: l, From: l.Get(&now), To: l.Get(&s)}
		switch l {
		case lever.YeastC: // comes with the strain
			continue
		case lever.Grain:
			p.From, p.To = p.From*t.plan.GrainKg, p.To*t.plan.GrainKg
		case lever.Yeast:
			p.FromName, p.ToName = t.design.Yeast[0].Name, t.design.Yeast[0].Name
			if f.yeast != nil {
				p.ToName = f.yeast.Name
			}
		case lever.Moment:
			p.FromName, p.ToName = now.Moment, s.Moment
		}
		if p.From != p.To || l == lever.Yeast && f.yeast != nil {
			parts = append(parts, p)
		}
	}
	return parts
}

// Summary says in a few words which levers move and which way, such as
// "cooler mash, same yeast".
func (w *Way) Summary() string {
	if len(w.Parts) == 0 {
		return "as it is"
	}
	var words []string
	for _, p := range w.Parts {
		words = append(words, p.Words())
	}
	moved := func(l lever.Lever) bool {
		return slices.ContainsFunc(w.Parts, func(p Part) bool { return p.Lever == l })
	}
	if slices.Contains(w.Free, lever.Yeast) && !moved(lever.Yeast) {
		words = append(words, "same yeast")
	}
	return strings.Join(words, ", ")
}

// Words says which way one lever moves.
func (p *Part) Words() string {
	switch {
	case p.Lever == lever.Yeast && p.From == p.To:
		return "another yeast of the same attenuation"
	case p.Lever == lever.Honey && p.To == 0:
		return "no honey"
	}
	return p.Lever.Way(p.To > p.From).String()
}

// Price says what a way gives up or brings along in the qualities that were
// not asked for, as far as that is sure, with the band of each change, in the
// order of their weight; empty when nothing shows on a screen. now is the
// prediction of the present design.
func (w *Way) Price(now calc.Prediction) []string {
	var out []string
	p := &w.Prediction
	say := func(key, less, more, unit string, least float64, decimals int, d calc.Band) {
		if _, asked := w.Miss[key]; asked || d.Unsure() || math.Abs(d.Mid) < least {
			return
		}
		word, low, high := more, d.Low, d.High
		if d.Mid < 0 {
			word, low, high = less, -d.High, -d.Low
		}
		out = append(out, fmt.Sprintf("%s by %.*f%s (%.*f to %.*f)", word, decimals, math.Abs(d.Mid), unit, decimals, low, decimals, high))
	}
	say(DrynessKey, "sweeter", "drier", "", 0.5, 0, w.Difference.Dryness)
	say(BodyKey, "thinner", "fuller", "", 0.5, 0, w.Difference.Body)
	say(StrengthKey, "weaker", "stronger", " %", 0.05, 1, w.Difference.StrengthPct)
	say(HoneyKey, "less honey character", "more honey character", "", 0.5, 0, w.Difference.HoneyCharacter)
	was, is := size(now.Four()), size(p.Four())
	if math.Abs(is-was) >= 1 {
		word := "less sure"
		if is < was {
			word = "surer"
		}
		out = append(out, fmt.Sprintf("%s by %.0f", word, math.Abs(is-was)))
	}
	if w.HoneyLeftKg != nil && *w.HoneyLeftKg > 0 {
		out = append(out, fmt.Sprintf("%.0f g of honey left over", 1000**w.HoneyLeftKg))
	}
	for _, c := range w.Cautions {
		out = append(out, c.String())
	}
	return out
}
