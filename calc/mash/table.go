package mash

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

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
	x, err := places(&in, rest, lowC, highC, stepC)
	if err != nil {
		return nil, err
	}
	return tabulate(in, rest, x, func(p *prepared, _ int) error { return p.run(nil) })
}

// places are the temperatures of a table's mashes, where there can be one.
func places(in *Input, rest int, lowC, highC, stepC float64) ([]float64, error) {
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
	x := make([]float64, nodes)
	for i := range x {
		x[i] = lowC + float64(i)*((highC-lowC)/float64(nodes-1))
	}
	x[nodes-1] = highC
	return x, nil
}

// tabulate makes a table of mashes at those temperatures of a rest, each carried to its
// end by run.
func tabulate(in Input, rest int, x []float64, run func(p *prepared, i int) error) (*Table, error) {
	last := len(x) - 1
	t := &Table{lowC: x[0], highC: x[last], stepC: (x[last] - x[0]) / float64(last),
		value: make([][tColumns]float64, len(x)), slope: make([][tColumns]float64, len(x))}
	err := eachMash(in, rest, x, func(p *prepared, i int) error {
		if err := run(p, i); err != nil {
			return err
		}
		r := p.result()
		t.value[i] = [tColumns]float64{r.Wort.Glucose, r.Wort.Fructose, r.Wort.Sucrose,
			r.Wort.Maltose, r.Wort.Maltotriose, r.Wort.Other, r.Conversion}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return t, t.smooth()
}

// smooth gives the cubics their slopes: those of the spline, twice differentiable
// everywhere and three times at the second node from each end ("not a knot": C. de
// Boor, A Practical Guide to Splines, 1978, IV; from memory). At even places they are a
// tridiagonal system, solved at once for all columns.
func (t *Table) smooth() error {
	n := len(t.value)
	per := 1 / t.stepC
	below, on, above := make([]float64, n-1), make([]float64, n), make([]float64, n-1)
	right := mat.NewDense(n, tColumns, nil)
	for i := range n {
		switch i {
		case 0:
			on[i], above[i] = 1, 2
		case n - 1:
			below[i-1], on[i] = 2, 1
		default:
			below[i-1], on[i], above[i] = 1, 4, 1
		}
		for c := range tColumns {
			v := func(k int) float64 { return t.value[k][c] }
			switch i {
			case 0:
				right.Set(i, c, per*(-2.5*v(0)+2*v(1)+0.5*v(2)))
			case n - 1:
				right.Set(i, c, per*(2.5*v(n-1)-2*v(n-2)-0.5*v(n-3)))
			default:
				right.Set(i, c, per*3*(v(i+1)-v(i-1)))
			}
		}
	}
	if err := mat.NewTridiag(n, below, on, above).SolveTo(right, false, right); err != nil {
		return message.Fault("the mash cannot be tabulated: %w", err)
	}
	for i := range n {
		copy(t.slope[i][:], right.RawRowView(i))
	}
	return nil
}

// tabulators is how many goroutines share the mashes of a table.
const tabulators = 2

// eachMash readies the mash with a rest at each temperature, on every goroutine with
// memory of its own, and hands it over.
func eachMash(in Input, rest int, tC []float64, do func(p *prepared, i int) error) error {
	var errs [tabulators]error
	parallel.Each(tabulators, tabulators, func(_, n int) {
		in := in
		in.Rests = slices.Clone(in.Rests)
		p, err := Committed().prepare(in)
		for i := n; i < len(tC) && err == nil; i += tabulators {
			in.Rests[rest].TemperatureC = tC[i]
			if p.legs, err = schedule(in.Rests, in.HeatKPerMin); err == nil {
				err = do(p, i)
			}
		}
		errs[n] = err
	})
	return errors.Join(errs[:]...)
}

// RangeC is the span of temperatures; [Table.At] holds its ends beyond them.
func (t *Table) RangeC() (low, high float64) { return t.lowC, t.highC }

// At is the wort, as shares of its extract that sum to 1, and the conversion,
// with the rest at tempC and the doubt d. It does not allocate and is smooth
// in all its arguments. A temperature that is not a number counts as the
// lowest.
func (t *Table) At(tempC float64, d Doubt) (wort sugar.Spectrum, conversion float64) {
	conversion = t.into(&wort, tempC, d)
	return wort, conversion
}

// into is At where the wort is wanted: a copy of what was written just now waits.
func (t *Table) into(s *sugar.Spectrum, tempC float64, d Doubt) (conversion float64) {
	effective := d.EffectiveC(tempC)
	at := t.at(effective)
	s.Glucose, s.Fructose, s.Sucrose = notBelow0(at.column(tGlucose)), notBelow0(at.column(tFructose)), notBelow0(at.column(tSucrose))
	s.Maltose, s.Maltotriose, s.Other = notBelow0(at.column(tMaltose)), notBelow0(at.column(tMaltotriose)), notBelow0(at.column(tOther))
	s.Dextrin = 0
	s.Dextrin = notBelow0(1 - s.Total())
	d.shift(s)
	if tempC != effective {
		at = t.at(tempC)
	}
	return notBelow0(at.column(tConversion))
}

// notBelow0 costs less than max, which minds what is no number and orders the zeroes.
func notBelow0(x float64) float64 {
	if x < 0 {
		return 0
	}
	return x
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
