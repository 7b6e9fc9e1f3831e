package mash

import (
	"math"

	"gonum.org/v1/gonum/interp"

	"skep/calc/message"
	"skep/calc/parallel"
	"skep/calc/sugar"
)

// What a table holds at each temperature; dextrin is the remainder.
const (
	tGlucose = iota
	tFructose
	tSucrose
	tMaltose
	tMaltotriose
	tOther
	tConversion
	tColumns
)

// Table is a mash against the temperature of one of its rests, ready to be
// asked thousands of times.
type Table struct {
	lowC, highC, stepC float64
	value, slope       [][tColumns]float64
}

// Limits of a table.
const (
	shortestStepC = 0.01
	mostNodes     = 4001
	fewestNodes   = 5
)

// Tabulate runs the mash with its rest number rest (from 0) at every stepC
// (0.01 or more) from lowC to highC (20 to 100 °C, at least four steps apart),
// and lays a twice differentiable cubic through the results. With a step of
// 0.5 °C it is good to 1e-4 of each share from 58 °C up, to 2e-4 below.
func Tabulate(in Input, rest int, lowC, highC, stepC float64) (*Table, error) {
	if rest < 0 || rest >= len(in.Rests) {
		return nil, message.Fault("rest %d is to be varied, the mash has %d", rest+1, len(in.Rests))
	}
	if !(lowC >= restLowC && highC <= restHighC && lowC < highC) {
		return nil, message.Fault("a mash from %g to %g °C: outside %g to %g, rising", lowC, highC, restLowC, restHighC)
	}
	if !(stepC >= shortestStepC) || math.IsInf(stepC, 1) {
		return nil, message.Fault("a mash every %g °C: the step must be %g or more", stepC, shortestStepC)
	}
	nodes := int(math.Ceil((highC-lowC)/stepC-1e-9)) + 1
	if nodes < fewestNodes || nodes > mostNodes {
		return nil, message.Fault("a mash from %g to %g °C every %g: %d temperatures, outside %d to %d", lowC, highC, stepC, nodes, fewestNodes, mostNodes)
	}
	t := &Table{lowC: lowC, highC: highC, stepC: (highC - lowC) / float64(nodes-1),
		value: make([][tColumns]float64, nodes), slope: make([][tColumns]float64, nodes)}
	x, y := make([]float64, nodes), make([]float64, nodes)
	for i := range nodes {
		x[i] = min(lowC+float64(i)*t.stepC, highC)
	}
	var errs [tabulators]error
	parallel.Each(tabulators, tabulators, func(_, n int) { errs[n] = t.run(in, rest, x, n) })
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	for c := range tColumns {
		for i := range nodes {
			y[i] = t.value[i][c]
		}
		var cubic interp.NotAKnotCubic
		if err := cubic.Fit(x, y); err != nil {
			return nil, message.Fault("the mash cannot be tabulated: %w", err)
		}
		for i := range nodes {
			t.slope[i][c] = cubic.PredictDerivative(x[i])
		}
	}
	return t, nil
}

// tabulators is how many goroutines share the mashes of a table.
const tabulators = 2

// run does every so many mashes of a table, from number n on.
func (t *Table) run(in Input, rest int, tC []float64, n int) error {
	in.Rests = append([]Rest(nil), in.Rests...)
	p, err := Committed().prepare(in)
	if err != nil {
		return err
	}
	for i := n; i < len(tC); i += tabulators {
		in.Rests[rest].TemperatureC = tC[i]
		if p.legs, err = schedule(in.Rests, in.HeatKPerMin); err != nil {
			return err
		}
		if err := p.run(nil); err != nil {
			return err
		}
		r := p.result()
		t.value[i] = [tColumns]float64{r.Wort.Glucose, r.Wort.Fructose, r.Wort.Sucrose,
			r.Wort.Maltose, r.Wort.Maltotriose, r.Wort.Other, r.Conversion}
	}
	return nil
}

// RangeC is the span of temperatures; [Table.At] holds its ends beyond them.
func (t *Table) RangeC() (low, high float64) { return t.lowC, t.highC }

// At is the wort, as shares of its extract that sum to 1, and the conversion,
// with the rest at tempC and the doubt d. It does not allocate and is smooth
// in all its arguments. A temperature that is not a number counts as the
// lowest.
func (t *Table) At(tempC float64, d Doubt) (wort sugar.Spectrum, conversion float64) {
	effective := d.EffectiveC(tempC)
	at := t.at(effective)
	s := sugar.Spectrum{
		Glucose: max(0, at.column(tGlucose)), Fructose: max(0, at.column(tFructose)), Sucrose: max(0, at.column(tSucrose)),
		Maltose: max(0, at.column(tMaltose)), Maltotriose: max(0, at.column(tMaltotriose)), Other: max(0, at.column(tOther)),
	}
	s.Dextrin = max(0, 1-s.Total())
	s = d.shift(s)
	if tempC != effective {
		at = t.at(tempC)
	}
	return s, max(0, at.column(tConversion))
}

// place is where a temperature lies between two nodes, by the weights of Hermite's
// cubic.
type place struct {
	a, b, da, db *[tColumns]float64
	ha, hb       float64
	ga, gb       float64
}

// at is the place of a temperature, held within the table.
func (t *Table) at(tempC float64) place {
	q := (tempC - t.lowC) / t.stepC
	last := len(t.value) - 1
	i, u := 0, 0.0
	switch {
	case !(q > 0): // NaN as well
	case q >= float64(last):
		i, u = last-1, 1
	default:
		i = int(q)
		u = q - float64(i)
	}
	u2 := u * u
	u3 := u2 * u
	return place{
		a: &t.value[i], b: &t.value[i+1], da: &t.slope[i], db: &t.slope[i+1],
		ha: 2*u3 - 3*u2 + 1, hb: 3*u2 - 2*u3,
		ga: (u3 - 2*u2 + u) * t.stepC, gb: (u3 - u2) * t.stepC,
	}
}

// column is the cubic of one column there.
func (p *place) column(c int) float64 {
	return p.ha*p.a[c] + p.hb*p.b[c] + p.ga*p.da[c] + p.gb*p.db[c]
}
