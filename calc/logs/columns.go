package logs

import (
	"fmt"
	"slices"
	"strings"

	"skep/calc/measured"
)

// gravities takes the best column that may be gravity, and guesses its unit.
func (g *Guess) gravities(cols []sampledColumn) {
	best, score := -1, 0.0
	unit := ""
	for i := range cols {
		c := &cols[i]
		if g.Columns[i].Kind != Ignored || len(c.numbers)*2 < len(c.values) || len(c.numbers) == 0 {
			continue
		}
		name := g.Columns[i].Name
		word := named(name, "gravity", "sg", "plato", "brix", "°p", "extract", "densit", "dichte", "extrakt")
		u, s := "", 0.0
		switch {
		case shareWithin(c.numbers, 0.97, 1.2) > 0.8:
			u, s = "SG", 1
		case shareWithin(c.numbers, 970, 1200) > 0.8:
			u, s = "points", 0.9
		case word && shareWithin(c.numbers, -5, 40) > 0.8:
			u, s = "°P", 0.6
		case named(name, "p", "bx") && len(strings.TrimSpace(name)) <= 3 && shareWithin(c.numbers, -5, 40) > 0.8:
			u, s = "°P", 0.4
		}
		if u == "°P" && named(name, "brix", "bx") {
			u = "°Bx"
		}
		if word {
			s *= 2
		}
		if s > score {
			best, score, unit = i, s, u
		}
	}
	if best < 0 {
		return
	}
	g.Columns[best].Kind, g.Columns[best].Unit = LogGravity, unit
	switch {
	case unit == "°Bx":
		g.doubt("column %d is taken as a refractometer's °Bx, to be corrected for alcohol: say °P if the logger has done that", best+1)
	case unit == "points":
		g.doubt("column %d is taken as gravity times a thousand", best+1)
	}
}

// temperatures takes the beer's temperature before any other.
func (g *Guess) temperatures(cols []sampledColumn) {
	best, score := -1, 0.0
	for i := range cols {
		c := &cols[i]
		if g.Columns[i].Kind != Ignored || len(c.numbers)*2 < len(c.values) || shareWithin(c.numbers, -10, 120) < 0.8 {
			continue
		}
		name := g.Columns[i].Name
		s := 0.0
		if named(name, "temp", "°c", "°f", "celsius", "fahrenheit") || strings.EqualFold(strings.TrimSpace(name), "t") {
			s = 1
		} else if !g.Header && spread(c.numbers) > 0 && shareWithin(c.numbers, 2, 100) > 0.9 {
			s = 0.3
		}
		if named(name, "beer", "wort", "liquid", "ferment") {
			s *= 1.5
		}
		if named(name, "ambient", "room", "air", "chamber", "fridge", "target", "set") {
			s *= 0.5
		}
		if s > score {
			best, score = i, s
		}
	}
	if best < 0 {
		return
	}
	c := &g.Columns[best]
	c.Kind, c.Unit = Temperature, "°C"
	m := median(cols[best].numbers)
	switch {
	case named(c.Name, "°f", "fahrenheit", "(f)", "_f", " f") && !named(c.Name, "celsius"):
		c.Unit = "°F"
	case named(c.Name, "°c", "celsius", "(c)", "_c", " c"):
	case m > measured.LikelyFahrenheit:
		c.Unit = "°F"
		g.doubt("column %d is taken as °F, since it is about %.0f", best+1, m)
	case m > 35:
		g.doubt("column %d is taken as °C, though %.0f is warm for a beer and cold for °F", best+1, m)
	}
	if score < 1 {
		g.doubt("column %d is taken as temperature for want of another", best+1)
	}
}

func spread(x []float64) float64 {
	if len(x) == 0 {
		return 0
	}
	return slices.Max(x) - slices.Min(x)
}

func (g *Guess) doubt(format string, args ...any) {
	g.Doubts = append(g.Doubts, fmt.Sprintf(format, args...))
}
