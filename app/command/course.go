package command

import (
	"encoding/csv"
	"fmt"
	"math"

	"skep/app/command/document"
	"skep/app/command/helptext"
	"skep/app/safetext"
	"skep/app/words"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/message"
	"skep/calc/quantity"
)

type courseCommand struct {
	File string `arg:"" name:"FILE" help:"The design; - is standard input."`
	JSON bool   `name:"json" xor:"form" help:"Print one JSON object instead of the table."`
	CSV  bool   `name:"csv" xor:"form" help:"Print comma-separated values, all columns."`
	evidence
}

func (courseCommand) Detail(say helptext.Speaker) string {
	return helptext.Worked(say(message.New("Prints the predicted fermentation hour by hour after pitching: gravity and the rate of carbon dioxide with their bands (10th, 50th, 90th percentile), how much of the attenuation is done, and what falls into the hour. The honey window is open between its two lines; its own band stands above the table. How fast a beer ferments is known to a factor of 1.5 either way: measure.")), `skep course gate-field.toml`)
}

func (c *courseCommand) Run(s *session) error {
	k, err := c.knownIn(s, c.File, nil)
	if err != nil {
		return err
	}
	d := k.Conditioned.Design
	course, err := k.Engine.Course(d, 0)
	if err != nil {
		return wrong(err)
	}
	switch {
	case c.JSON:
		return s.json(document.CourseOf(&course, d, hoursShown(&course), inEnglish(events(&course, d))))
	case c.CSV:
		return s.courseCSV(&course, d)
	}
	s.courseTable(&course, d)
	return nil
}

// shown is how many hours are printed: to a day after the late end.
func hoursShown(c *calc.Course) int {
	return min(len(c.Hours), int(math.Ceil(c.FinishedHours.High))+25)
}

// events are what falls into each hour.
func events(c *calc.Course, d design.Design) map[int][]message.Message {
	at := map[int][]message.Message{}
	add := func(hour float64, what message.Message) {
		k := int(math.Floor(hour + 0.5))
		at[k] = append(at[k], what)
	}
	add(0, message.New("pitched"))
	add(c.HeightHours.Mid, message.New("height"))
	add(c.HoneyWindowHours[0].Mid, message.New("honey window opens"))
	for i, h := range d.Honey {
		if h.Moment == design.MomentFermenting && h.MassKg > 0 {
			add(c.HoneyHours[i], message.New("{honey} goes in", fmt.Sprintf("honey.%d", i)))
		}
	}
	add(c.HoneyWindowHours[1].Mid, message.New("honey window closes"))
	add(c.FinishedHours.Mid, message.New("finished"))
	return at
}

// inEnglish are the events as the formats have them.
func inEnglish(at map[int][]message.Message) map[int]string {
	out := map[int]string{}
	for k, list := range at {
		out[k] = message.InEnglish(list, ", ")
	}
	return out
}

func (s *session) courseTable(c *calc.Course, d design.Design) {
	s.line("{title}, with {yeast} at {temperature}", titled(d.Title), d.Yeast[0].Name, quantity.Of(quantity.Temperature, d.Yeast[0].TemperatureC))
	s.printf("\n")
	s.row(words.T("hours after pitching"), words.T("low"), words.T("mid"), words.T("high"), "")
	s.hours("", c.HeightHours, c.HoneyWindowHours, c.FinishedHours)
	s.flush()
	s.printf("\n")
	what := events(c, d)
	grid := [][]string{{words.T("hour"), words.T("gravity {unit}", s.unit(quantity.Gravity)), words.T("CO2 g/L an hour"), words.T("done %"), ""}}
	for k := range hoursShown(c) {
		grid = append(grid, []string{s.number(quantity.None, c.Hours[k], 0), s.middle(quantity.Gravity, c.GravitySG[k], gravityDecimals),
			s.middle(quantity.None, c.CO2RateGPerLH[k], 2), s.number(quantity.None, c.AttenuatedPct[k], 0), s.joined(what[k], ", ")})
	}
	s.printf("%s", helptext.Grid(grid))
	s.list(words.T("warnings"), c.Warnings)
}

func (s *session) courseCSV(c *calc.Course, d design.Design) error {
	w := csv.NewWriter(&s.out)
	_ = w.Write([]string{"hour", "gravity_sg_low", "gravity_sg_mid", "gravity_sg_high", // into memory: can't fail
		"co2_g_per_l_h_low", "co2_g_per_l_h_mid", "co2_g_per_l_h_high",
		"attenuated_pct", "fermentable_g_l", "yeast_billion_per_l", "event"})
	what := inEnglish(events(c, d))
	for k := range hoursShown(c) {
		g, r := c.GravitySG[k], c.CO2RateGPerLH[k]
		var line []string
		for _, v := range []float64{c.Hours[k], g.Low, g.Mid, g.High, r.Low, r.Mid, r.High, c.AttenuatedPct[k], c.FermentableGPerL[k], c.YeastBillionPerL[k]} {
			line = append(line, short(v))
		}
		_ = w.Write(append(line, safetext.Cell(what[k])))
	}
	w.Flush()
	return w.Error()
}
