package record_test

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"

	"skep/calc/record"
	"skep/calc/sugar"
	"skep/calc/taste"
)

// The psychometrics of two glasses and of triangles stand here and not in the
// program, as nothing in it asks for them yet: they say how many pairs a palate
// takes, and that one person should never taste triangles.

// pairRight is the chance to name the stronger of two that are d' apart.
func pairRight(dPrime float64) float64 { return distuv.UnitNormal.CDF(dPrime / math.Sqrt2) }

// triangleRight is the chance to find the odd one of three.
func triangleRight(dPrime float64) float64 {
	phi := distuv.UnitNormal.CDF
	f := func(z float64) float64 {
		return (phi(-z*math.Sqrt(3)+dPrime*math.Sqrt(2.0/3)) + phi(-z*math.Sqrt(3)-dPrime*math.Sqrt(2.0/3))) * distuv.UnitNormal.Prob(z)
	}
	return 2 * quad.Fixed(f, 0, 8, 200, nil, 0)
}

// critical is the least number right of n that chance alone gives with less than
// 5 %.
func critical(n int, guess float64) int {
	b := distuv.Binomial{N: float64(n), P: guess}
	for k := 0; k <= n; k++ {
		if 1-b.CDF(float64(k-1)) <= 0.05 {
			return k
		}
	}
	return n + 1
}

// trials is the number of tastings from which on a difference is found with 80 %,
// at 5 % one-sided: power goes up and down from one number to the next, so that
// some smaller numbers do as well.
func trials(guess, right float64) int {
	const most = 400
	for n := most; n > 1; n-- {
		k := critical(n, guess)
		if k > n || 1-(distuv.Binomial{N: float64(n), P: right}).CDF(float64(k-1)) < 0.8 {
			return n + 1
		}
	}
	return 1
}

// choiceError is the standard error of a difference of two beers after n choices
// at even odds, logits.
func choiceError(n int) float64 { return 1 / math.Sqrt(float64(n)*0.25) }

// stronger is one lager with more and more alcohol, by package taste: fuller at
// each step, and no less sweet. Orders were published, no sizes, so nought is the
// bound.
func stronger() []record.Row {
	left := sugar.Spectrum{Maltose: 2, Maltotriose: 5, Dextrin: 22, Other: 9}
	body := func(strength float64) float64 { return taste.Body(left, 0, strength, taste.Mid()) }
	var rows []record.Row
	for _, r := range [...][2]float64{{0.05, 2.8}, {2.8, 4.5}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("CK-56: body of the same beer at %v %% vol over that at %v", r[1], r[0]), Unit: "of 100", Published: 0, Bound: record.AtLeast,
			Source: "Ivanova et al., Food Qual. Prefer. 2023, 105004 (read, abstract; n = 100): fuller", Ours: body(r[1]) - body(r[0])})
	}
	return rows
}

// tastings is two glasses and triangles.
func tastings() []record.Row {
	const worked = "signal detection, worked out"
	var rows []record.Row
	for _, r := range [...][2]float64{{0.25, 0.570}, {0.5, 0.638}, {0.75, 0.702}, {1, 0.760}, {1.5, 0.856}, {2, 0.921}, {3, 0.983}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("CK-52: two glasses, d' %v, named rightly", r[0]), Unit: "share", Published: r[1], Source: worked, Ours: pairRight(r[0]), Tolerance: 0.0006})
	}
	for _, r := range [...][2]float64{{0, 0.333}, {1, 0.418}, {1.5, 0.506}, {2, 0.605}, {3, 0.781}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("CK-53: triangle, d' %v, named rightly", r[0]), Unit: "share", Published: r[1], Source: worked, Ours: triangleRight(r[0]), Tolerance: 0.001})
	}
	for _, r := range [...][2]int{{5, 4}, {6, 5}, {8, 6}, {10, 7}, {12, 8}, {15, 9}, {20, 11}, {24, 13}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("CK-54: triangle, right of %d for 5 %%", r[0]), Unit: "tastings", Published: float64(r[1]), Source: "FAO, v7180e, appendix A", Ours: float64(critical(r[0], 1.0/3))})
	}
	for _, r := range [...][2]int{{5, 5}, {8, 7}, {10, 9}, {12, 10}, {20, 15}, {30, 20}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("two glasses or duo-trio, right of %d for 5 %%", r[0]), Unit: "tastings", Published: float64(r[1]), Source: "binomial, worked out", Ours: float64(critical(r[0], 0.5))})
	}
	for _, r := range [...]struct {
		d float64
		n int
	}{{0.5, 89}, {0.75, 42}, {1, 26}, {1.5, 13}, {2, 8}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("two glasses, d' %v, for 80 %% power at 5 %%", r.d), Unit: "tastings", Published: float64(r.n), Source: "worked out", Ours: float64(trials(0.5, pairRight(r.d)))})
	}
	for _, r := range [...]struct {
		d float64
		n int
	}{{1, 215}, {1.5, 57}, {2, 23}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("triangle, d' %v, for 80 %% power at 5 %%", r.d), Unit: "tastings", Published: float64(r.n), Source: "worked out", Ours: float64(trials(1.0/3, triangleRight(r.d))), Why: "from 220 on each number does, and some before; the published 215 is one of these or rounded"})
	}
	for _, r := range [...]struct {
		n     int
		error float64
	}{{5, 0.9}, {10, 0.63}, {20, 0.45}, {50, 0.28}} {
		rows = append(rows, record.Row{Quantity: fmt.Sprintf("CK-55: two glasses, standard error after %d at even odds", r.n), Unit: "logits", Published: r.error, Source: "1/sqrt(n p q), worked out", Ours: choiceError(r.n), Tolerance: 0.006})
	}
	return append(rows, stronger()...)
}
