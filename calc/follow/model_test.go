package follow

import (
	"math"
	"testing"

	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/measured"
)

func modelOf(t testing.TB, d design.Design) *model {
	t.Helper()
	tl := measured.Timeline{}
	c := measured.Condition(d, &tl, 0)
	m, err := newModel(calc.NewEngine(), &c, 0)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// loggedModel is a design whose first honey went in at an hour after pitching.
func loggedModel(t testing.TB, d design.Design, hours float64) *model {
	t.Helper()
	m, err := newModel(calc.NewEngine(), &measured.Conditioned{Design: d, HoneyHours: []float64{hours}}, 0)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.6g, expected %.6g within %.2g", what, got, want, within)
	}
}

func nearBand(t testing.TB, what string, got, want calc.Band, within float64) {
	t.Helper()
	near(t, what+" low", got.Low, want.Low, within)
	near(t, what+" mid", got.Mid, want.Mid, within)
	near(t, what+" high", got.High, want.High, within)
}

func BenchmarkDraw(b *testing.B) {
	m := modelOf(b, demotest.Design(b, "middle"))
	var x evaluation
	draws := scores()
	i := 0
	b.ReportAllocs()
	for b.Loop() {
		m.run(&draws[i%len(draws)], &x)
		i++
	}
}
