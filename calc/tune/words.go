package tune

import (
	"math"
	"slices"

	"skep/calc"
	"skep/calc/lever"
	"skep/calc/message"
	"skep/calc/quantity"
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

// Summary says in a few words which levers move and which way, such as "cooler
// mash", "same yeast".
func (w *Way) Summary() []message.Message {
	if len(w.Parts) == 0 {
		return []message.Message{message.New("as it is")}
	}
	var words []message.Message
	for _, p := range w.Parts {
		words = append(words, p.Words())
	}
	moved := func(l lever.Lever) bool {
		return slices.ContainsFunc(w.Parts, func(p Part) bool { return p.Lever == l })
	}
	if slices.Contains(w.Free, lever.Yeast) && !moved(lever.Yeast) {
		words = append(words, message.New("same yeast"))
	}
	return words
}

// Words says which way one lever moves.
func (p *Part) Words() message.Message {
	switch {
	case p.Lever == lever.Yeast && p.From == p.To:
		return message.New("another yeast of the same attenuation")
	case p.Lever == lever.Honey && p.To == 0:
		return message.New("no honey")
	}
	return p.Lever.Way(p.To > p.From)
}

// Price says what a way gives up or brings along in the qualities that were
// not asked for, as far as that is sure, with the band of each change, in the
// order of their weight; empty when nothing shows on a screen.
func (w *Way) Price() []message.Message {
	var out []message.Message
	const least = 0.5 // of an index: less is not worth a word beside what was asked for
	four := w.Difference.Four()
	for _, q := range []struct {
		outcome calc.Outcome
		key     string
	}{{calc.Dryness, DrynessKey}, {calc.Body, BodyKey}, {calc.Strength, StrengthKey}} {
		_, asked := w.Miss[q.key]
		by := four[q.outcome]
		if m := q.outcome.Differs(by); !asked && !m.Empty() && (q.outcome == calc.Strength || math.Abs(by.Mid) >= least) {
			out = append(out, m)
		}
	}
	if _, asked := w.Miss[HoneyKey]; !asked {
		switch d := w.Difference.HoneyCharacter; {
		case d.Unsure() || math.Abs(d.Mid) < least:
		case d.Mid < 0:
			out = append(out, message.New("less honey character by {points}", d.Size(quantity.Index)))
		default:
			out = append(out, message.New("more honey character by {points}", d.Size(quantity.Index)))
		}
	}
	if by := quantity.Of(quantity.Index, math.Abs(w.Surer)); by.Value >= 1 {
		if w.Surer > 0 {
			out = append(out, message.New("surer by {amount}", by))
		} else {
			out = append(out, message.New("less sure by {amount}", by))
		}
	}
	if w.HoneyLeftKg != nil && *w.HoneyLeftKg > 0 {
		out = append(out, message.New("{mass} of honey left over", quantity.Of(quantity.MassG, 1000**w.HoneyLeftKg)))
	}
	return append(out, w.Cautions...)
}
