package canvas

import (
	"bytes"
	"image/color"
	"testing"
)

// Every byte of a pixel is the mean of what was there and the colour, by the share that
// is covered, rounded; the pixel stays as opaque as it was.
func TestOverIsTheMeanOfEachByte(t *testing.T) {
	t.Parallel()
	mean := func(was, ink, covered, full int) int {
		a := (2*covered*full + 255) / 510
		return (2*(was*(255-a)+ink*a) + 255) / 510
	}
	for was := range 256 {
		for covered := range 256 {
			c := color.NRGBA{R: uint8(7 * was), G: uint8(covered ^ 0x5a), B: 255 - uint8(covered), A: uint8(255 - was%3*40)}
			var row, want, cover []uint8
			for k := range 11 { // eight at a time and three by themselves
				at := []uint8{uint8(was + 23*k), uint8(255 - was + k), uint8(3*was - 5*k), 255 - uint8(k&1)}
				row, cover = append(row, at...), append(cover, uint8(covered))
				for i, ink := range [...]uint8{c.R, c.G, c.B} {
					want = append(want, uint8(mean(int(at[i]), int(ink), covered, int(c.A))))
				}
				want = append(want, at[3])
			}
			if over(row, cover, c); !bytes.Equal(row, want) {
				t.Fatalf("%d, covered by %d of %v: %v, expected %v", was, covered, c, row, want)
			}
		}
	}
}
