package stage

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"golang.org/x/image/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"

	"skep/app/locale"
	"skep/app/words"
	"skep/plotting"
	"skep/plotting/canvas"
	"skep/plotting/style"
)

// inLanguage is set in a process that a test was started in again.
const inLanguage = "SKEP_TEST_IN_LANGUAGE"

// InEachLanguage does a part of a test in every language, the pseudo-language last, each
// in a process of its own: a process has one language. It is the test's first line.
func InEachLanguage(t *testing.T, do func(t *testing.T)) {
	t.Helper()
	if os.Getenv(inLanguage) != "" {
		do(t)
		return
	}
	if testing.Short() {
		t.Skip("a process for each language tells the race detector nothing, and takes long under it")
	}
	t.Parallel()
	for _, tag := range append(words.Tags(), words.Pseudo) {
		c := exec.Command(os.Args[0], "-test.run=^"+t.Name()+"$")
		c.Env = append(os.Environ(), inLanguage+"=1", locale.Variable+"="+tag.String())
		if out, err := c.CombinedOutput(); err != nil {
			t.Errorf("%s: %v\n%s", tag, err, out)
		}
	}
}

// text is what a picture has written, in pixels from its lower left corner.
type text struct {
	content string
	plotting.Box
}

// CheckTexts draws a picture and fails where one of its texts leaves it, is cut or lies
// on another; where the language is the pseudo-language, a text of plain letters is one
// that no language reaches. Names keep: they are given.
func CheckTexts(t *testing.T, wide, high float64, least int, names string, paint func(on draw.Canvas)) {
	t.Helper()
	var rec recorder.Canvas
	paint(draw.NewCanvas(&rec, vg.Length(wide)*canvas.Px, vg.Length(high)*canvas.Px))
	var all []text
	for _, a := range rec.Actions {
		f, ok := a.(*recorder.FillString)
		if !ok || strings.TrimSpace(f.String) == "" {
			continue
		}
		size := float64(f.Size / canvas.Px)
		x, y := float32(f.Point.X/canvas.Px), float32(f.Point.Y/canvas.Px)
		w := float32(style.Width(f.String, size, f.Font.Weight == font.WeightBold))
		// From the foot of a p to the head of a capital, as Liberation Sans has them.
		one := text{f.String, plotting.Box{X0: x, Y0: y - 0.2*float32(size), X1: x + w, Y1: y + 0.72*float32(size)}}
		if one.X0 < -0.5 || one.Y0 < -0.5 || float64(one.X1) > wide+0.5 || float64(one.Y1) > high+0.5 || strings.HasSuffix(one.content, "…") {
			t.Errorf("%g by %g: %q is cut: %.0f", wide, high, one.content, one.Box)
		}
		for _, o := range all {
			if o.Overlap(one.Box) > 1 {
				t.Errorf("%g by %g: %q lies on %q", wide, high, one.content, o.content)
			}
		}
		if words.Speaks().Tag == words.Pseudo && plain(one.content) && !strings.Contains(names, one.content) {
			t.Errorf("English that no language reaches: %q", one.content)
		}
		all = append(all, one)
	}
	if len(all) < least {
		t.Errorf("%g by %g: %d texts, expected %d at least: %v", wide, high, len(all), least, all)
	}
}

// plain says whether there is a word of small letters without an accent.
func plain(s string) bool {
	run := 0
	for _, r := range s {
		if run++; r < 'a' || r > 'z' {
			run = 0
		}
		if run > 2 {
			return true
		}
	}
	return false
}
