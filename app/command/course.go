package command

import (
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"

	"skep/app/command/document"
	"skep/app/safetext"
	"skep/calc"
	"skep/calc/design"
)

type courseCommand struct {
	File string `arg:"" name:"FILE" help:"The design; - is standard input."`
	JSON bool   `name:"json" xor:"form" help:"Print one JSON object instead of the table."`
	CSV  bool   `name:"csv" xor:"form" help:"Print comma-separated values, all columns."`
	evidence
}

func (courseCommand) Help() string {
	return `Prints the predicted fermentation hour by hour after pitching: gravity and the
rate of carbon dioxide with their bands (10th, 50th, 90th percentile), how much
of the attenuation is done, and what falls into the hour. The honey window is
open between its two lines; its own band stands above the table. How fast a
beer ferments is known to a factor of 1.5 either way: measure.

  skep course gate-field.toml`
}

func (c *courseCommand) Run(s *session) error {
	d, err := s.load(c.File)
	if err != nil {
		return err
	}
	k, err := c.known(d)
	if err != nil {
		return err
	}
	d = k.Conditioned.Design
	course, err := k.Engine.Course(d, 0)
	if err != nil {
		return wrong(err)
	}
	switch {
	case c.JSON:
		return s.json(document.CourseOf(&course, d, hoursShown(&course), events(&course, d)))
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
func events(c *calc.Course, d design.Design) map[int]string {
	at := map[int][]string{}
	add := func(hour float64, what string) {
		k := int(math.Floor(hour + 0.5))
		at[k] = append(at[k], what)
	}
	add(0, "pitched")
	add(c.HeightHours.Mid, "height")
	add(c.HoneyWindowHours[0].Mid, "honey window opens")
	for i, h := range d.Honey {
		if h.Moment == design.MomentFermenting && h.MassKg > 0 {
			add(c.HoneyHours[i], fmt.Sprintf("honey.%d goes in", i))
		}
	}
	add(c.HoneyWindowHours[1].Mid, "honey window closes")
	add(c.FinishedHours.Mid, "finished")
	out := map[int]string{}
	for k, list := range at {
		out[k] = strings.Join(list, ", ")
	}
	return out
}

func (s *session) courseTable(c *calc.Course, d design.Design) {
	title := d.Title
	if title == "" {
		title = "Untitled design"
	}
	s.printf("%s, with %s at %s °C\n\n", title, d.Yeast[0].Name, short(d.Yeast[0].TemperatureC))
	s.row("hours after pitching", "low", "mid", "high", "")
	s.band("height of fermentation", c.HeightHours, indexDecimals, "h")
	s.band("honey window opens", c.HoneyWindowHours[0], indexDecimals, "h")
	s.band("honey window closes", c.HoneyWindowHours[1], indexDecimals, "h")
	s.band("finished", c.FinishedHours, indexDecimals, "h")
	s.printf("\n")
	band := func(b calc.Band, decimals int) string {
		return fmt.Sprintf("%s (%s to %s)", fixed(b.Mid, decimals), fixed(b.Low, decimals), fixed(b.High, decimals))
	}
	what := events(c, d)
	grid := [][]string{{"hour", "gravity SG", "CO2 g/L an hour", "done %", ""}}
	for k := range hoursShown(c) {
		grid = append(grid, []string{fixed(c.Hours[k], 0), band(c.GravitySG[k], gravityDecimals), band(c.CO2RateGPerLH[k], 2), fixed(c.AttenuatedPct[k], 0), what[k]})
	}
	s.grid(grid)
	s.list("warnings", c.Warnings)
}

func (s *session) courseCSV(c *calc.Course, d design.Design) error {
	w := csv.NewWriter(&s.out)
	_ = w.Write([]string{"hour", "gravity_sg_low", "gravity_sg_mid", "gravity_sg_high", // into memory: can't fail
		"co2_g_per_l_h_low", "co2_g_per_l_h_mid", "co2_g_per_l_h_high",
		"attenuated_pct", "fermentable_g_l", "yeast_billion_per_l", "event"})
	what := events(c, d)
	for k := range hoursShown(c) {
		g, r := c.GravitySG[k], c.CO2RateGPerLH[k]
		var line []string
		for _, v := range []float64{c.Hours[k], g.Low, g.Mid, g.High, r.Low, r.Mid, r.High, c.AttenuatedPct[k], c.FermentableGPerL[k], c.YeastBillionPerL[k]} {
			line = append(line, strconv.FormatFloat(v, 'f', -1, 64))
		}
		_ = w.Write(append(line, safetext.Cell(what[k])))
	}
	w.Flush()
	return w.Error()
}
