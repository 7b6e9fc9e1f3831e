package paper_test

import (
	"flag"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"skep/app/paper"
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
	for name, size := range map[string]sheet.Paper{"a4": sheet.A4, "letter": sheet.Letter} {
		folder := t.TempDir()
		file := filepath.Join(folder, "sheet.pdf")
		if err := os.WriteFile(file, printed(t, demo(t, "gate-field-middle.toml"), paper.Options{Paper: size}), 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command("pdftoppm", "-r", "50", "-gray", "-png", file, filepath.Join(folder, "page")).CombinedOutput(); err != nil {
			t.Fatalf("pdftoppm: %v, %s", err, out)
		}
		for _, page := range []string{"1", "2"} {
			golden := filepath.Join("testdata", "middle-"+name+"-"+page+".png")
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
				t.Errorf("page %s on %s differs by %.3f of all brightness from what was looked at; look, then -regen", page, name, d)
			}
		}
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
