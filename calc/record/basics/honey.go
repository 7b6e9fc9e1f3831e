package basics

import (
	"fmt"

	"skep/calc/density"
	"skep/calc/honey"
	"skep/calc/record"
	"skep/calc/units"
)

const (
	chataway = "Chataway's table, as printed by Bogdanov, Book of Honey, ch. 4"
	crane    = "Crane 1980, Table 8"
	white    = "White 1962, 490 US honeys"
)

// Honey is the record of package honey.
func Honey() []record.Row {
	rows := moistureRows()
	rows = append(rows, honeyDensityRows()...)
	rows = append(rows, gravityRows()...)
	rows = append(rows, compositionRows()...)
	rows = append(rows, enzymeRows()...)
	return append(rows, characterRows()...)
}

func moistureRows() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct{ pct, index float64 }{
		{13.0, 1.5044}, {13.4, 1.5033}, {13.8, 1.5023}, {14.0, 1.5018}, {14.4, 1.5007}, {14.8, 1.4997},
		{15.0, 1.4992}, {15.2, 1.4987}, {15.6, 1.4976}, {16.0, 1.4966}, {16.4, 1.4956}, {16.8, 1.4946},
		{17.0, 1.4940}, {17.4, 1.4930}, {17.8, 1.4920}, {18.4, 1.4905}, {18.6, 1.4900}, {18.8, 1.4895},
		{19.0, 1.4890}, {19.2, 1.4885}, {19.6, 1.4875}, {20.0, 1.4865}, {20.4, 1.4855}, {20.8, 1.4845},
		{21.0, 1.4840}, {21.2, 1.4835}, {21.6, 1.4825}, {22.0, 1.4815}, {22.4, 1.4805}, {22.8, 1.4795},
		{23.2, 1.4785}, {24.0, 1.4765}, {24.4, 1.4755}, {25.0, 1.4740},
	} {
		ours, err := honey.MoisturePct(r.index, 20)
		row := record.Row{
			Quantity: fmt.Sprintf("moisture of honey, refractive index %.4f at 20 °C", r.index), Unit: "%",
			Published: r.pct, Source: chataway, Ours: ours, Tolerance: 0.03,
		}
		if err != nil {
			row.Verdict, row.Why = "misses", err.Error()
		}
		rows = append(rows, row)
	}
	return rows
}

func honeyDensityRows() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct {
		pct, kgL    float64
		source, why string
	}{
		{17, 1.423, "a trade page", ""},
		{18, 1.417, "a beekeepers' club page", ""},
		{15, 1.423, "a beekeepers' club page", "sources disagree: this page has at 15 % what another has at 17 %; White's table (from memory) has 1.435"},
	} {
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("density of honey of %.0f %% water at 20 °C", r.pct), Unit: "kg/L",
			Published: r.kgL, Source: r.source, Ours: honey.DensityKgL(r.pct, 20), Tolerance: 0.003, Why: r.why,
		})
	}
	for _, r := range [...]struct{ pct, sg float64 }{{14, 1.4404}, {16, 1.4295}, {19, 1.4101}, {21, 1.3950}} {
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("specific gravity of honey of %.0f %% water", r.pct), Unit: "SG",
			Published: r.sg, Source: "White's table between the rows used (from memory)", Tolerance: 0.002,
			Ours: density.SGFromKgM3(1000 * honey.DensityKgL(r.pct, 20)),
		})
	}
	return rows
}

// points is gravity points times litres for a kilogram in 20 L.
func points(moisturePct float64) float64 {
	const litres = 20
	p := density.PlatoFromGramsPerLitre(1000 * honey.SolidsKg(1, moisturePct) / litres)
	return units.PointsFromSG(density.SGFromPlato(p)) * litres
}

func gravityRows() []record.Row {
	var rows []record.Row
	for _, r := range [...]struct{ pct, points float64 }{{15, 327}, {17.2, 319}, {20, 308}} {
		rows = append(rows, record.Row{
			Quantity: fmt.Sprintf("gravity of honey of %.1f %% water", r.pct), Unit: "points·L/kg",
			Published: r.points, Source: "solids at 385 points·L/kg, as sucrose (derived from 46 points·US gal/lb)",
			Ours: points(r.pct), Tolerance: 2,
		})
	}
	return append(rows, record.Row{
		Quantity: "gravity of honey, the custom", Unit: "points·L/kg", Published: 292,
		Source: "35 points·US gal/lb: hobby lists of extract potential", Ours: points(17.2), Tolerance: 10,
		Why: "the custom is below what the solids of honey give at any legal moisture: a lower edge, not an analysis",
	})
}

func compositionRows() []record.Row {
	const whiteWater = 17.2
	s, err := honey.Composition(whiteWater, honey.Blossom)
	pct := s.Times(100 * (1 - whiteWater/100.0))
	row := func(what string, published, ours, tolerance float64) record.Row {
		r := record.Row{Quantity: what + " of blossom honey", Unit: "% of honey", Published: published, Source: white, Ours: ours, Tolerance: tolerance}
		if err != nil {
			r.Verdict, r.Why = "misses", err.Error()
		} else {
			r.Verdict, r.Why = Fitted, "the survey mean is the input; the row shows that it comes through"
		}
		return r
	}
	return []record.Row{
		row("fructose", 38.2, pct.Fructose, 0.05),
		row("glucose", 31.3, pct.Glucose, 0.05),
		row("sucrose", 1.3, pct.Sucrose, 0.05),
		row("maltose type and higher sugars", 7.3+1.5, pct.Maltose+pct.Dextrin, 0.05),
	}
}

func enzymeRows() []record.Row {
	const year, day = 365.25 * 24, 24.0
	var rows []record.Row
	for _, r := range [...]struct{ c, hours float64 }{
		{10, 34 * year}, {20, 4 * year}, {30, 200 * day}, {40, 31 * day}, {50, 5 * day}, {60, day}, {70, 5}, {80, 1},
	} {
		ours, err := honey.DiastaseHalfLifeHours(r.c)
		row := record.Row{
			Quantity: fmt.Sprintf("half-life of diastase in honey at %.0f °C", r.c), Unit: "h",
			Published: r.hours, Source: crane, Ours: ours, Tolerance: 1e-9 * r.hours,
			Verdict: Fitted, Why: "the table is interpolated",
		}
		if err != nil {
			row.Verdict, row.Why = "misses", err.Error()
		}
		rows = append(rows, row)
	}
	return rows
}

func characterRows() []record.Row {
	late := honey.Retained(honey.CharacterInput{GramsPerL: 1, Moment: honey.Whirlpool, CO2VolumesAfter: 20})
	cellar := honey.Retained(honey.CharacterInput{GramsPerL: 1, Moment: honey.Fermenting, CO2VolumesAfter: 3})
	const gahr = "Gahr and others 2019: kept by late brewhouse against cellar additions (hops)"
	return []record.Row{
		{
			Quantity: "aroma kept, whirlpool against cellar: esters 20 to 40 against 40 to 80 %", Unit: "ratio",
			Published: 0.5, Source: gahr, Ours: late.Mid / cellar.Mid, Tolerance: 0.2,
		},
		{
			Quantity: "aroma kept, whirlpool against cellar: linalool 60 against 80 %", Unit: "ratio",
			Published: 0.75, Source: gahr, Ours: late.Mid / cellar.Mid, Tolerance: 0.2,
			Why: "the index stands for a whole mix; linalool is among what the hot side spares most",
		},
	}
}
