package ui

import (
	"testing"

	"skep/calc"
	"skep/calc/quantity"
)

func TestDifferencesInWords(t *testing.T) {
	t.Parallel()
	band := func(low, mid, high float64) calc.Band { return calc.Band{Low: low, Mid: mid, High: high} }
	sg, plato := NewFormatter(quantity.Units{}), NewFormatter(quantity.Units{Gravity: quantity.Plato, DecimalComma: true})
	for _, c := range []struct {
		f    Formatter
		than [calc.Outcomes]calc.Band
		want string
	}{
		{sg, [calc.Outcomes]calc.Band{}, "no difference to be sure of"},
		{sg, [calc.Outcomes]calc.Band{band(-0.001, 0.002, 0.003), band(-1, 0.2, 1), band(-3, -1, 0), band(0, 2, 3)}, "no difference to be sure of"},
		{sg, [calc.Outcomes]calc.Band{band(0.0002, 0.0004, 0.0007), band(-0.3, -0.2, 0.1), band(-12, -8, -3), band(0.3, 1.2, 2)},
			"ends higher by 0.4 points (0.2 to 0.7), sweeter by 8 (3 to 12), fuller by 1.2 (0.3 to 2.0), nothing else to be sure of"},
		{plato, [calc.Outcomes]calc.Band{band(-0.0078, -0.0039, -0.00195), band(0.1, 0.2, 0.3), band(3, 8, 12), band(-2, -1.2, -0.3)},
			"ends lower by 1,00 °P (0,50 to 2,00), stronger by 0,2 % (0,1 to 0,3), drier by 8 (3 to 12), thinner by 1,2 (0,3 to 2,0)"},
		{sg, [calc.Outcomes]calc.Band{band(0.000001, 0.000002, 0.000003), {}, {}, {}}, "no difference to be sure of"},
	} {
		if got := c.f.Differences(c.than); got != c.want {
			t.Errorf("%v: %q, want %q", c.than, got, c.want)
		}
	}
}
