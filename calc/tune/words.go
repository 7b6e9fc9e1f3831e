package tune

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"skep/calc"
)

// parts lists the levers that a place moves, in the order of the brew.
func (t *Tuner) parts(f *found) []Part {
	var parts []Part
	s, now := f.setting, t.start
	if s.GrainShare != 1 {
		kg := t.plan.GrainKg
		parts = append(parts, Part{Lever: Grain, From: kg, To: kg * s.GrainShare})
	}
	if s.RestC != now.RestC {
		parts = append(parts, Part{Lever: Rest, From: now.RestC, To: s.RestC})
	}
	if s.Minutes != now.Minutes {
		parts = append(parts, Part{Lever: Minutes, From: now.Minutes, To: s.Minutes})
	}
	if from, to := Yeast.get(&now), Yeast.get(&s); f.yeast != nil || from != to {
		p := Part{Lever: Yeast, From: from, To: to, FromName: t.design.Yeast[0].Name, ToName: t.design.Yeast[0].Name}
		if f.yeast != nil {
			p.ToName = f.yeast.Name
		}
		parts = append(parts, p)
	}
	if s.HoneyKg != now.HoneyKg {
		parts = append(parts, Part{Lever: Honey, From: now.HoneyKg, To: s.HoneyKg})
	}
	if s.Moment != now.Moment {
		parts = append(parts, Part{Lever: Moment, FromName: now.Moment, ToName: s.Moment})
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
	moved := func(l Lever) bool { return slices.ContainsFunc(w.Parts, func(p Part) bool { return p.Lever == l }) }
	if slices.Contains(w.Free, Yeast) && !moved(Yeast) {
		words = append(words, "same yeast")
	}
	return strings.Join(words, ", ")
}

// Words says which way one lever moves.
func (p *Part) Words() string {
	pick := func(less, more string) string {
		if p.To < p.From {
			return less
		}
		return more
	}
	switch p.Lever {
	case Rest:
		return pick("cooler mash", "hotter mash")
	case Minutes:
		return pick("shorter rest", "longer rest")
	case Yeast:
		switch {
		case p.From == p.To:
			return "another yeast of the same attenuation"
		default:
			return pick("less attenuating yeast", "more attenuating yeast")
		}
	case Honey:
		switch {
		case p.To == 0:
			return "no honey"
		default:
			return pick("less honey", "more honey")
		}
	case Grain:
		return pick("less grain", "more grain")
	case Moment:
		if hot(p.ToName) {
			return "honey on the hot side"
		}
		return "honey in the fermenter"
	}
	return string(p.Lever)
}

// Price says what a way gives up or brings along in the qualities that were
// not asked for, against the prediction of the present design, in the order of
// their weight; empty when nothing shows on a screen.
func (w *Way) Price(now calc.Prediction) []string {
	var out []string
	p := &w.Prediction
	asked := func(key string) bool { _, ok := w.Miss[key]; return ok }
	index := func(key, less, more string, d float64) {
		if n := math.Round(math.Abs(d)); !asked(key) && n >= 1 {
			word := more
			if d < 0 {
				word = less
			}
			out = append(out, fmt.Sprintf("%s by %.0f", word, n))
		}
	}
	index(DrynessKey, "sweeter", "drier", p.Dryness.Mid-now.Dryness.Mid)
	index(BodyKey, "thinner", "fuller", p.Body.Mid-now.Body.Mid)
	if d := p.StrengthPct.Mid - now.StrengthPct.Mid; !asked(StrengthKey) && math.Abs(d) >= 0.05 {
		word := "stronger"
		if d < 0 {
			word = "weaker"
		}
		out = append(out, fmt.Sprintf("%s by %.1f %%", word, math.Abs(d)))
	}
	index("honey_character", "less honey character", "more honey character", p.HoneyCharacter.Mid-now.HoneyCharacter.Mid)
	was, is := size(now.Four()), size(p.Four())
	if math.Abs(is-was) >= 1 {
		word := "less sure"
		if is < was {
			word = "surer"
		}
		out = append(out, fmt.Sprintf("%s by %.0f", word, math.Abs(is-was)))
	}
	return out
}
