package brewday

import (
	"math"

	"skep/calc/carbonation"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
)

// shopping is all that must be there before the day begins.
func (b *brew) shopping() []Item {
	var list []Item
	add := func(g Group, path string, name message.Message, amount quantity.Quantity, note message.Message) {
		list = append(list, Item{g, path, name, amount, note})
	}
	for i, g := range b.d.Grain {
		if g.MassKg > 0 {
			add(GroupGrain, path("grain", i), message.Plain(g.Name), kilos(g.MassKg), message.Message{})
		}
	}
	for i, h := range b.d.Honey {
		if h.MassKg > 0 {
			note := message.New("{share} water", percent(h.MoisturePct))
			if h.Raw {
				note = message.New("raw, {share} water", percent(h.MoisturePct))
			}
			add(GroupHoney, path("honey", i), message.Plain(h.Name), kilos(h.MassKg), note)
		}
	}
	for i, h := range b.d.Hop {
		if h.MassG > 0 {
			add(GroupHops, path("hop", i), message.Plain(h.Name), grams(h.MassG), message.New("{share} alpha", percent(h.AlphaPct)))
		}
	}
	if b.yeast.Name != "" {
		a, note := b.yeastAmount(), design.WordOf("form", b.yeast.Form)
		switch {
		case a.Kind == quantity.None:
			note = message.New("liquid, {cells} billion cells", of(quantity.Cells, b.cells()))
		case a.Banded():
			note = message.New("{form}, {low} to {high} by count", design.WordOf("form", b.yeast.Form), quantity.Quantity{Kind: a.Kind, Value: a.Low}, quantity.Quantity{Kind: a.Kind, Value: a.High})
		}
		add(GroupYeast, "yeast.0", message.Plain(b.yeast.Name), a.Plain(), note)
	}
	if g := b.nutrientG(); g > 0 {
		add(GroupYeast, "", message.New("Yeast nutrient"), grams(weighed(g)), message.New("diammonium phosphate, or its maker's dose"))
	}
	all := b.plan.MashLiquor + b.plan.Sparge
	add(GroupWater, "", message.New("Liquor"), litres(all), message.Message{})
	bisulphite := message.New("for the chlorine")
	if g := b.bisulphiteG(); g < pinchG {
		bisulphite = message.New("a pinch, for the chlorine")
	}
	add(GroupWater, "", message.New("Metabisulphite"), grams(b.bisulphiteG()), bisulphite)
	for _, a := range b.saltsOf() {
		add(GroupWater, a.path, a.name, a.amount, message.Message{})
	}
	w := b.bottled()
	if b.d.Package.Vessel == "keg" {
		add(GroupPackage, "package", message.New("Keg"), litres(w.litres), message.New("and CO2"))
	} else {
		add(GroupPackage, "package", message.New("bottles and caps"), count(math.Ceil(w.litres/bottleL)), message.New("of {litres} L, made for {volumes} or more", of(quantity.Raw, bottleL), of(quantity.CO2Volumes, w.RatedVolumes)))
		if w.primerG > 0 && b.d.Package.Primer != carbonation.None {
			add(GroupPackage, "package.primer", design.WordOf("primer", b.d.Package.Primer), grams(w.primerG), message.New("to prime"))
		}
	}
	add(GroupTools, "", message.New("Iodine, sanitiser, thermometer, hydrometer"), quantity.Quantity{}, message.Message{})
	return list
}

func sentenceCase(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
