package paper_test

import (
	"flag"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"skep/app/paper"
	"skep/assets/demotest"
	"skep/calc/design"
	"skep/calc/quantity"
	"skep/plotting/sheet"
)

var regen = flag.Bool("regen", false, "draw the golden pictures of the sheet anew")

// The pages as a PDF reader draws them, beside what somebody has looked at.
// Readers of another version draw text a little otherwise: a hundredth of all
// brightness may differ, which a missing line or picture exceeds.
func TestTheSheetAsPictures(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("no pdftoppm here (package poppler-utils): the text goldens stand")
	}
	middle := demotest.Design(t, "gate-field-middle.toml")
	for name, c := range map[string]struct {
		of   design.Design
		size sheet.Paper
	}{"middle-a4": {middle, sheet.A4}, "middle-letter": {middle, sheet.Letter}, "programme-a4": {programmed(t), sheet.A4}} {
		folder := t.TempDir()
		file := filepath.Join(folder, "sheet.pdf")
		if err := os.WriteFile(file, printed(t, c.of, paper.Options{Paper: c.size}), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command("pdftoppm", "-r", "50", "-gray", "-png", file, filepath.Join(folder, "page")).CombinedOutput(); err != nil {
			t.Fatalf("pdftoppm: %v, %s", err, out)
		}
		for _, page := range []string{"1", "2"} {
			golden := filepath.Join("testdata", name+"-"+page+".png")
			drawn := filepath.Join(folder, "page-"+page+".png")
			if *regen {
				src, err := os.ReadFile(drawn)
				if err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(golden, src, 0o644); err != nil {
					t.Fatal(err)
				}
			}
			a, b := decode(t, drawn), decode(t, golden)
			if d := difference(a, b); d > 0.01 {
				t.Errorf("page %s of %s differs by %.3f of all brightness from what was looked at; look, then -regen", page, name, d)
			}
		}
	}
}

// The programme's step line is on the curve with the temperature of each step, the last
// one after all is over among them.
func TestTheStepLineIsOnTheCurve(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("no pdftotext here (package poppler-utils)")
	}
	named := func(d design.Design) int {
		file := filepath.Join(t.TempDir(), "sheet.pdf")
		if err := os.WriteFile(file, printed(t, d, paper.Options{Paper: sheet.A4}), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("pdftotext", "-f", "2", "-raw", file, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		steps, seen := []string{"19.0 °C", "22.0 °C", "3.0 °C"}, map[string]bool{}
		for line := range strings.Lines(string(out)) {
			// Names of steps stand by themselves, in text something goes before.
			rest, on := strings.ReplaceAll(line, "\u00a0", " "), []string{}
			for _, step := range steps {
				if strings.Contains(rest, step) {
					rest, on = strings.Replace(rest, step, "", 1), append(on, step)
				}
			}
			for _, step := range on {
				seen[step] = seen[step] || strings.TrimSpace(rest) == ""
			}
		}
		n := 0
		for _, alone := range seen {
			if alone {
				n++
			}
		}
		return n
	}
	d := programmed(t)
	with := named(d)
	d.Temperature = nil
	if without := named(d); with != 3 || without != 0 {
		t.Errorf("%d steps are named with the programme, %d without: expected three and none", with, without)
	}
}

func decode(t *testing.T, path string) image.Image {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// difference is the mean difference in brightness, 0 to 1; 1 where the sizes
// are not the same.
func difference(a, b image.Image) float64 {
	if a.Bounds() != b.Bounds() {
		return 1
	}
	sum, n := 0.0, 0
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			r, _, _, _ := a.At(x, y).RGBA()
			s, _, _, _ := b.At(x, y).RGBA()
			if r > s {
				r, s = s, r
			}
			sum += float64(s-r) / 0xFFFF
			n++
		}
	}
	return sum / float64(n)
}

// A decimal comma holds on an axis as in a sentence; where there is none to
// write, and with a point, nothing changes.
func TestAnAxisHasThePersonsDecimalMark(t *testing.T) {
	for _, c := range []struct {
		units       quantity.Units
		kind        quantity.Kind
		shown, step float64
		want        string
	}{
		{quantity.Units{DecimalComma: true}, quantity.Gravity, 1.01, 0.005, "1,010"},
		{quantity.Units{DecimalComma: true}, quantity.Strength, 4.5, 0.5, "4,5"},
		{quantity.Units{DecimalComma: true}, quantity.Index, 60, 20, "60"},
		{quantity.Units{}, quantity.Strength, 4.5, 0.5, "4.5"},
	} {
		f := paper.Formatter{Formatter: quantity.NewFormatter(c.units, nil)}
		if got := f.Axis(c.kind).Tick(c.shown, c.step); got != c.want {
			t.Errorf("%v in steps of %v is %q on the axis, want %q", c.shown, c.step, got, c.want)
		}
	}
}
