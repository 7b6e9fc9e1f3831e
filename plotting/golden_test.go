package plotting

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/plot/cmpimg"

	"skep/calc"
	"skep/plotting/style"
)

// Goldens are compared with gonum's perceptual measure; rewrite them with
//
//	go test -tags ci ./plotting -run Golden -regen
//
// and look at every one of them before committing.

// slack is cmpimg's delta from 0, identical, to 1: enough for the last bits of
// another processor's arithmetic, too little for a line that moved.
const slack = 0.02

// sideBySide draws pictures with a painter and puts them on one image.
func sideBySide(c style.Palette, pictures []Picture, columns int, size Size) *image.RGBA {
	p := NewPainter()
	p.Draw(c, pictures, size)
	p.Show()
	rows := (len(pictures) + columns - 1) / columns
	const gap = 8
	w, h := size.Width+gap, size.Height+gap
	all := image.NewRGBA(image.Rect(0, 0, columns*w-gap, rows*h-gap))
	draw.Draw(all, all.Rect, image.NewUniform(c.Grid), image.Point{}, draw.Src)
	for i := range pictures {
		at := image.Pt(i%columns*w, i/columns*h)
		img := p.Image(i)
		draw.Draw(all, img.Rect.Add(at), img, image.Point{}, draw.Src)
	}
	return all
}

func encode(t *testing.T, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// golden compares with testdata/name, or writes it under -regen. What differs
// is left in testdata/failed for the eye.
func golden(t *testing.T, name string, got []byte, delta float64) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *cmpimg.GenerateTestData {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v (write it with -regen)", err)
	}
	same, err := cmpimg.EqualApprox(filepath.Ext(name)[1:], got, want, delta)
	if err != nil {
		t.Fatal(err)
	}
	if !same {
		failed := filepath.Join("testdata", "failed")
		_ = os.MkdirAll(failed, 0o755)
		_ = os.WriteFile(filepath.Join(failed, name), got, 0o644)
		t.Errorf("picture differs from %s; what was drawn is in %s", path, failed)
	}
}

func TestGoldenPictures(t *testing.T) {
	t.Parallel()
	bench := Size{302, 252, 1} // as in a 1280 by 800 window
	gaps := inventedFour()
	gaps[0].Series[1].Band = append([]calc.Band(nil), gaps[0].Series[1].Band...)
	nan := math.NaN()
	for i := 20; i < 28; i++ {
		gaps[0].Series[1].Band[i] = calc.Band{Low: nan, Mid: nan, High: nan}
	}
	gaps[1].Series = nil
	gaps[2].Y.Range = Range{30, 50} // the line leaves the picture above
	gaps[3].Series[0].Name = "as the allotment first wrote it down"
	fahrenheit := inventedFour()
	for i := range fahrenheit {
		fahrenheit[i].X.Label = "mash rest, °F"
		fahrenheit[i].X.Unit = Unit{
			Name:      "°F",
			ToShown:   func(c float64) float64 { return c*9/5 + 32 },
			FromShown: func(f float64) float64 { return (f - 32) * 5 / 9 },
		}
	}
	// As a stand-in for °P: a quarter of the gravity's points.
	fahrenheit[0].Y.Unit = Unit{
		Name:      "°P",
		ToShown:   func(sg float64) float64 { return (sg - 1) * 250 },
		FromShown: func(p float64) float64 { return 1 + p/250 },
		Tick:      Decimals(1),
	}
	for _, g := range []struct {
		name     string
		palette  style.Palette
		pictures []Picture
		columns  int
		size     Size
	}{
		{"bench-light.png", style.Light(), inventedFour(), 2, bench},
		{"bench-dark.png", style.Dark(), inventedFour(), 2, bench},
		{"large-light.png", style.Light(), inventedFour(), 2, Size{480, 320, 1}},
		{"double-dark.png", style.Dark(), inventedFour()[:1], 1, Size{960, 640, 2}},
		{"strains-light.png", style.Light(), inventedStrains(6), 2, Size{480, 320, 1}},
		{"strains-dark.png", style.Dark(), inventedStrains(4), 2, Size{480, 320, 1}},
		{"odd-light.png", style.Light(), gaps, 2, bench},
		{"contrast-light.png", style.HighContrast(false), inventedStrains(6)[:2], 2, Size{480, 320, 1}},
		{"contrast-dark.png", style.HighContrast(true), inventedFour(), 2, bench},
		{"units-dark.png", style.Dark(), fahrenheit, 2, bench},
		{"thumbnail-light.png", style.Light(), inventedFour(), 4, Size{96, 64, 1}},
	} {
		t.Run(g.name, func(t *testing.T) {
			t.Parallel()
			golden(t, g.name, encode(t, sideBySide(g.palette, g.pictures, g.columns, g.size)), slack)
		})
	}
}

