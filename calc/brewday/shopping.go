package brewday

import (
	"math"

	"skep/calc/carbonation"
	"skep/calc/quantity"
	"skep/calc/says"
)

// shopping is all that must be there before the day begins.
func (b *brew) shopping() []Item {
	var list []Item
	add := func(g Group, path, name string, amount quantity.Quantity, note says.Sentence) {
		list = append(list, Item{g, path, name, amount, note})
	}
	for i, g := range b.d.Grain {
		if g.MassKg > 0 {
			add(GroupGrain, path("grain", i), g.Name, kilos(g.MassKg), says.Sentence{})
		}
	}
	for i, h := range b.d.Honey {
		if h.MassKg > 0 {
			note := says.Say("{} water", percent(h.MoisturePct))
			if h.Raw {
				note = says.Say("raw, {} water", percent(h.MoisturePct))
			}
			add(GroupHoney, path("honey", i), h.Name, kilos(h.MassKg), note)
		}
	}
	for i, h := range b.d.Hop {
		if h.MassG > 0 {
			add(GroupHops, path("hop", i), h.Name, grams(h.MassG), says.Say("{} alpha", percent(h.AlphaPct)))
		}
	}
	if b.yeast.Name != "" {
		a, note := b.yeastAmount(), says.Say("{}", says.Name(b.yeast.Form))
		switch {
		case a.Kind == quantity.None:
			note = says.Say("liquid, {} billion cells", of(quantity.Cells, b.cells()))
		case a.Banded():
			note = says.Say("{}, {} to {} by count", says.Name(b.yeast.Form), quantity.Quantity{Kind: a.Kind, Value: a.Low}, quantity.Quantity{Kind: a.Kind, Value: a.High})
		}
		add(GroupYeast, "yeast.0", b.yeast.Name, a.Plain(), note)
	}
	if g := b.nutrientG(); g > 0 {
		add(GroupYeast, "", "Yeast nutrient", grams(g), says.Say("diammonium phosphate, or its maker's dose"))
	}
	all := b.plan.MashLiquor + b.plan.Sparge
	add(GroupWater, "", "Liquor", litres(all), says.Sentence{})
	add(GroupWater, "", "Metabisulphite", grams(chlorineMgPerL*all/1000), says.Say("for the chlorine"))
	for _, a := range b.saltsOf() {
		add(GroupWater, a.path, a.name, a.amount, says.Sentence{})
	}
	w := b.bottled()
	if b.d.Package.Vessel == "keg" {
		add(GroupPackage, "package", "Keg", litres(w.litres), says.Say("and CO2"))
	} else {
		add(GroupPackage, "package", "bottles and caps", count(math.Ceil(w.litres/bottleL)), says.Say("of {}, made for {} or more", litres(bottleL), of(quantity.CO2Volumes, w.RatedVolumes)))
		if w.primerG > 0 && b.d.Package.Primer != carbonation.None {
			add(GroupPackage, "package.primer", sentenceCase(b.d.Package.Primer), grams(w.primerG), says.Say("to prime"))
		}
	}
	add(GroupTools, "", "Iodine, sanitiser, thermometer, hydrometer", quantity.Quantity{}, says.Sentence{})
	return list
}

func sentenceCase(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
