package tune

import (
	"fmt"
	"os"
	"testing"

	"skep/calc"
	"skep/calc/design"
)

func demo(t testing.TB, name string) design.Design {
	t.Helper()
	src, err := os.ReadFile("../../assets/demo/gate-field-" + name + ".toml")
	if err != nil {
		t.Fatal(err)
	}
	doc, findings := design.Parse(name, src)
	if err := design.FirstError(findings); err != nil {
		t.Fatal(err)
	}
	return doc.Design
}

func ptr(x float64) *float64 { return &x }

func TestLook(t *testing.T) {
	d := demo(t, "middle")
	tu, err := New(calc.NewEngine(), d)
	if err != nil {
		t.Fatal(err)
	}
	fmt.Println("now", tu.atNow, tu.width)
	for _, w := range []Wishes{
		{Dryness: ptr(60), Body: ptr(38), StrengthPct: ptr(5.4)},
		{Dryness: ptr(60), Body: ptr(38)},
		{Dryness: ptr(65), Body: ptr(36.5)},
		{Dryness: ptr(40), Body: ptr(45)},
		{Dryness: ptr(90), Body: ptr(90)},
		{Dryness: ptr(100), Body: ptr(0)},
		{StrengthPct: ptr(7)},
	} {
		for _, f := range []Levers{Free(nil), Free(nil).ThisStrain(), {Rest: true}, {}} {
			r, err := tu.To(w, f)
			if err != nil {
				t.Fatal(err)
			}
			fmt.Println("reached", r.Reached, "bind", r.Binding, "conf", r.Conflict, r.Notes, r.Evaluations)
			for _, way := range r.Ways {
				fmt.Printf("   %s: %v miss %v pts %.2f cloud %.1f change %.1f price %v\n", way.Summary(), way.Settings, way.Miss, way.Points, way.Cloud, way.Change, way.Price(calc.Prediction{}))
			}
		}
	}
}

func BenchmarkLive(b *testing.B) {
	tu, err := New(calc.NewEngine(), demo(b, "middle"))
	if err != nil {
		b.Fatal(err)
	}
	i := 0
	for b.Loop() {
		i++
		if _, err := tu.Live(Wishes{Dryness: ptr(50 + float64(i%20)), Body: ptr(36 + float64(i%7))}, Free(nil)); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkTune(b *testing.B) {
	tu, err := New(calc.NewEngine(), demo(b, "middle"))
	if err != nil {
		b.Fatal(err)
	}
	i := 0
	for b.Loop() {
		i++
		if _, err := tu.To(Wishes{Dryness: ptr(50 + float64(i%20)), Body: ptr(36 + float64(i%7))}, Free(nil)); err != nil {
			b.Fatal(err)
		}
	}
}