func inventedSheet(c style.Palette) Sheet {
	return Sheet{
		Title:    "Gate Field Midsummer",
		Caption:  "Balanced, medium-bodied: 1.010 (1.008 to 1.011), 6.0 %. A degree hotter: 0.8 points more.",
		Pictures: inventedFour(),
		Palette:  c,
	}
}

func TestGoldenSheet(t *testing.T) {
	t.Parallel()
	for _, f := range []Format{PNG, SVG, PDF} {
		t.Run(string(f), func(t *testing.T) {
			t.Parallel()
			var b bytes.Buffer
			if err := Save(&b, f, inventedSheet(style.Print())); err != nil {
				t.Fatal(err)
			}
			golden(t, "sheet."+string(f), b.Bytes(), slack)
		})
	}
}

func TestGoldenCourse(t *testing.T) {
	t.Parallel()
	c := sampleCourse()
	before := c.After
	for i := range before.Hours {
		b := before.GravitySG[i]
		c.After.GravitySG = append(c.After.GravitySG[:i:i], calc.Band{Low: b.Mid - 0.0004, Mid: b.Mid, High: b.Mid + 0.0004})
	}
	c.Before = &before
	c.HourNote = func(hour float64) string {
		return [...]string{"Fri", "Sat", "Sun", "Mon", "Tue", "Wed", "Thu"}[int(hour/24)%7]
	}
	for _, g := range []struct {
		name    string
		palette style.Palette
		size    Size
	}{
		{"course-light.png", style.Light(), Size{560, 620, 1}},
		{"course-dark.png", style.Dark(), Size{560, 620, 1}},
		{"course-double-light.png", style.Light(), Size{800, 640, 2}},
	} {
		t.Run(g.name, func(t *testing.T) {
			t.Parallel()
			img, _ := NewCourseDrawer().Draw(&c, g.size, &g.palette)
			golden(t, g.name, encode(t, img), slack)
		})
	}
}

func inventedMash() *Mash {
	m := &Mash{MinuteLabel: "minutes since mash-in", Minute: Unit{Steps: []float64{1, 1.5, 3, 6}},
		Share: Unit{ToShown: func(v float64) float64 { return 100 * v }, FromShown: func(v float64) float64 { return v / 100 },
			Tick: func(v, step float64) string { return Decimals(0)(v, step) + " %" }},
		Names: MashNames{"extract", "of it sugar", "78 °C"}}
	for t := 0.0; t <= 90; t++ {
		m.Minutes = append(m.Minutes, t)
		warm := 66.5
		if t > 60 {
			warm = math.Min(66.5+t-60, 78)
		}
		made := 0.96 * (1 - math.Exp(-t/9))
		m.TemperatureC, m.Extract, m.Sugars = append(m.TemperatureC, warm), append(m.Extract, made), append(m.Sugars, 0.68*made)
	}
	return m
}

func TestGoldenMash(t *testing.T) {
	t.Parallel()
	for _, g := range []struct {
		name    string
		palette style.Palette
		size    Size
	}{
		{"mash-light.png", style.Light(), Size{520, 170, 1}},
		{"mash-double-dark.png", style.Dark(), Size{700, 340, 2}},
	} {
		t.Run(g.name, func(t *testing.T) {
			t.Parallel()
			golden(t, g.name, encode(t, NewMashDrawer().Draw(inventedMash(), g.size, &g.palette)), slack)
		})
	}
}

func TestMashesOfNothing(t *testing.T) {
	t.Parallel()
	c := style.Dark()
	for name, m := range map[string]*Mash{
		"empty":    {},
		"one":      {Minutes: []float64{3}, TemperatureC: []float64{66}, Extract: []float64{0}, Sugars: []float64{0}},
		"no share": {Minutes: []float64{0, 1}, TemperatureC: []float64{math.NaN(), 66}, Extract: []float64{math.NaN(), math.Inf(1)}},
	} {
		for _, size := range []Size{{520, 170, 1}, {20, 10, 1}} {
			if img := NewMashDrawer().Draw(m, size, &c); img.Rect.Dx() != size.Width {
				t.Errorf("%s at %v: %v", name, size, img.Rect)
			}
		}
	}
}
