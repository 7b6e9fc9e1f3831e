package document

import (
	"skep/app/userfile"
	"skep/assets"
	"skep/calc/design"
)

// Catalogue is what may be brewed with: the person's own first.
type Catalogue struct {
	Grain []Grain `json:"grain"`
	Yeast []Yeast `json:"yeast"`
	Honey []Honey `json:"honey"`
	Hop   []Hop   `json:"hop"`
}

// Origin is what is said of an ingredient beside its figures.
type Origin struct {
	Own    bool   `json:"own" about:"from the person's own shelf"`
	Note   string `json:"note"`
	Source string `json:"source" about:"where the figures are from"`
}

// Grain is a malt, a raw grain or a sugar.
type Grain struct {
	Name        string  `json:"name"`
	ExtractPct  float64 `json:"extract_pct"`
	MoisturePct float64 `json:"moisture_pct"`
	ColourEBC   float64 `json:"colour_ebc"`
	Enzymes     string  `json:"enzymes"`
	Origin
}

// Yeast is a strain or a family of them.
type Yeast struct {
	Name               string  `json:"name"`
	AttenuationLowPct  float64 `json:"attenuation_low_pct"`
	AttenuationHighPct float64 `json:"attenuation_high_pct"`
	TemperatureC       float64 `json:"temperature_c"`
	CellsBillionPerL   float64 `json:"cells_billion_per_l"`
	Form               string  `json:"form"`
	EatsDextrin        bool    `json:"eats_dextrin"`
	TolerancePct       float64 `json:"tolerance_pct" about:"0: not known, as for the next two"`
	ColdestC           float64 `json:"coldest_c"`
	WarmestC           float64 `json:"warmest_c"`
	Origin
}

// Honey is a honey by its flower.
type Honey struct {
	Name        string  `json:"name"`
	MoisturePct float64 `json:"moisture_pct"`
	Raw         bool    `json:"raw" about:"live enzymes"`
	Origin
}

// Hop is a public variety.
type Hop struct {
	Name     string  `json:"name"`
	AlphaPct float64 `json:"alpha_pct"`
	Origin
}

// CatalogueOf makes the document of a person's own ingredients and the program's.
func CatalogueOf(shelf *userfile.Shelf, strains []design.CatalogueYeast, all *assets.Catalogue) Catalogue {
	out := Catalogue{Grain: []Grain{}, Yeast: []Yeast{}, Honey: []Honey{}, Hop: []Hop{}}
	own := func(a design.About) Origin { return Origin{true, a.Note, a.Source} }
	known := func(o assets.Origin) Origin { return Origin{false, o.Note, o.Source} }
	grain := func(g *design.Grain, s Origin) {
		out.Grain = append(out.Grain, Grain{g.Name, g.ExtractPct, g.MoisturePct, g.ColourEBC, g.Enzymes, s})
	}
	yeast := func(y *design.Yeast, s Origin) {
		out.Yeast = append(out.Yeast, Yeast{y.Name, y.AttenuationLowPct, y.AttenuationHighPct, y.TemperatureC, y.CellsBillionPerL,
			y.Form, y.EatsDextrin, y.TolerancePct, y.ColdestC, y.WarmestC, s})
	}
	honey := func(h *design.Honey, s Origin) {
		out.Honey = append(out.Honey, Honey{h.Name, h.MoisturePct, h.Raw, s})
	}
	hop := func(h *design.Hop, s Origin) { out.Hop = append(out.Hop, Hop{h.Name, h.AlphaPct, s}) }
	for _, x := range shelf.Grain {
		grain(&x.Grain, own(x.About))
	}
	for _, x := range all.Grain {
		grain(&x.Grain, known(x.Origin))
	}
	for _, x := range strains {
		yeast(&x.Yeast, own(x.About))
	}
	for _, x := range all.Yeast {
		yeast(&x.Yeast, known(x.Origin))
	}
	for _, x := range shelf.Honey {
		honey(&x.Honey, own(x.About))
	}
	for _, x := range all.Honey {
		honey(&x.Honey, known(x.Origin))
	}
	for _, x := range shelf.Hop {
		hop(&x.Hop, own(x.About))
	}
	for _, x := range all.Hop {
		hop(&x.Hop, known(x.Origin))
	}
	return out
}
