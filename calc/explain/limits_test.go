package explain

import (
	"fmt"
	"testing"
	"time"

	"skep/assets"
	"skep/assets/demotest"
	"skep/calc"
	"skep/calc/design"
	"skep/calc/design/file"
)

// atTheLimit is the middle demonstration with as many entries as each list may have.
func atTheLimit(t *testing.T) design.Design {
	t.Helper()
	d := demotest.Design(t, assets.DemoMiddle)
	d.Kit.VesselL, d.Kit.FermenterL = 200, 200
	for len(d.Mash.Rest) < design.ListLimit("mash.rest") {
		d.Mash.Rest = append(d.Mash.Rest, design.Rest{TemperatureC: 66 + float64(len(d.Mash.Rest))/2, Minutes: 5})
	}
	for len(d.Grain) < design.ListLimit("grain") {
		g := d.Grain[0]
		g.Name, g.MassKg = fmt.Sprintf("malt %d", len(d.Grain)), 0.05
		d.Grain = append(d.Grain, g)
	}
	for len(d.Honey) < design.ListLimit("honey") {
		h := d.Honey[0]
		h.Name, h.MassKg = fmt.Sprintf("honey %d", len(d.Honey)), 0.05
		d.Honey = append(d.Honey, h)
	}
	for len(d.Hop) < design.ListLimit("hop") {
		h := d.Hop[0]
		h.Name, h.MassG = fmt.Sprintf("hop %d", len(d.Hop)), 1
		d.Hop = append(d.Hop, h)
	}
	for i := range design.ListLimit("temperature") {
		d.Temperature = append(d.Temperature, design.TemperatureStep{AtHours: float64(60 + 12*i), TemperatureC: 19 + float64(i%2)})
	}
	return d
}

// TestAnswersAtTheLimit: every list full, the costliest of the explanations comes in
// time, ten times what is wanted where machine and race detector are slow.
func TestAnswersAtTheLimit(t *testing.T) {
	d := atTheLimit(t)
	start := time.Now()
	if _, err := Explain(calc.NewEngine(), d, "final_gravity_sg"); err != nil {
		t.Fatal(err)
	}
	took := time.Since(start)
	t.Logf("final gravity explained in %v", took)
	start = time.Now()
	if _, err := Explain(calc.NewEngine(), d, "height_hours"); err != nil {
		t.Fatal(err)
	}
	hours := time.Since(start)
	t.Logf("height explained in %v", hours)
	if most := 20 * time.Second; took > most || hours > most {
		t.Errorf("%v and %v at the limit, wanted two seconds", took, hours)
	}
}

// TestOneMoreIsRefused: a list beyond its limit is one error with the line of the
// entry that is too many, and so is a design without a file.
func TestOneMoreIsRefused(t *testing.T) {
	t.Parallel()
	for list, entry := range map[string]string{
		"mash.rest": "temperature_c = 66\nminutes = 5\n", "grain": "name = \"a\"\nmass_kg = 0.1\nextract_pct = 80\n", "hop": "name = \"a\"\nmass_g = 1\nalpha_pct = 5\n",
		"honey": "name = \"a\"\nmass_kg = 0.1\n", "yeast": "name = \"a\"\nattenuation_low_pct = 73\nattenuation_high_pct = 79\n", "temperature": "at_hours = 60\ntemperature_c = 20\n",
		"reading": "what = \"gravity\"\nat = 2026-06-20T15:40:00Z\nvalue = 1.02\n",
	} {
		most := design.ListLimit(list)
		src, line := "format = 1\n", 0
		for i := range most + 1 {
			if i == most {
				line = 2
				for _, c := range src[len("format = 1\n"):] {
					if c == '\n' {
						line++
					}
				}
			}
			src += "[[" + list + "]]\n" + entry
		}
		_, found := file.Parse("many", []byte(src))
		want := fmt.Sprintf("%s has %d entries, at most %d can be kept", list, most+1, most)
		ok := false
		for _, f := range found {
			ok = ok || f.Message.String() == want && f.Line == line && f.Severity == design.Error
		}
		if !ok {
			t.Errorf("%s: %q in line %d is not among %.300v", list, want, line, found)
		}
	}
}

// TestShortCutsAnswerTheSame: what is worked out without a course, or left out because
// no course changes, is what the whole prediction says, to the last bit.
func TestShortCutsAnswerTheSame(t *testing.T) {
	t.Parallel()
	for _, d := range []design.Design{demotest.Design(t, assets.DemoMiddle), atTheLimit(t)} {
		x, err := New(calc.NewEngine(), d, 0)
		if err != nil {
			t.Fatal(err)
		}
		alike, compared := 0, 0
		for n, l := range leversOf(&d, 0) {
			to, ok := l.move(d, 1)
			if !ok || n%7 > 0 && len(d.Hop) > 10 { // a seventh of the many is enough
				continue
			}
			whole, err := x.engine.PredictYeast(to, 0)
			if err != nil {
				continue
			}
			want := values(&whole)
			if x.fermentsAlike(l, &to) {
				alike++
			}
			for _, courses := range []bool{false, true} {
				got := x.at(x.engine, l, 1, courses)
				for key, w := range want {
					if w.word || calc.FromCourses(key) != courses {
						continue
					}
					compared++
					if got[key].band != w.band {
						t.Errorf("%v moved: %s is %v, and %v of the whole prediction", l.keys, key, got[key].band, w.band)
					}
				}
			}
		}
		t.Logf("%d values compared, %d levers change no course", compared, alike)
		if compared < 500 || alike < 3 {
			t.Error("too few")
		}
	}
}
