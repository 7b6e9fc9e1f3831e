package document

import (
	"skep/calc"
	"skep/calc/design"
	"skep/calc/message"
)

// Course is a fermentation hour by hour.
type Course struct {
	Title string `json:"title"`
	Yeast string `json:"yeast"`

	HeightHours      calc.Band    `json:"height_hours" about:"after pitching, as all hours are"`
	HoneyWindowHours [2]calc.Band `json:"honey_window_hours" about:"opens, closes"`
	FinishedHours    calc.Band    `json:"finished_hours"`

	Hours    []Hour            `json:"hours" about:"from pitching to a day after the late end"`
	Warnings []message.Message `json:"warnings"`
}

// Hour is one of them.
type Hour struct {
	Hour             float64   `json:"hour"`
	GravitySG        calc.Band `json:"gravity_sg" about:"what a hydrometer shows at 20 °C"`
	CO2RateGPerLH    calc.Band `json:"co2_g_per_l_h" about:"given off, per litre and hour"`
	AttenuatedPct    float64   `json:"attenuated_pct" about:"of all that will ferment"`
	FermentableGPerL float64   `json:"fermentable_g_l" about:"still to ferment of what is in"`
	YeastBillionPerL float64   `json:"yeast_billion_per_l"`
	TemperatureC     float64   `json:"temperature_c" about:"that the beer is to be kept at"`
	Event            string    `json:"event" about:"what falls into the hour; empty in most"`
}

// CourseOf makes the document of so many hours, with what falls into each.
func CourseOf(c *calc.Course, d design.Design, hours int, events map[int]string) Course {
	out := Course{Title: d.Title, Yeast: d.Yeast[0].Name, HeightHours: c.HeightHours, HoneyWindowHours: c.HoneyWindowHours,
		FinishedHours: c.FinishedHours, Hours: []Hour{}, Warnings: list(c.Warnings)}
	for k := range hours {
		h := Hour{Hour: c.Hours[k], GravitySG: c.GravitySG[k], CO2RateGPerLH: c.CO2RateGPerLH[k], AttenuatedPct: c.AttenuatedPct[k],
			FermentableGPerL: c.FermentableGPerL[k], YeastBillionPerL: c.YeastBillionPerL[k], Event: events[k]}
		if k < len(c.TemperatureC) {
			h.TemperatureC = c.TemperatureC[k]
		}
		out.Hours = append(out.Hours, h)
	}
	return out
}

// Sweep is one lever moved across its range.
type Sweep struct {
	Key  string     `json:"key" about:"the lever, as --set takes it"`
	Unit string     `json:"unit" about:"of the lever; empty where it has none"`
	Rows []SweepRow `json:"rows" about:"in the order of the values"`
}

// SweepRow is the beer at one value.
type SweepRow struct {
	Value                      float64   `json:"value"`
	OriginalGravitySG          calc.Band `json:"original_gravity_sg"`
	EffectiveOriginalGravitySG calc.Band `json:"effective_original_gravity_sg"`
	FinalGravitySG             calc.Band `json:"final_gravity_sg"`
	StrengthPct                calc.Band `json:"strength_pct"`
	ApparentAttenuationPct     calc.Band `json:"apparent_attenuation_pct"`
	Dryness                    calc.Band `json:"dryness"`
	Body                       calc.Band `json:"body"`
	HoneyCharacter             calc.Band `json:"honey_character"`
	BitternessIBU              calc.Band `json:"bitterness_ibu"`
	ColourEBC                  calc.Band `json:"colour_ebc"`
}

// Row makes one row.
func Row(value float64, p *calc.Prediction) SweepRow {
	return SweepRow{value, p.OriginalGravitySG, p.EffectiveOriginalGravitySG, p.FinalGravitySG, p.StrengthPct, p.ApparentAttenuationPct,
		p.Dryness, p.Body, p.HoneyCharacter, p.BitternessIBU, p.ColourEBC}
}
