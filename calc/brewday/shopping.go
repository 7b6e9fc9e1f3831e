package brewday

import (
	"math"

	"skep/calc/carbonation"
)

// shopping is all that must be there before the day begins.
func (b *brew) shopping() []Item {
	var list []Item
	add := func(g Group, path, name string, amount Quantity, note Sentence) {
		list = append(list, Item{g, path, name, amount, note})
	}
	for i, g := range b.d.Grain {
		if g.MassKg > 0 {
			add(GroupGrain, path("grain", i), g.Name, kilos(g.MassKg), Sentence{})
		}
	}
	for i, h := range b.d.Honey {
		if h.MassKg > 0 {
			note := Say("{} water", percent(h.MoisturePct))
			if h.Raw {
				note = Say("raw, {} water", percent(h.MoisturePct))
			}
			add(GroupHoney, path("honey", i), h.Name, kilos(h.MassKg), note)
		}
	}
	for i, h := range b.d.Hop {
		if h.MassG > 0 {
			add(GroupHops, path("hop", i), h.Name, grams(h.MassG), Say("{} alpha", percent(h.AlphaPct)))
		}
	}
	if b.yeast.Name != "" {
		a, note := b.yeastAmount(), Say(b.yeast.Form)
		switch {
		case a.Kind == None:
			note = Say("liquid, {} billion cells", of(Cells, b.cells()))
		case a.Banded():
			note = Say(b.yeast.Form+", {} to {} by count", Quantity{Kind: a.Kind, Value: a.Low}, Quantity{Kind: a.Kind, Value: a.High})
		}
		add(GroupYeast, "yeast.0", b.yeast.Name, a.Plain(), note)
	}
	if b.honeyShare() > nutrientShare {
		add(GroupYeast, "", "Yeast nutrient", Quantity{}, Say("its maker's dose"))
	}
	all := b.plan.MashLiquor + b.plan.Sparge
	add(GroupWater, "", "Liquor", litres(all), Sentence{})
	add(GroupWater, "", "Metabisulphite", grams(chlorineMgPerL*all/1000), Say("for the chlorine"))
	for _, a := range b.saltsOf() {
		add(GroupWater, a.path, a.name, a.amount, Sentence{})
	}
	w := b.bottled()
	if b.d.Package.Vessel == "keg" {
		add(GroupPackage, "package", "Keg", litres(w.litres), Say("and CO2"))
	} else {
		add(GroupPackage, "package", "bottles and caps", count(math.Ceil(w.litres/bottleL)), Say("of {}, made for {} or more", litres(bottleL), of(CO2Volumes, w.RatedVolumes)))
		if w.primerG > 0 && b.d.Package.Primer != carbonation.None {
			add(GroupPackage, "package.primer", sentenceCase(b.d.Package.Primer), grams(w.primerG), Say("to prime"))
		}
	}
	add(GroupTools, "", "Iodine, sanitiser, thermometer, hydrometer", Quantity{}, Sentence{})
	return list
}

func sentenceCase(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
