package calc

import (
	"fmt"
	"os"
	"testing"
)

func TestZZGolden(t *testing.T) {
	out := ""
	for _, name := range []string{"dry", "middle", "soft"} {
		d := demo(t, name)
		e := NewEngine()
		for i := range d.Yeast {
			p, err := e.PredictYeast(d, i)
			c, err2 := e.Course(d, i)
			k, err3 := e.CurvesYeast(d, i, 0, []float64{60, 63.3, 67, 71})
			out += fmt.Sprintf("%b %v\n%b %v\n%b %v\n", p, err, c, err2, k, err3)
		}
		s, err := e.Strains(d)
		l, err2 := NewLander(e, d, 0, 0)
		pts, err3 := l.Land(l.Start(), nil)
		q, err4 := l.Quick(l.Start())
		out += fmt.Sprintf("%b %v %v\n%b %v %b %v\n", s, err, err2, pts, err3, q, err4)
	}
	if err := os.WriteFile(os.Getenv("ZZ"), []byte(out), 0o644); err != nil {
		t.Fatal(err)
	}
}
