package taste

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"skep/app/ghost"
	"skep/app/plane"
	"skep/app/ui"
	"skep/app/words"
	"skep/calc/design"
	table "skep/calc/lever"
	"skep/calc/quantity"
	"skep/calc/tune"
)

// cards words the ways to what is wanted.
func (l *landing) cards(p *landingFrame) []plane.Card {
	if p.ways == nil {
		return []plane.Card{{Kind: plane.NoneAsked, Detail: words.T("an orange ring is what you want; Skep says how to get there")}}
	}
	var cards []plane.Card
	if !p.ways.Reached {
		cards = append(cards, plane.Card{Kind: plane.Unreachable, Detail: l.b.whyNot(p.ways)})
	}
	for i := range p.ways.Ways {
		w := &p.ways.Ways[i]
		if len(cards) == plane.MostCards {
			break
		}
		if len(w.Parts) == 0 {
			if p.ways.Reached {
				cards = append(cards, plane.Card{Kind: plane.NoneAsked, Title: words.T("It lands there already"), Detail: l.b.landsWithin(w)})
			}
			continue
		}
		detail := []string{l.b.landsWithin(w)}
		if taste := l.b.tasteOf(w); taste != "" { // a number knows nothing of spice
			detail = append(detail, taste)
		}
		if p.priced {
			detail = append(detail, l.b.price(w)...)
		}
		cards = append(cards, plane.Card{Kind: plane.WayThere, Number: i + 1, Title: ui.FirstUpper(l.b.wayWords(w)), Detail: strings.Join(detail, "; ")})
	}
	return cards
}

// Use takes a way: one step of undo.
func (l *landing) Use(i int) {
	if l.Ways == nil {
		return
	}
	cards := l.List.Cards()
	if i >= len(cards) || cards[i].Number < 1 || cards[i].Number > len(l.Ways.Ways) {
		return
	}
	w := &l.Ways.Ways[cards[i].Number-1]
	var failed error
	if ui.Change(l.b, l.b.wayWords(w), func(d *design.Design) {
		if d.Ghost == nil {
			ghost.Keep(d, words.T("before the way")) // to see afterwards what it cost
		}
		failed = applySettings(d, l.own(w))
	}) && failed == nil {
		l.b.ShowMessage(words.T("Taken: {way}. Undo puts it back.", l.b.wayWords(w)))
	}
	if failed != nil {
		l.b.Undo()
		l.b.Warn(l.b.Say().Why(failed))
	}
}

const AttenuationLow, attenuationHigh = "yeast.0.attenuation_low_pct", "yeast.0.attenuation_high_pct"

// own are a way's settings with a strain's own range: that of the way is as the
// strain works in these hands, which is not for the file.
func (l *landing) own(w *tune.Way) map[string]any {
	settings := maps.Clone(w.Settings)
	_, low := settings[AttenuationLow]
	_, high := settings[attenuationHigh]
	if !low && !high {
		return settings
	}
	for _, y := range l.Strains() {
		if y.Name != w.Design.Yeast[0].Name {
			continue
		}
		settings[AttenuationLow], settings[attenuationHigh] = y.AttenuationLowPct, y.AttenuationHighPct
		break
	}
	return settings
}

// applySettings sets what a way changes, as --set would.
func applySettings(d *design.Design, settings map[string]any) error {
	keys := make([]string, 0, len(settings))
	for key := range settings {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	for _, key := range keys {
		if err := d.Set(key, fmt.Sprint(settings[key])); err != nil {
			return err
		}
	}
	return nil
}

// wayWords says what to do, with its amounts: "2.5 °C cooler, same yeast".
func (b *Place) wayWords(w *tune.Way) string {
	var out []string
	for i := range w.Parts {
		out = append(out, b.partWords(&w.Parts[i]))
	}
	yeastMoves := slices.ContainsFunc(w.Parts, func(p tune.Part) bool { return p.Lever == table.Yeast })
	if len(out) < 2 && !yeastMoves && slices.Contains(w.Free, table.Yeast) {
		out = append(out, words.T("same yeast"))
	}
	return strings.Join(out, ", ")
}

func (b *Place) partWords(p *tune.Part) string {
	switch {
	case p.Lever == table.Yeast:
		return ui.OrUnnamed(p.ToName)
	case p.Lever == table.Moment:
		return words.T("honey at {was}", b.Levers.placeText(p.To))
	case p.Lever == table.Honey && p.To == 0:
		return words.T("no honey")
	}
	return b.Say().Sentence(p.Lever.By(p.To - p.From))
}

// tasteOf is what is known of the taste of another strain, where a way takes one.
func (b *Place) tasteOf(w *tune.Way) string {
	for _, p := range w.Parts {
		if p.Lever == table.Yeast {
			return b.StrainNote(p.ToName)
		}
	}
	return ""
}

// landsWithin says how near a way comes.
func (b *Place) landsWithin(w *tune.Way) string {
	return words.T("lands within {points}", b.Say().Number(quantity.Index, math.Ceil(w.Points-1e-9)))
}

// price says what a way gives up or brings along in what was not asked for, as far
// as that is sure.
func (b *Place) price(w *tune.Way) []string {
	var out []string
	for _, m := range w.Price() {
		out = append(out, b.Say().Sentence(m))
	}
	if len(out) == 0 {
		out = append(out, words.T("nothing else changes for sure"))
	}
	return out
}

// whyNot says how near one can come, and what is in the way.
func (b *Place) whyNot(r *tune.Result) string {
	var out []string
	if len(r.Ways) > 0 {
		var misses []string
		miss := func(key, name string, k quantity.Kind, least float64) {
			if v, asked := r.Ways[0].Miss[key]; asked && v >= least {
				misses = append(misses, words.T("{name} by {amount}", name, b.Say().Format(k, v)))
			}
		}
		miss(tune.DrynessKey, words.T("dryness"), quantity.Index, 0.5)
		miss(tune.BodyKey, words.T("body"), quantity.Index, 0.5)
		miss(tune.HoneyKey, words.T("honey character"), quantity.Index, 0.5)
		miss(tune.StrengthKey, words.T("strength"), quantity.Strength, 0.05)
		if len(misses) > 0 {
			out = append(out, words.T("the nearest misses {what}", strings.Join(misses, ", ")))
		}
	}
	if len(r.Binding) > 0 {
		var names []string
		for _, l := range r.Binding {
			names = append(names, b.Say().Sentence(l.Name()))
		}
		out = append(out, words.T("at its limit: {levers}", strings.Join(names, ", ")))
	}
	if len(r.Conflict) > 1 {
		out = append(out, words.T("what is wanted pulls against itself"))
	}
	for _, note := range r.Notes {
		out = append(out, b.Say().Sentence(note))
	}
	return strings.Join(out, "; ")
}
