package calc

import (
	"testing"
	"skep/calc/water"
	"math"
)

func TestLandLook(t *testing.T) {
	e := NewEngine()
	d := demo(t, "middle")
	l, err := NewLander(e, d, 0, 0)
	if err != nil { t.Fatal(err) }
	p, err := e.Predict(d)
	if err != nil { t.Fatal(err) }
	pts, err := l.Land(l.Start(), nil)
	if err != nil { t.Fatal(err) }
	b := l.Bands(pts)
	t.Log(p.Four()); t.Log(b)
	for T := 58.0; T <= 72; T += 2 {
		for _, a := range []float64{66, 72, 78,84,90} {
			for _, h := range []float64{0, 0.6, 1.2} {
				s := l.Start(); s.RestC = T; s.AttenuationLowPct = a-3; s.AttenuationHighPct = a+3; s.HoneyKg = h
				pts, _ = l.Land(s, pts); b := l.Bands(pts); q, _ := l.Quick(s)
				t.Logf("%v %v %v  dry %.2f (%.1f..%.1f) corr %.2f  body %.2f (%.1f..%.1f) corr %.2f  abv %.3f corr %.3f", T, a, h, b[Dryness].Mid, b[Dryness].Low,b[Dryness].High, b[Dryness].Mid-q.Dryness, b[Body].Mid, b[Body].Low,b[Body].High, b[Body].Mid-q.Body, b[Strength].Mid, b[Strength].Mid-q.StrengthPct)
			}
		}
	}
	_ = math.Abs
}

func BenchmarkLand(b *testing.B) {
	e := NewEngine(); d := demo(b, "middle"); l, _ := NewLander(e, d, 0, 0)
	var pts []Landed
	for b.Loop() { pts, _ = l.Land(l.Start(), pts) }
}
func BenchmarkBands(b *testing.B) {
	e := NewEngine(); d := demo(b, "middle"); l, _ := NewLander(e, d, 0, 0)
	pts, _ := l.Land(l.Start(), nil)
	for b.Loop() { l.Bands(pts) }
}
func BenchmarkQuick(b *testing.B) {
	e := NewEngine(); d := demo(b, "middle"); l, _ := NewLander(e, d, 0, 0)
	for b.Loop() { l.Quick(l.Start()) }
}
func BenchmarkNewLander(b *testing.B) {
	e := NewEngine(); d := demo(b, "middle")
	for b.Loop() { l, _ := NewLander(e, d, 0, 0); l.Quick(l.Start()) }
}
func BenchmarkWater(b *testing.B) {
	d := demo(b, "middle")
	for b.Loop() { water.For(d) }
}
func BenchmarkRefuse(b *testing.B) {
	d := demo(b, "middle")
	for b.Loop() { refuse(d) }
}
