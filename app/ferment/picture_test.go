package ferment

import (
	"testing"

	"gonum.org/v1/plot/vg/draw"

	"skep/app/stage"
	"skep/calc/measured"
)

// The picture of a fermentation is in the person's language; nothing in it is cut, and
// no name lies on another, from before the honey until long after, in the widest window
// and the narrowest.
func TestThePictureIsInTheLanguage(t *testing.T) {
	stage.InEachLanguage(t, func(t *testing.T) {
		all := append(pitchedBatch(), read(measured.Gravity, 24, 1.033), read(measured.Gravity, 48, 1.021), read(measured.HoneyAdded, 64, 0.5), read(measured.Gravity, 96, 1.012))
		for hours, n := range map[float64]int{-30: 0, 5: 2, 25: 3, 50: 4, 66: 5, 125: 6, 700: 6} {
			s := fermenting(t, hours, all[:n]...)
			f, p := s.ferment.shown, s.Palette()
			if f == nil || f.err != nil {
				t.Fatalf("after %g h: %v", hours, f)
			}
			for _, size := range [][2]float64{{290, 420}, {460, 600}, {1200, 900}} {
				t.Logf("after %g h", hours)
				stage.CheckTexts(t, size[0], size[1], 15, "", func(on draw.Canvas) { f.course.DrawOn(on, &p) })
			}
		}
	})
}
