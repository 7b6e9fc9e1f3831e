package plotting

import (
	"math"
	"strconv"

	"skep/calc"
	"skep/plotting/style"
)

// The curves of these tests are invented: smooth formulas with about the
// shape and size a beer's have, not results of the engine and no claim about
// any mash. They exist so that pictures can be judged by eye and by golden.

// invented are curves from 58 to 72 °C in steps of a quarter degree. dry
// shifts them: 0 is the present design of the pictures.
func invented(dry float64) calc.Curves {
	var c calc.Curves
	for t := 58.0; t <= 72; t += 0.25 {
		c.TemperatureC = append(c.TemperatureC, t)
		for o, b := range inventedAt(t, dry) {
			c.Bands[o] = append(c.Bands[o], b)
		}
	}
	return c
}

func inventedAt(t, dry float64) [calc.Outcomes]calc.Band {
	hot := math.Log1p(math.Exp((t-66)/1.7)) * 1.7 // bends upwards at about 66 °C
	cold := math.Log1p(math.Exp((61-t)/1.3)) * 1.3
	doubt := 1 + 0.08*(t-62)*(t-62)/10
	fg := 1.0082 + 0.0017*hot + 0.0006*cold - 0.0012*dry
	abv := 6.3 - 0.21*hot - 0.08*cold + 0.35*dry
	dryness := 56 - 4.2*hot - 1.6*cold + 6*dry
	body := 39 + 3.4*hot + 1.2*cold - 1.5*dry
	return [calc.Outcomes]calc.Band{
		calc.FinalGravity: {Low: fg - 0.0011*doubt, Mid: fg, High: fg + 0.0014*doubt},
		calc.Strength:     {Low: abv - 0.16*doubt, Mid: abv, High: abv + 0.13*doubt},
		calc.Dryness:      {Low: dryness - 4.2*doubt, Mid: dryness, High: dryness + 3.6*doubt},
		calc.Body:         {Low: body - 1.6*doubt, Mid: body, High: body + 1.9*doubt},
	}
}

func inventedUnits() Units {
	u := Units{TemperatureLabel: "mash rest, °C", Temperature: Unit{Name: "°C"}}
	u.Outcome[calc.FinalGravity] = Unit{Name: "SG", Tick: Decimals(3)}
	u.Outcome[calc.Strength] = Unit{Name: "% vol", Tick: Decimals(1)}
	return u
}

const inventedAtC = 66.5

// inventedFour are four pictures with the present design and a ghost.
func inventedFour() []Picture {
	lines := []Line{
		{Name: "before", Role: Before, Curves: invented(-0.9)},
		{Name: "now", Role: Now, Curves: invented(0), Marks: inventedAt(inventedAtC, 0)},
	}
	ranges := Span(lines[0].Curves, lines[1].Curves)
	pictures := Four(lines, inventedAtC, ranges, inventedUnits())
	titles := [calc.Outcomes]string{"final gravity", "strength, % vol", "dryness", "body"}
	values := [calc.Outcomes]string{"1.010 (1.008 to 1.011)", "6.0 (5.8 to 6.1)", "51 (45 to 56)", "43 (41 to 46)"}
	for i := range pictures {
		pictures[i].Title, pictures[i].Value = titles[i], values[i]
	}
	return pictures
}

// inventedStrains are four pictures with n strains over each other.
func inventedStrains(n int) []Picture {
	var lines []Line
	var all []calc.Curves
	for i := range n {
		c := invented([...]float64{0, 1.3, -0.9, 2.1, -2.2, 0.6}[i%style.Strains])
		all = append(all, c)
		lines = append(lines, Line{Name: "Strain " + strconv.Itoa(i+1), Role: Strain, Index: i, Curves: c})
	}
	return Four(lines, inventedAtC, Span(all...), inventedUnits())
}
