package calc

import (
	"os"
	"testing"

	"skep/calc/design"
)

func demo(t testing.TB, name string) design.Design {
	t.Helper()
	src, err := os.ReadFile("../assets/demo/gate-field-" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	doc, findings := design.Parse(name, src)
	if err := design.FirstError(findings); err != nil {
		t.Fatal(err)
	}
	return doc.Design
}

func TestLook(t *testing.T) {
	e := NewEngine()
	for _, n := range []string{"dry", "middle", "soft"} {
		p, err := e.Predict(demo(t, n))
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s %+v", n, p)
	}
	c, err := e.Curves(demo(t, "middle"), 0, []float64{58, 60, 62, 64, 66, 68, 70, 72})
	if err != nil {
		t.Fatal(err)
	}
	for o := range c.Bands {
		t.Log(o, c.Bands[o])
	}
}

func BenchmarkPredict(b *testing.B) {
	d := demo(b, "middle")
	b.ReportAllocs()
	e := NewEngine()
	for b.Loop() {
		if _, err := e.Predict(d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPredictCold(b *testing.B) {
	d := demo(b, "middle")
	b.ReportAllocs()
	e := NewEngine()
	for b.Loop() {
		e.mashKey, e.takes = "", nil
		if _, err := e.Predict(d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCurves(b *testing.B) {
	d := demo(b, "middle")
	temps := []float64{}
	for t := 58.0; t <= 72; t += 0.5 {
		temps = append(temps, t)
	}
	b.ReportAllocs()
	e := NewEngine()
	for b.Loop() {
		if _, err := e.Curves(d, 0, temps); err != nil {
			b.Fatal(err)
		}
	}
}
